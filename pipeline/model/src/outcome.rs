//! Outcomes: what was found when a unit was opened, or when its repair had proven itself.

use crate::VerdictState;
use chrono::NaiveDateTime;
use serde::{Deserialize, Serialize};

/// A person's word on what was found of one system of a job. Never changed: of several the last counts.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Outcome {
    /// Time, in the shop's time.
    pub at: NaiveDateTime,
    /// Name of the person whose word it is.
    pub by: String,
    /// System that it is about.
    pub system: String,
    /// Discovery.
    #[serde(flatten)]
    pub found: Found,
    /// True where the vehicle proved mended afterwards; its recordings after the repair are known good.
    #[serde(default)]
    pub is_mended: bool,
    /// Part that was found to be the cause, in words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub part: Option<String>,
    /// Photo that shows it: a file of the job.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub photo: Option<Photo>,
    /// Remark of the person who recorded it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// Verdict that the outcome is held against.
    pub said: Said,
}

/// Discovery about a system.
#[derive(Serialize, Deserialize, strum::Display)]
#[serde(rename_all = "kebab-case", tag = "found")]
#[strum(serialize_all = "kebab-case")]
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Found {
    /// The cause that the verdict names.
    Confirmed,
    /// Another cause.
    OtherCause {
        /// Name of a cause sheet, or words where no sheet has it.
        cause: String,
    },
    /// The part that the verdict condemned is sound; what else is wrong is not known.
    PartSound,
    /// The whole unit is as it should be.
    Healthy,
    /// It was not opened, and nothing proved the repair.
    NotOpened,
}

/// File of a job.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Photo {
    /// Path inside the job.
    pub file: String,
    /// SHA-256 of its content, hexadecimal.
    pub sha256: String,
}

/// Verdict of a report on the system.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Said {
    /// Number of the report.
    pub revision: u32,
    /// State of the verdict.
    pub state: VerdictState,
    /// Cause that it names.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cause: Option<String>,
}
