//! Limits sheets from known-good values: proposed, held against the limit in force, adopted by a person.

mod adopt;
mod bound;
mod propose;

pub use adopt::{Adoption, Wording};
pub use bound::{Change, LearnedBound};
pub(crate) use propose::sides;
pub use propose::{Own, Proposal, Reason, VehicleRange, propose};

use crate::unit::UnitKey;
use chrono::NaiveDateTime;
use model::KnownGoodCurve;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// One version of the learned limits of a kind of unit. Versions are only ever added; the last one is in force.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LearnedSheet {
    /// Kind of unit.
    pub key: UnitKey,
    /// Number of this version, from 1.
    pub version: u32,
    /// Number of the version that this one brings back; 0 where it brings back the limits from before anything was
    /// learned. Left out where it adopts new ones.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reverts_to: Option<u32>,
    /// Person who adopted it.
    pub by: String,
    /// Time, in the shop's time.
    pub at: NaiveDateTime,
    /// Version of the program that counted.
    pub program: String,
    /// Shop whose vehicles they were; `None` for one's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub origin: Option<Origin>,
    /// Jobs whose odd values a person took for good.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub included: Vec<String>,
    /// Values by the names of the limits sheet.
    #[serde(default)]
    pub value: BTreeMap<String, LearnedValue>,
    /// Curves of the known-good units.
    #[serde(default, rename = "curve", skip_serializing_if = "Vec::is_empty")]
    pub curves: Vec<KnownGoodCurve>,
}

/// Another shop.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Origin {
    /// Name that the importing person gave it.
    pub name: String,
    /// Fingerprint of its key.
    pub key: String,
}

/// One learned limit. Its first keys are those of a limits sheet.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LearnedValue {
    /// Lowest good value.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub low: Option<f64>,
    /// Highest good value.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub high: Option<f64>,
    /// Unit.
    pub unit: String,
    /// Origin in words, as reports print it.
    pub source: String,
    /// Bounds that the values were asked for; one that did not move is that of the replaced limit.
    pub bounds: Vec<model::system::Bound>,
    /// Lowest good value of the limit that this one replaces.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub replaced_low: Option<f64>,
    /// Highest good value of the limit that this one replaces.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub replaced_high: Option<f64>,
    /// Recordings.
    pub recordings: usize,
    /// Vehicles, each counted once.
    pub vehicles: usize,
    /// Median over the vehicles.
    pub median: f64,
    /// Confidence with which 95 % of such vehicles keep to it.
    pub confidence: f64,
    /// Vehicles that only the program's own comparison, by the limit in force, calls good.
    pub judged: usize,
    /// True where a person named the value: only then is a limit narrowed, or widened for few vehicles.
    pub by_word: bool,
    /// First and last month of the jobs.
    pub months: (String, String),
    /// Smallest and largest value of each vehicle.
    pub basis: Vec<BasisRange>,
}

/// Values of one vehicle.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BasisRange {
    /// Digest that tells the vehicle from others; empty where it is not known.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub vehicle: String,
    /// Smallest value.
    pub low: f64,
    /// Largest value.
    pub high: f64,
}
