//! Answers of a vehicle, turned into codes, live data and the vehicle number.

use super::pids;
use crate::words;
use model::{CodeStatus, LiveItem, LiveTrack, ScanRecord, TroubleCode};
use std::collections::BTreeMap;

/// One answer.
pub(super) struct Answer<'a> {
    /// Module that gave it, where that is known.
    pub module: Option<String>,
    /// When it was seen, s; NaN where nothing says so.
    pub time_s: f64,
    pub bytes: &'a [u8],
    /// Line where it begins, from 1.
    pub line: usize,
}

/// The two bytes of a code as text (SAE J2012): letter, a digit 0 to 3, three hexadecimal digits.
pub(super) fn code(high: u8, low: u8) -> String {
    let letter = ['P', 'C', 'B', 'U'][usize::from(high >> 6)];
    format!("{letter}{}{:X}{low:02X}", high >> 4 & 3, high & 0xF)
}

/// Module behind an identifier: ISO 15765-4 gives the first two addresses to the control modules of engine and transmission.
pub(super) fn module(id: u32) -> String {
    match id {
        0x7E8 | 0x18DA_F110 => "ECM".into(),
        0x7E9 | 0x18DA_F118 => "TCM".into(),
        id => format!("{id:X}"),
    }
}

/// Collects answers into a record.
pub(super) struct Answers<'a> {
    record: &'a mut ScanRecord,
    tracks: BTreeMap<(Option<String>, &'static str), LiveTrack>,
}

impl<'a> Answers<'a> {
    pub fn new(record: &'a mut ScanRecord) -> Self {
        Answers {
            record,
            tracks: BTreeMap::new(),
        }
    }

    /// Values over time become tracks.
    pub fn finish(self) {
        let tracks = self.tracks.into_values();
        self.record
            .tracks
            .extend(tracks.filter(|t| t.values.len() > 1));
    }

    /// Takes an answer.
    pub fn add(&mut self, message: &Answer) {
        match message.bytes {
            [service @ (0x43 | 0x47 | 0x4A), rest @ ..] => {
                let status = match service {
                    0x43 => CodeStatus::Confirmed,
                    0x47 => CodeStatus::Pending,
                    _ => CodeStatus::Permanent,
                };
                // On CAN a count comes first; the older buses have pairs only, filled up with zeros.
                let pairs = match rest.split_first() {
                    Some((count, pairs))
                        if message.module.is_some() || pairs.len() == 2 * usize::from(*count) =>
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

    fn dtc(&mut self, message: &Answer, kind: u8, dtc: &[u8]) {
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
        message: &Answer,
        code: String,
        failure_type: Option<String>,
        status: Vec<CodeStatus>,
    ) {
        let module = message.module.clone();
        let codes = &mut self.record.codes;
        let full = codes.len() >= crate::record::MOST_CODES;
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
                file: self.record.file.clone(),
                line: message.line,
            }),
        }
    }

    /// The first of its kind is an item; all of them together are a track where the log has a clock.
    fn value(&mut self, message: &Answer, value: &pids::Value) {
        let module = message.module.clone();
        let (file, line, unit) = (
            self.record.file.clone(),
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
        let t = message.time_s;
        if t.is_finite() && track.time_s.last().is_none_or(|last| t >= *last) {
            track.time_s.push(t);
            track.values.push(value.value);
        }
    }
}
