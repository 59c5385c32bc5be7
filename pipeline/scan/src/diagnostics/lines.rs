//! Lines of bytes without a frame around them.

use super::dialogue::{is_answer, is_question};
use crate::frame;
use crate::words::{self, WORDS};
use formats::words::fold;

/// The answer in a line: bytes at its end, perhaps behind a clock, a direction or a name.
pub(crate) fn answer(line: &str) -> Option<Vec<u8>> {
    let line = line.trim().trim_end_matches(['"', ';', '.']);
    spaced(line).or_else(|| joined(line))
}

/// The question in a line of nothing but its bytes, perhaps behind a direction: `03`, `Tx: 19 02 FF`.
pub(super) fn question(line: &str) -> Option<Vec<u8>> {
    let words: Vec<&str> = line
        .split([' ', '\t', ',', ':', '>', '-'])
        .filter(|w| !w.is_empty())
        .filter(|w| !matches!(fold(w).as_str(), "tx" | "send" | "sent" | "request" | "out"))
        .collect();
    let bytes: Option<Vec<u8>> = words.iter().map(|w| byte(w)).collect();
    bytes.filter(|b| is_question(b))
}

/// `Rx: 43 01 07 00`, `10:30:09 <- 0x59 0x02 ...`
fn spaced(line: &str) -> Option<Vec<u8>> {
    let words: Vec<&str> = line
        .split([' ', '\t', ','])
        .filter(|w| !w.is_empty())
        .collect();
    let bytes: Vec<u8> = words
        .iter()
        .rev()
        .map_while(|w| byte(w))
        .collect::<Vec<_>>()
        .into_iter()
        .rev()
        .collect();
    let before = &words[..words.len() - bytes.len()];
    // The first bytes of a run may be a date or an address: an answer begins with what answers begin with.
    (bytes.len() >= 2 && is_answer(&bytes) && introduces(before)).then_some(bytes)
}

fn byte(word: &str) -> Option<u8> {
    let word = word
        .strip_prefix("0x")
        .or_else(|| word.strip_prefix("0X"))
        .unwrap_or(word);
    (word.len() == 2).then(|| u8::from_str_radix(word, 16).ok())?
}

/// True where words may stand before bytes: few, and none that names a part.
fn introduces(before: &[&str]) -> bool {
    let last = before.last().is_none_or(|w| {
        w.ends_with([':', '<', '>', '-', '=', '|', ']', ')', '→', '←']) || is_mark(w)
    });
    last && before.len() <= 6 && !before.iter().any(|w| words::names_a_part(w))
}

/// Words that say that an answer follows.
fn is_mark(word: &str) -> bool {
    let word = fold(word);
    WORDS
        .answer
        .contains(word.trim_matches(|c: char| !c.is_alphanumeric()))
        || word
            .bytes()
            .all(|b| b.is_ascii_digit() || matches!(b, b':' | b'.' | b','))
            && word.contains(':')
}

/// Bytes without spaces, only where their own count proves them.
fn joined(line: &str) -> Option<Vec<u8>> {
    let words: Vec<&str> = line.split_whitespace().collect();
    let (last, before) = words.split_last()?;
    let bytes = frame::hex(last).filter(|b| b.len() >= 4 && introduces(before))?;
    let proven = match bytes.as_slice() {
        [0x43 | 0x47 | 0x4A, count, pairs @ ..] => pairs.len() == 2 * usize::from(*count),
        [0x59, 0x02, _, records @ ..] => !records.is_empty() && records.len() % 4 == 0,
        _ => false,
    };
    proven.then_some(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn answers_with_and_without_an_introduction() {
        for line in [
            "43 01 07 00",
            "Rx: 43 01 07 00",
            "rx 43 01 07 00",
            "10:30:09.123 43 01 07 00",
            "10:30:09 ECU -> 43 01 07 00",
            "<- 0x43 0x01 0x07 0x00",
            "Antwort: 43,01,07,00",
            "43010700",
            "RX: 43010700",
        ] {
            assert_eq!(answer(line), Some(vec![0x43, 0x01, 0x07, 0x00]), "{line}");
        }
    }

    #[test]
    fn what_is_no_answer() {
        for line in [
            "Part: 43 01 07 00",
            "Teilenummer 43 01 07 00",
            "tel 43 01 07 00",
            "03",
            "43",
            "12:30:59",
            "P0902 13",
            "01 0C",
            "2026 43 01 07 00",
            "43020799",
            "4301070000",
            "Serial: 4302090208",
            "4G 02",
        ] {
            assert_eq!(answer(line), None, "{line}");
        }
    }
}
