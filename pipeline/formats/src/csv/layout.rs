//! How a table is laid out: delimiter, decimal sign, quotes, metadata, header, units, first row.

use super::judge::{Table, worth};
use super::metadata::Metadata;
use super::stamp;
use crate::number::{self, NumberStyle};
use crate::units;
use chrono::NaiveDate;

/// The layout of a table, found from its beginning.
#[derive(Debug)]
pub(crate) struct Layout {
    /// The character between two cells.
    pub delimiter: u8,
    /// How numbers are written.
    pub style: NumberStyle,
    /// Line of the first row of numbers, from 1.
    pub first_line: usize,
    /// Bytes of decoded text before the first row of numbers.
    pub skip: usize,
    /// Whether lines end with a bare carriage return.
    pub bare_cr: bool,
    /// The columns.
    pub columns: Vec<Column>,
    /// Whether rows end with a delimiter.
    pub trailing: bool,
    /// Rows of numbers among the lines looked at.
    pub rows_seen: usize,
    /// What the lines above the header say.
    pub metadata: Metadata,
    /// Whether the file has names for the columns.
    pub named: bool,
}

/// One column of the table.
#[derive(Debug, Clone)]
pub(crate) struct Column {
    /// Name without unit.
    pub name: String,
    /// Unit.
    pub unit: Option<String>,
    /// Whether it holds numbers (or clock times).
    pub numeric: bool,
    /// Whether every value looked at is greater than the one before.
    pub rising: bool,
    /// Whether it also rises by one each time, like a sample's number.
    pub counts: bool,
    /// Whether it holds levels in words.
    pub levels: bool,
    /// The day in its first row, where it holds dates.
    pub day: Option<NaiveDate>,
}

/// Lines of the head that are looked at.
const MOST_LINES: usize = 300;

/// One line of the head.
pub(super) struct Line<'a> {
    pub text: &'a str,
    /// Where it begins, bytes of decoded text.
    pub start: usize,
}

impl Layout {
    /// Finds the layout; the error says why there is none. `whole` tells whether the head is all.
    pub fn find(head: &str, whole: bool) -> Result<Layout, String> {
        let mut lines = lines(head);
        if !whole {
            lines.pop();
        }
        lines.truncate(MOST_LINES);
        if lines.iter().all(|l| l.text.trim().is_empty()) {
            return Err("no complete line in its first part".into());
        }
        let declared = lines.first().and_then(|l| declared_delimiter(l.text));
        let mut best: Option<(f64, Table)> = None;
        for delimiter in [b';', b'\t', b',', b'|'] {
            if declared.is_some_and(|d| d != delimiter) {
                continue;
            }
            let Some(table) = Table::with(delimiter, &lines) else {
                continue;
            };
            if best.as_ref().is_none_or(|(score, _)| table.score > *score) {
                best = Some((table.score, table));
            }
        }
        // Columns aligned with spaces are the last resort: every text has spaces.
        let aligned = || Table::with(b' ', &lines).filter(|t| t.columns > 1);
        let table = best
            .map(|(_, t)| t)
            .or_else(aligned)
            .ok_or("no rows of numbers")?;
        if table.halves_of_numbers(&lines) {
            return Err("the comma parts the cells and is the decimal sign as well; export it with semicolons or with \
                        a decimal point"
                .into());
        }
        table.layout(&lines, head)
    }
}

/// Splits at CR, LF and CRLF.
fn lines(text: &str) -> Vec<Line<'_>> {
    let bytes = text.as_bytes();
    let (mut out, mut start, mut i) = (Vec::new(), 0, 0);
    while i < bytes.len() {
        let step = match bytes[i] {
            b'\r' if bytes.get(i + 1) == Some(&b'\n') => 2,
            b'\r' | b'\n' => 1,
            _ => {
                i += 1;
                continue;
            }
        };
        out.push(Line {
            text: &text[start..i],
            start,
        });
        i += step;
        start = i;
    }
    if start < text.len() {
        out.push(Line {
            text: &text[start..],
            start,
        });
    }
    out
}

/// Spreadsheets write `sep=;` as the first line.
fn declared_delimiter(line: &str) -> Option<u8> {
    match line.trim().to_lowercase().strip_prefix("sep=")?.as_bytes() {
        [d] => Some(*d),
        _ => None,
    }
}

/// The cells of one line.
pub(crate) fn cells(line: &str, delimiter: u8) -> Vec<String> {
    if delimiter == b' ' {
        // Names may have single spaces inside; columns of names are parted by wider gaps.
        let wide: Vec<&str> = line
            .split("  ")
            .map(str::trim)
            .filter(|c| !c.is_empty())
            .collect();
        let speaks = line.contains(char::is_alphabetic) && wide.len() > 1;
        let cells = if speaks {
            wide
        } else {
            line.split_whitespace().collect()
        };
        return cells.into_iter().map(String::from).collect();
    }
    if !line.contains('"') {
        return line
            .split(char::from(delimiter))
            .map(|c| c.trim().to_string())
            .collect();
    }
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(delimiter)
        .has_headers(false)
        .flexible(true)
        .buffer_capacity(line.len().clamp(1, 1 << 16))
        .from_reader(line.as_bytes());
    let mut record = csv::ByteRecord::new();
    match reader.read_byte_record(&mut record) {
        Ok(true) => record
            .iter()
            .map(|c| String::from_utf8_lossy(c).trim().to_string())
            .collect(),
        _ => Vec::new(),
    }
}

impl Table {
    /// Whether numbers with a decimal comma are cut in two: commas everywhere, and a header of half as many cells.
    fn halves_of_numbers(&self, lines: &[Line]) -> bool {
        let above = lines[..self.first]
            .iter()
            .rfind(|l| !l.text.trim().is_empty());
        let names = above.map(|l| cells(l.text, self.delimiter));
        self.delimiter == b','
            && self.columns >= 4
            && names.is_some_and(|n| {
                n.len() * 2 == self.columns
                    && n.iter()
                        .all(|c| c.contains(char::is_alphabetic) && !c.contains(':'))
            })
    }

    /// Whether a line of the table's own width is a metadata line all the same: `Samples;22500`.
    fn is_metadata(&self, i: usize, line: &str) -> bool {
        let value_is_number = || {
            self.rows[i]
                .get(1)
                .is_some_and(|v| worth(v, false, self.style) == 1)
        };
        self.columns <= 2
            && Metadata::is_entry(line, self.delimiter)
            && (self.columns == 1 || value_is_number())
    }

    fn layout(self, lines: &[Line], head: &str) -> Result<Layout, String> {
        let first = self.first;
        let same_width = |row: &[String]| {
            let filled =
                row.len() - usize::from(row.len() > 1 && row.last().is_some_and(|c| c.is_empty()));
            filled == self.columns || row.len() == self.columns
        };
        let mut above: Vec<usize> = (0..first)
            .filter(|i| self.rows[*i].iter().any(|c| !c.is_empty()))
            .collect();
        let mut units = None;
        if let Some(&i) = above.last()
            && same_width(&self.rows[i])
            && self.rows[i]
                .iter()
                .take(self.columns)
                .all(|c| c.is_empty() || units::unit_cell(c).is_some())
            && self.rows[i].iter().any(|c| units::unit_cell(c).is_some())
        {
            units = Some(self.rows[i].clone());
            above.pop();
        }
        let mut names = None;
        if let Some(&i) = above.last()
            && same_width(&self.rows[i])
            && !self.is_metadata(i, lines[i].text)
        {
            let mut row = self.rows[i].clone();
            if let Some(cell) = row.first_mut() {
                *cell = cell.trim_start_matches(['#', '%']).trim().to_string();
            }
            names = Some(row);
            above.pop();
        }
        let metadata = Metadata::read(
            above.iter().map(|i| lines[*i].text),
            self.delimiter,
            self.style,
        );
        let columns = (0..self.columns)
            .map(|c| {
                let header = names
                    .as_ref()
                    .and_then(|n| n.get(c))
                    .map_or("", |n| n.as_str());
                let (name, unit) = units::split(header);
                let below = units
                    .as_ref()
                    .and_then(|u| u.get(c))
                    .and_then(|u| units::unit_cell(u));
                let cell = |row: &Vec<String>| row.get(c).cloned().unwrap_or_default();
                let body = || self.rows[first..].iter().map(cell);
                let behind =
                    || body().find_map(|v| Some(number::measured(&v, self.style)?.1.to_string()));
                Column {
                    name: if name.is_empty() {
                        format!("Column {}", c + 1)
                    } else {
                        name
                    },
                    unit: below.or(unit).or_else(behind),
                    numeric: self.numeric[c],
                    rising: self.steps(c).is_some_and(|mut s| s.all(|d| d > 0.0)),
                    counts: self.steps(c).is_some_and(|mut s| s.all(|d| d == 1.0)),
                    levels: self.levels[c],
                    day: body()
                        .next()
                        .filter(|_| !self.numeric[c])
                        .and_then(|v| stamp::date(&v)),
                }
            })
            .collect();
        Ok(Layout {
            delimiter: self.delimiter,
            style: self.style,
            first_line: first + 1,
            skip: lines[first].start,
            bare_cr: !head.contains('\n'),
            columns,
            trailing: self.trailing,
            rows_seen: self.data_rows,
            metadata,
            named: names.is_some(),
        })
    }
}
