//! Events in the life of lines, and the rows that the billing system got. Both are only ever added to.

use super::life::{ConsentMethod, SumLimit};
use super::line::LabourLine;
use chrono::{NaiveDate, NaiveDateTime};
use serde::{Deserialize, Serialize};

/// One step in the life of some lines of a job. Never changed: a later event withdraws, cuts back or corrects it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct WorkEvent {
    /// Time, in the shop's time.
    pub at: NaiveDateTime,
    /// Name of the person whose word or work it is; of an offer, who made the report.
    pub by: Option<String>,
    /// Kind of the step.
    #[serde(flatten)]
    pub action: WorkAction,
    /// Name of the person who recorded it, where somebody else said it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub recorded_by: Option<String>,
    /// Remark of the person who recorded it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// Lines that it is about, with their prices at that time.
    pub lines: Vec<LabourLine>,
}

/// Kind of a step.
#[derive(Serialize, Deserialize, strum::Display)]
#[serde(rename_all = "kebab-case", tag = "action")]
#[strum(serialize_all = "kebab-case")]
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WorkAction {
    /// A report offered the lines at these prices.
    Offered,
    /// The customer authorised the lines at these prices, up to a sum for all of them together.
    Authorised {
        /// Way in which it was given.
        how: ConsentMethod,
        /// Sum that is not exceeded without asking.
        limit: SumLimit,
    },
    /// The customer declined the lines, or withdrew an authorisation.
    Declined {
        /// Way in which it was said.
        how: ConsentMethod,
    },
    /// The lines were done, with the hours that they took.
    Done,
    /// A record of completion was taken back.
    Reopened,
}

/// One row as it is handed over to the billing system. Never changed: further rows correct it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct HandedRow {
    /// Identifier of this row alone: `line_id`, revision and kind.
    pub row_id: String,
    /// Version of the line, from 1. A reversal carries the version that it takes back.
    pub revision: u32,
    /// Kind of the row.
    pub kind: RowKind,
    /// Number of the job as it was handed over.
    pub job: String,
    /// Day on which the job was opened.
    pub opened: Option<NaiveDate>,
    /// Day on which the row was handed over.
    pub day: NaiveDate,
    /// Line as it was handed over; quantities and amounts of a reversal are negative, those of a withdrawal zero.
    pub line: LabourLine,
}

/// Kind of a handed row.
#[derive(Serialize, Deserialize, strum::Display)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum RowKind {
    /// Bills the line, in place of any earlier version that was not reversed.
    Bill,
    /// Takes a billed version back: the same row with its quantity and amount negative.
    Reversal,
    /// States in a new revision that nothing is billed for the line any more.
    Withdrawal,
}
