//! Messages that frames carry (ISO 15765-2).

use std::collections::BTreeMap;

/// Longest message of the first form, bytes.
const LONGEST: usize = 4095;
/// Longest time between two frames of one message, s (N_Cr, ISO 15765-2; from memory).
const LONGEST_GAP_S: f64 = 1.0;

/// One question or answer, complete.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Message {
    pub id: u32,
    pub extended: bool,
    /// When its first frame was seen, s; NaN where nothing says so.
    pub time_s: f64,
    pub bytes: Vec<u8>,
    /// True where what fills its frame up is one byte, again and again, as it mostly is.
    pub filled_evenly: bool,
    /// Line where it begins, from 1.
    pub line: usize,
}

/// Puts frames together to messages, for each identifier apart.
#[derive(Default)]
pub(crate) struct Assembly {
    unfinished: BTreeMap<(u32, bool), Unfinished>,
}

struct Unfinished {
    length: usize,
    /// Sequence number of the next frame.
    next: u8,
    /// When its latest frame was seen, s.
    latest_s: f64,
    message: Message,
}

/// One frame's part of a message.
pub(crate) struct Part<'a> {
    pub id: u32,
    pub extended: bool,
    pub time_s: f64,
    pub data: &'a [u8],
    pub line: usize,
}

impl Assembly {
    /// Takes the next frame; gives the message that it completes.
    pub fn add(&mut self, part: Part<'_>) -> Option<Message> {
        let (first, rest) = part.data.split_first()?;
        let key = (part.id, part.extended);
        let message = |bytes: &[u8]| Message {
            id: part.id,
            extended: part.extended,
            time_s: part.time_s,
            bytes: bytes.to_vec(),
            filled_evenly: true,
            line: part.line,
        };
        match first >> 4 {
            0 => {
                self.unfinished.remove(&key);
                // CAN FD: the length follows in a byte of its own.
                let (length, rest) = match (first & 0xF, rest.split_first()) {
                    (0, Some((length, rest))) if part.data.len() > 8 => {
                        (usize::from(*length), rest)
                    }
                    (length, _) => (usize::from(length), rest),
                };
                let (bytes, filler) = rest.split_at_checked(length)?;
                let whole = Message {
                    filled_evenly: filler.windows(2).all(|w| w[0] == w[1]),
                    ..message(bytes)
                };
                (!bytes.is_empty()).then_some(whole)
            }
            1 => {
                let (low, rest) = rest.split_first()?;
                let length = usize::from(first & 0xF) << 8 | usize::from(*low);
                // Shorter messages fit one frame.
                if length <= rest.len() + 1 || part.data.len() < 8 {
                    return None;
                }
                let unfinished = Unfinished {
                    length: length.min(LONGEST),
                    next: 1,
                    latest_s: part.time_s,
                    message: message(rest),
                };
                self.unfinished.insert(key, unfinished);
                None
            }
            2 => {
                let open = self.unfinished.get_mut(&key)?;
                let late = part.time_s - open.latest_s > LONGEST_GAP_S;
                if first & 0xF != open.next || late {
                    // A frame is missing: what is there cannot be told from what is not.
                    self.unfinished.remove(&key);
                    return None;
                }
                open.next = (open.next + 1) & 0xF;
                open.latest_s = part.time_s;
                open.message.bytes.extend_from_slice(rest);
                if open.message.bytes.len() < open.length {
                    return None;
                }
                let mut whole = self.unfinished.remove(&key)?;
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
    fn a_missing_or_late_frame_spoils_its_message_and_no_other() {
        let mut assembly = Assembly::default();
        let mut add = |time_s: f64, data: &[u8]| {
            let part = Part {
                id: 0x7E9,
                extended: false,
                time_s,
                data,
                line: 1,
            };
            assembly.add(part).map(|m| m.bytes)
        };
        let first = [0x10, 9, 1, 2, 3, 4, 5, 6];
        let second = [0x21, 7, 8, 9, 0, 0, 0, 0];
        assert_eq!(add(0.0, &first), None);
        assert_eq!(add(0.0, &[0x22, 7, 8, 9, 0, 0, 0, 0]), None);
        assert_eq!(add(0.0, &second), None);
        assert_eq!(add(0.0, &first), None);
        assert_eq!(add(2.0, &second), None, "two seconds later");
        assert_eq!(add(3.0, &first), None);
        assert_eq!(add(3.1, &second), Some(vec![1, 2, 3, 4, 5, 6, 7, 8, 9]));
        assert_eq!(add(4.0, &[0x02, 0x43, 0x00]), Some(vec![0x43, 0]));
        // No length that a single frame may have.
        assert_eq!(add(4.0, &[0x08, 1, 2, 3, 4, 5, 6, 7]), None);
        assert_eq!(add(4.0, &[]), None);
    }
}
