//! Recordings that are proven good, and the values that they gave.

use crate::Job;
use crate::unit::{UnitKey, vehicle_id};
use model::case::CaptureRecord;
use model::job_file::Phase;
use model::outcome::Found;
use model::system::{Bound, LearnableLimit};
use model::{Case, Finding, SystemRecord};
use std::collections::{BTreeMap, BTreeSet};

/// Proof that a unit was good in some recordings of a job.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Proof {
    /// Recordings that it speaks of.
    pub scope: Scope,
    /// True where no person said so: only the program's own comparison of before and after, by the limits in force.
    pub is_judged: bool,
}

/// Recordings of a job.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scope {
    /// All of them: nothing was wrong with the unit.
    All,
    /// Those after the repair.
    AfterRepair,
}

/// Proof that a job gives for a system; `None` where nothing of it is known to be good. A verdict alone proves nothing.
pub fn proof(job: &Job, system: &SystemRecord) -> Option<Proof> {
    let outcome = job.outcome(&system.system);
    let by_word = |scope| {
        Some(Proof {
            scope,
            is_judged: false,
        })
    };
    match outcome {
        Some(o) if o.found == Found::Healthy => return by_word(Scope::All),
        Some(o) if o.is_mended => return by_word(Scope::AfterRepair),
        Some(o) if o.found == Found::PartSound => return None,
        _ => {}
    }
    let proven = system.verdict.is_mended();
    proven.then_some(Proof {
        scope: Scope::AfterRepair,
        is_judged: true,
    })
}

impl Proof {
    /// True for a recording that it speaks of.
    pub fn includes(&self, capture: &CaptureRecord) -> bool {
        self.scope == Scope::All || capture.phase == Some(Phase::After)
    }
}

/// Values of one limit that a job proves good, under one condition of the engine.
#[derive(Debug, Clone, PartialEq)]
pub struct Sample {
    /// Job.
    pub job: String,
    /// Digest that tells its vehicle from others.
    pub vehicle: String,
    /// Kind of unit.
    pub key: UnitKey,
    /// Name of the limit.
    pub limit: String,
    /// Bounds that may be learned; empty for those that the limit has.
    pub bounds: Vec<Bound>,
    /// Values, in `unit`.
    pub values: Vec<f64>,
    /// Unit.
    pub unit: String,
    /// Number of recordings that gave them.
    pub recordings: usize,
    /// True as in [`Proof::is_judged`].
    pub is_judged: bool,
    /// Month of the job, `2026-03`.
    pub month: String,
}

/// Values, and the files that they were measured in.
type ValuesAndFiles<'a> = (Vec<f64>, BTreeSet<&'a str>);

/// Values that a job proves good for the limits of one of its systems.
pub fn samples(job: &Job, system: &SystemRecord, learnable: &[LearnableLimit]) -> Vec<Sample> {
    let Some(proof) = proof(job, system) else {
        return Vec::new();
    };
    let mut all = Vec::new();
    for limit in learnable {
        let mut by_key: BTreeMap<(UnitKey, String), ValuesAndFiles<'_>> = BTreeMap::new();
        for (finding, capture) in good_findings(&job.case, proof) {
            let Some((value, unit)) = held_value(finding, limit) else {
                continue;
            };
            let Some(key) = UnitKey::of_capture(&job.case, system, Some(capture)) else {
                continue;
            };
            let (values, files) = by_key.entry((key, unit.into())).or_default();
            values.push(value);
            files.insert(&capture.file);
        }
        all.extend(
            by_key
                .into_iter()
                .map(|((key, unit), (values, files))| Sample {
                    job: job.name.clone(),
                    vehicle: vehicle_id(&job.case.vehicle, &job.name),
                    key,
                    limit: limit.limit.clone(),
                    bounds: limit.bounds.clone(),
                    values,
                    unit,
                    recordings: files.len(),
                    is_judged: proof.is_judged,
                    month: job.month.clone(),
                }),
        );
    }
    all
}

/// Findings in the recordings that a proof speaks of.
pub(crate) fn good_findings(
    case: &Case,
    proof: Proof,
) -> impl Iterator<Item = (&Finding, &CaptureRecord)> {
    case.findings.iter().filter_map(move |finding| {
        let file = finding.file.as_deref()?;
        let capture = case.captures.iter().find(|c| c.file == file)?;
        proof.includes(capture).then_some((finding, capture))
    })
}

fn held_value<'f>(finding: &'f Finding, limit: &LearnableLimit) -> Option<(f64, &'f str)> {
    let is_measured = finding.grade.is_result();
    let value = finding.value.filter(|v| v.is_finite())?;
    let unit = finding.unit.as_deref()?;
    (is_measured && limit.when.matches(finding)).then_some((value, unit))
}
