//! The shop's own record: what was said at each level, and how much of it was confirmed.

use crate::Job;
use crate::statistics::{ControlChart, wilson};
use model::outcome::{Found, Outcome};
use model::{SystemRecord, VerdictState};
use std::collections::BTreeMap;

/// Verdicts of one system at one level.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Level {
    /// Number of verdicts.
    pub said: usize,
    /// Confirmed by a person who looked.
    pub confirmed: usize,
    /// Refuted by a person who looked.
    pub refuted: usize,
    /// Without a person's word, but healthy in the recording after the repair: a weaker confirmation.
    pub mended: usize,
}

impl Level {
    /// Share that was confirmed by a person, of those that a person looked at, with its Wilson interval.
    pub fn confirmed_share(&self) -> Option<(f64, (f64, f64))> {
        let n = self.confirmed + self.refuted;
        (n > 0).then(|| (self.confirmed as f64 / n as f64, wilson(self.confirmed, n)))
    }

    /// Verdicts of which nobody knows.
    pub fn unknown(&self) -> usize {
        self.said - self.confirmed - self.refuted - self.mended
    }
}

/// Confirmed and refuted verdicts.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct OwnRecord {
    /// Levels by system and state.
    pub levels: BTreeMap<(String, &'static str), Level>,
    /// Number of times that a cause was said where another was found, by system, cause said and cause found.
    pub confused: BTreeMap<(String, String, String), usize>,
    /// Drift of the established verdicts by system.
    pub drift: BTreeMap<String, Drift>,
}

/// Control chart of established verdicts: 1 where one was confirmed, 0 where it was refuted.
#[derive(Debug, Clone, PartialEq)]
pub struct Drift {
    /// Number of verdicts, in the order of their outcomes.
    pub n: usize,
    /// Centre: the share that was confirmed, with half a verdict on either side.
    pub centre: f64,
    /// Newest average.
    pub now: f64,
    /// Lower limit of the average.
    pub low: f64,
    /// Number of averages below the limit.
    pub signals: usize,
}

/// Name of a state.
pub fn state_name(state: VerdictState) -> &'static str {
    match state {
        VerdictState::Established => "established",
        VerdictState::Probable => "probable",
        VerdictState::Open => "open",
        VerdictState::NothingFound => "nothing-found",
    }
}

/// True where the outcome confirms what was said, false where it refutes it, `None` where it says neither.
pub fn is_right(outcome: &Outcome) -> Option<bool> {
    match (outcome.said.state, &outcome.found) {
        (_, Found::NotOpened) | (VerdictState::Open, _) => None,
        (VerdictState::NothingFound, Found::Healthy) => Some(true),
        (VerdictState::NothingFound, Found::OtherCause { .. }) => Some(false),
        (VerdictState::NothingFound, _) => None,
        (_, Found::Confirmed) => Some(true),
        (_, Found::OtherCause { .. } | Found::PartSound | Found::Healthy) => Some(false),
    }
}

/// Weight of the newest verdict in the control chart, and the distance of its limits in deviations (common practice: 0.05
/// to 0.25, and 3). A single miss among sixty hits must not be taken for a drift.
const LAMBDA: f64 = 0.1;
const WIDTHS: f64 = 3.0;

/// Fewest outcomes of which a control chart is made.
const LEAST_CHARTED: usize = 10;

/// Counts what became of the verdicts of jobs.
pub fn own_record(jobs: &[Job]) -> OwnRecord {
    let mut record = OwnRecord::default();
    let mut charted: BTreeMap<&str, Vec<(&Outcome, bool)>> = BTreeMap::new();
    for job in jobs {
        for system in &job.case.systems {
            let outcome = job.outcome(&system.system);
            // What a person looked at is the verdict of that report, which a later recording may have changed.
            let said = outcome.map_or(system.verdict.state, |o| o.said.state);
            let level = (system.system.clone(), state_name(said));
            let level = record.levels.entry(level).or_default();
            level.said += 1;
            match outcome.and_then(is_right) {
                Some(true) => level.confirmed += 1,
                Some(false) => level.refuted += 1,
                None if is_mended(system) => level.mended += 1,
                None => {}
            }
            let Some(outcome) = outcome else { continue };
            if let Some((said, found)) = confusion(outcome) {
                let key = (system.system.clone(), said, found);
                *record.confused.entry(key).or_default() += 1;
            }
            if let (VerdictState::Established, Some(right)) =
                (outcome.said.state, is_right(outcome))
            {
                let of_system = charted.entry(&system.system).or_default();
                of_system.push((outcome, right));
            }
        }
    }
    for (system, mut outcomes) in charted {
        outcomes.sort_by_key(|(o, _)| o.at);
        let values: Vec<f64> = outcomes
            .iter()
            .map(|(_, right)| f64::from(u8::from(*right)))
            .collect();
        if let Some(drift) = drift(&values) {
            record.drift.insert(system.into(), drift);
        }
    }
    record
}

fn is_mended(system: &SystemRecord) -> bool {
    system.verdict.is_mended()
}

fn confusion(outcome: &Outcome) -> Option<(String, String)> {
    let said = outcome.said.cause.clone()?;
    let found = match &outcome.found {
        Found::OtherCause { cause } => cause.clone(),
        Found::PartSound => "another, not known".into(),
        Found::Healthy => "none".into(),
        Found::Confirmed | Found::NotOpened => return None,
    };
    Some((said, found))
}

/// Control chart of hits (1) and misses (0) in their order; `None` for fewer than ten.
pub fn drift(values: &[f64]) -> Option<Drift> {
    let n = values.len();
    if n < LEAST_CHARTED {
        return None;
    }
    let centre = (values.iter().sum::<f64>() + 0.5) / (n as f64 + 1.0);
    let chart = ControlChart {
        centre,
        deviation: (centre * (1.0 - centre)).sqrt(),
        lambda: LAMBDA,
        widths: WIDTHS,
    };
    let averages = chart.averages(values);
    let (low, _) = chart.limits();
    Some(Drift {
        n,
        centre,
        now: averages.last().copied().unwrap_or(centre),
        low,
        signals: averages.iter().filter(|a| **a < low).count(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_run_of_misses_is_a_drift_and_a_single_one_is_none() {
        let mut values = vec![1.0; 60];
        values[20] = 0.0;
        assert_eq!(drift(&values).expect("a chart").signals, 0);
        values.extend([0.0, 0.0, 1.0, 0.0, 0.0]);
        let chart = drift(&values).expect("a chart");
        assert!(chart.signals > 0 && chart.now < chart.low, "{chart:?}");
        assert_eq!(drift(&[1.0; 9]), None);
    }
}
