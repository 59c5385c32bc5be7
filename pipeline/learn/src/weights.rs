//! Weights of evidence as counted on the shop's own outcomes, beside the judged ones.
//!
//! Counted are jobs of which a person said what the cause was, or that there was none, and whose recordings tested the
//! cause. A row counts as it counted in the case: of rows that rest on one observation only the strongest. Jobs that
//! nobody opened are missing, and what is opened is more often what was called: the numbers speak of that mixture.

use crate::Job;
use crate::statistics::Weight;
use chrono::NaiveDateTime;
use model::cause_sheet::CauseSheet;
use model::outcome::Found;
use model::{Knowledge, SystemRecord};
use serde::{Deserialize, Serialize};

/// Fewest outcomes of a row whose weight is proposed.
pub const LEAST_OUTCOMES: usize = 30;

/// Weight of one row as it was counted.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CountedWeight {
    /// System.
    pub system: String,
    /// Cause.
    pub cause: String,
    /// Row of the cause sheet.
    pub row: String,
    /// Weight by judgement, decibans.
    pub judged_dban: f64,
    /// Jobs with the cause in which the row applied, and all of them.
    pub with_cause: (usize, usize),
    /// Jobs without the cause in which the row applied, and all of them.
    pub without: (usize, usize),
    /// 95 % interval of the counted weight, decibans.
    pub interval_dban: (f64, f64),
    /// Proposed weight, decibans: the end of the interval that lies nearer to zero, so that few outcomes give little
    /// weight; 0 where the interval holds zero.
    pub weight_dban: f64,
}

/// One version of the counted weights. Versions are only ever added; the last one is in force.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WeightSheet {
    /// Number of this version, from 1.
    pub version: u32,
    /// Number of the version that this one brings back; 0 for judgement alone.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reverts_to: Option<u32>,
    /// Person who adopted it.
    pub by: String,
    /// Time, in the shop's time.
    pub at: NaiveDateTime,
    /// Version of the program that counted.
    pub program: String,
    /// Weights.
    #[serde(default, rename = "weight")]
    pub weights: Vec<CountedWeight>,
}

impl CountedWeight {
    /// Number of outcomes.
    pub fn outcomes(&self) -> usize {
        self.with_cause.1 + self.without.1
    }

    /// True where there are outcomes enough on both sides to propose it.
    pub fn is_proposed(&self) -> bool {
        self.outcomes() >= LEAST_OUTCOMES && self.with_cause.1 > 0 && self.without.1 > 0
    }

    /// `cause/row`, as the command line takes it.
    pub fn name(&self) -> String {
        format!("{}/{}", self.cause, self.row)
    }

    /// Origin in words, as reports print it.
    pub fn source(&self) -> String {
        let ((a, n), (b, m)) = (self.with_cause, self.without);
        let (low, high) = self.interval_dban;
        format!(
            "counted on {} outcomes of this shop: {a} of {n} with the cause, {b} of {m} without, {low:.1} to {high:.1} \
             dBan; {:.0} dBan as estimated before",
            self.outcomes(),
            self.judged_dban
        )
    }
}

/// Cause that was found for a system, by a person; the inner `None` for none at all.
fn found<'j>(job: &'j Job, system: &SystemRecord) -> Option<Option<&'j str>> {
    let outcome = job.outcome(&system.system)?;
    match &outcome.found {
        Found::Confirmed => Some(Some(outcome.said.cause.as_deref()?)),
        Found::OtherCause { cause } => Some(Some(cause)),
        Found::Healthy => Some(None),
        Found::PartSound | Found::NotOpened => None,
    }
}

/// Counts the rows of a system's cause sheet over jobs.
pub fn count(jobs: &[Job], system: &str, sheet: &CauseSheet) -> Vec<CountedWeight> {
    let mut all = Vec::new();
    for cause in &sheet.causes {
        for row in &cause.rows {
            let (mut with_cause, mut without) = ((0, 0), (0, 0));
            for job in jobs {
                let records = job.case.systems.iter();
                let Some(record) = records.clone().find(|s| s.system == system) else {
                    continue;
                };
                let Some(truth) = found(job, record) else {
                    continue;
                };
                let ranked = record.causes.iter().find(|c| c.cause == cause.name);
                let applied = ranked.is_some_and(|c| c.weights.iter().any(|w| w.row == row.name));
                if !applied && !record.coverage.tested.contains(&cause.name) {
                    continue;
                }
                let side = match truth == Some(cause.name.as_str()) {
                    true => &mut with_cause,
                    false => &mut without,
                };
                side.0 += usize::from(applied);
                side.1 += 1;
            }
            let counted = Weight::counted(with_cause.0, with_cause.1, without.0, without.1);
            all.push(CountedWeight {
                system: system.into(),
                cause: cause.name.clone(),
                row: row.name.clone(),
                judged_dban: row.weight_dban,
                with_cause,
                without,
                interval_dban: (counted.low, counted.high),
                weight_dban: counted.cautious(),
            });
        }
    }
    all
}

/// Puts adopted weights in force. Returns what is left out, a sentence each: a weight is in force only as long as the
/// row is there and judged as it was when it was counted.
pub fn apply(sheet: &WeightSheet, knowledge: &mut Knowledge) -> Vec<String> {
    let mut stale = Vec::new();
    for weight in &sheet.weights {
        let systems = knowledge.systems.iter_mut();
        let row = systems
            .filter(|s| s.sheet.name == weight.system)
            .flat_map(|s| &mut s.causes.causes)
            .filter(|c| c.name == weight.cause)
            .flat_map(|c| &mut c.rows)
            .find(|r| r.name == weight.row);
        match row {
            Some(row) if row.weight_dban == weight.judged_dban => {
                row.weight_dban = weight.weight_dban;
                row.source = weight.source();
            }
            _ => stale.push(format!(
                "the counted weight {} of {} is left out: its row has changed since; look at the counts again (`learn \
                 weights`)",
                weight.name(),
                weight.system
            )),
        }
    }
    stale
}
