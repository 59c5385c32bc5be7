//! Series that the library `recording` derives once from every channel, and their reading and writing.

mod columns;
mod current;
mod speed;
mod train;
mod words;

pub use current::{CURRENT_LEVELS, CURRENT_PULSES, PULSES, pulses_series};
pub use speed::{SpeedTrack, speed_track};
pub use train::{
    TOOTH_DROPOUTS, TOOTH_EDGES, TOOTH_PATTERN, TOOTH_RATE, TOOTH_SEGMENTS, TOOTH_TRAIN,
    TOOTH_TURNS, TRAIN, train_series,
};
pub use words::{Word, reject_word};

pub(crate) use current::read_pulses;
pub(crate) use train::read_train;

use crate::{ColumnType, Form, Series, SeriesSpec};
use ColumnType::{F64, Text};
use columns::{Rows, numbers};

/// Finds a series of one channel by its name.
type Find<'a> = &'a dyn Fn(&str) -> Option<Series>;

/// State levels of a channel that is neither a current nor a tooth signal: one row, in the calibrated unit.
pub const LEVELS: SeriesSpec = SeriesSpec {
    name: "state-levels",
    form: Form::Table,
    columns: &[("low", "", F64), ("high", "", F64), ("noise", "", F64)],
};

/// State of the engine over the recording, segment by segment: see [`Conditions`](crate::Conditions).
pub const ENGINE_STATE: SeriesSpec = SeriesSpec {
    name: "engine-state",
    form: Form::Table,
    columns: &[
        ("start_s", "s", F64),
        ("end_s", "s", F64),
        ("state", "", Text),
        ("basis", "", Text),
    ],
};

/// State levels of a channel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StateLevels {
    /// Low state.
    pub low: f64,
    /// High state.
    pub high: f64,
    /// Standard deviation of the noise of one sample.
    pub noise: f64,
}

/// [`LEVELS`] of a channel.
pub fn levels_series(channel: u32, levels: &StateLevels) -> Series {
    let one = [*levels];
    let values = vec![
        numbers(&one, |l| l.low),
        numbers(&one, |l| l.high),
        numbers(&one, |l| l.noise),
    ];
    LEVELS.of(Some(channel), None, values)
}

pub(crate) fn read_levels(series: &Series) -> Option<StateLevels> {
    let row = Rows(series);
    Some(StateLevels {
        low: row.number("low", 0)?,
        high: row.number("high", 0)?,
        noise: row.number("noise", 0)?,
    })
}
