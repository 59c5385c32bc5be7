//! Source of a row's time: which column it is, or a stated interval.

use super::layout::{Column, Layout};
use crate::units;
use crate::words::{WORDS, fold, is_time_name, unit_by_name};

/// Source of a row's time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum TimeFrom {
    /// A column, and seconds per unit where the file states its unit.
    Column(usize, Option<f64>),
    /// The rows' own order and this interval, s.
    Interval(f64),
}

/// True where the column numbers the rows and measures nothing.
pub(super) fn is_index(column: &Column) -> bool {
    let name = fold(column.name.trim());
    column.counts && column.unit.is_none() && WORDS.index_column.contains(&name)
}

/// Finds the time column: by a unit of time, by clock times, by name, or, where there are no telling names, because the
/// first column always rises. Clock times win over whole numbers, which may be a counter. `None` where nothing says when
/// a row was recorded.
pub(super) fn source(layout: &Layout) -> Option<TimeFrom> {
    let interval = layout.metadata.interval_s;
    let columns = || {
        let all = layout.columns.iter().enumerate();
        all.filter(|(_, c)| c.numeric && !is_index(c))
    };
    let time_unit = |c: &Column| match c.unit.as_deref() {
        Some(unit) => units::seconds(unit),
        None => unit_by_name(&c.name),
    };
    let named = |c: &Column| is_time_name(&c.name);
    let with_unit = columns()
        .filter(|(_, c)| time_unit(c).is_some() && (named(c) || c.rising))
        .max_by_key(|(i, c)| (named(c), c.rising, usize::MAX - i));
    let by_name = |fractional: bool| {
        columns()
            .filter(|(_, c)| named(c) && (c.fractional || !fractional) && !c.clock)
            .max_by_key(|(i, c)| (c.rising, usize::MAX - i))
    };
    let clock = || columns().find(|(_, c)| c.clock);
    let first = |fractional: bool| {
        let silent = |c: &Column| {
            !layout.named
                || c.unit.is_none() && (c.name.starts_with("Column ") || fold(&c.name) == "x")
        };
        let first = layout.columns.iter().take_while(|c| c.side).count();
        columns()
            .next()
            .filter(|(i, c)| {
                *i == first && c.rising && silent(c) && layout.columns.len() > first + 1
            })
            .filter(|(_, c)| c.fractional || !fractional)
    };
    let found = with_unit
        .or_else(|| by_name(true))
        .or_else(|| first(true))
        .or_else(clock)
        .or_else(|| by_name(false))
        .or_else(|| first(false));
    match found {
        Some((_, c)) if !layout.named && c.counts && interval.is_some() => {
            interval.map(TimeFrom::Interval)
        }
        Some((i, c)) => Some(TimeFrom::Column(i, time_unit(c))),
        None => interval.map(TimeFrom::Interval),
    }
}
