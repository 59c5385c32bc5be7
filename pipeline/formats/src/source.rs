//! A file's bytes and, where they are text, their character set.

use crate::csv;
use encoding_rs::{CoderResult, Decoder, Encoding, UTF_16BE, UTF_16LE, WINDOWS_1252};
use std::io::{self, Read};
use std::sync::OnceLock;

/// A file to be read: its name inside the job folder and its content.
pub struct Source<'a> {
    /// The name for messages.
    pub name: &'a str,
    /// The content.
    pub bytes: &'a [u8],
    text: OnceLock<Option<Text<'a>>>,
    layout: OnceLock<Result<csv::Layout, String>>,
}

impl<'a> Source<'a> {
    /// A source over bytes that are already in memory or mapped.
    pub fn new(name: &'a str, bytes: &'a [u8]) -> Self {
        Source {
            name,
            bytes,
            text: OnceLock::new(),
            layout: OnceLock::new(),
        }
    }

    /// The content as text; `None` when it is binary.
    pub fn text(&self) -> Option<&Text<'a>> {
        self.text.get_or_init(|| Text::detect(self.bytes)).as_ref()
    }

    /// How the text is laid out as a table; looked for once, because probing and reading both ask.
    pub(crate) fn layout(&self) -> &Result<csv::Layout, String> {
        self.layout.get_or_init(|| csv::find_layout(self.text()))
    }

    /// Whether there is nothing but a byte order mark, white space and NULs.
    pub(crate) fn is_blank(&self) -> bool {
        let body = [&b"\xEF\xBB\xBF"[..], b"\xFF\xFE", b"\xFE\xFF"]
            .iter()
            .find_map(|mark| self.bytes.strip_prefix(*mark))
            .unwrap_or(self.bytes);
        body.iter().all(|b| b.is_ascii_whitespace() || *b == 0)
    }
}

/// A character set of a text file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Charset {
    /// UTF-8 or plain ASCII.
    Utf8,
    /// UTF-16, low byte first.
    Utf16Le,
    /// UTF-16, high byte first.
    Utf16Be,
    /// Windows-1252, which contains the printable part of Latin-1.
    Windows1252,
}

impl Charset {
    /// The name for a person.
    pub fn name(self) -> &'static str {
        match self {
            Charset::Utf8 => "UTF-8",
            Charset::Utf16Le => "UTF-16 LE",
            Charset::Utf16Be => "UTF-16 BE",
            Charset::Windows1252 => "Windows-1252",
        }
    }

    fn encoding(self) -> Option<&'static Encoding> {
        match self {
            Charset::Utf8 => None,
            Charset::Utf16Le => Some(UTF_16LE),
            Charset::Utf16Be => Some(UTF_16BE),
            Charset::Windows1252 => Some(WINDOWS_1252),
        }
    }
}

/// Text in some character set, decoded while it is read and never held as a whole.
#[derive(Debug, Clone, Copy)]
pub struct Text<'a> {
    /// The bytes behind the byte order mark, without NUL padding at the end.
    bytes: &'a [u8],
    /// The character set.
    pub charset: Charset,
    /// Whether the last character is incomplete, or NULs pad the end.
    pub cut: bool,
}

impl<'a> Text<'a> {
    fn detect(bytes: &'a [u8]) -> Option<Self> {
        let (charset, body) = if let Some(b) = bytes.strip_prefix(b"\xEF\xBB\xBF") {
            (Some(Charset::Utf8), b)
        } else if let Some(b) = bytes.strip_prefix(b"\xFF\xFE") {
            (Some(Charset::Utf16Le), b)
        } else if let Some(b) = bytes.strip_prefix(b"\xFE\xFF") {
            (Some(Charset::Utf16Be), b)
        } else {
            (utf16_without_mark(bytes), bytes)
        };
        if let Some(charset @ (Charset::Utf16Le | Charset::Utf16Be)) = charset {
            let even = &body[..body.len() & !1];
            let kept = even
                .chunks_exact(2)
                .rposition(|c| c != [0, 0])
                .map_or(0, |i| 2 * (i + 1));
            return Some(Text {
                bytes: &even[..kept],
                charset,
                cut: kept != body.len(),
            });
        }
        // Power cuts leave NULs at the end of a text file.
        let kept = body.iter().rposition(|b| *b != 0).map_or(0, |i| i + 1);
        let padded = kept != body.len();
        let body = &body[..kept];
        let window = &body[..body.len().min(1 << 16)];
        let control = |b: &&u8| **b < 0x20 && !matches!(**b, b'\t' | b'\n' | b'\r' | 0x0C | 0x1A);
        if window.iter().filter(control).count() * 200 > window.len() || window.contains(&0) {
            return None;
        }
        Some(match std::str::from_utf8(body) {
            Ok(_) => Text {
                bytes: body,
                charset: Charset::Utf8,
                cut: padded,
            },
            Err(e) if e.error_len().is_none() => Text {
                bytes: &body[..e.valid_up_to()],
                charset: Charset::Utf8,
                cut: true,
            },
            Err(_) => Text {
                bytes: body,
                charset: Charset::Windows1252,
                cut: padded,
            },
        })
    }

    /// The text as UTF-8, decoded as it is read.
    pub fn reader(&self) -> Box<dyn Read + 'a> {
        match self.charset.encoding() {
            None => Box::new(self.bytes),
            Some(encoding) => Box::new(Decoding {
                input: self.bytes,
                decoder: encoding.new_decoder_without_bom_handling(),
                chunk: Vec::new(),
                given: 0,
                ended: false,
            }),
        }
    }

    /// The first `limit` bytes of the text as UTF-8 (a few more or less at a character's edge),
    /// and whether that is all of it.
    pub fn head(&self, limit: usize) -> (String, bool) {
        let mut out = Vec::new();
        // Reading from memory cannot fail.
        let _ = self.reader().take(limit as u64 + 1).read_to_end(&mut out);
        let whole = out.len() <= limit;
        out.truncate(limit);
        let kept = match std::str::from_utf8(&out) {
            Err(e) if e.error_len().is_none() => e.valid_up_to(),
            _ => out.len(),
        };
        out.truncate(kept);
        (String::from_utf8_lossy(&out).into_owned(), whole)
    }

    /// About the last `limit` characters of the text; the first of them may be a piece of a line.
    pub fn tail(&self, limit: usize) -> String {
        let from = self.bytes.len().saturating_sub(limit * self.width());
        let mut start = from - from % self.width();
        if self.charset == Charset::Utf8 {
            while self.bytes.get(start).is_some_and(|b| b & 0xC0 == 0x80) {
                start += 1;
            }
        }
        Text {
            bytes: &self.bytes[start..],
            ..*self
        }
        .head(limit * 3)
        .0
    }

    /// Whether the text ends with a line break.
    pub fn ends_with_break(&self) -> bool {
        let last = match (self.charset, self.bytes) {
            (Charset::Utf16Le, [.., low, 0]) => Some(*low),
            (Charset::Utf16Be, [.., 0, low]) => Some(*low),
            (Charset::Utf16Le | Charset::Utf16Be, _) => None,
            (_, bytes) => bytes.last().copied(),
        };
        matches!(last, Some(b'\n' | b'\r'))
    }

    /// Length in bytes as stored; about the length of the decoded text times [`Text::width`].
    pub fn stored_len(&self) -> usize {
        self.bytes.len()
    }

    /// Stored bytes per plain character.
    pub fn width(&self) -> usize {
        match self.charset {
            Charset::Utf16Le | Charset::Utf16Be => 2,
            _ => 1,
        }
    }
}

/// UTF-16 without a byte order mark: every other byte of plain text is zero.
fn utf16_without_mark(bytes: &[u8]) -> Option<Charset> {
    let window = &bytes[..bytes.len().min(4096) & !1];
    let zeros = |odd: usize| {
        window
            .iter()
            .skip(odd)
            .step_by(2)
            .filter(|b| **b == 0)
            .count()
    };
    let (first, second, pairs) = (zeros(0), zeros(1), window.len() / 2);
    if pairs < 2 {
        None
    } else if second * 10 >= pairs * 7 && first * 20 <= pairs {
        Some(Charset::Utf16Le)
    } else if first * 10 >= pairs * 7 && second * 20 <= pairs {
        Some(Charset::Utf16Be)
    } else {
        None
    }
}

/// Decodes into UTF-8, one chunk at a time.
struct Decoding<'a> {
    input: &'a [u8],
    decoder: Decoder,
    chunk: Vec<u8>,
    given: usize,
    ended: bool,
}

const CHUNK: usize = 1 << 16;

impl Read for Decoding<'_> {
    fn read(&mut self, out: &mut [u8]) -> io::Result<usize> {
        if self.given == self.chunk.len() && !self.ended {
            self.chunk.resize(CHUNK, 0);
            let (result, read, written, _) =
                self.decoder
                    .decode_to_utf8(self.input, &mut self.chunk, true);
            self.input = &self.input[read..];
            self.chunk.truncate(written);
            self.given = 0;
            self.ended = result == CoderResult::InputEmpty;
        }
        let n = out.len().min(self.chunk.len() - self.given);
        out[..n].copy_from_slice(&self.chunk[self.given..self.given + n]);
        self.given += n;
        Ok(n)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn all(text: &Text) -> String {
        let mut s = String::new();
        text.reader().read_to_string(&mut s).unwrap();
        s
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
            let text = Text::detect(&bytes).unwrap();
            assert_eq!(text.charset, charset);
            assert_eq!(all(&text), s, "{charset:?}");
            assert!(text.ends_with_break());
            assert!(!text.cut);
        }
    }

    #[test]
    fn a_cut_character_is_left_out_and_said() {
        let text = Text::detect("12 µ".as_bytes().split_last().unwrap().1).unwrap();
        assert!(text.cut);
        assert_eq!(all(&text), "12 ");
        let mut bytes = utf16("a;b\n1;2", true);
        bytes.pop();
        let text = Text::detect(&bytes).unwrap();
        assert!(text.cut);
        assert_eq!(all(&text), "a;b\n1;");
    }

    #[test]
    fn noise_is_not_text() {
        assert!(Text::detect(&[0, 1, 2, 3, 255, 0, 7, 9]).is_none());
        assert!(Text::detect(b"ab\0\0\0cd").is_none());
        assert!(Text::detect(b"ab;1\n\0\0\0").unwrap().cut);
    }

    #[test]
    fn text_longer_than_a_chunk_is_decoded_whole() {
        let s = "0,5;µ\n".repeat(40_000);
        let bytes = utf16(&s, true);
        assert_eq!(all(&Text::detect(&bytes).unwrap()), s);
    }
}
