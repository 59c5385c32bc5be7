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

/// What explains what: candidate causes, each with rows of weights. The engine knows no fault by name; these
/// sheets do.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CauseSheet {
    /// The candidate causes.
    #[serde(default, rename = "cause")]
    pub causes: Vec<CauseRow>,
    /// What keeps a verdict open.
    #[serde(default, rename = "blocker")]
    pub blockers: Vec<BlockerRow>,
    /// What the steps to take next would record.
    #[serde(default, rename = "step")]
    pub steps: Vec<StepRow>,
}

/// What a step would record: where all of it is recorded already, the step tells nothing new and is not named.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StepRow {
    /// Key of lang/*.ftl, as in `next`.
    pub name: String,
    /// Roles, alternatives with `|`.
    pub records: Vec<String>,
}

/// An observation that keeps a verdict open, whatever the weights say.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BlockerRow {
    /// The blocker's name.
    pub name: String,
    /// The findings that it speaks of.
    pub when: Pattern,
    /// What it blocks: `all`, `role` (every cause whose roles name the finding's subject), `residual` (only what is
    /// left when nothing else is found), or causes by name with `|` between them. Except for `residual`, nothing is
    /// called healthy either.
    pub blocks: String,
    /// Key of lang/*.ftl: why.
    pub reason: String,
    /// Keys of what to record or to state next.
    #[serde(default)]
    pub next: Vec<String>,
}

/// One candidate cause.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CauseRow {
    /// The cause's name: `clutch-2-drag`.
    pub name: String,
    /// Whether its repair opens the unit. Only then may an established verdict advise a teardown.
    pub teardown: bool,
    /// Keys of the safety cautions that its tests and its repair touch.
    #[serde(default)]
    pub cautions: Vec<String>,
    /// Keys of what to record next while this cause is open, most telling first.
    #[serde(default)]
    pub next: Vec<String>,
    /// Causes that this one explains away once it is established by its required rows (a narrower name for the
    /// same thing): their evidence is not held against it.
    #[serde(default)]
    pub includes: Vec<String>,
    /// Roles whose recording must be fit for use before the cause may be established; alternatives with `|`.
    #[serde(default)]
    pub roles: Vec<String>,
    /// The most this cause may be called, whatever its weight: `probable`, where the evidence for it is of a
    /// kind that never proves it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at_most: Option<crate::VerdictState>,
    /// What is left when nothing else is found: any blocker holds it back, and it yields to every other cause that is
    /// at least as likely to be called.
    #[serde(default)]
    pub residual: bool,
    /// The weights.
    #[serde(default, rename = "row")]
    pub rows: Vec<WeightRow>,
}

/// One weight of evidence.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WeightRow {
    /// The row's name, unique in its cause.
    pub name: String,
    /// The findings that it speaks of.
    pub when: Pattern,
    /// Findings beside which the row does not apply.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub unless: Option<Pattern>,
    /// Turns the row around: it applies when no such finding was made although `seen_by` was recorded and fit
    /// for use. Unprobed is not zero.
    #[serde(default)]
    pub absent: bool,
    /// For an absence: the role (alternatives with `|`) on which it would have been seen.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seen_by: Option<String>,
    /// Decibans, positive for the cause, negative against it.
    pub weight_db: f64,
    /// Rows of one cause in the same group rest on the same observation: only the strongest counts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub group: Option<String>,
    /// Without it the cause is never established.
    #[serde(default)]
    pub required: bool,
    /// Why the observation speaks for or against the cause.
    pub reason: String,
    /// Where the weight comes from: a source, "measured on ...", or "judgement".
    pub source: String,
}

/// Which findings a row speaks of. What is left out matches anything.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Pattern {
    /// The finding's kind; alternatives with `|`.
    pub kind: String,
    /// The finding's subject; alternatives with `|`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub subject: Option<String>,
    /// The finding's grade.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub grade: Option<crate::Grade>,
    /// The finding's message key; alternatives with `|`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub message: Option<String>,
    /// At least so many such findings.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at_least: Option<usize>,
}
