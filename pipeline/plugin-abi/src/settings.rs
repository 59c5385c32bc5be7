//! What is known besides the samples. Travels over the ABI as JSON; unknown keys are ignored,
//! missing ones take their defaults, so that either side may grow.

use crate::Observation;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// What is known besides the samples.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct Settings {
    /// `before`, `after`, or not said.
    pub phase: Option<String>,
    /// Selector position `P R N D S M` and who says so.
    pub selector: Option<Stated>,
    /// `running`, `off`, `cranking` and who says so.
    pub engine: Option<Stated>,
    /// What is known of each channel, in the order of the channels.
    pub channels: Vec<ChannelFacts>,
    /// Numbers of the spec sheet by name.
    pub spec: BTreeMap<String, SpecNumber>,
    /// Gears of the spec sheet by name.
    pub gears: BTreeMap<String, Gear>,
    /// For a job: every finding so far.
    pub findings: Vec<Seen>,
    /// For a job: the trouble codes.
    pub codes: Vec<Code>,
    /// For a job: which roles each recording has.
    pub recorded: Vec<Recorded>,
    /// Live data of the scan texts that are understood.
    pub live: Vec<Live>,
}

/// A statement and who made it.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct Stated {
    /// What is stated.
    pub value: String,
    /// Who says so.
    pub source: String,
}

/// What is known of a channel.
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
    /// Whether the values are in their true unit.
    pub calibrated: bool,
    /// Who says what the teeth are: `job.toml`, a spec sheet's name.
    pub teeth_source: Option<String>,
}

/// One number of a spec sheet.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct SpecNumber {
    /// Nominal value.
    pub nominal: Option<f64>,
    /// Lowest good value.
    pub low: Option<f64>,
    /// Highest good value.
    pub high: Option<f64>,
    /// Unit.
    pub unit: String,
    /// Where it comes from.
    pub source: String,
}

/// One gear of a spec sheet.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct Gear {
    /// The input shaft that carries it: 1 or 2.
    pub shaft: u8,
    /// Input shaft turns per output shaft turn.
    pub ratio: f64,
    /// Where the number comes from.
    pub source: String,
}

/// A finding of an earlier plugin.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct Seen {
    /// The finding's id in the case.
    pub id: String,
    /// The plugin that made it.
    pub plugin: String,
    /// The recording.
    pub file: Option<String>,
    /// What it says.
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
pub struct Recorded {
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
pub struct Live {
    /// `engine-speed`, `selector-position`, `module-voltage`, ...
    pub quantity: String,
    /// The number, where it is one.
    pub value: Option<f64>,
    /// The text as given.
    pub text: String,
    /// The scan text.
    pub file: String,
}
