//! Layout of a table: delimiter, decimal sign, quotes, metadata, header, units, first row.

use super::cells::{Line, cells, lines};
use super::metadata::Metadata;
use super::score::{Table, cell_score};
use crate::clock;
use crate::number::{self, NumberStyle};
use crate::units;
use chrono::NaiveDate;

/// The layout of a table, found from its beginning.
#[derive(Debug)]
pub(crate) struct Layout {
    /// The character between two cells.
    pub delimiter: u8,
    /// Notation of numbers.
    pub style: NumberStyle,
    /// Line of the first row of numbers, from 1.
    pub first_line: usize,
    /// Bytes of decoded text before the first row of numbers.
    pub skip: usize,
    /// True where lines end with a bare carriage return.
    pub bare_cr: bool,
    /// The columns.
    pub columns: Vec<Column>,
    /// True where rows end with a delimiter.
    pub trailing: bool,
    /// Rows of numbers among the lines looked at.
    pub rows_seen: usize,
    /// Facts from the lines above the header.
    pub metadata: Metadata,
    /// True where the file has names for the columns.
    pub named: bool,
}

/// One column of the table.
#[derive(Debug, Clone)]
pub(crate) struct Column {
    /// Name without unit.
    pub name: String,
    /// Unit.
    pub unit: Option<String>,
    /// True where it holds numbers (or clock times).
    pub numeric: bool,
    /// True where it holds settings beside the table, or nothing, and no samples.
    pub side: bool,
    /// True where it holds clock times.
    pub clock: bool,
    /// True where every value looked at is greater than the one before.
    pub rising: bool,
    /// True where a step between the values looked at is a fraction of one.
    pub fractional: bool,
    /// True where it rises by one each time, like a sample's number.
    pub counts: bool,
    /// True where it holds levels in words.
    pub levels: bool,
    /// The day in its first row, where it holds dates.
    pub day: Option<NaiveDate>,
}

/// Lines of the head that are looked at.
const MOST_LINES: usize = 300;

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

/// Spreadsheets write `sep=;` as the first line.
fn declared_delimiter(line: &str) -> Option<u8> {
    match line.trim().to_lowercase().strip_prefix("sep=")?.as_bytes() {
        [d] => Some(*d),
        _ => None,
    }
}

impl Table {
    /// True where numbers with a decimal comma are cut in two: commas everywhere, and a header of half as many cells.
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

    /// True where a line of the table's own width is a metadata line all the same: `Samples;22500`.
    fn is_metadata(&self, i: usize, line: &str) -> bool {
        let value_is_number = || {
            self.rows[i]
                .get(1)
                .is_some_and(|v| cell_score(v, false, self.style) == 1)
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
        // The first row may have cells more, which name the recorder, and the header names for them.
        let names_more = |row: &[String]| {
            row.len() > self.columns && self.rows.get(first).is_some_and(|r| r.len() == row.len())
        };
        let mut above: Vec<usize> = (0..first)
            .filter(|i| self.rows[*i].iter().any(|c| !c.is_empty()))
            .collect();
        // Between the names and the numbers, or above the names.
        let units_in = |above: &mut Vec<usize>| {
            let i = *above.last()?;
            let cells = &self.rows[i][..self.columns.min(self.rows[i].len())];
            let has_names = above.len() > 1 && same_width(&self.rows[above[above.len() - 2]]);
            // Beside units some write a word for what has none; it repeats, and a name does not.
            let repeats =
                |c: &String| has_names && cells.iter().filter(|other| *other == c).count() > 1;
            let fits = same_width(&self.rows[i])
                && (cells.iter())
                    .all(|c| c.is_empty() || units::unit_cell(c).is_some() || repeats(c))
                && cells.iter().any(|c| units::unit_cell(c).is_some());
            fits.then(|| {
                above.pop();
                self.rows[i].clone()
            })
        };
        let mut units = units_in(&mut above);
        let mut names = None;
        if let Some(&i) = above.last()
            && (same_width(&self.rows[i]) || names_more(&self.rows[i]))
            && !self.is_metadata(i, lines[i].text)
        {
            let mut row = self.rows[i].clone();
            if let Some(cell) = row.first_mut() {
                *cell = cell.trim_start_matches(['#', '%']).trim().to_string();
            }
            names = Some(row);
            above.pop();
            units = units.or_else(|| units_in(&mut above));
        }
        let beside: Vec<String> = self.rows[first..]
            .iter()
            .filter_map(|row| row.get(..self.side))
            .map(|cells| cells.join(&char::from(self.delimiter).to_string()))
            .collect();
        let metadata = Metadata::read(
            above
                .iter()
                .map(|i| lines[*i].text)
                .chain(beside.iter().map(String::as_str)),
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
                    side: c < self.side,
                    clock: self.numeric[c] && self.is_clock(c),
                    rising: self.steps(c).is_some_and(|mut s| s.all(|d| d > 0.0)),
                    fractional: self
                        .steps(c)
                        .is_some_and(|mut s| s.any(|d| d.abs() < 1.0 && d != 0.0)),
                    counts: self.steps(c).is_some_and(|mut s| s.all(|d| d == 1.0)),
                    levels: self.levels[c],
                    day: body()
                        .next()
                        .filter(|_| !self.numeric[c])
                        .and_then(|v| clock::date(&v)),
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
