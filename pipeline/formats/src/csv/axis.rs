//! Where the time of a row comes from: which column it is, or a stated interval.

use super::layout::{Column, Layout};
use crate::units;

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

pub(crate) fn is_time_name(name: &str) -> bool {
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
