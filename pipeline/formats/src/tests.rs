//! Files that are not whole yet.

use super::{Incomplete, Source, incomplete_source};

/// Reason why content is incomplete, and whether only the end of its last line is missing.
fn gap(bytes: &[u8]) -> Option<(String, bool)> {
    incomplete_source(&Source::new("", bytes)).map(|gap| match gap {
        Incomplete::LastLine(reason) => (reason, true),
        Incomplete::Rest(reason) => (reason, false),
    })
}

fn why(bytes: &[u8]) -> Option<String> {
    gap(bytes).map(|(reason, _)| reason)
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
        assert!(gap(cut.as_bytes()).is_some_and(|g| g.1), "{cut:?}");
    }
    assert!(gap(b"").is_some_and(|g| !g.1) && why(b"\0\0\0\0").is_some());
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
