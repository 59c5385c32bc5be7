//! Findings and cause sheets in, ranked causes and a verdict out. Pure; never sees a sample.
//!
//! Evidence is weighed in decibans (10 log10 of the likelihood ratio; I. J. Good), named by the scale of Kass and
//! Raftery (1995): a likelihood ratio of 20 is strong, of 150 very strong. Weights by judgement are capped, rows
//! that rest on one observation count once, and what was not recorded counts as nothing at all.

mod changes;
mod evidence;
mod repair;
mod verdict;

use model::case::CaptureRecord;
use model::job_file::Phase;
use model::sheets::CauseSheet;
use model::{Finding, RankedCause, Verdict};

/// Weight from which a cause may be called probable: a likelihood ratio of 20, "strong" (Kass & Raftery 1995).
pub const PROBABLE_DB: f64 = 13.01;

/// Weight from which a cause may be called established: a likelihood ratio of 150, "very strong" (Kass & Raftery
/// 1995).
pub const ESTABLISHED_DB: f64 = 21.76;

/// Distance that an established cause keeps from every other explanation: again a likelihood ratio of 20.
pub const MARGIN_DB: f64 = 13.01;

/// The most that one weight by judgement counts.
pub const JUDGEMENT_CAP_DB: f64 = 25.0;

/// What the assessment looks at.
#[derive(Debug, Clone, Copy)]
pub struct Evidence<'a> {
    /// All findings of the job.
    pub findings: &'a [Finding],
    /// The recordings that were read.
    pub captures: &'a [CaptureRecord],
    /// What explains what.
    pub sheet: &'a CauseSheet,
}

/// What the assessment came to.
#[derive(Debug, Clone, PartialEq)]
pub struct Assessment {
    /// Causes, heaviest first.
    pub causes: Vec<RankedCause>,
    /// The conclusion.
    pub verdict: Verdict,
}

/// Weighs the evidence of a job.
///
/// With recordings of both phases, the ones before the repair are judged for the cause and the ones after it for
/// the proof; an after-recording that shows a fault of its own is what counts.
pub fn assess(evidence: &Evidence<'_>) -> Assessment {
    let phases = |p| evidence.captures.iter().any(|c| c.phase == Some(p));
    if phases(Phase::Before) && phases(Phase::After) {
        return repair::assess(evidence);
    }
    assess_part(evidence, true, |_| true)
}

/// Weighs the evidence of some of the recordings; `whole_job` takes findings in that belong to no recording (codes).
fn assess_part(
    evidence: &Evidence<'_>,
    whole_job: bool,
    wanted: impl Fn(&CaptureRecord) -> bool,
) -> Assessment {
    let captures: Vec<&CaptureRecord> = evidence.captures.iter().filter(|c| wanted(c)).collect();
    let findings: Vec<&Finding> = evidence
        .findings
        .iter()
        .filter(|f| match &f.file {
            Some(name) => captures.iter().any(|c| c.file == *name),
            None => whole_job,
        })
        .collect();
    let view = evidence::View { findings, captures };
    let blocks = evidence::blockers(&view, evidence.sheet);
    let mut causes: Vec<RankedCause> = evidence
        .sheet
        .causes
        .iter()
        .map(|c| evidence::weigh(c, &view, &blocks))
        .collect();
    evidence::explain_away(&mut causes, evidence.sheet);
    let residual = |c: &RankedCause| {
        c.weight_db < ESTABLISHED_DB
            && evidence
                .sheet
                .causes
                .iter()
                .any(|r| r.name == c.cause && r.residual)
    };
    causes.sort_by(|a, b| {
        // What is left over stands behind every cause that may be called by evidence of its own.
        let called =
            |c: &RankedCause| !residual(c) && c.weight_db >= PROBABLE_DB && c.missing.is_empty();
        called(b)
            .cmp(&called(a))
            .then_with(|| b.weight_db.total_cmp(&a.weight_db))
            .then_with(|| a.cause.cmp(&b.cause))
    });
    let verdict = verdict::conclude(&causes, &view, &blocks, evidence.sheet);
    Assessment { causes, verdict }
}
