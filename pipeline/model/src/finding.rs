//! One observation, held against a limit.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// One observation: subject, time span, measured value, the limit it is held against, a grade.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
pub struct Finding {
    /// `f1`, `f2`, ... unique in the case; what causes refer to.
    pub id: String,
    /// The plugin that found it.
    pub plugin: String,
    /// What kind of observation it is: `actuation`, `shaft-turning-at-rest`, ...
    pub kind: String,
    /// What was observed, a role's name for the most part; `None` for the whole recording.
    pub subject: Option<String>,
    /// The file it was seen in.
    pub file: Option<String>,
    /// Start, in seconds of the file's own time.
    pub start_s: Option<f64>,
    /// End, in seconds of the file's own time.
    pub end_s: Option<f64>,
    /// The measured value, in `unit`.
    pub value: Option<f64>,
    /// Standard uncertainty of `value` (GUM, k = 1), in `unit`.
    pub uncertainty: Option<f64>,
    /// Unit of `value`: `A`, `V`, `ohm`, `rpm`, `s`, `%`, `count`, `1`.
    pub unit: Option<String>,
    /// What the value is held against.
    pub limit: Option<Limit>,
    /// The judgement of this one observation.
    pub grade: Grade,
    /// The observation in words, in the report's language.
    #[serde(default)]
    pub text: String,
    /// Which sentence says it: a key of lang/*.ftl. Plugins give this, never prose.
    #[serde(default)]
    pub message: String,
    /// The sentence's arguments: numbers and short words.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub args: BTreeMap<String, serde_json::Value>,
    /// Duration of the event, s, where it has one of its own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub duration_s: Option<f64>,
    /// Electric charge over the event, ampere seconds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub charge_as: Option<f64>,
}

impl Finding {
    /// A number among the arguments.
    pub fn arg_f64(&self, name: &str) -> Option<f64> {
        self.args.get(name).and_then(|v| v.as_f64())
    }

    /// A word among the arguments.
    pub fn arg_str(&self, name: &str) -> Option<&str> {
        self.args.get(name).and_then(|v| v.as_str())
    }
}

/// The judgement of one observation.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema, Default)]
#[serde(rename_all = "kebab-case")]
pub enum Grade {
    /// As it should be.
    #[default]
    Normal,
    /// Beyond its limit, by more than its uncertainty.
    Abnormal,
    /// Seen, but no conclusion may rest on it.
    Unusable,
}

/// What a value is held against.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Limit {
    /// Lowest good value; `None` for no lower limit.
    pub low: Option<f64>,
    /// Highest good value; `None` for no upper limit.
    pub high: Option<f64>,
    /// Unit of both.
    pub unit: String,
    /// Where the limit comes from.
    pub source: String,
}
