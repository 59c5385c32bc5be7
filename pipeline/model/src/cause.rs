//! A candidate explanation and the evidence for and against it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// One candidate explanation, with its weight of evidence.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RankedCause {
    /// The cause's name in the cause sheet: `belt-worn`.
    pub cause: String,
    /// Sum of the weights, in decibans (10 log10 of the likelihood ratio; I. J. Good).
    pub weight_dban: f64,
    /// Findings that speak for it, by id.
    #[serde(rename = "for")]
    pub supporting: Vec<String>,
    /// Findings that speak against it, by id.
    pub against: Vec<String>,
    /// Each weight that was added, with its reason and its source.
    #[serde(default)]
    pub weights: Vec<AppliedWeight>,
    /// Required observations that are missing.
    #[serde(default)]
    pub missing: Vec<MissingRow>,
    /// Guards that forbid taking this cause as established, by name: `selector-not-park`.
    #[serde(default)]
    pub blocked_by: Vec<String>,
    /// True if the recording rules this cause out.
    #[serde(default)]
    pub ruled_out: bool,
    /// Single observations that would change what is said of this cause, strongest first.
    #[serde(default)]
    pub would_change: Vec<Change>,
}

/// Required observation that is missing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct MissingRow {
    /// The row of the cause sheet that would apply.
    pub row: String,
    /// Why the observation speaks for the cause.
    pub reason: String,
}

/// One observation, not made so far, that would change what is said of a cause.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Change {
    /// The row of the cause sheet that would apply.
    pub row: String,
    /// Effect of the observation.
    pub effect: Effect,
    /// The cause's weight with it, decibans.
    pub weight_dban: f64,
    /// Why the observation speaks for or against the cause.
    pub reason: String,
}

/// Effect of an observation on a cause, from the least to the most that can be said for it.
#[derive(Serialize, Deserialize, JsonSchema, strum::Display)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Effect {
    /// Rule it out.
    RuleOut,
    /// Leave it open.
    Weaken,
    /// Make it probable.
    MakeProbable,
    /// Give it the weight that an established cause needs; margin and recordings must do as well.
    Establish,
}

/// One row of a cause sheet as it was applied.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct AppliedWeight {
    /// The row's name.
    pub row: String,
    /// The finding it rests on; `None` where it rests on a thing not seen that would have been seen.
    pub finding: Option<String>,
    /// Decibans, positive for, negative against.
    pub weight_dban: f64,
    /// Why the finding speaks for or against the cause.
    pub reason: String,
    /// Source of the weight: a publication, "measured on ...", or "judgement".
    pub source: String,
}
