//! The time axis: which column it is, its unit, and whether it is even.

use super::layout::{Column, Layout};
use super::stamp;
use crate::number::{self, Cell, NumberStyle};
use crate::{time_axis, units};
use chrono::NaiveDate;
use model::TimeAxis;

/// Where the time of a row comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum TimeSource {
    /// A column, and seconds per unit.
    Column(usize, f64),
    /// The rows' own order and this interval, s.
    Interval(f64),
}

const TIME_NAMES: [&str; 24] = [
    "time",
    "t",
    "zeit",
    "tiempo",
    "temps",
    "tempo",
    "timestamp",
    "time stamp",
    "elapsed",
    "elapsed time",
    "uhrzeit",
    "zeitstempel",
    "hora",
    "heure",
    "ora",
    "instante",
    "instant",
    "seconds",
    "sekunden",
    "rel time",
    "relative time",
    "x-axis",
    "abszeit",
    "clock",
];
const INDEX_NAMES: [&str; 18] = [
    "index",
    "sample",
    "samples",
    "no",
    "no.",
    "nr",
    "nr.",
    "n",
    "#",
    "muestra",
    "point",
    "punkt",
    "row",
    "record",
    "count",
    "zeile",
    "échantillon",
    "campione",
];

fn plain_name(column: &Column) -> String {
    column.name.trim().to_lowercase()
}

fn is_time_name(name: &str) -> bool {
    TIME_NAMES.contains(&name)
        || name
            .split(|c: char| !c.is_alphanumeric())
            .next()
            .is_some_and(|w| {
                matches!(
                    w,
                    "time"
                        | "zeit"
                        | "tiempo"
                        | "temps"
                        | "tempo"
                        | "timestamp"
                        | "uhrzeit"
                        | "zeitstempel"
                )
            })
}

/// Whether the column numbers the rows and measures nothing.
pub(super) fn is_index(column: &Column) -> bool {
    column.counts && column.unit.is_none() && INDEX_NAMES.contains(&plain_name(column).as_str())
}

/// Finds the time column: by name, by a unit of time, or, where there are no telling names, because
/// the first column always rises. `None` when nothing says when a row was recorded.
pub(super) fn source(layout: &Layout) -> Option<TimeSource> {
    let interval = layout.metadata.interval_s;
    let columns = layout
        .columns
        .iter()
        .enumerate()
        .filter(|(_, c)| c.numeric && !is_index(c));
    let time_unit = |c: &Column| c.unit.as_deref().and_then(units::seconds);
    let named = columns
        .clone()
        .filter(|(_, c)| is_time_name(&plain_name(c)))
        .max_by_key(|(i, c)| (c.rising, time_unit(c).is_some(), usize::MAX - i));
    let by_unit = || {
        columns
            .clone()
            .find(|(_, c)| c.rising && time_unit(c).is_some())
    };
    let first = || {
        let silent = |c: &Column| {
            !layout.named
                || c.unit.is_none() && (c.name.starts_with("Column ") || plain_name(c) == "x")
        };
        columns
            .clone()
            .next()
            .filter(|(i, c)| *i == 0 && c.rising && silent(c) && layout.columns.len() > 1)
    };
    match named.or_else(by_unit).or_else(first) {
        Some((_, c)) if !layout.named && c.counts && interval.is_some() => {
            interval.map(TimeSource::Interval)
        }
        Some((i, c)) => Some(TimeSource::Column(i, time_unit(c).unwrap_or(1.0))),
        None => interval.map(TimeSource::Interval),
    }
}

/// Collects the time stamps of the rows, in the file's own unit.
#[derive(Debug)]
pub(super) struct Clock {
    style: NumberStyle,
    unit_s: f64,
    /// Stamps in the file's unit.
    pub stamps: Vec<f64>,
    decimals: i32,
    digits: i32,
    /// The day of the first stamp, where stamps have a date.
    pub day: Option<NaiveDate>,
    clock_times: bool,
    midnights: f64,
}

impl Clock {
    pub fn new(style: NumberStyle, unit_s: f64, capacity: usize) -> Self {
        Clock {
            style,
            unit_s,
            stamps: Vec::with_capacity(capacity),
            decimals: i32::MIN,
            digits: 1,
            day: None,
            clock_times: false,
            midnights: 0.0,
        }
    }

    /// Reads one cell; `None` when it is no time.
    pub fn read(&mut self, cell: &[u8]) -> Option<f64> {
        match number::cell(cell, self.style) {
            Cell::Number(d) => {
                self.decimals = self.decimals.max(d.decimals);
                self.digits = self.digits.max(d.digits());
                Some(d.value)
            }
            Cell::Text => self.read_stamp(std::str::from_utf8(cell).ok()?),
            _ => None,
        }
    }

    fn read_stamp(&mut self, cell: &str) -> Option<f64> {
        let s = stamp::parse(cell)?;
        self.clock_times = true;
        self.unit_s = 1.0;
        self.decimals = self.decimals.max(s.decimals);
        if let Some(day) = s.day {
            let first = *self.day.get_or_insert(day);
            return Some((day - first).num_days() as f64 * 86_400.0 + s.seconds);
        }
        // Past midnight a clock without a date begins again.
        if self
            .stamps
            .last()
            .is_some_and(|last| s.seconds + self.midnights < last - 43_200.0)
        {
            self.midnights += 86_400.0;
        }
        Some(s.seconds + self.midnights)
    }

    /// Takes the unit from a stated interval, when it explains the stamps to a per cent; for a time column
    /// that names no unit. False when it explains nothing.
    pub fn fit_unit(&mut self, interval_s: f64) -> bool {
        let (Some(first), Some(last)) = (self.stamps.first(), self.stamps.last()) else {
            return false;
        };
        let step = (last - first) / (self.stamps.len().max(2) - 1) as f64;
        let fits = |unit: &f64| !self.clock_times && (step * unit / interval_s - 1.0).abs() < 0.01;
        match [1e-3, 1e-6, 1e-9].into_iter().find(fits) {
            Some(unit) => {
                self.unit_s = unit;
                true
            }
            None => false,
        }
    }

    /// How finely the stamps are written, in the file's unit: by the decimals, or by the significant
    /// digits where the writer rounds to a number of those.
    fn resolution(&self) -> f64 {
        let largest = self.stamps.iter().fold(0.0f64, |m, t| m.max(t.abs()));
        let places = 10f64.powi(-self.decimals.clamp(-30, 30));
        if self.clock_times || largest <= 0.0 {
            return places;
        }
        let whole = largest.log10().floor() as i32 + 1;
        places.max(10f64.powi((whole - self.digits).clamp(-30, 30)))
    }

    /// The axis, and the time of day at its zero where the stamps are times of day.
    pub fn axis(mut self) -> (TimeAxis, Option<(Option<NaiveDate>, f64)>) {
        let resolution = self.resolution();
        let mut zero = None;
        // Elapsed times stay as they are; a time of day counts from the first sample.
        if self.clock_times
            && let Some(&first) = self.stamps.first()
            && (self.day.is_some() || first >= 3600.0)
        {
            zero = Some((self.day, first));
            for t in &mut self.stamps {
                *t -= first;
            }
        }
        let scale = Scale::new(self.unit_s);
        let even = time_axis::is_even(&self.stamps, resolution);
        let seconds: Vec<f64> = self.stamps.into_iter().map(|t| scale.seconds(t)).collect();
        (time_axis::axis(seconds, even), zero)
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
