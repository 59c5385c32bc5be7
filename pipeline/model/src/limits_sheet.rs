//! Limits sheets: what a unit should do.

use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Normal values of one kind of unit. Every number carries its source.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LimitsSheet {
    /// Name that `unit` of job.toml refers to.
    pub name: String,
    /// System that the unit belongs to. In the folder of a system it may be left out.
    #[serde(default)]
    pub system: String,
    /// Kind of unit, for a person.
    #[serde(default)]
    pub description: String,
    /// Numbers by name.
    #[serde(default)]
    pub value: BTreeMap<String, LimitValue>,
    /// Gear ratios by gear name; empty where they are not known.
    #[serde(default)]
    pub gear: BTreeMap<String, GearRatio>,
}

/// One number of a limits sheet: a nominal value, a range, or both.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LimitValue {
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
    /// Origin of the number.
    pub source: String,
}

/// One gear of a limits sheet.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GearRatio {
    /// Input shaft that carries it: 1 or 2.
    pub shaft: u8,
    /// Input shaft turns per output shaft turn.
    pub ratio: f64,
    /// Origin of the number.
    pub source: String,
}
