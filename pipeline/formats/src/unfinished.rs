//! Whether a file that lies there is whole: what a watch asks before it hands a job out.

use crate::input::Input;
use crate::{Source, csv};
use std::path::Path;

/// Why a file does not seem to be whole yet, by its content: nothing in it, a header that promises more than there
/// is, a writer that has not set its closing mark, a last line that breaks off. `None` when nothing speaks against it
/// or the file cannot be looked at.
///
/// Only looked at, not read: the beginning and the end of a text, the block lengths of a binary file.
pub fn unfinished(path: &Path) -> Option<String> {
    let file = std::fs::File::open(path).ok()?;
    let meta = file.metadata().ok()?;
    if !meta.is_file() {
        return None;
    }
    why(&Source::open("", &file, meta.len()).ok()?)
}

fn why(source: &Source) -> Option<String> {
    if source.is_blank() {
        return Some("there is nothing in it".into());
    }
    let there = source.input.len();
    match source.head().get(..8)? {
        [b'R', b'I', b'F', b'F', ..] => riff(source.head(), there),
        b"UnFinMF " => Some("its recorder has not finished it".into()),
        b"MDF     " => mdf(source.input),
        _ => {
            let (text, layout) = (source.text()?, source.layout().as_ref().ok()?);
            csv::is_cut(text, layout).then(|| "its last line breaks off".into())
        }
    }
}

/// RIFF: the length behind the identifier counts what follows it. 0 and 0xFFFFFFFF stand for a length that was not
/// known when the header was written.
fn riff(head: &[u8], there: u64) -> Option<String> {
    let promised = u64::from(u32::from_le_bytes(head.get(4..8)?.try_into().ok()?));
    let known = promised != 0 && promised != 0xFFFF_FFFF;
    (known && promised + 8 > there).then(|| short(promised + 8, there))
}

/// MDF 4: blocks follow the 64 bytes of the identification, each with its length, on addresses divisible by 8.
fn mdf(input: Input<'_>) -> Option<String> {
    let mut at = 64u64;
    let mut header = [0; 16];
    while input.fill_at(at, &mut header).ok()? == header.len() && header.starts_with(b"##") {
        let length = u64::from_le_bytes(header.get(8..)?.try_into().ok()?);
        let end = at.checked_add(length)?;
        if end > input.len() {
            return Some(short(end, input.len()));
        }
        if length < 24 {
            return None;
        }
        at = end.checked_next_multiple_of(8)?;
    }
    None
}

fn short(promised: u64, there: u64) -> String {
    format!("it promises {promised} bytes and has {there}")
}

#[cfg(test)]
mod tests {
    use crate::Source;

    fn why(bytes: &[u8]) -> Option<String> {
        super::why(&Source::new("", bytes))
    }

    fn table(rows: usize) -> String {
        let rows = (0..rows).map(|i| format!("{}.{:03};{i}.50\n", i / 10, i % 10 * 100));
        format!("time;current\ns;A\n{}", rows.collect::<String>())
    }

    #[test]
    fn a_text_is_whole_unless_its_last_line_breaks_off() {
        let text = table(30);
        assert_eq!(why(text.as_bytes()), None);
        assert_eq!(
            why(text.trim_end().as_bytes()),
            None,
            "no line break at the end"
        );
        for cut in [2, 4, 6, 8] {
            let cut = text.get(..text.len() - cut).unwrap_or_default();
            assert!(why(cut.as_bytes()).is_some(), "{cut:?}");
        }
        assert!(why(b"").is_some() && why(b"\0\0\0\0").is_some());
        assert_eq!(why(b"P0894 confirmed\nP0716 history"), None, "a scan text");
    }

    #[test]
    fn a_header_that_promises_more_is_not_whole() {
        let mut wav = b"RIFF\x20\0\0\0WAVEfmt ".to_vec();
        assert!(why(&wav).is_some_and(|w| w.contains("40 bytes")));
        wav.resize(40, 1);
        assert_eq!(why(&wav), None);
        let mut mdf = b"MDF     4.10    ".to_vec();
        mdf.resize(64, 0);
        mdf.extend(b"##HD\0\0\0\0");
        mdf.extend(100u64.to_le_bytes());
        assert!(why(&mdf).is_some_and(|w| w.contains("164 bytes")));
        mdf.resize(164, 0);
        assert_eq!(why(&mdf), None);
        mdf.splice(..8, *b"UnFinMF ");
        assert!(why(&mdf).is_some());
    }
}
