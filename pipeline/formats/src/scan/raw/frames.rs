//! CAN frames as `candump` logs them, and the messages that ISO 15765-2 makes of several.

use std::collections::BTreeMap;

/// Longest message of ISO 15765-2's first form, bytes.
const LONGEST: usize = 4095;

/// One frame of a log.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Frame {
    pub id: u32,
    pub data: Vec<u8>,
    /// When it was seen, s, where the log says so.
    pub time_s: Option<f64>,
}

/// One answer or question, complete.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Message {
    /// CAN identifier, where the log has it.
    pub id: Option<u32>,
    pub time_s: Option<f64>,
    pub bytes: Vec<u8>,
    /// The line where it begins, from 1.
    pub line: usize,
}

/// A line of a log: `(1700000000.1) can0 7E8#0443...`, `can0  7E8   [8]  04 43 ...`, or an identifier of a vehicle's
/// answer before its bytes, `7E8 04 43 01 ...`.
pub(super) fn frame(line: &str) -> Option<Frame> {
    let words: Vec<&str> = line.split_whitespace().collect();
    let time_s = words
        .iter()
        .find_map(|w| w.strip_prefix('(')?.strip_suffix(')')?.parse::<f64>().ok())
        .filter(|t| t.is_finite());
    let made = |id: u32, data: Vec<u8>| Some(Frame { id, data, time_s });
    if let Some((name, data)) = words.iter().find_map(|w| w.split_once('#')) {
        // CAN FD writes two signs and a digit of flags.
        let data = data
            .strip_prefix('#')
            .map_or(data, |d| d.get(1..).unwrap_or(""));
        return made(identifier(name)?, super::hex(data)?);
    }
    if let Some(at) = words
        .iter()
        .position(|w| w.starts_with('[') && w.ends_with(']'))
    {
        let count: usize = words[at].trim_matches(['[', ']']).parse().ok()?;
        let name = words.get(at.checked_sub(1)?)?;
        let bytes = words.get(at + 1..at + 1 + count)?;
        return made(identifier(name)?, super::hex(&bytes.concat())?);
    }
    let (name, bytes) = words.split_first()?;
    let whole = (1..=8).contains(&bytes.len()) && bytes.iter().all(|b| b.len() == 2);
    let id = identifier(name).filter(|id| whole && is_answer(*id))?;
    made(id, super::hex(&bytes.concat())?)
}

fn identifier(word: &str) -> Option<u32> {
    let good = matches!(word.len(), 3 | 8) && word.bytes().all(|b| b.is_ascii_hexdigit());
    good.then(|| u32::from_str_radix(word, 16).ok())?
}

/// Whether an identifier is one of those with which ISO 15765-4 has vehicles answer.
pub(super) fn is_answer(id: u32) -> bool {
    (0x7E8..=0x7EF).contains(&id) || (0x18DA_F100..=0x18DA_F1FF).contains(&id)
}

/// Puts frames together to messages.
#[derive(Default)]
pub(super) struct Assembly {
    unfinished: BTreeMap<u32, Unfinished>,
}

struct Unfinished {
    length: usize,
    /// Sequence number of the next frame.
    next: u8,
    message: Message,
}

impl Assembly {
    /// Takes the next frame; gives the message that it completes.
    pub fn take(&mut self, frame: Frame, line: usize) -> Option<Message> {
        let (first, rest) = frame.data.split_first()?;
        let message = |bytes: &[u8]| Message {
            id: Some(frame.id),
            time_s: frame.time_s,
            bytes: bytes.to_vec(),
            line,
        };
        match first >> 4 {
            0 => {
                // CAN FD: the length follows in a byte of its own.
                let (length, rest) = match (first & 0xF, rest.split_first()) {
                    (0, Some((length, rest))) if frame.data.len() > 8 => {
                        (usize::from(*length), rest)
                    }
                    (length, _) => (usize::from(length), rest),
                };
                rest.get(..length).filter(|b| !b.is_empty()).map(message)
            }
            1 => {
                let (low, rest) = rest.split_first()?;
                let length = usize::from(first & 0xF) << 8 | usize::from(*low);
                self.unfinished.insert(
                    frame.id,
                    Unfinished {
                        length,
                        next: 1,
                        message: message(rest),
                    },
                );
                None
            }
            2 => {
                let open = self.unfinished.get_mut(&frame.id)?;
                if first & 0xF != open.next {
                    // A frame is missing: what is there cannot be told from what is not.
                    self.unfinished.remove(&frame.id);
                    return None;
                }
                open.next = (open.next + 1) & 0xF;
                open.message.bytes.extend_from_slice(rest);
                if open.message.bytes.len() < open.length.min(LONGEST) {
                    return None;
                }
                let mut whole = self.unfinished.remove(&frame.id)?;
                whole.message.bytes.truncate(whole.length);
                Some(whole.message)
            }
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spellings_of_a_frame() {
        for line in [
            "(1436509052.25) can0 7E8#04410C1AF8000000",
            "(1436509052.25)  can0  7E8   [8]  04 41 0C 1A F8 00 00 00",
            "(1436509052.25)  can0  7E8   [8]  04 41 0C 1A F8 00 00 00   '.A......'",
            "(1436509052.25) can0 7E8##104410C1AF8000000",
            "(1436509052.25)  can0  RX - -  7E8  [08]  04 41 0C 1A F8 00 00 00",
        ] {
            let f = frame(line).unwrap();
            assert_eq!(
                (f.id, f.time_s, &f.data[..5]),
                (
                    0x7E8,
                    Some(1_436_509_052.25),
                    &[4, 0x41, 0xC, 0x1A, 0xF8][..]
                ),
                "{line}"
            );
        }
        assert_eq!(frame("7E9 03 41 0D 32").unwrap().id, 0x7E9);
        for line in [
            "123 41 0D 32",
            "can0 7E8#4",
            "[8]",
            "#",
            "7E8#",
            "7E8#R",
            "(1) can0 7E8 [9] 01 02",
            "P0902 13",
        ] {
            assert_eq!(frame(line), None, "{line}");
        }
    }

    #[test]
    fn a_missing_frame_spoils_its_message_and_no_other() {
        let mut a = Assembly::default();
        let mut take = |data: &[u8]| {
            a.take(
                Frame {
                    id: 0x7E9,
                    data: data.to_vec(),
                    time_s: None,
                },
                1,
            )
            .map(|m| m.bytes)
        };
        assert_eq!(take(&[0x10, 9, 1, 2, 3, 4, 5, 6]), None);
        assert_eq!(take(&[0x22, 7, 8, 9, 0, 0, 0, 0]), None);
        assert_eq!(take(&[0x21, 7, 8, 9, 0, 0, 0, 0]), None);
        assert_eq!(take(&[0x10, 9, 1, 2, 3, 4, 5, 6]), None);
        assert_eq!(
            take(&[0x21, 7, 8, 9, 0, 0, 0, 0]),
            Some(vec![1, 2, 3, 4, 5, 6, 7, 8, 9])
        );
        assert_eq!(take(&[0x02, 0x43, 0x00]), Some(vec![0x43, 0]));
        assert_eq!(take(&[]), None);
    }
}
