//! Channels of a recording as this system reads them, and facts of the unit.

use plugin_sdk::signal::gaps::bridged;
use plugin_sdk::{Input, Settings};

/// One channel on an even grid, missing samples bridged.
pub struct Record {
    /// Role.
    pub role: String,
    /// Values, in A or V.
    pub values: Vec<f64>,
    /// Time of the first sample, s.
    pub start_s: f64,
    /// Sample interval, s.
    pub step_s: f64,
    /// True where the values are in their true unit.
    pub calibrated: bool,
    /// Accuracy of the probe, as a share of the reading.
    pub accuracy: f64,
    /// True where a sample lies beyond the recorder's range.
    pub over_range: bool,
}

/// Accuracy of a current clamp of which nothing is known, as a share of the reading; common practice, no source.
const CLAMP_ACCURACY: f64 = 0.015;
/// Of a recorder's voltage input.
const VOLTAGE_ACCURACY: f64 = 0.003;

/// The first channel of one of the roles, in their order. `None` where none was recorded or it has no time axis.
pub fn record(input: &Input<'_>, roles: &[&str]) -> Option<Record> {
    let channel = roles.iter().find_map(|r| input.channel(r))?;
    let samples = channel.values();
    let usual = if channel.unit == "A" {
        CLAMP_ACCURACY
    } else {
        VOLTAGE_ACCURACY
    };
    Some(Record {
        role: channel.role.to_owned(),
        over_range: samples.iter().any(|v| v.is_infinite()),
        values: bridged(&samples)?,
        start_s: channel.time.at(0),
        step_s: channel.time.mean_step(channel.len()).filter(|s| *s > 0.0)?,
        // Volts are volts in any recorder; amperes need the clamp's factor.
        calibrated: channel.facts.calibrated || channel.unit != "A",
        accuracy: channel.facts.accuracy_percent.map_or(usual, |p| p / 100.0),
    })
}

impl Record {
    /// Time of a sample, s.
    pub fn at(&self, sample: usize) -> f64 {
        self.start_s + sample as f64 * self.step_s
    }

    /// True for a channel that was sampled together with this one.
    pub fn matches(&self, other: &Record) -> bool {
        self.values.len() == other.values.len()
            && (self.step_s / other.step_s - 1.0).abs() < 1e-3
            && (self.start_s - other.start_s).abs() < self.step_s
    }
}

/// A fact of the unit that the job states: `cylinders`, `battery_ah`.
pub fn fact(settings: &Settings, name: &str) -> Option<f64> {
    settings.unit.get(name)?.as_f64().filter(|v| *v > 0.0)
}
