//! Channels on an even grid in double precision, for measurements that need every sample.

use crate::{Input, Settings};
use signal::gaps::bridged;

/// One channel on an even grid, missing samples bridged by straight lines.
#[derive(Debug, Clone, PartialEq)]
pub struct Record {
    /// Role.
    pub role: String,
    /// Values in the channel's calibrated unit.
    pub values: Vec<f64>,
    /// Time of the first sample, s.
    pub start_s: f64,
    /// Sample interval, s.
    pub step_s: f64,
    /// True where the values are in their true unit: volts are volts in any recorder, amperes need the clamp's factor.
    pub calibrated: bool,
    /// Accuracy of the probe (k = 1), as a share of the reading.
    pub accuracy: f64,
    /// True where a sample lies beyond the recorder's range.
    pub over_range: bool,
}

/// Accuracy of a current clamp of which nothing is known, as a share of the reading; common practice, no source.
const CLAMP_ACCURACY: f64 = 0.015;
/// Accuracy of a recorder's voltage input, as a share of the reading; common practice, no source.
const VOLTAGE_ACCURACY: f64 = 0.003;

impl Record {
    /// The first channel of one of the roles, in their order. `None` where none was recorded, or where it has no sample
    /// that is a number or no time axis.
    pub fn of(input: &Input<'_>, roles: &[&str]) -> Option<Record> {
        let channel = roles.iter().find_map(|r| input.channel(r))?;
        let samples = channel.values();
        let is_current = channel.unit == "A";
        let usual = if is_current {
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
            calibrated: channel.facts.calibrated || !is_current,
            accuracy: channel.facts.accuracy_percent.map_or(usual, |p| p / 100.0),
        })
    }

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

/// Number that the job states of the unit, greater than 0: `blades`.
pub fn unit_fact(settings: &Settings, name: &str) -> Option<f64> {
    settings.unit.get(name)?.as_f64().filter(|v| *v > 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::channel;

    #[test]
    fn gaps_are_bridged_and_channels_matched() {
        let a = [1.0, f32::NAN, 3.0, f32::INFINITY];
        let b = [5.0; 4];
        let input = Input {
            file: "record.csv",
            channels: vec![
                channel("pump-current", &a, 100.0),
                channel("pump-voltage", &b, 50.0),
            ],
            settings: Settings::default(),
        };
        let current = Record::of(&input, &["fan-current", "pump-current"]).expect("a record");
        assert_eq!(current.values, [1.0, 2.0, 3.0, 3.0]);
        assert!(current.over_range && current.calibrated);
        assert!((current.at(3) - 0.03).abs() < 1e-12);
        let voltage = Record::of(&input, &["pump-voltage"]).expect("a record");
        assert!(current.matches(&current) && !current.matches(&voltage));
        assert_eq!(Record::of(&input, &["fan-current"]), None);
    }

    #[test]
    fn facts_are_positive_numbers() {
        let mut settings = Settings::default();
        settings.unit.insert("blades".into(), 6.into());
        settings.unit.insert("colour".into(), "many".into());
        settings.unit.insert("ratio".into(), 0.into());
        assert_eq!(unit_fact(&settings, "blades"), Some(6.0));
        for none in ["colour", "ratio", "width"] {
            assert_eq!(unit_fact(&settings, none), None);
        }
    }
}
