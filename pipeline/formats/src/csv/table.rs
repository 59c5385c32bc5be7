//! The rows themselves.

use super::axis::{self, Clock, TimeSource};
use super::cut::is_cut;
use super::filter::{LineCap, Squeeze};
use super::layout::Layout;
use crate::number::{self, Cell, NumberStyle};
use crate::source::Text;
use crate::{ErrorKind, FormatError, time_axis};
use chrono::{NaiveDateTime, TimeDelta};
use model::{Capture, Channel, Problem, RoleSource, Samples, TimeAxis};
use std::io::{self, Read};

/// Something odd that may happen often: how often, and where first.
#[derive(Debug, Default)]
struct Oddity {
    count: u64,
    first_line: u64,
    last_line: u64,
}

impl Oddity {
    fn note(&mut self, line: u64) {
        if self.count == 0 {
            self.first_line = line;
        }
        self.last_line = line;
        self.count += 1;
    }

    fn forget(&mut self, line: u64) {
        if self.count > 0 && self.last_line == line {
            self.count -= 1;
        }
    }
}

/// Why the rows ended.
enum Stop {
    /// The file ended.
    End,
    /// A line is longer than any row.
    LongLine { line: u64 },
    /// A quote that is never closed swallowed lines; where its own begins, in decoded bytes.
    OpenQuote { line: u64, byte: u64 },
}

struct Rows<'a> {
    layout: &'a Layout,
    time: Option<(usize, Clock)>,
    /// Samples by column; `None` for the time column and columns without numbers.
    columns: Vec<Option<Vec<f32>>>,
    count: usize,
    /// The line that was read last, and the last one that was taken as a row.
    last_line: u64,
    last_taken: u64,
    not_rows: Oddity,
    odd_cells: Oddity,
    short: Oddity,
    long: Oddity,
    backwards: Oddity,
    no_time: Oddity,
}

/// Reads every row.
pub(super) fn read(file: &str, text: &Text, layout: &Layout) -> Result<Capture, FormatError> {
    let source = axis::source(layout).ok_or_else(|| {
        FormatError::new(
            ErrorKind::Unsupported,
            file,
            Some(format!("line {}", layout.first_line)),
            "the table has no time column and no line above it gives a sample interval or rate",
            "export it with a time column, or add a line such as \"Sample interval: 0.5 ms\" above the header",
        )
    })?;
    let mut problems = Vec::new();
    let mut rows = Rows::new(layout, source, text);
    let whole = rows.fill(text, file, &mut problems)?;
    if whole && is_cut(text, layout) {
        rows.forget_last_line();
        let message = format!(
            "the last line is cut off and was left out; {} whole rows were read",
            rows.count
        );
        problems.push(problem(
            file,
            Some(format!("line {}", rows.last_line)),
            message,
        ));
    }
    rows.capture(file, text, source, problems)
}

impl<'a> Rows<'a> {
    fn new(layout: &'a Layout, source: TimeSource, text: &Text) -> Self {
        // About the length of a row: enough to reserve memory, never more than the file could fill.
        let row = 2 * layout.columns.len().max(1);
        let capacity = (text.stored_len() / text.width() / (row * 2)).max(16);
        let time = match source {
            TimeSource::Column(i, unit) => Some((i, Clock::new(layout.style, unit, capacity))),
            TimeSource::Interval(_) => None,
        };
        let time_column = time.as_ref().map(|(i, _)| *i);
        let columns = layout.columns.iter().enumerate().map(|(i, c)| {
            let kept = c.numeric && Some(i) != time_column && !axis::is_index(c);
            kept.then(|| Vec::with_capacity(capacity))
        });
        Rows {
            layout,
            time,
            columns: columns.collect(),
            count: 0,
            last_line: 0,
            last_taken: 0,
            not_rows: Oddity::default(),
            odd_cells: Oddity::default(),
            short: Oddity::default(),
            long: Oddity::default(),
            backwards: Oddity::default(),
            no_time: Oddity::default(),
        }
    }

    /// Reads to the end; false when it had to stop before.
    fn fill(
        &mut self,
        text: &Text,
        file: &str,
        problems: &mut Vec<Problem>,
    ) -> Result<bool, FormatError> {
        // Squeezed text has other offsets, and quotes mean nothing in aligned columns.
        let (mut skip, mut line, mut quoting) = (
            self.layout.skip as u64,
            self.layout.first_line as u64,
            self.layout.delimiter != b' ',
        );
        loop {
            let stop = self
                .fill_from(text, skip, line, quoting)
                .map_err(|e| FormatError::io(file, &e))?;
            let (place, message) = match stop {
                Stop::End => return Ok(true),
                Stop::LongLine { line } => (
                    line,
                    "a line is longer than 1 MiB; the rest of the file was left out. Export the recording again",
                ),
                Stop::OpenQuote { line, .. } => (
                    line,
                    "a quote is never closed; from here on quotes were taken for ordinary characters. Check the \
                     values of this line",
                ),
            };
            problems.push(problem(file, Some(format!("line {place}")), message.into()));
            match stop {
                Stop::OpenQuote { line: at, byte } => {
                    (skip, line, quoting) = (skip + byte, at, false)
                }
                _ => return Ok(false),
            }
        }
    }

    /// Reads rows from behind `skip` bytes of decoded text, which is line `first_line`.
    fn fill_from(
        &mut self,
        text: &Text,
        skip: u64,
        first_line: u64,
        quoting: bool,
    ) -> io::Result<Stop> {
        let mut body = LineCap {
            inner: text.reader(),
            since_break: 0,
        };
        io::copy(&mut body.by_ref().take(skip), &mut io::sink())?;
        let body: Box<dyn Read> = match self.layout.delimiter {
            b' ' => Box::new(Squeeze {
                inner: body,
                last: b'\n',
            }),
            _ => Box::new(body),
        };
        let mut reader = csv::ReaderBuilder::new()
            .delimiter(self.layout.delimiter)
            .quoting(quoting)
            .comment(Some(b'#'))
            .has_headers(false)
            .flexible(true)
            .buffer_capacity(1 << 16)
            .from_reader(body);
        let line_break = if self.layout.bare_cr { b'\r' } else { b'\n' };
        let mut record = csv::ByteRecord::new();
        for index in 0.. {
            let more = reader.read_byte_record(&mut record);
            let (byte, lines) = record
                .position()
                .map_or((0, 0), |p| (p.byte(), p.line() - 1));
            // The splitter ends a row at the carriage return and finds its line feed with the next one.
            let late = u64::from(self.layout.crlf && index > 0);
            let line = first_line
                + if self.layout.bare_cr {
                    index
                } else {
                    lines + late
                };
            let byte = byte + late;
            match more {
                Ok(false) => break,
                Err(_) => return Ok(Stop::LongLine { line }),
                Ok(true) if quoting && record.as_slice().contains(&line_break) => {
                    return Ok(Stop::OpenQuote { line, byte });
                }
                Ok(true) => self.take(&record, line),
            }
        }
        Ok(Stop::End)
    }

    fn take(&mut self, record: &csv::ByteRecord, line: u64) {
        self.last_line = line;
        let style = self.layout.style;
        if let Some((i, clock)) = &mut self.time {
            match record.get(*i).and_then(|cell| clock.read(cell)) {
                Some(t) if clock.stamps.last().is_some_and(|last| t < *last) => {
                    self.backwards.note(line);
                    return;
                }
                Some(t) => clock.stamps.push(t),
                None if self
                    .columns
                    .iter()
                    .zip(record)
                    .any(|(c, v)| c.is_some() && is_number(v, style)) =>
                {
                    self.no_time.note(line);
                    return;
                }
                None => {
                    self.not_rows.note(line);
                    return;
                }
            }
        } else if !self
            .columns
            .iter()
            .zip(record)
            .any(|(c, v)| c.is_some() && !is_text(v, style))
        {
            self.not_rows.note(line);
            return;
        }
        let wanted = self.columns.len();
        if record.len() < wanted {
            self.short.note(line);
        } else if record.len() > wanted + usize::from(self.layout.trailing)
            && record.iter().skip(wanted).any(|c| !c.is_empty())
        {
            self.long.note(line);
        }
        let (columns, odd) = (&mut self.columns, &mut self.odd_cells);
        for (column, cell) in columns.iter_mut().zip(record) {
            let Some(column) = column else { continue };
            let cell = number::cell(cell, style);
            if cell == Cell::Text {
                odd.note(line);
            }
            column.push(cell.sample() as f32);
        }
        for column in columns.iter_mut().skip(record.len()).flatten() {
            column.push(f32::NAN);
        }
        self.count += 1;
        self.last_taken = line;
    }

    /// Forgets the line that was read last, whatever was made of it.
    fn forget_last_line(&mut self) {
        let line = self.last_line;
        for oddity in [
            &mut self.not_rows,
            &mut self.odd_cells,
            &mut self.short,
            &mut self.long,
            &mut self.backwards,
            &mut self.no_time,
        ] {
            oddity.forget(line);
        }
        if self.last_taken == line && self.count > 0 {
            self.count -= 1;
            let count = self.count;
            self.columns
                .iter_mut()
                .flatten()
                .for_each(|c| c.truncate(count));
            if let Some((_, clock)) = &mut self.time {
                clock.stamps.truncate(count);
            }
        }
    }

    fn capture(
        self,
        file: &str,
        text: &Text,
        source: TimeSource,
        mut problems: Vec<Problem>,
    ) -> Result<Capture, FormatError> {
        if self.count == 0 {
            return Err(FormatError::new(
                ErrorKind::Truncated,
                file,
                Some(format!("line {}", self.layout.first_line)),
                "not one whole row of numbers follows the header",
                "export the recording again",
            ));
        }
        self.describe_oddities(file, &mut problems);
        let layout = self.layout;
        let mut started = layout.metadata.started;
        let (time, how) = match (self.time, source) {
            (Some((i, mut clock)), _) => {
                let column = &layout.columns[i];
                let stated = layout.metadata.interval_s.filter(|_| column.unit.is_none());
                let fitted = stated.is_some_and(|s| clock.fit_unit(s));
                let (time, zero) = clock.axis();
                let mut how = format!("time from column \"{}\"", column.name);
                if let Some((day, seconds)) = zero {
                    how.push_str(", counted from the first sample");
                    started = day
                        .and_then(|d| at(d.and_hms_opt(0, 0, 0)?, seconds))
                        .or(started);
                } else if fitted {
                    how.push_str(" (no unit given, taken from the stated interval)");
                } else if column.unit.is_none() {
                    how.push_str(" (no unit given, taken as seconds)");
                }
                compare_interval(file, &time, layout.metadata.interval_s, &mut problems);
                (time, how)
            }
            (None, TimeSource::Interval(step_s) | TimeSource::Column(_, step_s)) => {
                let start_s = layout.metadata.start_s.unwrap_or(0.0);
                (
                    TimeAxis::Even {
                        start_s,
                        step_s,
                        len: self.count,
                    },
                    "time from the stated sample interval".into(),
                )
            }
        };
        problems.extend(time_axis::gaps(&time).map(|message| problem(file, None, message)));
        if let Some(declared) = layout.metadata.samples
            && declared != self.count as u64
        {
            problems.push(problem(
                file,
                None,
                format!(
                    "the file says that it has {declared} samples; {} were read",
                    self.count
                ),
            ));
        }
        let channels = layout
            .columns
            .iter()
            .zip(self.columns)
            .filter_map(|(head, samples)| {
                Some(Channel {
                    name: head.name.clone(),
                    unit: head.unit.clone(),
                    role: None,
                    role_source: RoleSource::Unknown,
                    scale: 1.0,
                    offset: 0.0,
                    calibrated: false,
                    samples: Samples::F32(samples?.into()),
                })
            });
        Ok(Capture {
            file: file.into(),
            started,
            time,
            channels: channels.collect(),
            problems,
            read_as: describe(layout, text, &how),
        })
    }

    fn describe_oddities(&self, file: &str, problems: &mut Vec<Problem>) {
        let mut say = |oddity: &Oddity, what: &str| {
            if oddity.count > 0 {
                let place = Some(format!("line {}", oddity.first_line));
                problems.push(problem(
                    file,
                    place,
                    format!("{} {what}; this is the first", oddity.count),
                ));
            }
        };
        say(
            &self.not_rows,
            "line(s) among the rows are no rows of numbers and were left out",
        );
        say(
            &self.odd_cells,
            "cell(s) hold neither a number nor a known mark and count as missing",
        );
        say(
            &self.short,
            "row(s) are too short; what is missing counts as missing values",
        );
        say(
            &self.long,
            "row(s) have more cells than the header; the further cells were left out",
        );
        say(&self.backwards, "row(s) go back in time and were left out");
        say(
            &self.no_time,
            "row(s) have no readable time and were left out",
        );
        for (head, kept) in self.layout.columns.iter().zip(&self.columns) {
            let time = self
                .time
                .as_ref()
                .is_some_and(|(i, _)| self.layout.columns[*i].name == head.name);
            if kept.is_none() && !time && !axis::is_index(head) {
                problems.push(problem(
                    file,
                    Some(format!("column \"{}\"", head.name)),
                    "it holds no numbers and was left out".into(),
                ));
            }
        }
    }
}

fn is_number(cell: &[u8], style: NumberStyle) -> bool {
    matches!(number::cell(cell, style), Cell::Number(_))
}

fn is_text(cell: &[u8], style: NumberStyle) -> bool {
    number::cell(cell, style) == Cell::Text
}

fn at(midnight: NaiveDateTime, seconds: f64) -> Option<NaiveDateTime> {
    midnight.checked_add_signed(TimeDelta::milliseconds((seconds * 1000.0).round() as i64))
}

fn problem(file: &str, place: Option<String>, message: String) -> Problem {
    Problem {
        file: file.into(),
        place,
        message,
    }
}

/// The time column counts; a stated interval that contradicts it is said.
fn compare_interval(file: &str, time: &TimeAxis, stated: Option<f64>, problems: &mut Vec<Problem>) {
    if let (TimeAxis::Even { step_s, .. }, Some(stated)) = (time, stated)
        && (step_s / stated - 1.0).abs() > 0.01
    {
        problems.push(problem(
            file,
            None,
            format!(
                "the lines above the header state an interval of {stated:e} s, the time column has {step_s:e} s; \
                 the time column was used. Check the unit of the time column"
            ),
        ));
    }
}

fn describe(layout: &Layout, text: &Text, how: &str) -> String {
    let delimiter = match layout.delimiter {
        b';' => "semicolon",
        b',' => "comma",
        b'\t' => "tab",
        b' ' => "columns aligned with spaces",
        _ => "bar",
    };
    let decimal = if layout.style == NumberStyle::COMMA {
        ", decimal comma"
    } else {
        ""
    };
    format!("CSV, {delimiter}{decimal}, {}, {how}", text.charset.name())
}
