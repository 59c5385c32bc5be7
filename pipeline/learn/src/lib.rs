//! Statistics of a shop's own proven jobs: limits that known-good units keep, weights of evidence as counted, the
//! record of the verdicts. No I/O, no clock; nothing here decides a verdict.
//!
//! [`known_good`] says what of a job is proven good and takes its values, [`sheet`] proposes limits from them and
//! adopts them, [`in_force`] gives the limits of one job, in which the job's own vehicle takes no part. [`record`] and
//! [`weights`] hold what was said against what was found. [`exchange`] is what shops give each other.

pub mod curve;
pub mod exchange;
pub mod in_force;
pub mod known_good;
pub mod record;
pub mod sheet;
pub mod statistics;
pub mod text;
pub mod unit;
pub mod weights;

pub use in_force::InForce;
pub use sheet::LearnedSheet;
pub use unit::UnitKey;

use model::{Case, Outcome};

/// A job of the shop with what is known of it.
#[derive(Debug, Clone)]
pub struct Job {
    /// Name in the ledger.
    pub name: String,
    /// Its newest case.
    pub case: Case,
    /// Outcomes, oldest first.
    pub outcomes: Vec<Outcome>,
    /// Month of its newest report, `2026-03`.
    pub month: String,
}

impl Job {
    /// Outcome that counts for a system: the last one.
    pub fn outcome(&self, system: &str) -> Option<&Outcome> {
        self.outcomes.iter().rev().find(|o| o.system == system)
    }
}
