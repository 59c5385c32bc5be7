//! Modules and sections: which module a line speaks of.

use crate::words::{self, Key, WORDS};
use formats::words::fold;

/// Part of a text that a heading opens.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Section {
    /// A module's part of the text.
    Module(String),
    /// Stored surroundings of a fault.
    FreezeFrame,
    /// Something else.
    Other,
}

/// Short names of modules that a text may use without saying that they are modules: terms of SAE J1930 (from memory) and
/// of the trade at large.
const SHORT_NAMES: &[&str] = &[
    "TCM", "TCU", "ECM", "PCM", "ECU", "BCM", "VCM", "ABS", "ESC", "SRS", "EPS", "TPMS", "HVAC",
    "BMS", "AWD",
];

fn is_short_name(word: &str) -> bool {
    SHORT_NAMES.contains(&word)
}

/// Reads a heading; `None` for a line that is none.
pub(crate) fn section(line: &str) -> Option<Section> {
    let trimmed = line.trim();
    let decorated = trimmed.starts_with(['=', '[', '*', '#', '>', '~'])
        || trimmed.starts_with("--")
        || trimmed.ends_with("==")
        || trimmed.ends_with("--");
    let bare = trimmed
        .trim_matches(|c: char| !c.is_alphanumeric() && c != ')' && c != '(')
        .trim();
    if bare.is_empty() || bare.chars().count() > 60 {
        return None;
    }
    if words::is_freeze_frame(bare)
        && (decorated || !trimmed.trim_end_matches(':').contains([':', '=']))
    {
        return Some(Section::FreezeFrame);
    }
    let one_bracket = trimmed.starts_with('[') && trimmed.ends_with(']');
    if let Some(name) = named_module(bare) {
        return Some(Section::Module(name));
    }
    if !decorated || words::heading(bare).is_some() {
        return None;
    }
    if one_bracket
        && words::key(bare).is_none()
        && bare.split_whitespace().count() <= 4
        && !is_other(bare)
    {
        return Some(Section::Module(bare.to_string()));
    }
    (!trimmed.contains(": ")).then_some(Section::Other)
}

/// Headings in brackets that name no module.
fn is_other(bare: &str) -> bool {
    WORDS.no_module.occurs_in(&fold(bare))
}

/// `MODULE TCM`, `Module: Brake control`, `TCM`, `TCM - Transmission control module`.
fn named_module(bare: &str) -> Option<String> {
    let word_end = |c: char| c.is_whitespace() || matches!(c, ':' | '=' | ';' | '|' | '\t');
    let first = bare.split(word_end).next()?;
    if is_short_name(first) {
        let rest = bare[first.len()..].trim();
        let description =
            |r: &str| !r.contains([';', '|', '\t', '=']) && !r.chars().any(|c| c.is_ascii_digit());
        let opens = rest.is_empty()
            || rest == ":"
            || (rest.starts_with(['(', '-', '–', '/']) && description(rest));
        return opens.then(|| first.to_string());
    }
    // The longest leading words that mean "module".
    let (name, rest) = [": ", "=", ":", " - ", " "].iter().find_map(|sep| {
        bare.rmatch_indices(sep)
            .map(|(i, s)| (&bare[..i], &bare[i + s.len()..]))
            .find(|(k, _)| words::key(k) == Some(Key::Module))
    })?;
    // In quoted notations the name ends with its quote.
    let rest = rest
        .trim()
        .trim_start_matches('"')
        .split(['"', ',', '<', '>'])
        .next()
        .unwrap_or("")
        .trim();
    let sentence = rest.split_whitespace().count() > 5 || rest.contains([';', '|', '\t', '.']);
    if rest.is_empty() || sentence || rest.contains("  ") {
        return None;
    }
    // `Module 2 Drive (TCM): 2 entries`: the short name says it best.
    if let Some(short) = rest.split(['(', ')']).find(|w| is_short_name(w)) {
        return Some(short.to_string());
    }
    let keyed = bare[name.len()..].starts_with([':', '=']);
    let lead = rest.split(word_end).next()?;
    let short = lead.len() >= 2
        && lead.starts_with(|c: char| c.is_ascii_uppercase())
        && lead.len() <= 6
        && lead
            .chars()
            .all(|c| c.is_ascii_uppercase() || c.is_ascii_digit());
    if short {
        Some(lead.to_string())
    } else if keyed
        && words::statuses(rest).is_none()
        && !rest.starts_with(|c: char| c.is_ascii_digit())
    {
        Some(rest.to_string())
    } else {
        None
    }
}

/// The module that a piece of text speaks of: the last short name in it, or the capitals behind a word
/// for module.
pub(crate) fn mentioned(text: &str) -> Option<String> {
    let words: Vec<&str> = text
        .split(|c: char| !c.is_alphanumeric())
        .filter(|w| !w.is_empty())
        .collect();
    let known = words.iter().rposition(|w| is_short_name(w) && *w != "ECU");
    let after = words.windows(2).rposition(|w| {
        words::key(w[0]) == Some(Key::Module)
            && (2..=6).contains(&w[1].len())
            && w[1].starts_with(|c: char| c.is_ascii_uppercase())
            && w[1]
                .chars()
                .all(|c| c.is_ascii_uppercase() || c.is_ascii_digit())
    });
    let at = known.max(after.map(|i| i + 1))?;
    words.get(at).map(|w| w.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn headings() {
        let module = |s: &str| Some(Section::Module(s.into()));
        for (line, want) in [
            ("== MODULE TCM", module("TCM")),
            ("[TCM]", module("TCM")),
            ("[Brake control]", module("Brake control")),
            ("--- TCM - Transmission control module ---", module("TCM")),
            ("Steuergerät: TCM", module("TCM")),
            ("Calculateur : XGB", module("XGB")),
            ("Control unit: Brake control", module("Brake control")),
            ("TCM:", module("TCM")),
            ("*** Fault memory dump ***", Some(Section::Other)),
            ("== FREEZE FRAME P073E", Some(Section::FreezeFrame)),
            ("[Live data]", Some(Section::Other)),
            ("Selector position: P", None),
            ("Confirmed codes: 1", None),
            ("TCM    P080A     Stored       Position not learned", None),
            ("   Code:   P0810", None),
            ("------------------", None),
            ("The TCM reported nothing", None),
        ] {
            assert_eq!(section(line), want, "{line}");
        }
    }

    #[test]
    fn modules_in_sentences() {
        assert_eq!(mentioned("The TCM reported ").as_deref(), Some("TCM"));
        assert_eq!(mentioned("Im Steuergerät GXM ist ").as_deref(), Some("GXM"));
        assert_eq!(mentioned("1) [BCM] ").as_deref(), Some("BCM"));
        assert_eq!(mentioned("nothing here"), None);
    }
}
