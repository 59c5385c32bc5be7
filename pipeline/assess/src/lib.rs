//! Findings and cause sheets in, ranked causes, a verdict and its coverage out. Pure; never sees a sample.
//!
//! Evidence is weighed in decibans (10 log10 of the likelihood ratio; I. J. Good), named by the scale of Kass and
//! Raftery (1995): a likelihood ratio of 20 is strong, of 150 very strong. Weights by judgement are capped, rows
//! that rest on one observation count once, and what was not recorded counts as nothing at all.

mod changes;
mod conclude;
mod coverage;
mod external;
mod inhibit;
mod next;
mod repair;
mod view;
mod weigh;

use model::case::{CaptureRecord, NotRun};
use model::job_file::Phase;
use model::knowledge::System;
use model::verdict::NextRecording;
use model::{Coverage, Finding, RankedCause, Verdict, VerdictState};
use view::View;

/// Weight from which a cause may be called probable: a likelihood ratio of 20, "strong" (Kass & Raftery 1995).
pub const PROBABLE_DBAN: f64 = 13.01;

/// Weight from which a cause may be called established: a likelihood ratio of 150, "very strong" (Kass & Raftery
/// 1995).
pub const ESTABLISHED_DBAN: f64 = 21.76;

/// Distance that an established cause keeps from every other explanation: again a likelihood ratio of 20.
pub const MARGIN_DBAN: f64 = 13.01;

/// Largest weight that counts where it is judgement, or comes from a library that is not built in.
pub const JUDGEMENT_CAP_DBAN: f64 = 25.0;

/// Evidence on one system.
#[derive(Debug, Clone, Copy)]
pub struct Evidence<'a> {
    /// All findings of the job.
    pub findings: &'a [Finding],
    /// Recordings that were read.
    pub captures: &'a [CaptureRecord],
    /// Checks that did not run.
    pub not_run: &'a [NotRun],
    /// The system, with what explains what in it.
    pub system: &'a System,
    /// True where job.toml names a recording of after the repair that could not be read.
    pub repair_unread: bool,
    /// Verdicts on the systems of the job, each drawn without regard to the others. Its own counts for nothing.
    pub others: &'a [OtherVerdict<'a>],
}

/// Verdict on a system of the job.
#[derive(Debug, Clone, Copy)]
pub struct OtherVerdict<'a> {
    /// Name of that system.
    pub system: &'a str,
    /// Verdict on it.
    pub verdict: &'a Verdict,
}

/// Conclusion on one system.
#[derive(Debug, Clone, PartialEq)]
pub struct Assessment {
    /// Causes, heaviest first.
    pub causes: Vec<RankedCause>,
    /// Verdict, with steps that are not worded yet.
    pub verdict: Verdict,
    /// Causes that were tested and causes that were not.
    pub coverage: Coverage,
}

/// Weighs the evidence on one system.
///
/// With recordings of both phases, the ones before the repair are judged for the cause and the ones after it for
/// the proof; an after-recording that shows a fault of its own is what counts, and one that could not be read holds the
/// verdict open.
pub fn assess(evidence: &Evidence<'_>) -> Assessment {
    let has = |phase| evidence.captures.iter().any(|c| c.phase == Some(phase));
    if has(Phase::Before) && has(Phase::After) {
        return repair::assess(evidence);
    }
    let mut result = assess_part(evidence, true, |_| true);
    // The fault may be mended: the recording that would show it is there and was not read.
    if evidence.repair_unread && result.verdict.state != VerdictState::Open {
        let next = vec![NextRecording::named("next-mend-recording")];
        result.verdict = Verdict::open(vec!["reason-repair-unread".into()], next);
    }
    result
}

/// Weighs the evidence of some of the recordings; `whole_job` takes findings in that belong to no recording (codes).
fn assess_part(
    evidence: &Evidence<'_>,
    whole_job: bool,
    wanted: impl Fn(&CaptureRecord) -> bool,
) -> Assessment {
    let captures: Vec<&CaptureRecord> = evidence.captures.iter().filter(|c| wanted(c)).collect();
    let is_wanted = |file: &Option<String>| match file {
        Some(name) => captures.iter().any(|c| c.file == *name),
        None => whole_job,
    };
    let findings = evidence.findings.iter().filter(|f| is_wanted(&f.file));
    // A check of the whole job stands for no single recording: it counts as missing for all of them.
    let not_run = evidence
        .not_run
        .iter()
        .filter(|n| n.file.is_none() || is_wanted(&n.file));
    let sheet = &evidence.system.causes;
    let view = View::new(
        findings.collect(),
        captures.clone(),
        not_run.collect(),
        sheet,
    );
    let mut causes: Vec<RankedCause> = sheet
        .causes
        .iter()
        .filter(|c| view.may_have(c))
        .map(|c| weigh::weigh(c, &view))
        .collect();
    weigh::explain_away(&mut causes, sheet);
    let external = external::named(sheet, evidence.others);
    external::weigh(&mut causes, &external);
    weigh::rank(&mut causes, sheet);
    let coverage = coverage::coverage(&view, sheet);
    let mut verdict = conclude::conclude(&causes, &coverage, &view, evidence.system);
    external::clear_first(&mut verdict, &causes, &external);
    Assessment {
        verdict,
        causes,
        coverage,
    }
}
