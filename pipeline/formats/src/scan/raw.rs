//! Answers of a vehicle as bytes in a log: SAE J1979 services 01, 03, 07, 09 and 0A, and service 19 02 of
//! ISO 14229-1; alone on a line or in CAN frames as `candump` logs them (ISO 15765-2 transport).
//! Layouts from memory; the values of the tests are published worked ones.

use super::words;
use model::scan::LiveQuantity;
use model::{CodeStatus, LiveItem, ScanRecord, TroubleCode};
use std::collections::BTreeMap;

/// One answer, complete.
struct Message {
    /// CAN identifier, where the log has it.
    id: Option<u32>,
    bytes: Vec<u8>,
    line: usize,
}

/// Takes codes, live data and the vehicle number out of the lines that are bytes.
pub(super) fn read(file: &str, lines: &[&str], record: &mut ScanRecord) {
    for message in messages(lines) {
        take(file, &message, record);
    }
}

/// The two bytes of a code as text (SAE J2012): letter, a digit 0 to 3, three hexadecimal digits.
fn code(high: u8, low: u8) -> String {
    let letter = ['P', 'C', 'B', 'U'][usize::from(high >> 6)];
    format!("{letter}{}{:X}{low:02X}", high >> 4 & 3, high & 0xF)
}

fn messages(lines: &[&str]) -> Vec<Message> {
    let mut out = Vec::new();
    let mut unfinished: BTreeMap<u32, (usize, Message)> = BTreeMap::new();
    for (i, line) in lines.iter().enumerate() {
        let line_number = i + 1;
        let Some((id, bytes)) = can_frame(line) else {
            out.extend(plain_bytes(line).map(|bytes| Message {
                id: None,
                bytes,
                line: line_number,
            }));
            continue;
        };
        let Some((first, rest)) = bytes.split_first() else {
            continue;
        };
        match first >> 4 {
            0 => {
                let length = usize::from(first & 0xF).min(rest.len());
                out.push(Message {
                    id: Some(id),
                    bytes: rest[..length].to_vec(),
                    line: line_number,
                });
            }
            1 => {
                let Some((low, rest)) = rest.split_first() else {
                    continue;
                };
                let length = usize::from(first & 0xF) << 8 | usize::from(*low);
                let message = Message {
                    id: Some(id),
                    bytes: rest.to_vec(),
                    line: line_number,
                };
                unfinished.insert(id, (length, message));
            }
            2 => {
                if let Some((length, message)) = unfinished.get_mut(&id) {
                    message.bytes.extend_from_slice(rest);
                    if message.bytes.len() >= *length {
                        message.bytes.truncate(*length);
                        out.extend(unfinished.remove(&id).map(|(_, m)| m));
                    }
                }
            }
            _ => {}
        }
    }
    out
}

/// `(1700000000.1) can0 7E8#0443...` or `can0  7E8   [8]  04 43 ...`: identifier and data.
fn can_frame(line: &str) -> Option<(u32, Vec<u8>)> {
    let words: Vec<&str> = line.split_whitespace().collect();
    let id = |w: &str| {
        let good = (3..=8).contains(&w.len()) && w.bytes().all(|b| b.is_ascii_hexdigit());
        good.then(|| u32::from_str_radix(w, 16).ok())?
    };
    if let Some((name, data)) = words.iter().find_map(|w| w.split_once('#')) {
        return Some((id(name)?, hex(data)?));
    }
    let at = words
        .iter()
        .position(|w| w.starts_with('[') && w.ends_with(']'))?;
    let name = words.get(at.checked_sub(1)?)?;
    Some((id(name)?, hex(&words.get(at + 1..)?.concat())?))
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

/// A line of nothing but bytes, perhaps behind a word such as `Rx:`.
fn plain_bytes(line: &str) -> Option<Vec<u8>> {
    let line = match line.rsplit_once([':', '<', '>']) {
        Some((before, bytes)) if before.len() <= 12 => bytes,
        _ => line,
    };
    let words: Vec<&str> = line.split_whitespace().collect();
    (words.len() >= 2 && words.iter().all(|w| w.len() == 2)).then(|| hex(&words.concat()))?
}

fn take(file: &str, message: &Message, record: &mut ScanRecord) {
    let module = match message.id {
        // ISO 15765-4 gives the first two addresses to engine and gearbox.
        Some(0x7E8 | 0x18DA_F110) => Some("ECM".to_string()),
        Some(0x7E9 | 0x18DA_F118) => Some("TCM".to_string()),
        Some(id) => Some(format!("{id:X}")),
        None => None,
    };
    let mut add = |code: String, failure_type: Option<String>, status: Vec<CodeStatus>| {
        let known = record
            .codes
            .iter_mut()
            .find(|c| c.code == code && c.module == module && c.failure_type == failure_type);
        match known {
            Some(old) => {
                old.status.extend(status);
                old.status.sort();
                old.status.dedup();
            }
            None => record.codes.push(TroubleCode {
                code,
                failure_type,
                status,
                module: module.clone(),
                text: None,
                file: file.into(),
                line: message.line,
            }),
        }
    };
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
                add(code(pair[0], pair[1]), None, vec![status]);
            }
        }
        [0x59, 0x02, _, rest @ ..] => {
            for dtc in rest.chunks_exact(4).filter(|d| d[..3] != [0, 0, 0]) {
                add(
                    code(dtc[0], dtc[1]),
                    Some(format!("{:02X}", dtc[2])),
                    words::status_byte(dtc[3]),
                );
            }
        }
        [0x41, pid, a, rest @ ..] => {
            if let Some(item) = live(*pid, *a, rest.first().copied(), file, message.line) {
                record.live.push(item);
            }
        }
        [0x49, 0x02, _, vin @ ..] => {
            let text: String = vin
                .iter()
                .filter(|b| b.is_ascii_alphanumeric())
                .map(|b| char::from(*b))
                .collect();
            if text.len() == 17 && record.vin.is_none() {
                record.vin = Some((text, message.line));
            }
        }
        _ => {}
    }
}

/// Mode 01 values (SAE J1979): rpm (256A+B)/4, km/h A, degrees Celsius A-40, volts (256A+B)/1000.
fn live(pid: u8, a: u8, b: Option<u8>, file: &str, line: usize) -> Option<LiveItem> {
    let word = || b.map(|b| f64::from(a) * 256.0 + f64::from(b));
    let (name, quantity, value, unit) = match pid {
        0x0C => (
            "engine speed",
            LiveQuantity::EngineSpeed,
            word()? / 4.0,
            "rpm",
        ),
        0x0D => (
            "vehicle speed",
            LiveQuantity::VehicleSpeed,
            f64::from(a),
            "km/h",
        ),
        0x05 => (
            "coolant temperature",
            LiveQuantity::CoolantTemperature,
            f64::from(a) - 40.0,
            "°C",
        ),
        0x42 => (
            "module voltage",
            LiveQuantity::ModuleVoltage,
            word()? / 1000.0,
            "V",
        ),
        _ => return None,
    };
    Some(LiveItem {
        name: name.into(),
        quantity: Some(quantity),
        text: format!("{value} {unit}"),
        value: Some(value),
        unit: Some(unit.into()),
        file: file.into(),
        line,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn record(text: &str) -> ScanRecord {
        let lines: Vec<&str> = text.lines().collect();
        let mut record = ScanRecord::default();
        read("log", &lines, &mut record);
        record
    }

    fn codes(text: &str) -> Vec<String> {
        record(text)
            .codes
            .into_iter()
            .map(|c| format!("{} {:?} {:?}", c.code, c.failure_type, c.status))
            .collect()
    }

    /// Two-byte encoding of SAE J2012 / ISO 15031-6 (from memory; the rows computed).
    #[test]
    fn two_byte_codes() {
        for (high, low, want) in [
            (0x01, 0x43, "P0143"),
            (0x07, 0x15, "P0715"),
            (0x05, 0x62, "P0562"),
            (0x09, 0x02, "P0902"),
            (0x27, 0x87, "P2787"),
            (0x28, 0x72, "P2872"),
            (0x40, 0x35, "C0035"),
            (0x95, 0x62, "B1562"),
            (0xC1, 0x01, "U0101"),
            (0xE1, 0x00, "U2100"),
        ] {
            assert_eq!(code(high, low), want);
        }
    }

    #[test]
    fn services_with_codes() {
        assert_eq!(
            codes("43 02 09 02 08 0A"),
            ["P0902 None [Confirmed]", "P080A None [Confirmed]"]
        );
        assert_eq!(
            codes("Rx: 43 01 43 00 00 00 00"),
            ["P0143 None [Confirmed]"]
        );
        assert_eq!(
            codes("47 01 07 00\n4A 01 07 00"),
            ["P0700 None [Pending, Permanent]"]
        );
        assert_eq!(
            codes("59 02 FF 09 02 13 2F"),
            ["P0902 Some(\"13\") [Active, Pending, Confirmed]"]
        );
        assert!(codes("4A 00\n43 00").is_empty());
    }

    #[test]
    fn frames_of_a_can_log() {
        let log = "(1700000000.12) can0 7E9#100B5902FF090213\n(1700000000.12) can0 7E1#30000000\n\
                   (1700000000.13) can0 7E9#212F080A5428AAAA\n  can0  7E8   [8]  04 43 01 07 00 00 00 00\n";
        let r = record(log);
        let got: Vec<_> = r
            .codes
            .iter()
            .map(|c| (c.code.as_str(), c.module.as_deref()))
            .collect();
        assert_eq!(
            got,
            [
                ("P0902", Some("TCM")),
                ("P080A", Some("TCM")),
                ("P0700", Some("ECM"))
            ]
        );
    }

    /// Formulas and worked values of mode 01 as in the CC0 set OBDex, commit cf008f4252.
    #[test]
    fn live_values() {
        let value = |text: &str| record(text).live.first().and_then(|i| i.value);
        for (bytes, want) in [
            ("41 0C 1A F8", 1726.0),
            ("41 0C 0B B8", 750.0),
            ("41 0D 32", 50.0),
            ("41 05 7B", 83.0),
            ("41 42 37 2B", 14.123),
            ("41 42 30 39", 12.345),
        ] {
            assert_eq!(value(bytes), Some(want), "{bytes}");
        }
        assert_eq!(value("41 04 80"), None);
    }

    #[test]
    fn lines_that_are_no_bytes() {
        for line in [
            "P0902 13",
            "12:30:59",
            "43",
            "4G 02",
            "can0 7E8#4",
            "[8]",
            "#",
            "7E8#",
        ] {
            assert!(codes(line).is_empty(), "{line}");
        }
    }
}
