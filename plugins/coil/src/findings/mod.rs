//! Findings from what was measured, one idea a file.

mod armature;
mod course;
mod current;
mod resistance;

pub use armature::observe as armature;
pub use course::observe as course;
pub use current::observe as current;
pub use resistance::observe as resistance;

use crate::measure::record::Coil;
use plugin_sdk::signal::stats;

/// A coil with the channel that it was recorded on.
#[derive(Debug, Clone)]
pub struct Recorded {
    /// Role of the channel: `coil-current-3`.
    pub role: String,
    /// Measured.
    pub coil: Coil,
    /// The values are amperes.
    pub calibrated: bool,
    /// First and last sample, s.
    pub span: (f64, f64),
    /// Time from sample to sample, s.
    pub step_s: f64,
}

/// Stated facts.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Facts {
    /// Resistance of the coils at 20 degrees Celsius, ohm.
    pub coil_ohm: Option<f64>,
    /// The engine was stated to run: injectors and ignition work.
    pub engine_runs: bool,
}

impl Recorded {
    /// First and last actuation, s; the whole record without one.
    fn active(&self) -> (f64, f64) {
        let at = |sample: f64| self.span.0 + sample * self.step_s;
        let actuations = &self.coil.found.actuations;
        match actuations.first().zip(actuations.last()) {
            Some((first, last)) => (at(first.on), at(last.off)),
            None => self.span,
        }
    }

    /// Number of actuations.
    fn actuations(&self) -> usize {
        self.coil.found.actuations.len()
    }
}

/// Relative difference up to which two others agree.
const AGREE: f64 = 0.25;

/// What the other coils show.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Others {
    /// None of them shows a value, or two of them disagree.
    Nothing,
    /// The only other one: where the two disagree nobody tells who is off.
    One(f64),
    /// Median of several.
    Usual(f64),
}

impl Others {
    fn of(coils: &[Recorded], but: usize, value: impl Fn(&Coil) -> Option<f64>) -> Others {
        let values: Vec<f64> = coils
            .iter()
            .enumerate()
            .filter(|(k, _)| *k != but)
            .filter_map(|(_, c)| value(&c.coil))
            .collect();
        match values[..] {
            [] => Others::Nothing,
            [one] => Others::One(one),
            [a, b] if (a - b).abs() > AGREE * (a + b) / 2.0 => Others::Nothing,
            _ => stats::median(&values).map_or(Others::Nothing, Others::Usual),
        }
    }

    /// Median of two others or more.
    fn usual(self) -> Option<f64> {
        match self {
            Others::Usual(value) => Some(value),
            _ => None,
        }
    }

    /// The only other one's.
    fn only(self) -> Option<f64> {
        match self {
            Others::One(value) => Some(value),
            _ => None,
        }
    }

    /// That of the only other one, or the median of several.
    fn any(self) -> Option<f64> {
        self.usual().or(self.only())
    }
}
