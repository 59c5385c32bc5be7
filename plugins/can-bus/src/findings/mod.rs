//! Findings from what was measured, one idea a file.

mod frames;
mod levels;
mod log;
mod wires;

pub use frames::observe as frames;
pub use levels::observe as levels;
pub use log::observe as log;
pub use wires::observe as wires;

use crate::measure::frame::Identifier;
use plugin_sdk::Grade;
use plugin_sdk::Limits;

/// Stated facts of the bus.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Facts {
    /// Bit rate, kbit/s.
    pub bit_rate: Option<f64>,
    /// Identifiers that must be seen.
    pub expected: Vec<Identifier>,
    /// The engine was stated to run or to be cranked: the bus is awake.
    pub awake: bool,
}

/// A recording's place in time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Clock {
    /// Time of the first sample, s.
    pub start_s: f64,
    /// Sampling rate, Hz.
    pub rate_hz: f64,
    /// Number of samples.
    pub samples: usize,
}

impl Clock {
    /// Start and end, s.
    pub fn span(&self) -> (f64, f64) {
        (self.start_s, self.at(self.samples.saturating_sub(1) as f64))
    }

    /// Time of a sample, s.
    pub fn at(&self, sample: f64) -> f64 {
        self.start_s + sample / self.rate_hz
    }
}

/// Abnormal where a value lies beyond the limit by more than twice its uncertainty.
fn grade(spec: &Limits<'_>, limit: &str, value: f64, uncertainty: f64) -> Grade {
    let beyond =
        value - 2.0 * uncertainty > spec.high(limit) || value + 2.0 * uncertainty < spec.low(limit);
    if beyond {
        Grade::Abnormal
    } else {
        Grade::Normal
    }
}
