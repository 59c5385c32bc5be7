//! Score of the table that lines make when they are cut at one delimiter.

use super::cells::{Line, cells};
use super::level;
use crate::clock;
use crate::number::{self, Cell, NumberStyle};
use crate::source::MOST_CHANNELS;

/// Score of a cell that is to stand in a row of numbers: 1 for a number, 0 for a mark, -1 for text. In a column of levels
/// their words are numbers.
pub(super) fn cell_score(cell: &str, levels: bool, style: NumberStyle) -> i8 {
    match number::cell(cell.as_bytes(), style) {
        _ if levels && level::value(cell).is_some() => 1,
        Cell::Number(_) => 1,
        Cell::Missing | Cell::Over(_) => 0,
        Cell::Text if clock::parse(cell).is_some() => 1,
        Cell::Text if number::measured(cell, style).is_some() => 1,
        Cell::Text => -1,
    }
}

/// The lines cut at one delimiter, and how well they make a table.
pub(super) struct Table {
    pub delimiter: u8,
    pub style: NumberStyle,
    pub rows: Vec<Vec<String>>,
    /// Index of the first row of numbers.
    pub first: usize,
    /// Number of columns, without an empty last one.
    pub columns: usize,
    /// Leading columns that hold settings beside the table, or nothing, and no samples.
    pub side: usize,
    pub trailing: bool,
    pub numeric: Vec<bool>,
    /// True for columns that hold levels in words.
    pub levels: Vec<bool>,
    pub data_rows: usize,
    pub score: f64,
}

impl Table {
    pub fn with(delimiter: u8, lines: &[Line]) -> Option<Table> {
        let rows: Vec<Vec<String>> = lines.iter().map(|l| cells(l.text, delimiter)).collect();
        // Where both fit, the last of equals wins: the point.
        [NumberStyle::COMMA, NumberStyle::POINT]
            .into_iter()
            .filter_map(|style| Table::score(delimiter, style, &rows))
            .max_by(|a, b| a.score.total_cmp(&b.score))
            .map(|t| Table { rows, ..t })
    }

    fn score(delimiter: u8, style: NumberStyle, rows: &[Vec<String>]) -> Option<Table> {
        // Of the lines that hold numbers the later half is taken to be rows; the usual width there is the table's.
        let filled: Vec<usize> = (0..rows.len())
            .filter(|i| rows[*i].iter().any(|c| !c.is_empty()))
            .collect();
        let mut marks: Vec<Vec<i8>> = rows
            .iter()
            .map(|r| r.iter().map(|c| cell_score(c, false, style)).collect())
            .collect();
        let of_words = |i: &usize| marks[*i].iter().all(|m| *m < 1) && marks[*i].contains(&-1);
        let numbers: Vec<usize> = filled.iter().copied().filter(|i| !of_words(i)).collect();
        // A table of levels in words has no numbers but its times, or none at all.
        let lines = if numbers.len() * 2 > filled.len() {
            &numbers
        } else {
            &filled
        };
        let later = &lines[lines.len() / 2..];
        let width = usual(later.iter().map(|i| rows[*i].len()))?;
        if width > MOST_CHANNELS {
            return None;
        }
        let body: Vec<usize> = later
            .iter()
            .copied()
            .filter(|i| rows[*i].len() == width)
            .collect();
        let trailing = width > 1 && body.iter().all(|i| rows[*i][width - 1].is_empty());
        let columns = if trailing { width - 1 } else { width };
        // Some write the settings beside the first rows instead of above them: columns that are empty from then on.
        let side = (0..columns)
            .take_while(|c| body.iter().all(|i| rows[*i][*c].is_empty()))
            .count();
        let side = if side < columns { side } else { 0 };
        let levels: Vec<bool> = (0..columns)
            .map(|c| level::is_column(body.iter().map(|i| rows[*i][c].as_str())))
            .collect();
        for (row, marks) in rows.iter().zip(&mut marks) {
            let cells = row.iter().zip(marks).zip(&levels);
            for ((cell, mark), _) in cells.filter(|(_, level)| **level) {
                *mark = cell_score(cell, true, style);
            }
        }
        let numeric: Vec<bool> = (0..columns)
            .map(|c| {
                let sum = |sign: i8| body.iter().filter(|i| marks[**i][c] == sign).count();
                let (numbers, texts) = (sum(1), sum(-1));
                c >= side && (numbers > 0 && numbers >= 4 * texts || numbers == 0 && texts == 0)
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
                .flat_map(|i| marks[*i].iter().take(columns).skip(side))
                .filter(|m| **m == sign)
                .count() as f64
        };
        let (good, bad) = (count(1), count(-1));
        let code_list = (side..columns).filter(|c| !numeric[*c]).any(|c| {
            let codes = data.iter().filter(|i| is_code(rows[**i].get(c)));
            codes.count() * 2 > data.len()
        });
        if code_list {
            return None;
        }
        let texts = numeric.iter().skip(side).filter(|n| !**n).count();
        if good <= bad || texts * 2 > columns - side || data_rows < 2 {
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
            side,
            trailing,
            numeric,
            levels,
            data_rows,
            score,
        })
    }

    /// True where most cells of a column are clock times.
    pub fn is_clock(&self, column: usize) -> bool {
        let cells: Vec<&String> = self.rows[self.first..]
            .iter()
            .filter_map(|r| r.get(column))
            .filter(|c| !c.is_empty())
            .collect();
        let clocks = cells.iter().filter(|c| clock::parse(c).is_some()).count();
        clocks > 0 && clocks * 10 >= cells.len() * 9
    }

    /// The differences between successive values of a column; `None` when there are too few.
    pub fn steps(&self, column: usize) -> Option<impl Iterator<Item = f64>> {
        let value = |cell: &String| match number::cell(cell.as_bytes(), self.style) {
            Cell::Number(d) => Some(d.value),
            _ => clock::parse(cell)
                .map(|s| s.seconds)
                .or_else(|| number::measured(cell, self.style).map(|(d, _)| d.value)),
        };
        let values: Vec<f64> = self.rows[self.first..]
            .iter()
            .filter_map(|r| r.get(column))
            .filter_map(value)
            .collect();
        (values.len() >= 3).then(|| (1..values.len()).map(move |i| values[i] - values[i - 1]))
    }
}

/// True where a cell begins with a trouble code (SAE J2012: a letter of P, C, B, U, a digit 0 to 3, three hexadecimal
/// digits): a table of those is a scan tool's.
fn is_code(cell: Option<&String>) -> bool {
    let Some([letter, digit, rest @ ..]) = cell.map(|c| c.trim().as_bytes()) else {
        return false;
    };
    let hex = rest.iter().take_while(|b| b.is_ascii_hexdigit()).count();
    matches!(letter.to_ascii_uppercase(), b'P' | b'C' | b'B' | b'U')
        && matches!(digit, b'0'..=b'3')
        && (hex == 3 || hex == 5)
}

/// True where these lines, from the first on, are rows of numbers up to a few odd ones.
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

/// Score against a decimal sign, at most 0. Real thousands marks come and go with the size of the value,
/// a decimal sign is there in every cell or is followed by more or fewer than three digits now and then.
fn doubt(rows: &[Vec<String>], first: usize, columns: usize, style: NumberStyle) -> f64 {
    let own = char::from(style.decimal);
    let other = if own == '.' { ',' } else { '.' };
    let mut against = 0.0;
    for c in 0..columns {
        let cells: Vec<&str> = rows[first..]
            .iter()
            .filter_map(|r| r.get(c))
            .filter(|v| cell_score(v, false, style) == 1)
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

/// True where the whole part of a number is parted by a sign into groups as thousands are: `12,345`.
fn is_grouped(cell: &str, sign: char) -> bool {
    let mut groups = cell.split(sign);
    let lead = groups.next().unwrap_or("");
    !lead.starts_with('0')
        && (1..=3).contains(&lead.len())
        && groups.all(|g| g.split(['.', ',']).next().is_some_and(|g| g.len() == 3))
}
