//! Pulses of a current as series.

use super::Find;
use super::columns::{Rows, flags, numbers, words};
use super::words::{current_life_word, read_current_life};
use crate::{ColumnType, Form, Series, SeriesSpec};
use ColumnType::{F64, I64, Text};
use signal::current::{CurrentPulse, CurrentRecord, PulseCapability};

/// Inputs of an analyzer that reads current pulses.
pub const PULSES: [&str; 2] = [CURRENT_LEVELS.name, CURRENT_PULSES.name];

/// Levels of a current, its capability of detection and its proof of life: one row.
pub const CURRENT_LEVELS: SeriesSpec = SeriesSpec {
    name: "current-levels",
    form: Form::Table,
    columns: &[
        ("quiescent", "", F64),
        ("noise", "", F64),
        ("detectable_rise", "", F64),
        ("detectable_s", "s", F64),
        ("alive", "", Text),
        ("alive_level", "", F64),
        ("wake_s", "s", F64),
        ("wake_rise", "", F64),
        ("reversed", "", I64),
    ],
};

/// Pulses of a current, in the order of time.
pub const CURRENT_PULSES: SeriesSpec = SeriesSpec {
    name: "current-pulses",
    form: Form::Table,
    columns: &[
        ("start_s", "s", F64),
        ("end_s", "s", F64),
        ("peak", "", F64),
        ("peak_at_s", "s", F64),
        ("quiescent", "", F64),
        ("charge", "", F64),
        ("hold_s", "s", F64),
        ("stalled", "", I64),
        ("cut", "", I64),
    ],
};

/// [`CURRENT_LEVELS`] and [`CURRENT_PULSES`] of a channel.
pub fn pulses_series(channel: u32, record: &CurrentRecord) -> [Series; 2] {
    let (one, p) = ([record], &record.pulses);
    let wake = |r: &&CurrentRecord| r.wake.unwrap_or((f64::NAN, f64::NAN));
    let levels = vec![
        numbers(&one, |r| r.quiescent),
        numbers(&one, |r| r.noise),
        numbers(&one, |r| r.capability.rise),
        numbers(&one, |r| r.capability.duration_s),
        words(&one, |r| current_life_word(r.alive).0),
        numbers(&one, |r| current_life_word(r.alive).1),
        numbers(&one, |r| wake(r).0),
        numbers(&one, |r| wake(r).1),
        flags(&one, |r| r.reversed),
    ];
    let pulses = vec![
        numbers(p, |p| p.start_s),
        numbers(p, |p| p.end_s),
        numbers(p, |p| p.peak),
        numbers(p, |p| p.peak_at_s),
        numbers(p, |p| p.quiescent),
        numbers(p, |p| p.charge),
        numbers(p, |p| p.hold_s),
        flags(p, |p| p.stalled),
        flags(p, |p| p.cut),
    ];
    [
        CURRENT_LEVELS.of(Some(channel), None, levels),
        CURRENT_PULSES.of(Some(channel), None, pulses),
    ]
}

pub(crate) fn read_pulses(find: Find<'_>) -> Option<CurrentRecord> {
    let (levels, pulses) = (find(CURRENT_LEVELS.name)?, find(CURRENT_PULSES.name)?);
    let (one, p) = (Rows(&levels), Rows(&pulses));
    let pulse = |i| {
        Some(CurrentPulse {
            start_s: p.number("start_s", i)?,
            end_s: p.number("end_s", i)?,
            peak: p.number("peak", i)?,
            peak_at_s: p.number("peak_at_s", i)?,
            quiescent: p.number("quiescent", i)?,
            charge: p.number("charge", i)?,
            hold_s: p.number("hold_s", i)?,
            stalled: p.flag("stalled", i)?,
            cut: p.flag("cut", i)?,
        })
    };
    let wake = (one.number("wake_s", 0)?, one.number("wake_rise", 0)?);
    Some(CurrentRecord {
        quiescent: one.number("quiescent", 0)?,
        noise: one.number("noise", 0)?,
        capability: PulseCapability {
            rise: one.number("detectable_rise", 0)?,
            duration_s: one.number("detectable_s", 0)?,
        },
        alive: read_current_life(one.word("alive", 0)?, one.number("alive_level", 0)?)?,
        pulses: (0..pulses.rows()).map(pulse).collect::<Option<_>>()?,
        wake: (!wake.0.is_nan()).then_some(wake),
        reversed: one.flag("reversed", 0)?,
    })
}
