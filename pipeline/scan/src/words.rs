//! The words of scan texts in English, German, Spanish, French and Italian, and the names of ISO 14229-1.

use CodeStatus::{Active, Confirmed, History, NotTested, Pending, Permanent};
use formats::words::{WordList, fold};
use model::CodeStatus;
use model::scan::LiveQuantity;
use serde::Deserialize;
use std::collections::HashMap;
use std::sync::LazyLock;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct StatusWords {
    active: WordList,
    pending: WordList,
    confirmed: WordList,
    history: WordList,
    permanent: WordList,
    not_tested: WordList,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct KeyWords {
    code: WordList,
    status: WordList,
    failure_type: WordList,
    module: WordList,
    text: WordList,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct BusWords {
    pub identifier: WordList,
    pub length: WordList,
    pub data: WordList,
    pub data_byte: WordList,
    pub extended: WordList,
    pub interface: WordList,
}

/// The words of this crate.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Words {
    status: StatusWords,
    sporadic: WordList,
    filler: WordList,
    code_noun: WordList,
    key: KeyWords,
    failure_type_inline: WordList,
    part: WordList,
    part_exact: WordList,
    none: WordList,
    freeze_frame: WordList,
    pub memory: WordList,
    pub no_module: WordList,
    pub answer: WordList,
    pub verb: WordList,
    pub selector: HashMap<char, WordList>,
    pub live: HashMap<LiveQuantity, WordList>,
    pub live_alone: HashMap<LiveQuantity, WordList>,
    pub vin: WordList,
    pub odometer: WordList,
    pub not_today: WordList,
    pub kilometre: WordList,
    pub mile: WordList,
    pub bus: BusWords,
}

pub(crate) static WORDS: LazyLock<Words> =
    LazyLock::new(|| toml::from_str(include_str!("../words.toml")).expect("words.toml is tested"));

/// Status phrases, folded.
static STATUSES: LazyLock<HashMap<&str, CodeStatus>> = LazyLock::new(|| {
    let s = &WORDS.status;
    let lists = [
        (&s.active, Active),
        (&s.pending, Pending),
        (&s.confirmed, Confirmed),
        (&s.history, History),
        (&s.permanent, Permanent),
        (&s.not_tested, NotTested),
    ];
    let pairs = lists
        .into_iter()
        .flat_map(|(l, status)| l.iter().map(move |w| (w, status)));
    pairs.collect()
});

/// Names of the status bits of ISO 14229-1 D.2, folded and without spaces, by bit.
const BITS: [&str; 8] = [
    "testfailed",
    "testfailedthisoperationcycle",
    "pendingdtc",
    "confirmeddtc",
    "testnotcompletedsincelastclear",
    "testfailedsincelastclear",
    "testnotcompletedthisoperationcycle",
    "warningindicatorrequested",
];

/// The status byte that a text writes by the names of its bits, with or without values (`testFailed=1`,
/// `pendingDTC: false`); `None` where it names none.
pub(crate) fn named_bits(text: &str) -> Option<u8> {
    let folded = fold(text);
    let words: Vec<&str> = folded
        .split(|c: char| !c.is_alphanumeric())
        .filter(|w| !w.is_empty())
        .collect();
    let (mut byte, mut named, mut i) = (0u8, false, 0);
    while i < words.len() {
        // A name may be written in pieces: "test failed since last clear".
        let found = (1..=6.min(words.len() - i)).rev().find_map(|n| {
            let name = words[i..i + n].concat();
            let bit = BITS.iter().position(|b| *b == name)?;
            Some((n, bit))
        });
        let Some((n, bit)) = found else {
            i += 1;
            continue;
        };
        i += n;
        let off = matches!(
            words.get(i),
            Some(&("0" | "false" | "no" | "off" | "nein" | "non" | "falsch" | "falso" | "faux"))
        );
        named = true;
        if !off {
            byte |= 1 << bit;
        }
    }
    named.then_some(byte)
}

/// The statuses that a piece of text says, when it says nothing else.
pub(crate) fn statuses(piece: &str) -> Option<Vec<CodeStatus>> {
    let by_bits = standard_bits(piece).map(status_byte);
    by_bits.or_else(|| read_statuses(piece, false))
}

/// The status byte of bits of which one at least is named as the standard writes it (`confirmedDTC`).
pub(crate) fn standard_bits(text: &str) -> Option<u8> {
    let folded = fold(text);
    let mut words = folded.split(|c: char| !c.is_alphanumeric());
    words
        .any(|w| BITS.contains(&w))
        .then(|| named_bits(text))
        .flatten()
}

/// The status of a heading over a list of codes: "Confirmed codes: 1", "Pending:", "Gespeicherte Fehler".
pub(crate) fn heading(line: &str) -> Option<Vec<CodeStatus>> {
    let line = line.trim().trim_matches(|c: char| !c.is_alphanumeric());
    let lead = line
        .split([':', '(', '=', '-'])
        .next()
        .unwrap_or(line)
        .trim();
    let bare_word_line = lead.len() == line.len();
    let folded = fold(lead);
    let has_noun = folded
        .split_whitespace()
        .any(|w| WORDS.code_noun.contains(w));
    (has_noun || bare_word_line || line.len() <= lead.len() + 12)
        .then(|| read_statuses(lead, true))
        .flatten()
}

fn read_statuses(piece: &str, heading: bool) -> Option<Vec<CodeStatus>> {
    let folded = fold(piece);
    let words: Vec<&str> = folded
        .split(|c: char| {
            c.is_whitespace() || matches!(c, '/' | '+' | '&' | ',' | '.' | '!' | '"' | '*')
        })
        .filter(|w| !w.is_empty())
        .collect();
    if words.len() > 12 {
        return None;
    }
    let filler = |word: &str| {
        WORDS.filler.contains(word)
            || heading
                && (WORDS.code_noun.contains(word) || word.bytes().all(|b| b.is_ascii_digit()))
    };
    let mut out = Vec::new();
    let mut i = 0;
    while i < words.len() {
        let longest = (1..=4.min(words.len() - i)).rev().find_map(|n| {
            let phrase = words[i..i + n].join(" ");
            STATUSES.get(phrase.as_str()).map(|s| (n, *s))
        });
        match longest {
            Some((n, status)) => {
                if !out.contains(&status) {
                    out.push(status);
                }
                i += n;
            }
            None if filler(words[i]) => i += 1,
            None => return None,
        }
    }
    out.sort();
    (!out.is_empty()).then_some(out)
}

/// Statuses of a status byte of ISO 14229-1 D.2.
pub(crate) fn status_byte(byte: u8) -> Vec<CodeStatus> {
    let bit = |n: u8| byte >> n & 1 == 1;
    let mut out = Vec::new();
    if bit(0) {
        out.push(Active);
    }
    if bit(2) {
        out.push(Pending);
    }
    if bit(3) {
        out.push(Confirmed);
        // Failed since the codes were cleared, but not in this cycle or the last.
        if byte & 0b10_0111 == 0b10_0000 {
            out.push(History);
        }
    }
    if out.is_empty() && bit(1) {
        out.push(Pending);
    }
    if out.is_empty() && bit(5) {
        out.push(History);
    }
    if out.is_empty() && (bit(4) || bit(6)) {
        out.push(NotTested);
    }
    out
}

/// "Intermittent" is a status only where a status is expected; elsewhere it describes the fault.
pub(crate) fn sporadic(value: &str) -> Option<Vec<CodeStatus>> {
    let folded = fold(value);
    WORDS
        .sporadic
        .begins(folded.trim())
        .then(|| vec![CodeStatus::Pending])
}

/// A byte as `0x2F`, `2F`, `2Fh` or eight binary digits.
pub(crate) fn byte(text: &str) -> Option<u8> {
    let text = text
        .trim()
        .trim_matches(['"', '(', ')', '[', ']', '$', '.']);
    if text.len() == 8 && text.bytes().all(|b| matches!(b, b'0' | b'1')) {
        return u8::from_str_radix(text, 2).ok();
    }
    let hex = text
        .strip_prefix("0x")
        .or_else(|| text.strip_prefix("0X"))
        .or_else(|| text.strip_suffix(['h', 'H']))
        .unwrap_or(text);
    (hex.len() == 2 && hex.bytes().all(|b| b.is_ascii_hexdigit()))
        .then(|| u8::from_str_radix(hex, 16).ok())?
}

/// Subject of the key of a `key: value` line, or of a column's heading.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Key {
    Code,
    Status,
    FailureType,
    Module,
    Text,
}

/// Understands a key or a column heading.
pub(crate) fn key(name: &str) -> Option<Key> {
    static KEYS: LazyLock<HashMap<&str, Key>> = LazyLock::new(|| {
        let k = &WORDS.key;
        // Of a word in two lists the first counts.
        let lists = [
            (&k.text, Key::Text),
            (&k.module, Key::Module),
            (&k.failure_type, Key::FailureType),
            (&k.status, Key::Status),
            (&k.code, Key::Code),
        ];
        let pairs = lists
            .into_iter()
            .flat_map(|(l, key)| l.iter().map(move |w| (w, key)));
        pairs.collect()
    });
    let folded = fold(name);
    let name = folded
        .trim()
        .trim_matches(|c: char| !c.is_alphanumeric() && c != '°');
    let name = name.rsplit(['.', ']']).next().unwrap_or(name).trim();
    KEYS.get(name).copied()
}

/// `failure type 13`, `FTB 0x13` in a sentence.
pub(crate) fn inline_failure_type(sentence: &str) -> Option<String> {
    let folded = fold(sentence);
    let byte = WORDS.failure_type_inline.iter().find_map(|name| {
        let (_, rest) = folded.split_once(name)?;
        let word = rest
            .split(|c: char| !c.is_alphanumeric())
            .find(|w| !w.is_empty() && *w != "byte")?;
        byte(word)
    })?;
    Some(format!("{byte:02X}"))
}

/// True where a word in front of something that looks like a code says that it is something else.
pub(crate) fn names_a_part(word: &str) -> bool {
    let folded = fold(word);
    let word = folded.trim_matches(|c: char| !c.is_alphanumeric());
    WORDS.part_exact.contains(word) || !word.is_empty() && WORDS.part.begins(word)
}

/// True where a line says that a module has no codes.
pub(crate) fn says_none(line: &str) -> bool {
    WORDS.none.occurs_in(&fold(line))
}

/// True where a heading opens stored surroundings of a fault, whose values are not live data.
pub(crate) fn is_freeze_frame(line: &str) -> bool {
    WORDS.freeze_frame.occurs_in(&fold(line))
}

#[cfg(test)]
mod tests;
