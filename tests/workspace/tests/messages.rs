//! Every sentence that the program's crates say of a file, a line, an option or a library is known to the translations,
//! letter by letter, and every translation is one of such a sentence.

use model::ShopFile;
use report::ReportTheme;
use std::path::{Path, PathBuf};

/// Places of the sentences: folders and files of pipeline/.
const PLACES: [&str; 22] = [
    "formats/src",
    "scan/src/bus",
    "scan/src/text.rs",
    "scan/src/record.rs",
    "scan/src/vehicle.rs",
    "scan/src/parse.rs",
    "channels/src",
    "settings/src",
    "model/src/scan/bus_log.rs",
    "model/src/vin.rs",
    "model/src/exact.rs",
    "model/src/shop_file",
    "model/src/job_file.rs",
    "intake/src",
    "fleet/src/error.rs",
    "billing/src",
    "plugin-host/src",
    "model/src/labour",
    "learn/src",
    "seal/src",
    "app/src",
    "signal/src/teeth/reject.rs",
];

/// Files and folders in these places whose texts are no sentences for a person in a shop: words to be recognised, SQL,
/// markup, checks for those who write plugins, remarks in files that the program writes.
const NOT_SAID: [&str; 18] = [
    "words.rs",
    "clock.rs",
    "units.rs",
    "number.rs",
    "ledger",
    "fleet",
    "html.rs",
    "draft.rs",
    "init",
    "arguments.rs",
    "validate",
    "validate.rs",
    "seccomp.rs",
    "wire.rs",
    "mapped.rs",
    "worker.rs",
    "crash_log.rs",
    "result_store",
];

/// Beginnings of other texts that are no sentences for a person: what a programmer promises, remarks in written files,
/// and frames of sentences that stand in the translations with what goes into them.
const OTHERS: [&str; 29] = [
    "words.toml is tested",
    "made a list above",
    "one reader keeps its probe",
    "rows of one shape are longer",
    "made anew as asked",
    "the same for every call",
    "memory allocation of",
    "Sealed evidence of",
    "# Argon2id digests",
    "it works again",
    "what was asked for was not done",
    "{}: the demo job",
    "there is no key {key} here.{}",
    "there is no {what}",
    "{code:?} {why}; expected",
    "{job}: report {} was signed by",
    "{}: {name:?} is none of its persons",
    "--system {name}: there is no such system",
    "name the system with --system",
    "{job}: there is no report of this job",
    "pulses ({wave}) from",
    "the samples are shorter than announced",
    "an array lies outside of",
    "no samples came along",
    "{name:?} is no line of this job",
    "stages are authorised apart",
    "{operation}: only the person who",
    "{0} is not authorised: ask",
    "{operation} is held: it comes to",
];

fn pipeline() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../pipeline")
}

fn sources(path: &Path, all: &mut Vec<PathBuf>) {
    if path.is_file() {
        return all.push(path.into());
    }
    let entries = std::fs::read_dir(path).expect("a folder of sources");
    for entry in entries.flatten().map(|e| e.path()) {
        let name = entry.file_name().unwrap_or_default().to_string_lossy();
        let is_rust = entry.is_dir() || name.ends_with(".rs");
        if is_rust && !name.contains("tests") && !NOT_SAID.contains(&name.as_ref()) {
            sources(&entry, all);
        }
    }
}

/// Texts between quotes in a source, outside of comments and up to its tests, as the program has them.
fn literals(source: &str) -> Vec<String> {
    let source = source.split("mod tests {").next().unwrap_or_default();
    let mut texts = Vec::new();
    let mut rest = source;
    while let Some(at) = rest.find(['"', '\'', '/']) {
        let behind = &rest[at + 1..];
        rest = match rest.as_bytes()[at] {
            b'/' if behind.starts_with('/') => behind.split_once('\n').map_or("", |(_, r)| r),
            // A character, such as a quote; a lifetime has none behind it.
            b'\'' if behind.starts_with("\\") => behind.get(3..).unwrap_or_default(),
            b'\'' if behind.starts_with("\"'") => &behind[2..],
            b'"' => {
                let (text, behind) = literal(behind);
                texts.push(text);
                behind
            }
            _ => behind,
        };
    }
    texts
}

/// A text up to its closing quote, and what is behind it.
fn literal(source: &str) -> (String, &str) {
    let mut text = String::new();
    let mut letters = source.char_indices();
    while let Some((at, letter)) = letters.next() {
        match letter {
            '"' => return (text, &source[at + 1..]),
            '\\' => match letters.next() {
                Some((_, 'n')) => text.push('\n'),
                // The text goes on at the first letter of the next line.
                Some((at, '\n')) => {
                    let indent = source[at + 1..].len() - source[at + 1..].trim_start().len();
                    for _ in 0..indent {
                        letters.next();
                    }
                }
                Some((_, other)) => text.push(other),
                None => {}
            },
            _ => text.push(letter),
        }
    }
    (text, "")
}

/// The text with `fill` in the places of its arguments. What a process wrote is empty as a rule.
fn filled(text: &str, fill: &str) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some((before, behind)) = rest.split_once('{') {
        let (name, behind) = behind.split_once('}').unwrap_or_default();
        out.push_str(before);
        out.push_str(if name == "output" { "" } else { fill });
        rest = behind;
    }
    out + rest
}

fn is_sentence(text: &str) -> bool {
    let is_word = |w: &&str| w.len() > 1 && w.bytes().all(|b| b.is_ascii_lowercase() || b == b',');
    text.split_whitespace().filter(is_word).count() >= 3
        && !text.contains(" = ")
        && !OTHERS.iter().any(|o| text.starts_with(o))
}

fn said() -> Vec<String> {
    let mut files = Vec::new();
    for place in PLACES {
        sources(&pipeline().join(place), &mut files);
    }
    let texts = files.iter().flat_map(|file| {
        let source = std::fs::read_to_string(file).expect("a source");
        literals(&source)
    });
    texts.collect()
}

fn messages(language: &str) -> String {
    let file = pipeline().join(format!("app/lang/messages/{language}.ftl"));
    std::fs::read_to_string(file).expect("the translations")
}

#[test]
fn what_is_said_is_translated() {
    let english = filled(&messages("en"), "\u{1}");
    for language in ["de", "es"] {
        let mut shop = ShopFile::default();
        shop.report.language = language.into();
        let mut theme = ReportTheme::built_in(&shop.report.language).expect("a built-in language");
        for of in ["en", language] {
            theme
                .add_sentences(of, of, &messages(of))
                .expect("sentences");
        }
        let mut unknown: Vec<String> = said();
        assert!(unknown.len() > 1000, "{}", unknown.len());
        unknown.retain(|text| {
            let example = filled(text, "7");
            // A part of a sentence that the program puts together.
            let is_part = english.contains(filled(text, "\u{1}").trim());
            is_sentence(text) && !is_part && theme.localizer().translate(&example) == example
        });
        assert!(unknown.is_empty(), "{language}: {unknown:#?}");
    }
}

#[test]
fn what_is_translated_is_said() {
    let said: Vec<String> = said().iter().map(|t| filled(t, "\u{1}")).collect();
    let english = messages("en");
    let mut unused = Vec::new();
    for line in english.lines().filter(|l| l.starts_with("said-")) {
        let (key, text) = line.split_once(" = ").expect("a sentence");
        let text = filled(text, "\u{1}");
        let longest = text.split('\u{1}').max_by_key(|part| part.len());
        let longest = longest.unwrap_or_default().trim();
        // What the operating system says stands in no source.
        let is_ours = !key.starts_with("said-system-");
        let has = |part: &str| {
            let part = part.trim_matches([' ', ';', ',', '.', ':', '(', ')']);
            said.iter().any(|s| s.contains(part))
        };
        // Some sentences are put together from two.
        let mut places = longest.match_indices(' ');
        let mut in_two = || places.any(|(at, _)| has(&longest[..at]) && has(&longest[at..]));
        if is_ours && !has(longest) && !in_two() {
            unused.push(line);
        }
    }
    assert!(unused.is_empty(), "{unused:#?}");
}
