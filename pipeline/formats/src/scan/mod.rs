//! Scan-tool text: codes, live data and the vehicle, in free layouts and five languages.

pub(crate) mod codes;
mod found;
mod live;
mod live_names;
mod over_time;
mod phrases;
mod raw;
mod record;
mod sections;
mod table;
#[cfg(test)]
mod tests;
mod vehicle;
pub(crate) mod words;

use crate::{ErrorKind, FormatError, FormatReader, Probe, Reading, Source};
use model::{LiveItem, Problem, ScanRecord};
use record::Collector;

/// Longest scan text that is read, bytes.
const LONGEST_TEXT: usize = 4 << 20;

/// Reads what a scan tool wrote as text: tables, `key: value`, sentences, sections by module.
pub struct ScanReader;

impl FormatReader for ScanReader {
    fn name(&self) -> &'static str {
        "scan text"
    }

    fn probe(&self, source: &Source) -> Probe {
        let Some(text) = source.text() else {
            return Probe::new(0.0, "not text");
        };
        let (head, _) = text.head(1 << 16);
        if raw::is_can_log(&head) {
            return Probe::new(0.97, "frames of a CAN log");
        }
        let head = without_numbers(&head);
        let record = parse(source.name, &head);
        if !record.codes.is_empty() {
            return Probe::new(0.9, format!("{} trouble code(s)", record.codes.len()));
        }
        let known = record.live.iter().filter(|i| i.quantity.is_some()).count();
        let talk = head
            .lines()
            .take(40)
            .any(|l| words::heading(l).is_some() || table::Table::heading(l).is_some());
        let of_memory = words::fold(&head[..head.floor_char_boundary(2000)]);
        let names_memory = MEMORY_WORDS.iter().any(|w| of_memory.contains(w));
        let signs = usize::from(record.vin.is_some())
            + usize::from(known > 0)
            + usize::from(talk)
            + usize::from(names_memory);
        match signs {
            0 => Probe::new(0.0, "no trouble code, vehicle number or live data"),
            1 => Probe::new(0.3, "something of a scan tool's text"),
            _ => Probe::new(0.7, "a scan tool's text without codes"),
        }
    }

    fn read(&self, source: &Source) -> Result<Reading, FormatError> {
        let text = source.text().ok_or_else(|| {
            FormatError::new(
                ErrorKind::Unknown,
                source.name,
                None,
                "this is not text",
                "save the readout as text",
            )
        })?;
        let (body, whole) = text.head(LONGEST_TEXT);
        let mut record = parse(source.name, &body);
        record.read_as = format!("scan text, {}", text.charset.name());
        if raw::is_can_log(&body) {
            record.read_as = format!("CAN log, {}", text.charset.name());
            if record.codes.is_empty() && record.live.is_empty() && record.vin.is_none() {
                record.problems.push(Problem {
                    file: source.name.into(),
                    place: None,
                    message: "no frame is an answer of SAE J1979 or ISO 14229-1 service 19; log while the scan tool \
                              reads the codes"
                        .into(),
                });
            }
        }
        if !whole {
            record.problems.push(Problem {
                file: source.name.into(),
                place: None,
                message: "the text is longer than 4 MiB; only its first 4 MiB were read. Save the readout alone".into(),
            });
        }
        Ok(Reading::Scan(record))
    }
}

/// The text without lines that are nothing but numbers, beyond its beginning: a recording has thousands of
/// them and they say nothing here.
fn without_numbers(text: &str) -> String {
    let speaks = |l: &str| {
        l.chars()
            .any(|c| c.is_alphabetic() && !matches!(c, 'e' | 'E'))
    };
    let lines = split_lines(text)
        .into_iter()
        .enumerate()
        .filter(|(i, l)| *i < 64 || speaks(l));
    lines.map(|(_, l)| l).collect::<Vec<_>>().join("\n")
}

/// Folded words that a readout of a fault memory has somewhere near its beginning.
const MEMORY_WORDS: &[&str] = &[
    "fault memory",
    "fehlerspeicher",
    "memoria de averias",
    "memoire des defauts",
    "memoire defauts",
    "memoria guasti",
    "memoria errori",
    "trouble code",
    "diagnostic",
    "scan record",
    "scan report",
    "readout",
    "dtc",
    "codigos de averia",
    "codes defaut",
    "fault code",
];

/// Longest line that is looked at, bytes; what stands behind it in the same line is left out.
const LONGEST_LINE: usize = 8192;
/// Most codes of one text, and most places where codes stand: no vehicle has as many.
pub(crate) const MOST_CODES: usize = 1000;
const MOST_MENTIONS: usize = 10_000;

/// Reads a scan text that is already in memory. Never fails: what is not understood is left out.
pub fn parse(file: &str, text: &str) -> ScanRecord {
    let mut lines: Vec<&str> = split_lines(text);
    let long = lines.iter().position(|l| l.len() > LONGEST_LINE);
    for line in &mut lines {
        *line = &line[..line.floor_char_boundary(LONGEST_LINE)];
    }
    let mut record = ScanRecord {
        file: file.into(),
        read_as: "scan text".into(),
        ..ScanRecord::default()
    };
    let mut collector = Collector::new(file, &lines);
    let read = (0..lines.len()).find(|i| !collector.line(*i));
    let (codes, live_lines, problems) = collector.finish();
    record.codes = codes;
    record.problems = problems;
    let mut say = |line: usize, message: &str| {
        record.problems.push(Problem {
            file: file.into(),
            place: Some(format!("line {}", line + 1)),
            message: message.into(),
        })
    };
    if let Some(line) = long {
        say(
            line,
            "a line is longer than 8 KiB; what stands behind that was not looked at",
        );
    }
    if let Some(line) = read {
        say(
            line,
            "more trouble codes than a vehicle has; no more were looked for from here on",
        );
    }
    let in_table = over_time::read(file, &lines, &mut record);
    for i in live_lines.into_iter().filter(|i| !in_table[*i]) {
        for item in live::items(lines[i]) {
            record.live.push(LiveItem {
                name: item.name,
                quantity: item.quantity,
                text: item.text,
                value: item.value,
                unit: item.unit,
                file: file.into(),
                line: i + 1,
            });
        }
    }
    raw::read(file, &lines, &mut record);
    read_vehicle(file, &lines, &mut record);
    record
}

/// Lines at CR, LF or CRLF.
fn split_lines(text: &str) -> Vec<&str> {
    if text.contains('\n') {
        text.lines().map(|l| l.trim_end_matches('\r')).collect()
    } else {
        text.split('\r').collect()
    }
}

fn read_vehicle(file: &str, lines: &[&str], record: &mut ScanRecord) {
    let mut labelled = false;
    let mut doubt = None;
    let mut odometer_labelled = false;
    for (i, line) in lines.iter().enumerate() {
        if let Some(vin) = vehicle::vin(line)
            && (record.vin.is_none() || vin.labelled && !labelled)
        {
            labelled = vin.labelled;
            doubt = vin.doubt.map(|message| Problem {
                file: file.into(),
                place: Some(format!("line {}", i + 1)),
                message,
            });
            record.vin = Some((vin.text, i + 1));
        }
        if let Some((km, named)) = vehicle::odometer(line)
            && (record.odometer_km.is_none() || named && !odometer_labelled)
        {
            odometer_labelled = named;
            record.odometer_km = Some(km);
        }
        record.date = record.date.or_else(|| vehicle::day(line));
    }
    record.problems.extend(doubt);
}
