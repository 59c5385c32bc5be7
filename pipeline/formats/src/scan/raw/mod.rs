//! Answers of a vehicle as bytes in a log: SAE J1979 services 01, 03, 07, 09 and 0A, and service 19 of
//! ISO 14229-1; alone on a line or in CAN frames as `candump` logs them (ISO 15765-2 transport).
//! Layouts from memory; the values of the tests are published worked ones.

mod frames;
mod lines;
mod pids;
#[cfg(test)]
mod tests;

use super::words;
use frames::{Assembly, Message};
use model::{CodeStatus, LiveItem, LiveTrack, ScanRecord, TroubleCode};
use std::collections::BTreeMap;

/// Whether most of a text's first lines are frames of a CAN log.
pub(super) fn is_can_log(text: &str) -> bool {
    let lines = text.lines().filter(|l| !l.trim().is_empty()).take(50);
    let (frames, all) = lines.fold((0, 0), |(f, n), l| {
        (f + usize::from(frames::frame(l).is_some()), n + 1)
    });
    frames >= 2 && frames * 2 > all
}

/// Takes codes, live data and the vehicle number out of the lines that are bytes.
pub(super) fn read(file: &str, lines: &[&str], record: &mut ScanRecord) {
    let mut reader = Reader {
        file,
        record,
        tracks: BTreeMap::new(),
    };
    // Other identifiers than those of the standard count where the same service was asked for before.
    let mut asked = Vec::new();
    let mut assembly = Assembly::default();
    for (i, line) in lines.iter().enumerate() {
        let Some(frame) = frames::frame(line) else {
            if let Some(bytes) = lines::answer(line) {
                reader.take(&Message {
                    id: None,
                    time_s: None,
                    bytes,
                    line: i + 1,
                });
            }
            continue;
        };
        let Some(message) = assembly.take(frame, i + 1) else {
            continue;
        };
        match (message.id, message.bytes.first()) {
            (Some(id), Some(first))
                if frames::is_answer(id) || asked.contains(&first.wrapping_sub(0x40)) =>
            {
                reader.take(&message)
            }
            (_, Some(first)) if is_question(&message.bytes) && !asked.contains(first) => {
                asked.push(*first)
            }
            _ => {}
        }
    }
    let tracks = std::mem::take(&mut reader.tracks);
    record
        .tracks
        .extend(tracks.into_values().filter(|t| t.values.len() > 1));
}

/// Whether bytes are a question of one of the services understood, of the length that it has.
fn is_question(bytes: &[u8]) -> bool {
    match bytes {
        [0x03 | 0x07 | 0x0A] => true,
        [0x01, pids @ ..] => (1..=6).contains(&pids.len()),
        [0x09, _] => true,
        [0x19, rest @ ..] => (1..=6).contains(&rest.len()),
        _ => false,
    }
}

/// The two bytes of a code as text (SAE J2012): letter, a digit 0 to 3, three hexadecimal digits.
fn code(high: u8, low: u8) -> String {
    let letter = ['P', 'C', 'B', 'U'][usize::from(high >> 6)];
    format!("{letter}{}{:X}{low:02X}", high >> 4 & 3, high & 0xF)
}

fn hex(text: &str) -> Option<Vec<u8>> {
    if text.len() % 2 == 1
        || text.is_empty()
        || text.len() > 8192
        || !text.bytes().all(|b| b.is_ascii_hexdigit())
    {
        return None;
    }
    (0..text.len() / 2)
        .map(|i| u8::from_str_radix(text.get(2 * i..2 * i + 2)?, 16).ok())
        .collect()
}

/// The module behind an identifier: ISO 15765-4 gives the first two addresses to engine and gearbox.
fn module(id: u32) -> String {
    match id {
        0x7E8 | 0x18DA_F110 => "ECM".into(),
        0x7E9 | 0x18DA_F118 => "TCM".into(),
        id => format!("{id:X}"),
    }
}

struct Reader<'a> {
    file: &'a str,
    record: &'a mut ScanRecord,
    tracks: BTreeMap<(Option<String>, &'static str), LiveTrack>,
}

impl Reader<'_> {
    fn take(&mut self, message: &Message) {
        match message.bytes.as_slice() {
            [service @ (0x43 | 0x47 | 0x4A), rest @ ..] => {
                let status = match service {
                    0x43 => CodeStatus::Confirmed,
                    0x47 => CodeStatus::Pending,
                    _ => CodeStatus::Permanent,
                };
                // On CAN a count comes first; the older buses have pairs only, filled up with zeros.
                let pairs = match rest.split_first() {
                    Some((count, pairs))
                        if message.id.is_some() || pairs.len() == 2 * usize::from(*count) =>
                    {
                        pairs
                    }
                    _ => rest,
                };
                for pair in pairs.chunks_exact(2).filter(|p| p != &[0, 0]) {
                    self.code(message, code(pair[0], pair[1]), None, vec![status]);
                }
            }
            // Reports by status mask, of supported, first, latest and permanent codes: three bytes and the status.
            [
                0x59,
                kind @ (0x02 | 0x0A..=0x0F | 0x13 | 0x15),
                _,
                records @ ..,
            ] => {
                for dtc in records.chunks_exact(4) {
                    self.dtc(message, *kind, dtc);
                }
            }
            // Stored surroundings and extended data begin with the code that they belong to.
            [0x59, kind @ (0x04 | 0x06), dtc @ ..] => {
                if let Some(dtc) = dtc.get(..4) {
                    self.dtc(message, *kind, dtc);
                }
            }
            // By severity: severity and functional unit come first.
            [0x59, kind @ (0x08 | 0x09), _, records @ ..] => {
                for record in records.chunks_exact(6) {
                    self.dtc(message, *kind, &record[2..]);
                }
            }
            [0x41, values @ ..] => {
                for value in pids::values(values) {
                    self.value(message, &value);
                }
            }
            [0x49, 0x02, vin @ ..] => {
                let text: String = vin
                    .iter()
                    .filter(|b| b.is_ascii_alphanumeric())
                    .map(|b| char::from(*b))
                    .collect();
                if text.len() == 17 && self.record.vin.is_none() {
                    self.record.vin = Some((text, message.line));
                }
            }
            _ => {}
        }
    }

    fn dtc(&mut self, message: &Message, kind: u8, dtc: &[u8]) {
        let [high, low, failure_type, status] = dtc else {
            return;
        };
        // The list of supported codes has those that never failed too.
        let never_failed = kind == 0x0A && status & 0x2F == 0;
        if (*high, *low, *failure_type) == (0, 0, 0) || never_failed {
            return;
        }
        let mut states = words::status_byte(*status);
        if kind == 0x15 {
            states.push(CodeStatus::Permanent);
        }
        self.code(
            message,
            code(*high, *low),
            Some(format!("{failure_type:02X}")),
            states,
        );
    }

    fn code(
        &mut self,
        message: &Message,
        code: String,
        failure_type: Option<String>,
        status: Vec<CodeStatus>,
    ) {
        let module = message.id.map(module);
        let codes = &mut self.record.codes;
        let full = codes.len() >= super::MOST_CODES;
        let known = codes
            .iter_mut()
            .find(|c| c.code == code && c.module == module && c.failure_type == failure_type);
        match known {
            Some(old) => {
                old.status.extend(status);
                old.status.sort();
                old.status.dedup();
            }
            None if full => {}
            None => codes.push(TroubleCode {
                code,
                failure_type,
                status,
                module,
                text: None,
                file: self.file.into(),
                line: message.line,
            }),
        }
    }

    /// The first of its kind is an item; all of them together are a track where the log has a clock.
    fn value(&mut self, message: &Message, value: &pids::Value) {
        let module = message.id.map(module);
        let (file, line, unit) = (
            self.file.to_string(),
            message.line,
            Some(value.unit.to_string()),
        );
        if value.name == "odometer" {
            self.record.odometer_km = self.record.odometer_km.or(Some(value.value));
        }
        let track = self
            .tracks
            .entry((module.clone(), value.name))
            .or_insert_with(|| {
                self.record.live.push(LiveItem {
                    name: value.name.into(),
                    quantity: value.quantity,
                    text: format!("{} {}", value.value, value.unit),
                    value: Some(value.value),
                    unit: unit.clone(),
                    file: file.clone(),
                    line,
                });
                LiveTrack {
                    name: value.name.into(),
                    quantity: value.quantity,
                    unit,
                    module,
                    time_s: Vec::new(),
                    values: Vec::new(),
                    file,
                    line,
                }
            });
        if let Some(t) = message
            .time_s
            .filter(|t| track.time_s.last().is_none_or(|last| t >= last))
        {
            track.time_s.push(t);
            track.values.push(value.value);
        }
    }
}
