//! Truth of a case: the verdicts that are right, the codes, the measured values with their tolerances,
//! and the claims that would be false. One JSON file for each case; the program under test never sees it.

use crate::params::Drawn;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The truth's schema name.
pub const SCHEMA: &str = "baybrief.truth/2";

/// Truth of a case.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Truth {
    /// Always [`SCHEMA`].
    pub schema: String,
    /// The case folder's name.
    pub case: String,
    /// The scenario class.
    pub class: String,
    /// The verdicts that are right.
    pub verdict: TrueVerdict,
    /// The codes in the scan texts.
    pub codes: Vec<TrueCode>,
    /// Findings that should be made.
    pub measures: Vec<Measure>,
    /// Claims that would be false.
    pub forbidden_findings: Vec<Forbidden>,
    /// Causes that nothing in the job tests, so that none of them may be listed as tested.
    #[serde(default)]
    pub untested_causes: Vec<String>,
    /// Files that can be read and must be.
    #[serde(default)]
    pub readable: Vec<String>,
    /// Words that a file's message must contain: (file, words).
    #[serde(default)]
    pub messages: Vec<(String, String)>,
    /// Reasons for what is tolerated.
    pub notes: Vec<String>,
    /// `full`, `partial` or `none`.
    pub job_file: String,
    /// Keys that job.toml leaves out.
    pub job_file_lacks: Vec<String>,
    /// 0 quiet, 1 usual, 2 rough.
    #[serde(default)]
    pub noise_level: usize,
    /// The cause that was put in; `None` for a healthy gearbox.
    #[serde(default)]
    pub true_cause: Option<String>,
    /// The case's parameters.
    #[serde(default)]
    pub parameters: Vec<Drawn>,
}

/// The verdicts that are right.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct TrueVerdict {
    /// Allowed states.
    pub states: Vec<String>,
    /// Allowed causes.
    pub causes: Vec<String>,
    /// `allowed`, `either` or `forbidden`.
    pub teardown: String,
    /// The state that was to be had.
    pub expected: String,
}

/// A code of a scan text.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct TrueCode {
    /// Five characters.
    pub code: String,
    /// Two hexadecimal digits.
    pub failure_type: Option<String>,
    /// Any of these words is right.
    pub status: Vec<String>,
    /// The module.
    pub module: Option<String>,
    /// The scan text.
    pub file: String,
}

/// One thing that should be measured.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Measure {
    /// The finding kinds that may say it.
    pub kinds: Vec<String>,
    /// Further kinds, where none of the first does.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub also: Vec<String>,
    /// The recording.
    pub file: String,
    /// The subject.
    pub subject: Option<String>,
    /// True where another subject will do.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub subject_soft: bool,
    /// From and until, s; the finding must overlap it.
    pub span: Option<[f64; 2]>,
    /// Expected fields of the finding: `start_s`, `end_s`, `duration_s`, `value`, `time`, `present`.
    pub fields: BTreeMap<String, Wanted>,
}

/// A wanted number.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Wanted {
    /// Its value, for times.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub v: Option<f64>,
    /// The tolerance of `v`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tol: Option<f64>,
    /// The unit of `alts`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub unit: Option<String>,
    /// Any of these values is right, each with its tolerance.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub alts: Vec<[f64; 2]>,
    /// Value and tolerance where the finding's unit is per cent.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pct: Option<[f64; 2]>,
}

impl Wanted {
    /// A time or a duration, s.
    pub fn time(v: f64, tol: f64) -> Self {
        Wanted {
            v: Some(v),
            tol: Some(tol),
            ..Default::default()
        }
    }

    /// A value in a unit.
    pub fn value(unit: &str, v: f64, tol: f64) -> Self {
        Wanted {
            unit: Some(unit.into()),
            alts: vec![[v, tol]],
            ..Default::default()
        }
    }
}

/// A claim that would be false.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Forbidden {
    /// The finding kind.
    pub kind: String,
    /// About which subject; `None` for any.
    pub subject: Option<String>,
    /// In which recording.
    pub file: String,
}
