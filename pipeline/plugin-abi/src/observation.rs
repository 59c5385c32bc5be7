//! One observation, held against a limit: the one definition that analyzers, the host and the report share.

use crate::grade;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use std::collections::BTreeMap;

/// Arguments of a sentence: numbers, short words, true or false.
pub type Args = BTreeMap<String, Value>;

/// One observation: subject, time span, measured value, the limit it is held against, a grade.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Observation {
    /// Kind of observation, a machine name that its analyzer declares.
    pub kind: String,
    /// Subject, for the most part a role's name; `None` for the whole recording.
    pub subject: Option<String>,
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
    /// Limit of the value.
    pub limit: Option<Limit>,
    /// The judgement of this one observation.
    pub grade: Grade,
    /// Key of the sentence in lang/*.ftl. Analyzers give this, never prose.
    #[serde(default)]
    pub message: String,
    /// The sentence's arguments: numbers and short words.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub args: Args,
    /// Duration of the event, s, where it has one of its own: the argument of that name.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub duration_s: Option<f64>,
    /// Electric charge over the event, ampere seconds: the argument of that name.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub charge_as: Option<f64>,
}

/// Limit of a value.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Limit {
    /// Lowest good value; `None` for no lower limit.
    pub low: Option<f64>,
    /// Highest good value; `None` for no upper limit.
    pub high: Option<f64>,
    /// Unit of both.
    pub unit: String,
    /// Source of the limit.
    pub source: String,
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
    /// A signal is there that could not be read: neither rest nor health nor a fault of the sensor.
    Unreadable,
    /// The recording could not have shown it: no conclusion either way.
    NotTested,
}

impl Grade {
    /// Every grade with its number in the interface.
    pub const ALL: [(Grade, u32); 5] = [
        (Grade::Normal, grade::NORMAL),
        (Grade::Abnormal, grade::ABNORMAL),
        (Grade::Unusable, grade::UNUSABLE),
        (Grade::Unreadable, grade::UNREADABLE),
        (Grade::NotTested, grade::NOT_TESTED),
    ];

    /// Number of this grade in the interface: one of [`grade`].
    pub fn number(self) -> u32 {
        let known = Grade::ALL.into_iter().find(|(g, _)| *g == self);
        known.map_or(grade::NORMAL, |(_, number)| number)
    }

    /// True for an observation that came to a result. What is not usable, not readable or not tested did not.
    pub fn is_result(self) -> bool {
        matches!(self, Grade::Normal | Grade::Abnormal)
    }

    /// Grade of a number of the interface; `None` for one that is unknown.
    pub fn of_number(number: u32) -> Option<Grade> {
        let known = Grade::ALL.into_iter().find(|(_, n)| *n == number);
        known.map(|(grade, _)| grade)
    }
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

    /// Names the subject.
    pub fn about(mut self, subject: &str) -> Self {
        self.subject = Some(subject.into());
        self
    }

    /// Sets the time span, s.
    pub fn span(mut self, start_s: f64, end_s: f64) -> Self {
        self.start_s = Some(start_s);
        self.end_s = Some(end_s);
        self
    }

    /// Sets the measured value with its standard uncertainty.
    pub fn value(mut self, value: f64, uncertainty: f64, unit: &str) -> Self {
        self.value = Some(value);
        self.uncertainty = Some(uncertainty);
        self.unit = Some(unit.into());
        self
    }

    /// Sets the limit.
    pub fn limit(mut self, limit: Limit) -> Self {
        self.limit = Some(limit);
        self
    }

    /// Grades it.
    pub fn grade(mut self, grade: Grade) -> Self {
        self.grade = grade;
        self
    }

    /// Adds an argument of the sentence: a number or a short word. `duration_s` and `charge_as` also become fields.
    pub fn arg(mut self, name: &str, value: impl Into<Value>) -> Self {
        self.args.insert(name.into(), value.into());
        self.fields_of_args();
        self
    }

    /// A number among the arguments.
    pub fn arg_f64(&self, name: &str) -> Option<f64> {
        self.args.get(name).and_then(Value::as_f64)
    }

    /// A word among the arguments.
    pub fn arg_str(&self, name: &str) -> Option<&str> {
        self.args.get(name).and_then(Value::as_str)
    }

    pub(crate) fn with_args(mut self, args: Args) -> Self {
        self.args = args;
        self.fields_of_args();
        self
    }

    fn fields_of_args(&mut self) {
        self.duration_s = self.arg_f64("duration_s");
        self.charge_as = self.arg_f64("charge_as");
    }
}

/// True for what an argument may be: a number, a word, true or false.
pub fn is_scalar(value: &Value) -> bool {
    matches!(value, Value::Number(_) | Value::String(_) | Value::Bool(_))
}
