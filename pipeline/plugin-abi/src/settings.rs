//! Settings of a call: what is known besides the samples. They cross the interface as JSON; unknown keys are ignored,
//! missing ones take their defaults, so that either side may grow.

use crate::Observation;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use std::collections::BTreeMap;

/// Knowledge besides the samples.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct Settings {
    /// `before`, `after`, or not said.
    pub phase: Option<String>,
    /// Selector position `P R N D S M` and who says so.
    pub selector: Option<Stated>,
    /// `running`, `off`, `cranking` and who says so.
    pub engine: Option<Stated>,
    /// Facts of each channel, in the order of the channels.
    pub channels: Vec<ChannelFacts>,
    /// State of the consumer that the job states: `key-off`, `loaded`, `free`, or not said.
    pub state: Option<String>,
    /// Values of the limits sheet by name.
    pub limits: BTreeMap<String, LimitValue>,
    /// Further tables of the limits sheet by name, each with its rows by name, as the sheet has them.
    pub tables: BTreeMap<String, BTreeMap<String, Value>>,
    /// Facts of the unit by name (`cylinders`, `battery_ah`), as job.toml states them.
    pub unit: BTreeMap<String, Value>,
    /// For a job: every finding so far.
    pub findings: Vec<PriorFinding>,
    /// For a job: the trouble codes.
    pub codes: Vec<Code>,
    /// For a job: which roles each recording has.
    pub recorded: Vec<RecordedCapture>,
    /// Live data of the scan texts that are understood.
    pub live: Vec<LiveValue>,
}

/// A statement and who made it.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct Stated {
    /// The stated value.
    pub value: String,
    /// Who says so.
    pub source: String,
}

/// Facts of a channel.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct ChannelFacts {
    /// `hall`, `vr`, `current-loop`, or not known.
    pub sensor: Option<String>,
    /// Pitch positions per turn, or not known.
    pub teeth: Option<u32>,
    /// Positions without a tooth; not known when `None`, then found from the signal.
    pub missing_teeth: Option<u32>,
    /// Accuracy of the probe, percent of the reading (k = 1).
    pub accuracy_percent: Option<f64>,
    /// True where the values are in their true unit.
    pub calibrated: bool,
    /// Source of the tooth count: `job.toml`, a limits sheet's name.
    pub teeth_source: Option<String>,
}

/// One value of a limits sheet.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct LimitValue {
    /// Nominal value.
    pub nominal: Option<f64>,
    /// Lowest good value.
    pub low: Option<f64>,
    /// Highest good value.
    pub high: Option<f64>,
    /// Unit.
    pub unit: String,
    /// Its source.
    pub source: String,
}

/// A finding of an earlier analyzer.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct PriorFinding {
    /// The finding's id in the case.
    pub id: String,
    /// The analyzer that made it.
    pub plugin: String,
    /// The recording.
    pub file: Option<String>,
    /// Its content.
    #[serde(flatten)]
    pub observation: Observation,
}

/// A trouble code.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct Code {
    /// `P0894`
    pub code: String,
    /// `1C`, or not given.
    pub failure_type: Option<String>,
    /// `active`, `pending`, `confirmed`, `permanent`, `history`, `not-tested`.
    pub status: Vec<String>,
    /// `TCM`, or not given.
    pub module: Option<String>,
    /// The scan text.
    pub file: String,
}

/// The roles that a recording has.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct RecordedCapture {
    /// The recording.
    pub file: String,
    /// `before`, `after`, or not said.
    pub phase: Option<String>,
    /// Roles.
    pub roles: Vec<String>,
}

/// An item of live data.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct LiveValue {
    /// `selector-position`, `module-voltage`, ...
    pub quantity: String,
    /// The number, where it is one.
    pub value: Option<f64>,
    /// The text as given.
    pub text: String,
    /// The scan text.
    pub file: String,
}
