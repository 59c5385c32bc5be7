//! The rows of one block of lines: plain ones in one pass, the rest with care.

mod runs;
#[cfg(test)]
mod tests;

use super::cells::cells;
use super::fast;
use super::layout::{self, Layout};
use super::level;
use super::stamps::{Refusal, Stamps};
use super::warnings::{RowWarning, RowWarnings};
use crate::number::{self, Cell};
use crate::units;

/// Use of a column's cells.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Plan {
    /// They are the time.
    Time,
    /// They are samples; the place among the columns kept.
    Keep(usize),
    /// They are passed over.
    Pass,
}

/// A column that is kept.
pub(super) struct Column {
    pub samples: Vec<f32>,
    /// Form of its last plain cell.
    form: fast::Form,
    /// Offset of that cell in its row, bytes.
    at: usize,
}

/// The rows of some lines that follow each other.
pub(super) struct Rows<'a> {
    layout: &'a Layout,
    plan: &'a [Plan],
    /// The columns kept.
    pub columns: Vec<Column>,
    /// Offset of the time in the last plain row, bytes.
    time_at: usize,
    /// True where the last run of rows of one shape was worth its while.
    runs: bool,
    pub stamps: Option<Stamps>,
    /// Rows taken.
    pub count: usize,
    /// Lines read.
    pub lines: u64,
    pub odd: RowWarnings,
}

impl<'a> Rows<'a> {
    /// No rows yet. `room` is emptied columns of rows that were read before, or none: they are filled again.
    pub fn new(layout: &'a Layout, plan: &'a [Plan], mut room: Vec<Vec<f32>>) -> Self {
        let kept = plan.iter().filter(|p| matches!(p, Plan::Keep(_))).count();
        room.resize_with(kept, Vec::new);
        let column = |samples| Column {
            samples,
            form: fast::Form::first(layout.delimiter),
            at: 0,
        };
        Rows {
            layout,
            plan,
            columns: room.into_iter().map(column).collect(),
            time_at: 0,
            runs: true,
            stamps: plan
                .contains(&Plan::Time)
                .then(|| Stamps::new(layout.style, layout.delimiter)),
            count: 0,
            lines: 0,
            odd: RowWarnings::default(),
        }
    }

    /// Reads the lines in the first `len` of the bytes; the last one is ended too.
    pub fn read(&mut self, bytes: &[u8], len: usize) {
        // About what will come; too little is no harm.
        let guess = len / (3 * self.plan.len() + 1) + 1;
        self.columns
            .iter_mut()
            .for_each(|c| c.samples.reserve(guess));
        let line_break = if self.layout.bare_cr { b'\r' } else { b'\n' };
        let plain = self.layout.delimiter != b' ';
        let mut at = 0;
        while at < len {
            self.lines += 1;
            if plain && let Some(next) = self.plain_row(bytes, at) {
                at = self.rows_of_one_shape(bytes, len, at..next);
                continue;
            }
            let end = bytes[at..len]
                .iter()
                .position(|b| *b == line_break)
                .map_or(len, |i| at + i);
            self.careful_row(&bytes[at..end]);
            at = end + 1;
        }
    }

    /// Reads a row of plain numbers from byte `at`; gives where the next one begins, or changes nothing.
    #[inline]
    fn plain_row(&mut self, bytes: &[u8], start: usize) -> Option<usize> {
        let mut at = start;
        let (decimal, delimiter) = (self.layout.style.decimal, self.layout.delimiter);
        // The time is taken last, when the row is known to be whole.
        let mut time = None;
        let mut sound = true;
        let wanted = self.plan.len();
        for (i, plan) in self.plan.iter().enumerate() {
            match plan {
                Plan::Keep(k) => {
                    let (last, column) = (i + 1 == wanted, &mut self.columns[*k]);
                    let form = &mut column.form;
                    match fast::number(&bytes[at..], decimal, delimiter, last, form) {
                        Some((value, used)) => {
                            column.samples.push(value);
                            column.at = at - start;
                            at += used + usize::from(!last);
                            continue;
                        }
                        None => sound = false,
                    }
                }
                Plan::Time => {
                    let expected = self.stamps.as_ref().and_then(|s| s.matches(&bytes[at..]));
                    let used = expected.or_else(|| cell_end(&bytes[at..], delimiter));
                    match used {
                        Some(used) => {
                            time = Some((at, used, expected.is_some()));
                            self.time_at = at - start;
                            at += used;
                        }
                        None => sound = false,
                    }
                }
                Plan::Pass => match cell_end(&bytes[at..], delimiter) {
                    Some(used) => at += used,
                    None => sound = false,
                },
            }
            // A line's end before the last cell is a short row.
            sound &= i + 1 == wanted || bytes.get(at) == Some(&delimiter);
            if !sound {
                break;
            }
            at += usize::from(i + 1 < wanted);
        }
        let next = sound.then(|| self.row_end(bytes, at)).flatten();
        let timed = next.is_some()
            && match (&mut self.stamps, time) {
                (Some(stamps), Some((_, _, true))) => {
                    stamps.accept();
                    true
                }
                (Some(stamps), Some((from, used, false))) => {
                    stamps.read(&bytes[from..from + used]).is_ok()
                }
                (None, _) => true,
                (Some(_), None) => false,
            };
        if !timed {
            let count = self.count;
            self.columns
                .iter_mut()
                .for_each(|c| c.samples.truncate(count));
            return None;
        }
        self.count += 1;
        next
    }

    /// Behind the line's end that must follow the last cell.
    fn row_end(&self, bytes: &[u8], mut at: usize) -> Option<usize> {
        if self.layout.trailing && bytes.get(at) == Some(&self.layout.delimiter) {
            at += 1;
        }
        match (bytes.get(at)?, bytes.get(at + 1)) {
            (b'\r', _) if self.layout.bare_cr => Some(at + 1),
            (b'\n', _) => Some(at + 1),
            (b'\r', Some(b'\n')) => Some(at + 2),
            _ => None,
        }
    }

    /// Takes a line apart with care: quotes, blanks, marks, units behind numbers, too many or too few cells.
    fn careful_row(&mut self, line: &[u8]) {
        let line = line.strip_suffix(b"\r").unwrap_or(line);
        if line.trim_ascii().is_empty() || line.starts_with(b"#") {
            return;
        }
        let text = String::from_utf8_lossy(line);
        let delimiter = self.layout.delimiter;
        let open_quote = delimiter != b' ' && text.matches('"').count() % 2 == 1;
        let cells = if open_quote {
            text.split(char::from(delimiter))
                .map(|c| c.trim().to_string())
                .collect()
        } else {
            cells(&text, delimiter)
        };
        if open_quote {
            self.odd.note(RowWarning::OpenQuote, self.lines);
        }
        self.add_row(&cells);
    }

    fn add_row(&mut self, cells: &[String]) {
        let (layout, line) = (self.layout, self.lines);
        let samples = || {
            let filled = |i: usize| cells.get(i).map(|c| sample(c, &layout.columns[i], layout));
            self.plan
                .iter()
                .enumerate()
                .filter(|(_, p)| matches!(p, Plan::Keep(_)))
                .map(move |(i, _)| filled(i))
        };
        let number = |s: Option<Sample>| matches!(s, Some(Sample::Value(v)) if v.is_finite());
        if let Some(stamps) = &mut self.stamps {
            let at = self.plan.iter().position(|p| *p == Plan::Time).unwrap_or(0);
            let refusal = match cells.get(at) {
                Some(cell) => stamps.read(cell.trim_matches('"').as_bytes()).err(),
                None => Some(Refusal::NoTime),
            };
            let warning = match refusal {
                None => None,
                Some(Refusal::Backwards) => Some(RowWarning::Backwards),
                Some(Refusal::NoTime) if samples().any(number) => Some(RowWarning::NoTime),
                Some(Refusal::NoTime) => Some(RowWarning::NoRow),
            };
            if let Some(warning) = warning {
                self.odd.note(warning, line);
                return;
            }
        } else if !samples().any(|s| matches!(s, Some(Sample::Value(_)))) {
            self.odd.note(RowWarning::NoRow, line);
            return;
        }
        let wanted = self.plan.len();
        if cells.len() < wanted {
            self.odd.note(RowWarning::Short, line);
        } else if cells.len() > wanted + usize::from(layout.trailing)
            && cells[wanted..].iter().any(|c| !c.is_empty())
        {
            self.odd.note(RowWarning::Long, line);
        }
        let values: Vec<Option<Sample>> = samples().collect();
        for (column, value) in self.columns.iter_mut().zip(values) {
            column.samples.push(match value {
                Some(Sample::Value(v)) => v as f32,
                Some(Sample::Odd) => {
                    self.odd.note(RowWarning::Cell, line);
                    f32::NAN
                }
                None => f32::NAN,
            });
        }
        self.count += 1;
    }
}

/// Sample of one cell.
#[derive(Debug, Clone, Copy)]
enum Sample {
    /// A number, a missing value (NaN) or an over-range mark (infinite).
    Value(f64),
    /// Neither a number nor a known mark.
    Odd,
}

fn sample(cell: &str, column: &layout::Column, layout: &Layout) -> Sample {
    if column.levels {
        return level::value(cell).map_or(Sample::Odd, Sample::Value);
    }
    match number::cell(cell.as_bytes(), layout.style) {
        Cell::Text => {}
        known => return Sample::Value(known.sample()),
    }
    let own = column.unit.as_deref().unwrap_or("");
    number::measured(cell, layout.style)
        .and_then(|(d, unit)| Some(d.value * units::ratio(unit, own)?))
        .map_or(Sample::Odd, Sample::Value)
}

/// End of an unquoted cell.
#[inline]
fn cell_end(bytes: &[u8], delimiter: u8) -> Option<usize> {
    let end = bytes
        .iter()
        .position(|b| *b == delimiter || matches!(b, b'\n' | b'\r' | b'"'))?;
    (bytes[end] != b'"').then_some(end)
}
