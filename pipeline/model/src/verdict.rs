//! Conclusion of the assessment.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Conclusion of the assessment.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Verdict {
    /// System that it is on; only in the case's own verdict, which repeats that of the leading system.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub system: Option<String>,
    /// Level of certainty that was reached.
    pub state: VerdictState,
    /// The cause; `None` when the state is `open` or `nothing-found`.
    pub cause: Option<String>,
    /// True if a teardown may be advised: only for an established cause whose repair needs one.
    pub teardown: bool,
    /// Recordings or statements to obtain next, most telling first; empty unless something is left to be known.
    pub next: Vec<NextRecording>,
    /// Distance to the second cause, decibans; `None` where there is no second one.
    #[serde(default)]
    pub margin_dban: Option<f64>,
    /// Why the verdict went no further, or what it rests on: keys of lang/*.ftl.
    #[serde(default)]
    pub reasons: Vec<String>,
    /// Systems whose causes explain the evidence as well: what was found there is mended first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub clear_first: Vec<String>,
    /// Effect of the repair, where there is a recording after it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub repair: Option<RepairProof>,
}

impl Verdict {
    /// An open verdict with its reasons and what to record next, both keys of lang/*.ftl.
    pub fn open(reasons: Vec<String>, next: Vec<NextRecording>) -> Verdict {
        Verdict {
            system: None,
            state: VerdictState::Open,
            cause: None,
            teardown: false,
            next,
            margin_dban: None,
            reasons,
            clear_first: Vec::new(),
            repair: None,
        }
    }

    /// True where a recording after the repair proves the vehicle mended.
    pub fn is_mended(&self) -> bool {
        self.repair.as_ref().is_some_and(|r| r.proven)
    }

    /// Its summary in lists, one of [`Verdict::SUMMARIES`]: the end of a key of lang/*.ftl.
    pub fn summary(&self) -> &'static str {
        match self.state {
            VerdictState::Established if self.is_mended() => "mended",
            VerdictState::Established if self.teardown => "teardown",
            VerdictState::Established => "established",
            VerdictState::Probable => "probable",
            VerdictState::Open => "open",
            VerdictState::NothingFound if self.next.is_empty() => "nothing-found",
            VerdictState::NothingFound => "nothing-in-tested",
        }
    }

    /// All summaries.
    pub const SUMMARIES: [&'static str; 7] = [
        "mended",
        "teardown",
        "established",
        "probable",
        "open",
        "nothing-found",
        "nothing-in-tested",
    ];
}

/// Level of certainty of a verdict.
#[derive(Serialize, Deserialize, JsonSchema, strum::Display)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum VerdictState {
    /// One cause, with margin, good recordings and every required observation.
    Established,
    /// One cause leads, something is missing to be sure.
    Probable,
    /// Not decided: `next` says what to record.
    Open,
    /// The recordings are good and show no fault.
    NothingFound,
}

/// A recording or a statement that would decide an open verdict.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct NextRecording {
    /// Key of lang/*.ftl.
    pub step: String,
    /// The sentence, in the report's language.
    #[serde(default)]
    pub text: String,
}

impl NextRecording {
    /// A step by its key, not worded yet.
    pub fn named(step: impl Into<String>) -> NextRecording {
        NextRecording {
            step: step.into(),
            text: String::new(),
        }
    }
}

/// Causes that were tested and causes that were not. A part is cleared only by a test that it could have failed.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Coverage {
    /// Names of causes that the recordings could have shown.
    pub tested: Vec<String>,
    /// Causes that they could not have shown.
    pub not_tested: Vec<NotTested>,
}

/// A cause that was not tested.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct NotTested {
    /// Name of the cause.
    pub cause: String,
    /// Key of lang/*.ftl without `why-`: `not-recorded`.
    pub why: String,
    /// Step that would test it, a key of lang/*.ftl; `None` where none is known.
    pub next: Option<String>,
}

/// The same findings before and after the repair.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RepairProof {
    /// True if every abnormal finding before is mended and nothing new is wrong.
    pub proven: bool,
    /// Each compared observation.
    pub compared: Vec<ComparedFinding>,
}

/// One observation before and after.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ComparedFinding {
    /// Kind of the findings.
    pub kind: String,
    /// Subject of the findings.
    pub subject: Option<String>,
    /// The finding before the repair, by id.
    pub before: Option<String>,
    /// The finding after the repair, by id.
    pub after: Option<String>,
    /// The comparison's outcome.
    pub outcome: ComparedOutcome,
}

/// The outcome of one comparison.
#[derive(Serialize, Deserialize, JsonSchema, strum::Display)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ComparedOutcome {
    /// Abnormal before, normal after.
    Mended,
    /// The same as before.
    Unchanged,
    /// Normal before, abnormal after.
    Worse,
    /// Could not be seen on one of the two sides.
    NotComparable,
}
