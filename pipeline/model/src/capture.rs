//! One recording: channels sampled together.

use crate::{Problem, Role};
use chrono::NaiveDateTime;
use std::sync::Arc;

/// One recording. All channels have as many samples as the time axis.
#[derive(Debug, Clone)]
pub struct Capture {
    /// The file's name inside its job folder.
    pub file: String,
    /// When the recording started, where the file says so.
    pub started: Option<NaiveDateTime>,
    /// The instants of the samples, in seconds of the file's own time; in an unknown unit where `time_source` says so.
    pub time: TimeAxis,
    /// Source of the time's unit. Where it is [`TimeSource::Unknown`] nothing that depends on time may be measured.
    pub time_source: TimeSource,
    /// The channels, in the file's order.
    pub channels: Vec<Channel>,
    /// Oddities of the file though it could be read (a cut last line, a gap in time).
    pub problems: Vec<Problem>,
    /// Words on the reading for a person: "CSV, semicolon, decimal comma, UTF-16".
    pub read_as: String,
}

impl Capture {
    /// Memory that its samples and instants take, bytes.
    pub fn bytes(&self) -> u64 {
        let instants = match &self.time {
            TimeAxis::Even { .. } => 0,
            TimeAxis::Listed(instants) => size_of_val(&instants[..]),
        };
        let samples = self.channels.iter().map(|c| match &c.samples {
            Samples::F32(s) => size_of_val(&s[..]),
            Samples::F64(s) => size_of_val(&s[..]),
            Samples::I16(s) => size_of_val(&s[..]),
        });
        samples.fold(instants as u64, |sum, bytes| sum + bytes as u64)
    }
}

/// Source of the unit of a recording's time axis.
#[derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum TimeSource {
    /// The file or its format: a unit, a rate, clock times.
    #[default]
    File,
    /// `time_unit` in job.toml.
    JobFile,
    /// No unit anywhere; assumed from the numbers, which is said on the file's line: "taken as seconds".
    Assumed,
    /// No unit anywhere, and whole numbers: a counter, milliseconds or seconds. The axis is in those numbers.
    Unknown,
}

/// The instants of the samples.
#[derive(Debug, Clone)]
pub enum TimeAxis {
    /// Evenly spaced: sample `i` lies at `start_s + i * step_s`.
    Even {
        /// Time of the first sample, s.
        start_s: f64,
        /// Sample interval, s, greater than zero.
        step_s: f64,
        /// Number of samples.
        len: usize,
    },
    /// Listed instants, s, never decreasing.
    Listed(Arc<[f64]>),
}

impl TimeAxis {
    /// Number of samples.
    pub fn len(&self) -> usize {
        match self {
            TimeAxis::Even { len, .. } => *len,
            TimeAxis::Listed(t) => t.len(),
        }
    }

    /// True where there is no sample at all.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// Time of sample `i`, s. Panics when `i` is not less than `len()` on a listed axis.
    pub fn at(&self, i: usize) -> f64 {
        match self {
            TimeAxis::Even {
                start_s, step_s, ..
            } => start_s + i as f64 * step_s,
            TimeAxis::Listed(t) => t[i],
        }
    }

    /// From the first sample to the last, s; 0 when there are fewer than two.
    pub fn duration_s(&self) -> f64 {
        match self.len() {
            0 | 1 => 0.0,
            n => self.at(n - 1) - self.at(0),
        }
    }

    /// The axis with its unit changed: every instant divided by `divisor`, which is greater than zero.
    pub fn divided(&self, divisor: f64) -> TimeAxis {
        match self {
            TimeAxis::Even {
                start_s,
                step_s,
                len,
            } => TimeAxis::Even {
                start_s: start_s / divisor,
                step_s: step_s / divisor,
                len: *len,
            },
            TimeAxis::Listed(t) => TimeAxis::Listed(t.iter().map(|t| t / divisor).collect()),
        }
    }

    /// Mean samples per second; `None` when there are fewer than two samples.
    pub fn rate_hz(&self) -> Option<f64> {
        let d = self.duration_s();
        (d > 0.0).then(|| (self.len() - 1) as f64 / d)
    }
}

/// The samples as they were recorded. Shared, because the report looks at them again after the plugins.
/// In floats NaN stands for a missing value and an infinity for an over-range mark.
#[derive(Debug, Clone)]
pub enum Samples {
    /// 32-bit floats.
    F32(Arc<Vec<f32>>),
    /// 64-bit floats.
    F64(Arc<[f64]>),
    /// 16-bit integers, full scale at +-32768.
    I16(Arc<[i16]>),
}

impl Samples {
    /// Number of samples.
    pub fn len(&self) -> usize {
        match self {
            Samples::F32(s) => s.len(),
            Samples::F64(s) => s.len(),
            Samples::I16(s) => s.len(),
        }
    }

    /// True where there is no sample at all.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// Sample `i` as it was recorded.
    pub fn raw(&self, i: usize) -> f64 {
        match self {
            Samples::F32(s) => s[i] as f64,
            Samples::F64(s) => s[i],
            Samples::I16(s) => s[i] as f64,
        }
    }
}

/// One channel. Its value in `unit` is `raw * scale + offset`.
#[derive(Debug, Clone)]
pub struct Channel {
    /// The name as the file gives it, without its unit.
    pub name: String,
    /// The unit as the file gives it ("mV"); `None` where it gives none. The reader leaves it so;
    /// calibration replaces it by the unit of the calibrated value.
    pub unit: Option<String>,
    /// Role of the channel, once that is known.
    pub role: Option<Role>,
    /// Source of the role.
    pub role_source: RoleSource,
    /// Calibration: value = raw * scale + offset.
    pub scale: f64,
    /// Calibration: value = raw * scale + offset.
    pub offset: f64,
    /// Meaning of the calibrated value.
    pub calibration: Calibration,
    /// Column of the table that the channel stands in, from 1; job.toml may call it "Column 3" by that.
    pub column: Option<u32>,
    /// The samples as recorded.
    pub samples: Samples,
}

impl Channel {
    /// A channel as a file gives it: nobody has said yet what it measures, and a sample is its value.
    pub fn recorded(name: impl Into<String>, unit: Option<String>, samples: Samples) -> Self {
        Self {
            name: name.into(),
            unit,
            role: None,
            role_source: RoleSource::Unknown,
            scale: 1.0,
            offset: 0.0,
            calibration: Calibration::None,
            column: None,
            samples,
        }
    }

    /// The channel with a role.
    pub fn with_role(self, role: Role) -> Self {
        Self {
            role: Some(role),
            ..self
        }
    }

    /// True where the calibrated values are in the channel's unit (a clamp's volts without a factor are not).
    pub fn calibrated(&self) -> bool {
        self.calibration != Calibration::None
    }

    /// Calibrated value of sample `i`.
    pub fn value(&self, i: usize) -> f64 {
        self.samples.raw(i) * self.scale + self.offset
    }
}

/// Meaning of a channel's calibrated values.
#[derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Calibration {
    /// In the role's unit: the file states the unit, or job.toml a factor, 1.0 included.
    Stated,
    /// Numbers of a file without any unit that are plausible as volts and were taken as such, which is said on the file's
    /// line.
    TakenAsVolts,
    /// Numbers without unit or factor: their shape counts, their size means nothing.
    #[default]
    None,
}

/// Source of a channel's role.
#[derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case", tag = "by")]
#[derive(Debug, Clone, PartialEq, Default)]
pub enum RoleSource {
    /// Nobody has said yet.
    #[default]
    Unknown,
    /// job.toml says so.
    JobFile,
    /// Guessed from name, unit and shape.
    Guess {
        /// From 0 (no idea) to 1 (no doubt).
        certainty: f64,
        /// Reason in words.
        reason: String,
    },
}
