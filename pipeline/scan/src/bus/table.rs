//! A table with a row a frame: time, identifier, length and data in columns of any order.

use crate::frame::{Frame, hex};
use crate::words::{BusWords, WORDS};
use formats::number::{self, Cell, NumberStyle};
use formats::words::{WordList, fold, is_time_name};
use formats::{clock, units};
use model::TimeSource;
use model::scan::BusLog;

/// Lines before the heading that are looked at.
const MOST_LINES_ABOVE: usize = 40;
/// Rows of frames that must follow the heading.
const LEAST_ROWS: usize = 2;

/// A heading row that has been understood.
#[derive(Debug, Clone)]
pub(super) struct Table {
    delimiter: char,
    /// Line of the heading, from 1.
    pub heading: usize,
    time: Option<usize>,
    /// Seconds per unit of the time, where the heading states it.
    unit_s: Option<f64>,
    identifier: usize,
    length: Option<usize>,
    extended: Option<usize>,
    interface: Option<usize>,
    data: Data,
    /// Base of the identifiers and of the data.
    id_radix: u32,
    data_radix: u32,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Data {
    /// All bytes in this column.
    One(usize),
    /// A byte a column, from this one to before that.
    Each(usize, usize),
}

fn cells(line: &str, delimiter: char) -> Vec<&str> {
    match delimiter {
        ' ' => line.split_whitespace().collect(),
        d => line.split(d).map(unquoted).collect(),
    }
}

fn unquoted(cell: &str) -> &str {
    cell.trim().trim_matches('"').trim()
}

impl Table {
    /// Finds the heading of a table of frames in the beginning of a text.
    pub fn find(head: &str) -> Option<Table> {
        let lines: Vec<&str> = head.lines().collect();
        let mut table = (0..lines.len().min(MOST_LINES_ABOVE)).find_map(|at| {
            [',', ';', '\t', '|', ' ']
                .into_iter()
                .find_map(|d| Table::heading(lines[at], d, at + 1))
        })?;
        let rows: Vec<Vec<&str>> = lines[table.heading..]
            .iter()
            .filter(|l| !l.trim().is_empty())
            .take(200)
            .map(|l| cells(l, table.delimiter))
            .collect();
        table.id_radix = table.radix_of_identifiers(&rows);
        table.data_radix = table.radix_of_data(&rows);
        let frames = rows
            .iter()
            .filter(|r| table.read_cells(r).is_some())
            .count();
        // The last line of the beginning may be a piece of one.
        (frames >= LEAST_ROWS && frames * 4 >= (rows.len() - 1) * 3).then_some(table)
    }

    fn heading(line: &str, delimiter: char, number: usize) -> Option<Table> {
        let names: Vec<(String, Option<String>)> = cells(line, delimiter)
            .into_iter()
            .map(|c| {
                let (name, unit) = units::split(c);
                (fold(&name), unit)
            })
            .collect();
        let BusWords {
            identifier,
            length,
            data,
            data_byte,
            extended,
            interface,
        } = &WORDS.bus;
        let at = |list: &WordList| names.iter().position(|(n, _)| list.contains(n));
        let identifier = at(identifier)?;
        let time = names.iter().position(|(n, _)| is_time_name(n));
        let one = at(data).filter(|d| *d != identifier);
        let numbered = |name: &str| {
            let stem = name.trim_end_matches(|c: char| c.is_ascii_digit());
            stem.len() < name.len() && data_byte.contains(stem.trim_end_matches([' ', '[', '(']))
        };
        let first = names
            .iter()
            .position(|(n, _)| numbered(n.trim_end_matches([']', ')'])));
        let each = first.map(|from| {
            let behind = names[from..]
                .iter()
                .take_while(|(n, _)| numbered(n.trim_end_matches([']', ')'])));
            Data::Each(from, from + behind.count())
        });
        let length = at(length).filter(|l| *l != identifier);
        // One column of data may be called "bytes" beside a length.
        let data = match (each, one, length) {
            (Some(each), _, _) => each,
            (None, Some(one), _) => Data::One(one),
            (None, None, _) => return None,
        };
        // Without a time or a length it may be a table of anything.
        if time.is_none() && length.is_none() {
            return None;
        }
        Some(Table {
            delimiter,
            heading: number,
            time,
            unit_s: time.and_then(|t| names[t].1.as_deref().and_then(units::seconds)),
            identifier,
            length,
            extended: at(extended),
            interface: at(interface),
            data,
            id_radix: 16,
            data_radix: 16,
        })
    }

    /// Identifiers are hexadecimal unless four digits of none but decimal ones say otherwise: 11 bits have three
    /// hexadecimal digits, 29 have eight.
    fn radix_of_identifiers(&self, rows: &[Vec<&str>]) -> u32 {
        let ids = || rows.iter().filter_map(|r| r.get(self.identifier).copied());
        let decimal = ids().all(|id| id.bytes().all(|b| b.is_ascii_digit()));
        let four = ids().any(|id| id.len() == 4 && id.parse::<u32>().is_ok_and(|n| n <= 0x7FF));
        if decimal && four { 10 } else { 16 }
    }

    /// Bytes of one or three digits, all decimal, are decimal ones.
    fn radix_of_data(&self, rows: &[Vec<&str>]) -> u32 {
        let Data::Each(from, to) = self.data else {
            return 16;
        };
        let bytes = || {
            rows.iter()
                .flat_map(|r| r.iter().take(to).skip(from))
                .filter(|c| !c.is_empty())
        };
        let decimal = bytes().all(|b| b.parse::<u8>().is_ok());
        let unlike_hex = bytes().any(|b| b.len() != 2);
        if decimal && unlike_hex { 10 } else { 16 }
    }

    /// The frame of a row.
    pub fn frame<'l>(&self, line: &'l str) -> Option<Frame<'l>> {
        self.read_cells(&cells(line, self.delimiter))
    }

    fn read_cells<'l>(&self, cells: &[&'l str]) -> Option<Frame<'l>> {
        let name = cells.get(self.identifier)?;
        let bare = name
            .strip_prefix("0x")
            .or_else(|| name.strip_prefix("0X"))
            .unwrap_or(name);
        let bare = bare.trim_end_matches(['h', 'H', 'x', 'X']);
        if bare.is_empty() || bare.len() > 8 {
            return None;
        }
        let id = u32::from_str_radix(bare, self.id_radix).ok()?;
        let extended = match self.extended.and_then(|e| cells.get(e)) {
            Some(mark) => matches!(
                fold(mark).as_str(),
                "1" | "true" | "yes" | "x" | "ext" | "extended" | "eff" | "29" | "29 bit"
            ),
            None => id > 0x7FF || self.id_radix == 16 && bare.len() == 8,
        };
        if id > if extended { 0x1FFF_FFFF } else { 0x7FF } {
            return None;
        }
        let length = self
            .length
            .and_then(|l| cells.get(l)?.parse::<usize>().ok());
        let byte = |cell: &&str| {
            let cell = cell.strip_prefix("0x").unwrap_or(cell);
            u8::from_str_radix(cell, self.data_radix).ok()
        };
        let mut data: Vec<u8> = match self.data {
            Data::Each(from, to) => cells
                .get(from..to.min(cells.len()))?
                .iter()
                .take_while(|c| !c.is_empty())
                .map(byte)
                .collect::<Option<_>>()?,
            // Bytes parted by spaces fill the cells that follow.
            Data::One(at) if self.delimiter == ' ' => cells
                .get(at..)?
                .iter()
                .map_while(byte)
                .take(length.unwrap_or(8))
                .collect(),
            Data::One(at) => {
                let cell: String = cells
                    .get(at)?
                    .replace("0x", "")
                    .chars()
                    .filter(|c| !matches!(c, ' ' | '-' | ':' | '.' | ','))
                    .collect();
                if cell.is_empty() {
                    Vec::new()
                } else {
                    hex(&cell)?
                }
            }
        };
        match length {
            Some(n) if n > data.len() && !data.is_empty() => return None,
            Some(n) => data.truncate(n),
            None => {}
        }
        let time = self.time.and_then(|t| cells.get(t)).map(|cell| {
            let comma = self.delimiter != ',' && cell.contains(',') && !cell.contains('.');
            let style = if comma {
                NumberStyle::COMMA
            } else {
                NumberStyle::POINT
            };
            match number::cell(cell.as_bytes(), style) {
                Cell::Number(n) => Some(n.value * self.unit_s.unwrap_or(1.0)),
                _ => clock::parse(cell).map(|s| s.seconds),
            }
        });
        // A row whose time cannot be read is no frame.
        let time_s = match time {
            Some(time) => Some(time?),
            None => None,
        };
        Some(Frame {
            time_s,
            interface: self
                .interface
                .and_then(|i| cells.get(i).copied())
                .unwrap_or(""),
            id,
            extended,
            data,
            marked: true,
        })
    }

    /// Settles the unit of a time that the heading does not state; gives words on it for the file's line and a message.
    ///
    /// Fractions are seconds. For whole numbers the repetition of the frames tells: cyclic frames of a vehicle come every 5 ms
    /// to 5 s (common practice, no source), and each of seconds, milliseconds and microseconds has its own such range.
    pub fn settle_time(&self, log: &mut BusLog) -> (String, Option<String>) {
        log.time_source = TimeSource::File;
        if self.time.is_none() || self.unit_s.is_some() {
            return (String::new(), None);
        }
        let whole = log.frames.iter().all(|f| f.time_s.fract() == 0.0);
        if !whole {
            log.time_source = TimeSource::Assumed;
            return (" (time without unit, taken as seconds)".into(), None);
        }
        let range = 0.005..5.0;
        let repetition = repetition(log);
        let fits = |per_second: &&(f64, &str)| {
            repetition.is_some_and(|r| range.contains(&(r / per_second.0)))
        };
        let units = [
            (1.0, "seconds"),
            (1e3, "milliseconds"),
            (1e6, "microseconds"),
        ];
        match units.iter().find(fits) {
            Some((per_second, name)) => {
                log.divide_time(*per_second, TimeSource::Assumed);
                log.assumed_per_second = *per_second;
                let how = format!(
                    " (time without unit, taken as {name} by the repetition of the frames)"
                );
                (how, None)
            }
            None => {
                log.time_source = TimeSource::Unknown;
                let message = "the time has no unit, and its whole numbers may be milliseconds or microseconds. Write its unit \
                               into the heading of the table, time [us], or into job.toml, in the [[capture]] of this file: \
                               time_unit = \"us\"";
                (" (unit of the time not known)".into(), Some(message.into()))
            }
        }
    }
}

/// Usual time between two frames of one identifier, of the identifier that comes most often.
fn repetition(log: &BusLog) -> Option<f64> {
    let mut count = std::collections::BTreeMap::new();
    for frame in &log.frames {
        *count.entry(frame.id).or_insert(0usize) += 1;
    }
    let (id, _) = count.into_iter().max_by_key(|(_, n)| *n)?;
    let times: Vec<f64> = log
        .frames
        .iter()
        .filter(|f| f.id == id)
        .map(|f| f.time_s)
        .collect();
    let mut steps: Vec<f64> = times
        .windows(2)
        .map(|w| w[1] - w[0])
        .filter(|d| *d > 0.0)
        .collect();
    steps.sort_by(f64::total_cmp);
    steps.get(steps.len() / 2).copied()
}
