//! How a table is laid out: delimiter, decimal sign, quotes, metadata, header, units, first row.

use super::metadata::Metadata;
use super::{MOST_COLUMNS, stamp};
use crate::number::{self, Cell, NumberStyle};
use crate::units;

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
    /// Whether lines end with a carriage return and a line feed.
    pub crlf: bool,
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
}

/// Lines of the head that are looked at.
const MOST_LINES: usize = 300;

struct Line<'a> {
    text: &'a str,
    start: usize,
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

/// Whether a cell can stand in a row of numbers: 1 for a number, 0 for a mark, -1 for text.
fn worth(cell: &str, style: NumberStyle) -> i8 {
    match number::cell(cell.as_bytes(), style) {
        Cell::Number(_) => 1,
        Cell::Missing | Cell::Over(_) => 0,
        Cell::Text if stamp::parse(cell).is_some() => 1,
        Cell::Text => -1,
    }
}

/// The lines cut at one delimiter, and how well they make a table.
struct Table {
    delimiter: u8,
    style: NumberStyle,
    rows: Vec<Vec<String>>,
    /// Index of the first row of numbers.
    first: usize,
    /// Number of columns, without an empty last one.
    columns: usize,
    trailing: bool,
    numeric: Vec<bool>,
    data_rows: usize,
    score: f64,
}

impl Table {
    fn with(delimiter: u8, lines: &[Line]) -> Option<Table> {
        let rows: Vec<Vec<String>> = lines.iter().map(|l| cells(l.text, delimiter)).collect();
        // Where both fit, the last of equals wins: the point.
        [NumberStyle::COMMA, NumberStyle::POINT]
            .into_iter()
            .filter_map(|style| Table::judge(delimiter, style, &rows))
            .max_by(|a, b| a.score.total_cmp(&b.score))
            .map(|t| Table { rows, ..t })
    }

    fn judge(delimiter: u8, style: NumberStyle, rows: &[Vec<String>]) -> Option<Table> {
        let marks: Vec<Vec<i8>> = rows
            .iter()
            .map(|r| r.iter().map(|c| worth(c, style)).collect())
            .collect();
        // The later half of the lines is taken to be rows; the usual width there is the table's.
        let filled: Vec<usize> = (0..rows.len())
            .filter(|i| rows[*i].iter().any(|c| !c.is_empty()))
            .collect();
        let later = &filled[filled.len() / 2..];
        let width = usual(later.iter().map(|i| rows[*i].len()))?;
        if width > MOST_COLUMNS {
            return None;
        }
        let body: Vec<usize> = later
            .iter()
            .copied()
            .filter(|i| rows[*i].len() == width)
            .collect();
        let trailing = width > 1 && body.iter().all(|i| rows[*i][width - 1].is_empty());
        let columns = if trailing { width - 1 } else { width };
        let numeric: Vec<bool> = (0..columns)
            .map(|c| {
                let sum = |sign: i8| body.iter().filter(|i| marks[**i][c] == sign).count();
                let (numbers, texts) = (sum(1), sum(-1));
                numbers > 0 && numbers >= 4 * texts || numbers == 0 && texts == 0
            })
            .collect();
        let is_data = |i: usize| {
            let mut cells = marks[i]
                .iter()
                .zip(&numeric)
                .filter(|(_, n)| **n)
                .map(|(m, _)| *m);
            marks[i].len() >= columns && cells.clone().all(|m| m >= 0) && cells.any(|m| m == 1)
        };
        let first =
            (0..filled.len()).find(|n| is_data(filled[*n]) && settled(&filled[*n..], &is_data))?;
        let (before, data) = filled.split_at(first);
        let first = *data.first()?;
        let data_rows = data.iter().filter(|i| is_data(**i)).count();
        let count = |sign: i8| {
            data.iter()
                .flat_map(|i| marks[*i].iter().take(columns))
                .filter(|m| **m == sign)
                .count() as f64
        };
        let (good, bad) = (count(1), count(-1));
        let code_list = (0..columns).filter(|c| !numeric[*c]).any(|c| {
            let codes = data.iter().filter(|i| is_code(rows[**i].get(c)));
            codes.count() * 2 > data.len()
        });
        if code_list {
            return None;
        }
        let texts = numeric.iter().filter(|n| !**n).count();
        if good <= bad || texts * 2 > columns || data_rows < 2 {
            return None;
        }
        // A number read with the wrong decimal sign passes as one with thousands marks now and then;
        // a header of the same width decides between two delimiters.
        let header = before.last().map(|i| &rows[*i]);
        let header_fits = header.is_some_and(|h| h.len() == width || h.len() == columns);
        let per_row = (good - 2.0 * bad) / data_rows as f64;
        let score =
            per_row * if header_fits { 1.5 } else { 1.0 } + doubt(rows, first, columns, style);
        Some(Table {
            delimiter,
            style,
            rows: Vec::new(),
            first,
            columns,
            trailing,
            numeric,
            data_rows,
            score,
        })
    }

    /// The differences between successive values of a column; `None` when there are too few.
    fn steps(&self, column: usize) -> Option<impl Iterator<Item = f64>> {
        let value = |cell: &String| match number::cell(cell.as_bytes(), self.style) {
            Cell::Number(d) => Some(d.value),
            _ => stamp::parse(cell).map(|s| s.seconds),
        };
        let values: Vec<f64> = self.rows[self.first..]
            .iter()
            .filter_map(|r| r.get(column))
            .filter_map(value)
            .collect();
        (values.len() >= 3).then(|| (1..values.len()).map(move |i| values[i] - values[i - 1]))
    }

    /// Whether a line of the table's own width is a metadata line all the same: `Samples;22500`.
    fn is_metadata(&self, i: usize, line: &str) -> bool {
        let value_is_number = || {
            self.rows[i]
                .get(1)
                .is_some_and(|v| worth(v, self.style) == 1)
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
                Column {
                    name: if name.is_empty() {
                        format!("Column {}", c + 1)
                    } else {
                        name
                    },
                    unit: below.or(unit),
                    numeric: self.numeric[c],
                    rising: self.steps(c).is_some_and(|mut s| s.all(|d| d > 0.0)),
                    counts: self.steps(c).is_some_and(|mut s| s.all(|d| d == 1.0)),
                }
            })
            .collect();
        Ok(Layout {
            delimiter: self.delimiter,
            style: self.style,
            first_line: first + 1,
            skip: lines[first].start,
            bare_cr: !head.contains('\n'),
            crlf: head.contains("\r\n"),
            columns,
            trailing: self.trailing,
            rows_seen: self.data_rows,
            metadata,
            named: names.is_some(),
        })
    }
}

/// Whether a cell is a trouble code: a table of those is a scan tool's.
fn is_code(cell: Option<&String>) -> bool {
    cell.is_some_and(|c| !crate::scan::codes::find(c, true).is_empty())
}

/// Whether these lines, from the first on, are rows of numbers up to a few odd ones.
fn settled(lines: &[usize], is_data: &dyn Fn(usize) -> bool) -> bool {
    let next = &lines[..lines.len().min(8)];
    next.iter().filter(|i| is_data(**i)).count() * 4 >= next.len() * 3
}

/// The most frequent value; the larger one where two are as frequent.
fn usual(values: impl Iterator<Item = usize>) -> Option<usize> {
    let mut count = std::collections::BTreeMap::new();
    for v in values {
        *count.entry(v).or_insert(0usize) += 1;
    }
    count
        .into_iter()
        .max_by_key(|(v, n)| (*n, *v))
        .map(|(v, _)| v)
}

/// How much speaks against a decimal sign. Real thousands marks come and go with the size of the value,
/// a decimal sign is there in every cell or is followed by more or fewer than three digits now and then.
fn doubt(rows: &[Vec<String>], first: usize, columns: usize, style: NumberStyle) -> f64 {
    let own = char::from(style.decimal);
    let other = if own == '.' { ',' } else { '.' };
    let mut against = 0.0;
    for c in 0..columns {
        let cells: Vec<&str> = rows[first..]
            .iter()
            .filter_map(|r| r.get(c))
            .filter(|v| worth(v, style) == 1)
            .map(|v| v.trim_start_matches(['-', '+']))
            .collect();
        let with = |sign: char| cells.iter().filter(|c| c.contains(sign)).count();
        let grouped = |sign: char| {
            cells
                .iter()
                .filter(|c| c.contains(sign))
                .all(|c| is_grouped(c, sign))
        };
        let always_thousands = with(other) > 0 && (with(other) == cells.len() || !grouped(other));
        let mostly_decimals =
            with(own) > 0 && with(own) < cells.len() && grouped(own) && with(other) == 0;
        if always_thousands || mostly_decimals {
            against -= 0.9;
        }
    }
    against
}

/// Whether the whole part of a number is parted by a sign into groups as thousands are: `12,345`.
fn is_grouped(cell: &str, sign: char) -> bool {
    let mut groups = cell.split(sign);
    let lead = groups.next().unwrap_or("");
    !lead.starts_with('0')
        && (1..=3).contains(&lead.len())
        && groups.all(|g| g.split(['.', ',']).next().is_some_and(|g| g.len() == 3))
}
