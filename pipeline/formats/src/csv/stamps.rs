//! The time stamps of the rows, in the file's own unit.
//!
//! Stamps written with the same number of decimals are whole numbers of the last place. As long as they rise by the
//! same step, the next one's text is known beforehand: comparing it with the cell proves the step without converting
//! anything, and a run of such rows is three numbers. Stamps that do not keep to that are kept one by one.

mod expected;
mod scale;

use crate::clock;
use crate::number::{self, Cell, Decimal, NumberStyle};
use crate::time_axis::{self, BareTime};
use crate::units;
use chrono::NaiveDate;
use expected::Expected;
use model::TimeAxis;
use scale::{Last, Scale};

/// Rows with one step between them, in units of the last decimal place.
#[derive(Debug, Clone, Copy)]
struct Run {
    first: i64,
    step: i64,
    count: u64,
}

impl Run {
    fn last(&self) -> i64 {
        self.first + self.step * (self.count as i64 - 1)
    }

    fn iter(self) -> impl Iterator<Item = i64> {
        (0..self.count as i64).map(move |i| self.first + i * self.step)
    }
}

#[derive(Debug, Clone)]
enum Form {
    Runs { decimals: i32, runs: Vec<Run> },
    List(Vec<f64>),
}

/// Reason why a cell was not taken as the next stamp.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Refusal {
    /// It is no time.
    NoTime,
    /// It lies before the stamp before.
    Backwards,
}

/// The stamps of rows that follow each other.
#[derive(Debug, Clone)]
pub(super) struct Stamps {
    style: NumberStyle,
    /// The byte that follows a stamp in a row.
    end: u8,
    form: Form,
    expected: Expected,
    decimals: i32,
    digits: i32,
    /// The day of the first stamp, where stamps have a date.
    day: Option<NaiveDate>,
    clock_times: bool,
    midnights: f64,
    /// Unit of the cells over the column's unit, where cells carry one of their own.
    pub cell_unit: Option<f64>,
}

/// Largest whole number that a double tells from its neighbours.
const LARGEST: i64 = 1 << 53;

impl Stamps {
    pub fn new(style: NumberStyle, end: u8) -> Self {
        Stamps {
            style,
            end,
            form: Form::Runs {
                decimals: i32::MIN,
                runs: Vec::new(),
            },
            expected: Expected::default(),
            decimals: i32::MIN,
            digits: 1,
            day: None,
            clock_times: false,
            midnights: 0.0,
            cell_unit: None,
        }
    }

    /// The length of the expected stamp where it begins here and the delimiter follows it.
    #[inline]
    pub fn matches(&self, bytes: &[u8]) -> Option<usize> {
        self.expected.matches(bytes)
    }

    /// Takes the expected stamp.
    #[inline]
    pub fn accept(&mut self) {
        if let Form::Runs { runs, .. } = &mut self.form
            && let Some(run) = runs.last_mut()
        {
            run.count += 1;
            self.expected.advance();
        }
    }

    /// Takes the expected stamps at the beginning of these bytes until one is not; gives how many were taken.
    pub fn accept_all<'a>(&mut self, stamps: impl Iterator<Item = &'a [u8]>) -> usize {
        let Form::Runs { runs, .. } = &mut self.form else {
            return 0;
        };
        let Some(run) = runs.last_mut() else { return 0 };
        let mut expected = self.expected.clone();
        let mut n = 0;
        for bytes in stamps {
            if expected.matches(bytes).is_none() {
                break;
            }
            expected.advance();
            n += 1;
        }
        self.expected = expected;
        run.count += n as u64;
        n
    }

    /// Takes a cell.
    pub fn read(&mut self, cell: &[u8]) -> Result<(), Refusal> {
        match number::cell(cell, self.style) {
            Cell::Number(d) => self.number(d),
            Cell::Text => {
                let text = std::str::from_utf8(cell).map_err(|_| Refusal::NoTime)?;
                if let Some(s) = clock::parse(text) {
                    return self.clock(s);
                }
                let (d, unit) = number::measured(text, self.style).ok_or(Refusal::NoTime)?;
                let per = units::seconds(unit).ok_or(Refusal::NoTime)?;
                let unit = *self.cell_unit.get_or_insert(per);
                if per != unit {
                    return Err(Refusal::NoTime);
                }
                self.number(d)
            }
            _ => Err(Refusal::NoTime),
        }
    }

    fn number(&mut self, d: Decimal) -> Result<(), Refusal> {
        self.decimals = self.decimals.max(d.decimals);
        self.digits = self.digits.max(d.digits());
        if let Form::Runs { decimals, runs } = &mut self.form {
            if runs.is_empty() {
                *decimals = d.decimals;
            }
            let whole = d
                .whole()
                .filter(|m| d.decimals == *decimals && m.abs() < LARGEST);
            if let Some(m) = whole {
                let point = self.style.decimal;
                match runs.last_mut() {
                    Some(run) if m < run.last() => return Err(Refusal::Backwards),
                    Some(run) if run.count == 1 || m == run.last() + run.step => {
                        if run.count == 1 {
                            run.step = m - run.first;
                        }
                        run.count += 1;
                        self.expected = Expected::behind(m, run.step, d.decimals, point, self.end);
                        return Ok(());
                    }
                    last => {
                        // Stamps rounded to their last place change their step all the time.
                        let before = last.map_or(0, |r| r.count);
                        if runs.len() < 64 || before > 8 {
                            runs.push(Run {
                                first: m,
                                step: 0,
                                count: 1,
                            });
                            self.expected = Expected::default();
                            return Ok(());
                        }
                    }
                }
            }
        }
        self.push(d.value)
    }

    fn clock(&mut self, s: clock::Stamp) -> Result<(), Refusal> {
        self.clock_times = true;
        self.decimals = self.decimals.max(s.decimals);
        let seconds = match s.day {
            Some(day) => {
                let first = *self.day.get_or_insert(day);
                (day - first).num_days() as f64 * 86_400.0 + s.seconds
            }
            None => {
                // Past midnight a clock without a date begins again.
                let last = self.list().last().copied();
                if last.is_some_and(|last| s.seconds + self.midnights < last - 43_200.0) {
                    self.midnights += 86_400.0;
                }
                s.seconds + self.midnights
            }
        };
        self.push(seconds)
    }

    fn push(&mut self, t: f64) -> Result<(), Refusal> {
        let list = self.list();
        if list.last().is_some_and(|last| t < *last) {
            return Err(Refusal::Backwards);
        }
        list.push(t);
        Ok(())
    }

    /// The stamps one by one; runs are written out.
    fn list(&mut self) -> &mut Vec<f64> {
        if let Form::Runs { decimals, runs } = &self.form {
            let scale = Last::new(*decimals);
            // Stamps that were only compared have not been counted yet.
            let ends = runs.iter().flat_map(|r| [r.first, r.last()]);
            let largest = ends.map(i64::unsigned_abs).max().unwrap_or(0);
            let digits = largest.checked_ilog10().map_or(1, |n| n as i32 + 1);
            self.digits = self.digits.max(digits);
            let all: Vec<f64> = runs
                .iter()
                .flat_map(|r| r.iter())
                .map(|m| scale.value(m))
                .collect();
            self.expected = Expected::default();
            self.form = Form::List(all);
        }
        match &mut self.form {
            Form::List(list) => list,
            Form::Runs { .. } => unreachable!("made a list above"),
        }
    }

    fn first(&self) -> Option<f64> {
        match &self.form {
            Form::List(l) => l.first().copied(),
            Form::Runs { decimals, runs } => {
                runs.first().map(|r| Last::new(*decimals).value(r.first))
            }
        }
    }

    fn last(&self) -> Option<f64> {
        match &self.form {
            Form::List(l) => l.last().copied(),
            Form::Runs { decimals, runs } => {
                runs.last().map(|r| Last::new(*decimals).value(r.last()))
            }
        }
    }

    pub fn len(&self) -> usize {
        match &self.form {
            Form::List(l) => l.len(),
            Form::Runs { runs, .. } => runs.iter().map(|r| r.count).sum::<u64>() as usize,
        }
    }

    /// Takes over the stamps of the rows that follow; gives how many of them, from the first on, go back in time
    /// and were left out.
    pub fn append(&mut self, mut next: Stamps) -> usize {
        if next.len() == 0 {
            return 0;
        }
        if self.len() == 0 {
            *self = next;
            return 0;
        }
        self.decimals = self.decimals.max(next.decimals);
        self.digits = self.digits.max(next.digits);
        self.cell_unit = self.cell_unit.or(next.cell_unit);
        if next.clock_times {
            self.clock_times = true;
            let days = match (self.day, next.day) {
                (Some(a), Some(b)) => (b - a).num_days() as f64 * 86_400.0,
                _ => {
                    let (first, last) = (next.first().unwrap_or(0.0), self.last().unwrap_or(0.0));
                    if first + self.midnights < last - 43_200.0 {
                        self.midnights += 86_400.0;
                    }
                    let shift = self.midnights;
                    self.midnights += next.midnights;
                    shift
                }
            };
            next.list().iter_mut().for_each(|t| *t += days);
        }
        let last = self.last();
        let backwards = next.first() < last;
        if let (
            Form::Runs { decimals: a, runs },
            Form::Runs {
                decimals: b,
                runs: more,
            },
        ) = (&mut self.form, &next.form)
            && a == b
            && !backwards
        {
            for run in more {
                match runs.last_mut() {
                    Some(r) if r.count > 1 && run.count == 1 && run.first == r.last() + r.step => {
                        r.count += 1
                    }
                    Some(r) if r.step == run.step && run.first == r.last() + r.step => {
                        r.count += run.count
                    }
                    _ => runs.push(*run),
                }
            }
            return 0;
        }
        let more = next.list();
        let skipped = more.iter().take_while(|t| Some(**t) < last).count();
        let more = more.split_off(skipped);
        self.list().extend(more);
        skipped
    }

    /// Takes the unit from a stated interval, when it explains the stamps to a per cent; for a time column
    /// that names no unit.
    pub fn fit_unit(&self, interval_s: f64) -> Option<f64> {
        let step = (self.last()? - self.first()?) / (self.len().max(2) - 1) as f64;
        let fits = |unit: &f64| !self.clock_times && (step * unit / interval_s - 1.0).abs() < 0.01;
        [1.0, 1e-3, 1e-6, 1e-9].into_iter().find(fits)
    }

    /// Unit by the stamps' own values, for a time column that names none; `None` for clock times.
    pub fn bare_time(&self) -> Option<BareTime> {
        if self.clock_times {
            return None;
        }
        let mut smallest: Option<f64> = None;
        let mut shorter = |step: f64| {
            if step > 0.0 {
                smallest = Some(smallest.map_or(step, |s| s.min(step)));
            }
        };
        let whole = match &self.form {
            Form::List(list) => {
                list.windows(2).for_each(|w| shorter(w[1] - w[0]));
                list.iter().all(|t| t.fract() == 0.0)
            }
            Form::Runs { decimals, runs } => {
                let place = Last::new(*decimals);
                runs.iter().for_each(|r| shorter(place.value(r.step)));
                runs.windows(2)
                    .for_each(|r| shorter(place.value(r[1].first.saturating_sub(r[0].last()))));
                runs.iter().all(|r| {
                    place.value(r.first).fract() == 0.0
                        && (r.count < 2 || place.value(r.step).fract() == 0.0)
                })
            }
        };
        Some(time_axis::bare(self.first()?, smallest, whole))
    }

    /// True where all stamps have one step between them.
    pub fn one_step(&self) -> bool {
        matches!(&self.form, Form::Runs { runs, .. } if matches!(runs.as_slice(), [r] if r.step > 0))
    }

    /// Resolution of listed stamps in the file's unit: by the decimals, or by the significant
    /// digits where the writer rounds to a number of those.
    fn resolution(&self, stamps: &[f64]) -> f64 {
        let largest = stamps.iter().fold(0.0f64, |m, t| m.max(t.abs()));
        let places = 10f64.powi(-self.decimals.clamp(-30, 30));
        if self.clock_times || largest <= 0.0 {
            return places;
        }
        let whole = largest.log10().floor() as i32 + 1;
        places.max(10f64.powi((whole - self.digits).clamp(-30, 30)))
    }

    /// The axis, and the time of day at its zero where the stamps are times of day. `unit_s` is the column's unit
    /// in seconds.
    pub fn axis(mut self, unit_s: f64) -> (TimeAxis, Option<(Option<NaiveDate>, f64)>) {
        let scale = Scale::new(if self.clock_times { 1.0 } else { unit_s });
        if let Form::Runs { decimals, runs } = &self.form
            && let [run] = runs.as_slice()
            && run.count > 1
            && run.step > 0
        {
            let last_place = Last::new(*decimals);
            let start_s = scale.seconds(last_place.value(run.first));
            let end = scale.seconds(last_place.value(run.last()));
            let len = run.count as usize;
            return (
                TimeAxis::Even {
                    start_s,
                    step_s: (end - start_s) / (len - 1) as f64,
                    len,
                },
                None,
            );
        }
        let mut zero = None;
        let mut stamps = std::mem::take(self.list());
        let resolution = self.resolution(&stamps);
        // Elapsed times stay as they are; a time of day counts from the first sample.
        if self.clock_times
            && let Some(&first) = stamps.first()
            && (self.day.is_some() || first >= 3600.0)
        {
            zero = Some((self.day, first));
            stamps.iter_mut().for_each(|t| *t -= first);
        }
        let even = time_axis::is_even(&stamps, resolution);
        let seconds: Vec<f64> = stamps.into_iter().map(|t| scale.seconds(t)).collect();
        (time_axis::axis(seconds, even), zero)
    }
}

#[cfg(test)]
mod tests;
