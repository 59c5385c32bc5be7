//! What a plugin gives: observations as codes and arguments, never prose.

use crate::Track;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use std::collections::BTreeMap;

/// The observations of one call.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize)]
pub struct Output {
    /// In the order in which they were added.
    pub observations: Vec<Observation>,
    /// Tracks for the plugins that run later.
    #[serde(skip)]
    pub tracks: Vec<Track>,
}

impl Output {
    /// Adds an observation.
    pub fn add(&mut self, o: Observation) {
        self.observations.push(o);
    }

    /// Hands a track on to the plugins that run later on this recording and take it. Its name must be one of
    /// [`Analyzer::GIVES`](crate::Analyzer::GIVES). A host that does not know tracks drops it.
    pub fn give(&mut self, track: Track) {
        self.tracks.push(track);
    }
}

/// One observation. Build it with [`Observation::new`] and the calls on it.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Observation {
    /// What kind it is: `actuation`, `shaft-turning`, ...
    pub kind: String,
    /// What was observed: a role's name for the most part.
    pub subject: Option<String>,
    /// Start, s of the recording's own time.
    pub start_s: Option<f64>,
    /// End, s of the recording's own time.
    pub end_s: Option<f64>,
    /// Measured value, in `unit`.
    pub value: Option<f64>,
    /// Standard uncertainty of the value (k = 1), in `unit`.
    pub uncertainty: Option<f64>,
    /// Unit of the value.
    pub unit: Option<String>,
    /// What the value is held against.
    pub limit: Option<Limit>,
    /// The judgement of this observation alone.
    pub grade: Grade,
    /// Which sentence says it: a key of lang/*.ftl.
    pub message: String,
    /// The sentence's arguments. `duration_s` and `charge_as` become fields of the finding.
    pub args: BTreeMap<String, Value>,
}

/// What a value is held against.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize)]
pub struct Limit {
    /// Lowest good value.
    pub low: Option<f64>,
    /// Highest good value.
    pub high: Option<f64>,
    /// Unit of both.
    pub unit: String,
    /// Where the limit comes from.
    pub source: String,
}

/// The judgement of one observation.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Grade {
    /// As it should be.
    #[default]
    Normal,
    /// Beyond its limit by more than its uncertainty.
    Abnormal,
    /// Seen, but no conclusion may rest on it.
    Unusable,
}

impl Observation {
    /// An observation of a kind, said by the sentence `message`.
    pub fn new(kind: &str, message: &str) -> Self {
        Observation {
            kind: kind.into(),
            message: message.into(),
            ..Default::default()
        }
    }

    /// Names what was observed.
    pub fn about(mut self, subject: &str) -> Self {
        self.subject = Some(subject.into());
        self
    }

    /// Gives the time span, s.
    pub fn span(mut self, start_s: f64, end_s: f64) -> Self {
        self.start_s = Some(start_s);
        self.end_s = Some(end_s);
        self
    }

    /// Gives the measured value with its standard uncertainty.
    pub fn value(mut self, value: f64, uncertainty: f64, unit: &str) -> Self {
        self.value = Some(value);
        self.uncertainty = Some(uncertainty);
        self.unit = Some(unit.into());
        self
    }

    /// Names the limit.
    pub fn limit(mut self, limit: Limit) -> Self {
        self.limit = Some(limit);
        self
    }

    /// Grades it.
    pub fn grade(mut self, grade: Grade) -> Self {
        self.grade = grade;
        self
    }

    /// Adds an argument of the sentence: a number or a short word.
    pub fn arg(mut self, name: &str, value: impl Into<Value>) -> Self {
        self.args.insert(name.into(), value.into());
        self
    }
}
