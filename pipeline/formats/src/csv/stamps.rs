//! The time stamps of the rows, in the file's own unit.
//!
//! Stamps written with the same number of decimals are whole numbers of the last place. As long as they rise by the
//! same step, the next one's text is known beforehand: comparing it with the cell proves the step without converting
//! anything, and a run of such rows is three numbers. Stamps that do not keep to that are kept one by one.

use super::stamp;
use crate::number::{self, Cell, Decimal, NumberStyle};
use crate::{time_axis, units};
use chrono::NaiveDate;
use model::TimeAxis;

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

/// Why a cell was not taken as the next stamp.
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

    /// Takes a cell.
    pub fn read(&mut self, cell: &[u8]) -> Result<(), Refusal> {
        match number::cell(cell, self.style) {
            Cell::Number(d) => self.number(d),
            Cell::Text => {
                let text = std::str::from_utf8(cell).map_err(|_| Refusal::NoTime)?;
                if let Some(s) = stamp::parse(text) {
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

    fn clock(&mut self, s: stamp::Stamp) -> Result<(), Refusal> {
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
        [1e-3, 1e-6, 1e-9].into_iter().find(fits)
    }

    /// How finely listed stamps are written, in the file's unit: by the decimals, or by the significant
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

/// Turns whole numbers of the last place into values: divided by an exact power of ten, as the decimal parse does.
struct Last {
    power: f64,
    divide: bool,
}

impl Last {
    fn new(decimals: i32) -> Self {
        let decimals = if decimals == i32::MIN { 0 } else { decimals };
        Last {
            power: 10f64.powi(decimals.abs()),
            divide: decimals >= 0,
        }
    }

    fn value(&self, m: i64) -> f64 {
        if self.divide {
            m as f64 / self.power
        } else {
            m as f64 * self.power
        }
    }
}

/// Converts into seconds; divides by whole numbers, because a thousandth is no exact double.
struct Scale {
    per_second: Option<f64>,
    unit_s: f64,
}

impl Scale {
    fn new(unit_s: f64) -> Self {
        let per_second = (1.0 / unit_s).round();
        Scale {
            per_second: (unit_s < 1.0).then_some(per_second),
            unit_s,
        }
    }

    fn seconds(&self, t: f64) -> f64 {
        self.per_second.map_or(t * self.unit_s, |n| t / n)
    }
}

/// Longest expected text; with the delimiter behind it it is compared as one 16-byte word.
const LONGEST_EXPECTED: usize = 15;

/// The text of the next stamp if the step stays the same, and how to count it on.
#[derive(Debug, Clone, Default)]
struct Expected {
    /// The text, and the byte that must follow it.
    text: [u8; LONGEST_EXPECTED + 1],
    /// Length of the text; 0 where nothing is expected.
    len: usize,
    /// Selects the text and the byte behind it.
    mask: u128,
    /// The step's digits under the text's digits, 0 under the decimal sign.
    step: [u8; LONGEST_EXPECTED + 1],
    /// Where the step's first digit stands.
    step_from: usize,
    point: u8,
}

impl Expected {
    /// What is expected behind the whole number `m`. Nothing where counting on is not worth it: negative stamps.
    fn behind(m: i64, step: i64, decimals: i32, point: u8, end: u8) -> Self {
        let none = Expected::default();
        let Some(places) = usize::try_from(decimals)
            .ok()
            .filter(|p| *p < LONGEST_EXPECTED)
        else {
            return none;
        };
        let Some(next) = m.checked_add(step).filter(|_| m >= 0 && step >= 0) else {
            return none;
        };
        // The decimal sign stands in the step too, so that digits stand under digits.
        let written = |n: i64| {
            let digits = format!("{n:0width$}", width = places + 1);
            let (whole, fraction) = digits.split_at(digits.len() - places);
            let sign = if places > 0 {
                char::from(point).to_string()
            } else {
                String::new()
            };
            format!("{whole}{sign}{fraction}").into_bytes()
        };
        let (next, step) = (written(next), written(step));
        let len = next.len();
        if len > LONGEST_EXPECTED || step.len() > len {
            return none;
        }
        let mut expected = Expected {
            len,
            point,
            step_from: len,
            ..none
        };
        expected.text[..len].copy_from_slice(&next);
        expected.text[len] = end;
        for (i, d) in (len - step.len()..len).zip(step) {
            expected.step[i] = d.wrapping_sub(b'0');
            if expected.step[i] != 0 && d != point {
                expected.step_from = expected.step_from.min(i);
            }
        }
        expected.mask = u128::MAX >> (8 * (LONGEST_EXPECTED - len));
        expected
    }

    /// The length of the text where it begins here and the right byte follows it.
    #[inline]
    fn matches(&self, bytes: &[u8]) -> Option<usize> {
        let here = u128::from_le_bytes(*bytes.first_chunk()?);
        let wanted = u128::from_le_bytes(self.text);
        (self.len > 0 && (here ^ wanted) & self.mask == 0).then_some(self.len)
    }

    /// Adds the step in decimal.
    #[inline]
    fn advance(&mut self) {
        let mut carry = 0;
        for i in (0..self.len).rev() {
            let b = self.text[i];
            if b == self.point {
                continue;
            }
            if i < self.step_from && carry == 0 {
                return;
            }
            let sum = b + self.step[i] + carry;
            carry = u8::from(sum > b'9');
            self.text[i] = sum - 10 * carry;
        }
        // One digit more: the next stamp is read as it comes, and the one behind it is expected again.
        if carry > 0 {
            self.len = 0;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(cells: &[&str]) -> Stamps {
        let mut s = Stamps::new(NumberStyle::POINT, b';');
        for cell in cells {
            let row = format!("{cell};1.25;2.5;0000000");
            match s.matches(row.as_bytes()) {
                Some(n) if n == cell.len() => s.accept(),
                _ => s.read(cell.as_bytes()).unwrap(),
            }
        }
        s
    }

    fn texts(n: usize, from: f64, step: f64, decimals: usize) -> Vec<String> {
        (0..n)
            .map(|i| format!("{:.*}", decimals, from + i as f64 * step))
            .collect()
    }

    #[test]
    fn even_stamps_are_one_run_whatever_digits_they_have() {
        for (from, step, decimals) in [
            (0.0, 0.0005, 4),
            (0.0, 250.0, 0),
            (9.9, 0.025, 3),
            (-0.01, 0.001, 5),
            (-3.0, 1.0, 0),
            (99_990.0, 7.0, 1),
        ] {
            let cells = texts(500, from, step, decimals);
            let cells: Vec<&str> = cells.iter().map(String::as_str).collect();
            let s = read(&cells);
            assert!(
                matches!(&s.form, Form::Runs { runs, .. } if runs.len() == 1),
                "{from} {step}: {:?}",
                s.form
            );
            let (
                TimeAxis::Even {
                    start_s,
                    step_s,
                    len,
                },
                None,
            ) = s.axis(1.0)
            else {
                panic!()
            };
            assert_eq!((start_s, len), (from, 500));
            assert!((step_s / step - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn one_stamp_that_is_off_is_found() {
        for at in [1, 2, 3, 250, 498, 499] {
            let mut cells = texts(500, 0.0, 0.0005, 4);
            for c in &mut cells[at..] {
                *c = format!("{:.4}", c.parse::<f64>().unwrap() + 0.0003);
            }
            let cells: Vec<&str> = cells.iter().map(String::as_str).collect();
            let (axis, _) = read(&cells).axis(1.0);
            let TimeAxis::Listed(t) = axis else {
                panic!("{at}")
            };
            assert_eq!(t.len(), 500);
            assert_eq!(t[499], 0.2498);
        }
    }

    #[test]
    fn rounded_stamps_are_even_within_their_rounding() {
        // 2.5 kS/s with three decimals.
        let cells: Vec<String> = (0..5000)
            .map(|i| format!("{:.3}", (i as f64 * 0.4).round() / 1000.0))
            .collect();
        let cells: Vec<&str> = cells.iter().map(String::as_str).collect();
        let s = read(&cells);
        assert!(matches!(s.form, Form::List(_)));
        assert!(matches!(s.axis(1.0).0, TimeAxis::Even { len: 5000, .. }));
    }

    #[test]
    fn pieces_join_as_if_they_were_one() {
        let cells = texts(900, 0.0, 0.0005, 4);
        let cells: Vec<&str> = cells.iter().map(String::as_str).collect();
        for cut in [1, 2, 450, 899] {
            let mut s = read(&cells[..cut]);
            assert_eq!(s.append(read(&cells[cut..])), 0);
            assert!(
                matches!(s.axis(1.0).0, TimeAxis::Even { len: 900, .. }),
                "{cut}"
            );
        }
        let mut s = read(&cells[..500]);
        assert_eq!(s.append(read(&cells[490..])), 9);
        assert_eq!(s.len(), 500 + 410 - 9);
    }

    #[test]
    fn a_clock_goes_past_midnight_between_two_pieces() {
        let mut s = read(&["23:59:58", "23:59:59"]);
        s.append(read(&["00:00:00", "00:00:01"]));
        assert!(matches!(
            s.axis(1.0).0,
            TimeAxis::Even {
                len: 4,
                step_s: 1.0,
                ..
            }
        ));
    }
}
