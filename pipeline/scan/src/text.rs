//! The reader of scan texts.

use crate::parse::{parse, split_lines};
use crate::table::Table;
use crate::words::{self, WORDS};
use formats::words::fold;
use formats::{ErrorKind, FormatError, FormatReader, Probe, Reading, Source};
use model::Problem;

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
        let head = without_numbers(&head);
        let record = parse(source.name, &head);
        if !record.codes.is_empty() {
            return Probe::new(0.9, format!("{} trouble code(s)", record.codes.len()));
        }
        let known = record.live.iter().filter(|i| i.quantity.is_some()).count();
        let talk = head
            .lines()
            .take(40)
            .any(|l| words::heading(l).is_some() || Table::heading(l).is_some());
        let of_memory = fold(&head[..head.floor_char_boundary(2000)]);
        let names_memory = WORDS.memory.occurs_in(&of_memory);
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
