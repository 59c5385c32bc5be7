//! Text in some character set, decoded while it is read and never held as a whole.

use crate::input::Input;
use encoding_rs::{Decoder, Encoding, UTF_16BE, UTF_16LE, WINDOWS_1252};
use std::io;

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

/// A file that is text.
#[derive(Debug, Clone, Copy)]
pub struct Text<'a> {
    input: Input<'a>,
    /// Bounds of the text in the file: behind the byte order mark, before NUL padding.
    start: u64,
    end: u64,
    /// The character set.
    pub charset: Charset,
    /// True where the last character is incomplete or NULs pad the end.
    pub cut: bool,
}

/// Longest line of a text, bytes.
pub(crate) const LONGEST_LINE: usize = 1 << 20;
/// Length at the end in which NULs are looked for, bytes.
const PADDING: usize = 1 << 16;

impl<'a> Text<'a> {
    /// Text of an input whose beginning is `head`; `None` where it is binary.
    pub(crate) fn detect(input: Input<'a>, head: &[u8]) -> Option<Self> {
        let (charset, mark) = if head.starts_with(b"\xEF\xBB\xBF") {
            (Some(Charset::Utf8), 3)
        } else if head.starts_with(b"\xFF\xFE") {
            (Some(Charset::Utf16Le), 2)
        } else if head.starts_with(b"\xFE\xFF") {
            (Some(Charset::Utf16Be), 2)
        } else {
            (utf16_without_mark(head), 0)
        };
        let (start, len) = (mark as u64, input.len());
        let body = &head[mark..];
        let whole = head.len() as u64 == len;
        if let Some(charset @ (Charset::Utf16Le | Charset::Utf16Be)) = charset {
            let even = len - (len - start) % 2;
            let end = even - padding(input, start, even, 2)?;
            return Some(Text {
                input,
                start,
                end,
                charset,
                cut: end != len,
            });
        }
        // Power cuts leave NULs at the end of a text file.
        let end = len - padding(input, start, len, 1)?;
        let body = &body[..body
            .len()
            .min(usize::try_from(end - start).unwrap_or(usize::MAX))];
        let window = &body[..body.len().min(1 << 16)];
        let control = |b: &&u8| **b < 0x20 && !matches!(**b, b'\t' | b'\n' | b'\r' | 0x0C | 0x1A);
        if window.iter().filter(control).count() * 200 > window.len() || window.contains(&0) {
            return None;
        }
        let text = Text {
            input,
            start,
            end,
            charset: Charset::Utf8,
            cut: end != len,
        };
        Some(match std::str::from_utf8(body) {
            Ok(_) => text,
            Err(e) if e.error_len().is_none() && whole => Text {
                end: start + e.valid_up_to() as u64,
                cut: true,
                ..text
            },
            Err(e) if e.error_len().is_none() => text,
            Err(_) => Text {
                charset: Charset::Windows1252,
                ..text
            },
        })
    }

    /// The first `limit` bytes of the text as UTF-8 (a few more or less at a character's edge),
    /// and whether that is all of it.
    pub fn head(&self, limit: usize) -> (String, bool) {
        let stored = limit.saturating_add(1).saturating_mul(self.width());
        let mut text = self.decoded(self.start, stored);
        let whole = text.len() <= limit && self.stored_len() <= stored as u64;
        text.truncate(text.floor_char_boundary(limit));
        (text, whole)
    }

    /// About the last `limit` characters of the text; the first of them may be a piece of a line.
    pub fn tail(&self, limit: usize) -> String {
        let stored = (limit * self.width()) as u64;
        self.decoded(
            self.end.saturating_sub(stored).max(self.start),
            limit * self.width(),
        )
    }

    fn decoded(&self, at: u64, most: usize) -> String {
        let left = usize::try_from(self.end - at).unwrap_or(usize::MAX);
        // What cannot be read now is found again, and said, when the rows are read.
        let raw = self.input.range(at, most.min(left)).unwrap_or_default();
        match self.charset.encoding() {
            Some(encoding) => encoding.decode_without_bom_handling(&raw).0.into_owned(),
            None => {
                let from = raw
                    .iter()
                    .take(3)
                    .take_while(|b| **b & 0xC0 == 0x80)
                    .count();
                let to = match std::str::from_utf8(&raw[from..]) {
                    Err(e) if e.error_len().is_none() => from + e.valid_up_to(),
                    _ => raw.len(),
                };
                String::from_utf8_lossy(&raw[from..to]).into_owned()
            }
        }
    }

    /// The text without its last line, which is the one behind the last line break.
    pub fn without_last_line(&self) -> Text<'a> {
        let width = self.width();
        let at = self
            .end
            .saturating_sub((LONGEST_LINE * width) as u64)
            .max(self.start);
        let raw = self
            .input
            .range(at, usize::try_from(self.end - at).unwrap_or(0))
            .unwrap_or_default();
        let is_break = |c: &[u8]| match self.charset {
            Charset::Utf16Le => matches!(c, [b'\n' | b'\r', 0]),
            Charset::Utf16Be => matches!(c, [0, b'\n' | b'\r']),
            _ => matches!(c, [b'\n' | b'\r']),
        };
        let kept = raw
            .chunks_exact(width)
            .rposition(is_break)
            .map_or(0, |i| (i + 1) * width);
        Text {
            end: at + kept as u64,
            cut: false,
            ..*self
        }
    }

    /// True where the text ends with a line break.
    pub fn ends_with_break(&self) -> bool {
        self.tail(2).ends_with(['\n', '\r'])
    }

    /// Length in bytes as stored; about the length of the decoded text times [`Text::width`].
    pub fn stored_len(&self) -> u64 {
        self.end - self.start
    }

    /// Stored bytes per plain character.
    pub fn width(&self) -> usize {
        match self.charset {
            Charset::Utf16Le | Charset::Utf16Be => 2,
            _ => 1,
        }
    }

    /// The text from its beginning, to be read piece by piece.
    pub fn pieces(&self) -> Pieces<'a> {
        Pieces {
            text: *self,
            at: self.start,
            raw: Vec::new(),
            decoder: self
                .charset
                .encoding()
                .map(Encoding::new_decoder_without_bom_handling),
        }
    }
}

impl Text<'_> {
    /// Calls `visit` with the number, from 1, and the text of each line; of a line longer than `longest` bytes only its
    /// beginning.
    ///
    /// # Errors
    /// A file that cannot be read on, or became shorter.
    pub fn for_each_line(
        &self,
        longest: usize,
        mut visit: impl FnMut(usize, &str),
    ) -> io::Result<()> {
        let mut pieces = self.pieces();
        let mut buffer = vec![0; 1 << 18];
        let (mut line, mut number, mut after_cr) = (Vec::new(), 0, false);
        let mut end = |line: &mut Vec<u8>| {
            number += 1;
            let text = String::from_utf8_lossy(line);
            visit(number, &text[..text.floor_char_boundary(longest)]);
            line.clear();
        };
        loop {
            let read = pieces.next(&mut buffer)?;
            if read == 0 {
                break;
            }
            for byte in &buffer[..read] {
                let ends = matches!(byte, b'\n' | b'\r');
                // CRLF ends one line.
                if ends && !(*byte == b'\n' && after_cr) {
                    end(&mut line);
                } else if !ends && line.len() <= longest {
                    line.push(*byte);
                }
                after_cr = *byte == b'\r';
            }
        }
        if !line.is_empty() {
            end(&mut line);
        }
        Ok(())
    }
}

/// The decoded text, piece by piece.
pub struct Pieces<'a> {
    text: Text<'a>,
    at: u64,
    raw: Vec<u8>,
    decoder: Option<Decoder>,
}

impl Pieces<'_> {
    /// Puts the next piece of UTF-8 into `out` and gives its length; 0 at the end. `out` must have room for
    /// 16 bytes. A character may be parted between two pieces.
    ///
    /// # Errors
    /// When the file cannot be read.
    pub fn next(&mut self, out: &mut [u8]) -> io::Result<usize> {
        let left = usize::try_from(self.text.end - self.at).unwrap_or(usize::MAX);
        let Some(decoder) = &mut self.decoder else {
            let wanted = out.len().min(left);
            let read = self.text.input.fill_at(self.at, &mut out[..wanted])?;
            self.at += read as u64;
            return Ok(read);
        };
        loop {
            let left = usize::try_from(self.text.end - self.at).unwrap_or(usize::MAX);
            if left == 0 {
                return Ok(0);
            }
            // Three bytes of UTF-8 at most come of each stored one, and three of a pair left open at the end.
            let wanted = (out.len().saturating_sub(8) / 3).min(left);
            self.raw.resize(wanted, 0);
            let read = self.text.input.fill_at(self.at, &mut self.raw)?;
            let last = read == left;
            let (_, used, written, _) = decoder.decode_to_utf8(&self.raw[..read], out, last);
            self.at += used as u64;
            // Half a surrogate pair gives nothing yet.
            if written > 0 || self.at >= self.text.end || used == 0 {
                return Ok(written);
            }
        }
    }
}

/// Number of NUL bytes (pairs of them) that pad the end; `None` when that cannot be read.
fn padding(input: Input, start: u64, end: u64, width: u64) -> Option<u64> {
    let at = end
        .saturating_sub(PADDING as u64)
        .max(start + (end - start) % width);
    let tail = input.range(at, usize::try_from(end - at).ok()?).ok()?;
    let width = width as usize;
    let kept = tail
        .chunks_exact(width)
        .rposition(|c| c.iter().any(|b| *b != 0))
        .map_or(0, |i| width * (i + 1));
    Some((tail.len() / width * width - kept) as u64)
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

#[cfg(test)]
mod tests;
