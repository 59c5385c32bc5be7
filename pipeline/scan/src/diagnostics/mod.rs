//! Diagnostics as bytes: SAE J1979 services 01, 03, 07, 09 and 0A, and service 19 of ISO 14229-1, in frames of a bus
//! (ISO 15765-2 transport) or alone on a line. Layouts from memory; the values of the tests are published worked ones.

mod answers;
mod dialogue;
mod lines;
mod pids;
#[cfg(test)]
mod tests;
mod transport;

use crate::frame;
use answers::{Answer, Answers};
use dialogue::Dialogue;
use model::ScanRecord;
use model::scan::BusLog;
use transport::{Assembly, Part};

/// Takes codes, live data and the vehicle number out of the frames of a log; false where no question was asked.
pub(crate) fn read_log(log: &BusLog, record: &mut ScanRecord) -> bool {
    let mut conversation = Conversation::default();
    let mut answers = Answers::new(record);
    for frame in &log.frames {
        let part = Part {
            id: frame.id,
            extended: frame.extended,
            time_s: frame.time_s,
            data: log.data(frame),
            line: frame.line as usize,
        };
        conversation.add(part, &mut answers);
    }
    answers.finish();
    conversation.dialogue.asked
}

/// Takes the same out of lines of a scan text that are frames or bytes.
pub(crate) fn read_lines(lines: &[&str], record: &mut ScanRecord) {
    let mut conversation = Conversation::default();
    let mut answers = Answers::new(record);
    for (i, line) in lines.iter().enumerate() {
        if let Some(frame) = frame::frame(line) {
            let part = Part {
                id: frame.id,
                extended: frame.extended,
                time_s: frame.time_s.unwrap_or(f64::NAN),
                data: &frame.data,
                line: i + 1,
            };
            conversation.add(part, &mut answers);
        } else if let Some(bytes) = lines::answer(line) {
            answers.add(&Answer {
                module: None,
                time_s: f64::NAN,
                bytes: &bytes,
                line: i + 1,
            });
        } else if let Some(bytes) = lines::question(line) {
            conversation.dialogue.ask(&bytes);
        }
    }
    answers.finish();
}

#[derive(Default)]
struct Conversation {
    assembly: Assembly,
    dialogue: Dialogue,
}

impl Conversation {
    fn add(&mut self, part: Part<'_>, answers: &mut Answers) {
        let Some(message) = self.assembly.add(part) else {
            return;
        };
        if self.dialogue.hear(&message).is_some() {
            answers.add(&Answer {
                module: Some(answers::module(message.id)),
                time_s: message.time_s,
                bytes: &message.bytes,
                line: message.line,
            });
        }
    }
}
