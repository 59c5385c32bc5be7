//! One text in every character set.

use super::*;

fn detect(bytes: &[u8]) -> Option<Text<'_>> {
    Text::detect(Input::Memory(bytes), bytes)
}

fn all(text: &Text) -> String {
    let (mut pieces, mut s, mut out) = (text.pieces(), Vec::new(), [0; 100]);
    loop {
        match pieces.next(&mut out).unwrap() {
            0 => return String::from_utf8(s).unwrap(),
            n => s.extend_from_slice(&out[..n]),
        }
    }
}

fn utf16(s: &str, little: bool) -> Vec<u8> {
    s.encode_utf16()
        .flat_map(|u| {
            if little {
                u.to_le_bytes()
            } else {
                u.to_be_bytes()
            }
        })
        .collect()
}

#[test]
fn every_character_set_gives_the_same_text() {
    let s = "Zeit [µs];größe\n1,5;2\n";
    let mut cases = vec![
        (s.as_bytes().to_vec(), Charset::Utf8),
        ([b"\xEF\xBB\xBF", s.as_bytes()].concat(), Charset::Utf8),
        (utf16(s, true), Charset::Utf16Le),
        (utf16(s, false), Charset::Utf16Be),
        (
            [&b"\xFF\xFE"[..], &utf16(s, true)].concat(),
            Charset::Utf16Le,
        ),
        (
            [&b"\xFE\xFF"[..], &utf16(s, false)].concat(),
            Charset::Utf16Be,
        ),
    ];
    cases.push((WINDOWS_1252.encode(s).0.into_owned(), Charset::Windows1252));
    for (bytes, charset) in cases {
        let text = detect(&bytes).unwrap();
        assert_eq!(text.charset, charset);
        assert_eq!(all(&text), s, "{charset:?}");
        assert!(text.ends_with_break());
        assert!(!text.cut);
    }
}

#[test]
fn a_cut_character_is_left_out_and_said() {
    let text = detect("12 µ".as_bytes().split_last().unwrap().1).unwrap();
    assert!(text.cut);
    assert_eq!(all(&text), "12 ");
    let mut bytes = utf16("a;b\n1;2", true);
    bytes.pop();
    let text = detect(&bytes).unwrap();
    assert!(text.cut);
    assert_eq!(all(&text), "a;b\n1;");
}

#[test]
fn noise_is_not_text() {
    assert!(detect(&[0, 1, 2, 3, 255, 0, 7, 9]).is_none());
    assert!(detect(b"ab\0\0\0cd").is_none());
    assert!(detect(b"ab;1\n\0\0\0").unwrap().cut);
}

#[test]
fn the_last_line_can_be_left_out() {
    for s in ["a\nbé\ncé", "a\r\nbé\r\ncé"] {
        for bytes in [s.as_bytes().to_vec(), utf16(s, true), utf16(s, false)] {
            let text = detect(&bytes).unwrap().without_last_line();
            assert_eq!(all(&text), s.trim_end_matches("cé"));
        }
    }
    assert_eq!(all(&detect(b"abc").unwrap().without_last_line()), "");
}

#[test]
fn text_longer_than_a_chunk_is_decoded_whole() {
    let s = "0,5;µ\n".repeat(40_000);
    let bytes = utf16(&s, true);
    assert_eq!(all(&detect(&bytes).unwrap()), s);
}
