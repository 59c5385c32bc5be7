//! Questions of a tester and the answers that belong to them: by identifier, service, time and length. Other traffic of the
//! bus looks like an answer now and then.

use super::transport::Message;

/// Longest time from a question, or from the answer that it takes longer, to the answer, s: P2*, ISO 14229-2 (from memory).
const LONGEST_WAIT_S: f64 = 5.0;
/// Questions that wait for answers at once; testers ask one at a time.
const MOST_OPEN: usize = 64;

/// Sender of a question.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Asker {
    /// On the bus, by its identifier.
    Bus { id: u32, extended: bool },
    /// Written without an identifier: to all.
    Tool,
}

/// A question that may still be answered.
#[derive(Debug, Clone)]
struct Question {
    asker: Asker,
    bytes: Vec<u8>,
    time_s: f64,
}

/// A conversation as it is seen message by message.
#[derive(Default)]
pub(super) struct Dialogue {
    open: Vec<Question>,
    /// True once a question was seen.
    pub asked: bool,
}

impl Dialogue {
    /// Takes a question that is written without an identifier.
    pub fn ask(&mut self, bytes: &[u8]) {
        if is_question(bytes) {
            self.keep(Asker::Tool, bytes, f64::NAN);
        }
    }

    /// Takes a message of the bus; gives the question that it answers.
    pub fn hear(&mut self, message: &Message) -> Option<Vec<u8>> {
        let asker = Asker::Bus {
            id: message.id,
            extended: message.extended,
        };
        let asks = may_ask(message.id, message.extended) && message.filled_evenly;
        if asks && is_question(&message.bytes) {
            self.keep(asker, &message.bytes, message.time_s);
            return None;
        }
        // Identifiers that no standard keeps for diagnostics carry other traffic as well: there all must fit.
        if !message.filled_evenly && !is_standard_answer(message.id, message.extended) {
            return None;
        }
        let in_time = |q: &Question| {
            let wait = message.time_s - q.time_s;
            wait.is_nan() || (0.0..=LONGEST_WAIT_S).contains(&wait)
        };
        let meant = |q: &Question| answers(q.asker, message.id, message.extended);
        // "Response pending": the answer takes longer.
        if let [0x7F, service, 0x78] = message.bytes[..] {
            let asked = |q: &&mut Question| q.bytes.first() == Some(&service) && meant(q);
            for question in self.open.iter_mut().filter(asked) {
                question.time_s = message.time_s;
            }
            return None;
        }
        let fits = |q: &&Question| meant(q) && in_time(q) && is_answer_to(&message.bytes, &q.bytes);
        self.open.iter().rev().find(fits).map(|q| q.bytes.clone())
    }

    fn keep(&mut self, asker: Asker, bytes: &[u8], time_s: f64) {
        self.asked = true;
        // The same again waits anew.
        self.open.retain(|q| q.asker != asker || q.bytes != bytes);
        if self.open.len() == MOST_OPEN {
            self.open.remove(0);
        }
        self.open.push(Question {
            asker,
            bytes: bytes.to_vec(),
            time_s,
        });
    }
}

/// Identifiers from which testers ask: those of ISO 15765-4, and of the rest of the 11-bit ones those that makers use for
/// diagnostics, 600 to 7F7 (common practice, no source).
fn may_ask(id: u32, extended: bool) -> bool {
    match extended {
        false => (0x600..=0x7F7).contains(&id),
        true => id >> 16 == 0x18DA && id & 0xFF == 0xF1 || id == 0x18DB_33F1,
    }
}

/// True for identifiers that ISO 15765-4 keeps for answers.
fn is_standard_answer(id: u32, extended: bool) -> bool {
    match extended {
        false => (0x7E8..=0x7EF).contains(&id),
        true => id >> 8 == 0x0018_DAF1,
    }
}

/// True where an identifier answers a question: 7E8 to 7EF those of 7E0 to 7E7 and all of 7DF; with 29 bits target and source
/// change places (ISO 15765-4). Other 11-bit identifiers answer eight above (common practice, no source).
fn answers(asker: Asker, id: u32, extended: bool) -> bool {
    let standard = is_standard_answer(id, extended);
    match asker {
        Asker::Tool => standard,
        Asker::Bus { extended: e, .. } if e != extended => false,
        Asker::Bus {
            id: 0x7DF,
            extended: false,
        } => standard,
        Asker::Bus {
            id: 0x18DB_33F1, ..
        } => standard,
        Asker::Bus {
            id: asker,
            extended: false,
        } => id == asker + 8,
        Asker::Bus {
            id: asker,
            extended: true,
        } => standard && (asker >> 8 & 0xFF) == id & 0xFF,
    }
}

/// True for a question of one of the services understood, of the length that it has.
pub(super) fn is_question(bytes: &[u8]) -> bool {
    match bytes {
        [0x03 | 0x07 | 0x0A] => true,
        [0x01, pids @ ..] => (1..=6).contains(&pids.len()),
        [0x09, _] => true,
        // Reports by mask have one byte more, of one code four or five, all others none.
        [0x19, 0x01 | 0x02 | 0x0F | 0x11..=0x13 | 0x17, _] => true,
        [0x19, 0x0A..=0x0E | 0x14 | 0x15] => true,
        [0x19, 0x04 | 0x06 | 0x10, _, _, _, _] => true,
        [0x19, 0x07 | 0x08, _, _] => true,
        _ => false,
    }
}

/// True where bytes answer a question: its service, its sub-function or parameter, and a length that fits.
fn is_answer_to(answer: &[u8], question: &[u8]) -> bool {
    match (question, answer) {
        // Two bytes a code, and their count before them.
        ([service @ (0x03 | 0x07 | 0x0A)], [s, count, codes @ ..]) => {
            *s == service + 0x40 && codes.len() == 2 * usize::from(*count)
        }
        ([0x01, pids @ ..], [0x41, pid, ..]) => pids.contains(pid),
        ([0x09, item], [0x49, i, ..]) => i == item,
        ([0x19, report, ..], [0x59, r, rest @ ..]) => r == report && fits_report(*r, rest),
        _ => false,
    }
}

/// True where the bytes behind a report's number are as many as it gives: a mask and whole records, or a code.
fn fits_report(report: u8, rest: &[u8]) -> bool {
    let records = |length: usize| {
        rest.split_first()
            .is_some_and(|(_, r)| r.len() % length == 0)
    };
    match report {
        0x02 | 0x0A..=0x0F | 0x13 | 0x15 => records(4),
        0x08 => records(6),
        0x04 | 0x06 | 0x10 => rest.len() >= 4,
        _ => false,
    }
}

/// True where bytes without an identifier are an answer on any bus: with or without the count before two-byte codes, which
/// older buses do not have.
pub(super) fn is_answer(bytes: &[u8]) -> bool {
    match bytes {
        [0x43 | 0x47 | 0x4A, rest @ ..] => match rest.split_first() {
            Some((count, pairs)) if pairs.len() % 2 == 0 => pairs.len() == 2 * usize::from(*count),
            _ => (2..=6).contains(&rest.len()),
        },
        [0x59, report, rest @ ..] => fits_report(*report, rest),
        [0x41 | 0x49, _, _, ..] => true,
        _ => false,
    }
}
