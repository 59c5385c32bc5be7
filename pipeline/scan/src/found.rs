//! Facts of one code, by keys, columns and the pieces of free text.

use crate::sections::{self, Section};
use crate::words::{self, Key, sporadic};
use model::CodeStatus;

/// Facts of one code.
#[derive(Default)]
pub(crate) struct Found {
    /// From a key or a column that is there for it.
    pub stated: Option<Vec<CodeStatus>>,
    /// From words beside the code.
    pub status: Vec<CodeStatus>,
    /// Status byte of bits that are named as ISO 14229-1 does.
    pub bits: Option<u8>,
    pub failure_type: Option<String>,
    pub module: Option<String>,
    pub text: Option<String>,
}

impl Found {
    /// A value with a key or a column of its own.
    pub fn explicit(&mut self, key: Key, value: &str) {
        match key {
            Key::Status if self.stated.is_none() => {
                // What follows in a sentence of its own counts or dates the code.
                let value = value.split(". ").next().unwrap_or(value);
                self.stated = words::byte(value)
                    .map(words::status_byte)
                    .or_else(|| words::statuses(value))
                    .or_else(|| sporadic(value))
                    .or_else(|| {
                        value
                            .split_whitespace()
                            .find_map(words::byte)
                            .map(words::status_byte)
                    });
            }
            Key::FailureType if self.failure_type.is_none() => {
                let word = value.split([' ', ',', '(']).next().unwrap_or("");
                self.failure_type = words::byte(word).map(|b| format!("{b:02X}"));
            }
            Key::Module if self.module.is_none() && !value.is_empty() => {
                self.module = Some(value.trim_matches(['"', '.', ' ']).to_string());
            }
            Key::Text if self.text.is_none() => {
                self.text = Some(value.trim_matches('"').to_string())
            }
            _ => {}
        }
    }

    /// Adds the `end` of a description that the first line broke off.
    pub fn continue_text(&mut self, first_line: &str, end: &str) {
        if let Some(text) = &mut self.text
            && first_line.trim_end().ends_with(text.as_str())
        {
            *text = format!("{text} {}", end.trim());
        }
    }

    /// Status bits that a text names; false where it names none.
    pub fn add_bits(&mut self, text: &str) -> bool {
        let Some(byte) = words::standard_bits(text) else {
            return false;
        };
        *self.bits.get_or_insert(0) |= byte;
        true
    }

    /// The statuses of free text and nothing else of it.
    pub fn only_status(&mut self, text: &str) {
        let mut other = Found::default();
        other.pieces(text);
        self.bits = self.bits.or(other.bits);
        self.stated = other.stated;
        self.status = other.status;
    }

    /// Statuses, a failure type, the description and a module among the pieces of free text.
    pub fn pieces(&mut self, text: &str) {
        self.add_bits(text);
        let text = text
            .replace(" - ", "  ")
            .replace(" – ", "  ")
            .replace(" / ", "  ");
        let signs = [
            ';', '|', '\t', ',', ':', '=', '(', ')', '[', ']', '{', '}', '<', '>', '"',
        ];
        let pieces = text
            .split(signs)
            .flat_map(|p| p.split("  "))
            .flat_map(|p| p.split(". "));
        let mut expected = None;
        for piece in pieces
            .map(|p| p.trim().trim_end_matches('.').trim())
            .filter(|p| !p.is_empty())
        {
            match words::key(piece) {
                Some(key) if key != Key::Code && self.is_open(key) => {
                    expected = Some(key);
                    continue;
                }
                _ => {}
            }
            // `status 0x2F`, `failure type 13`: key and value without a sign between them.
            let keyed = piece.match_indices(' ').find_map(|(i, _)| {
                let byte = words::byte(&piece[i..])?;
                words::key(&piece[..i]).map(|k| (k, format!("{byte:02X}")))
            });
            if let Some((key, value)) = keyed {
                self.explicit(key, &value);
                continue;
            }
            let stated = expected == Some(Key::Status);
            let lettered = piece.len() == 4 || piece.contains(|c: char| c.is_ascii_alphabetic());
            if let Some(key) = expected.filter(|k| !matches!(k, Key::Status)) {
                self.explicit(key, piece);
                expected = None;
            } else if let Some(byte) = words::byte(piece).filter(|_| stated || lettered) {
                self.stated = self.stated.take().or(Some(words::status_byte(byte)));
            } else if let Some(list) =
                words::statuses(piece).or_else(|| sporadic(piece).filter(|_| stated))
            {
                // A list of statuses goes on to its last piece.
                let known = if stated {
                    self.stated.get_or_insert_default()
                } else {
                    &mut self.status
                };
                known.extend(list);
                known.sort();
                known.dedup();
            } else {
                expected = None;
                if sections::section(piece) == Some(Section::Module(piece.to_string())) {
                    self.module = self.module.take().or(Some(piece.to_string()));
                } else if self.text.is_none() && piece.contains(' ') && piece.chars().count() > 6 {
                    self.text = Some(piece.to_string());
                }
            }
        }
    }

    /// True where the value of a key is still to be found.
    fn is_open(&self, key: Key) -> bool {
        match key {
            Key::Status => self.stated.is_none(),
            Key::FailureType => self.failure_type.is_none(),
            Key::Module => self.module.is_none(),
            Key::Text => self.text.is_none(),
            Key::Code => false,
        }
    }
}
