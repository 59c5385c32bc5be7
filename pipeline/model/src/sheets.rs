//! Spec sheets (what a unit should do) and cause sheets (what explains what).

use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// What a given unit should do. Every number carries its source.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SpecSheet {
    /// The name that job.toml's `unit` refers to.
    pub name: String,
    /// What kind of unit it describes.
    pub description: String,
    /// The numbers by name.
    #[serde(default)]
    pub value: BTreeMap<String, SpecValue>,
    /// Gear ratios by gear name, input shaft turns per output shaft turn; empty when not known.
    #[serde(default)]
    pub gear: BTreeMap<String, GearSpec>,
}

/// One number of a spec sheet: a nominal value, a range, or both.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SpecValue {
    /// Nominal value.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub nominal: Option<f64>,
    /// Lowest good value.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub low: Option<f64>,
    /// Highest good value.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub high: Option<f64>,
    /// Unit.
    pub unit: String,
    /// Where the number comes from.
    pub source: String,
}

/// One gear of a spec sheet.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GearSpec {
    /// The input shaft that carries it: 1 or 2.
    pub shaft: u8,
    /// Input shaft turns per output shaft turn.
    pub ratio: f64,
    /// Where the number comes from.
    pub source: String,
}
