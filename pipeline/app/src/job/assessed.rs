//! Assess: a verdict on each system that is examined, and which of them leads.

use super::derive::Derived;
use super::learned::LearnedLimits;
use super::measure::Detected;
use assess::{Assessment, Evidence, OtherVerdict};
use model::case::{CaptureRecord, JobRecord, SCHEMA};
use model::knowledge::{Examined, Plan};
use model::verdict::NextRecording;
use model::{Case, Coverage, Finding, SystemRecord, Verdict, VerdictState};
use report::SpeedCurve;
use report::localizer::Localizer;

/// A job with its verdicts.
pub struct Assessed<'k> {
    /// Measurements that the assessment rests on.
    pub detected: Detected<'k>,
    /// Records of the captures.
    pub captures: Vec<CaptureRecord>,
    /// One record for each system, in the order of the plan.
    pub systems: Vec<SystemRecord>,
    /// Verdict on the leading system.
    pub verdict: Verdict,
}

/// Assesses every system of the plan.
pub fn assess_systems<'k>(
    detected: Detected<'k>,
    learned: &LearnedLimits<'_>,
    localizer: &Localizer,
) -> Assessed<'k> {
    let captures = detected.derived.capture_records();
    let plan = &detected.derived.plan;
    let own: Vec<Vec<Finding>> = (plan.examined.iter())
        .map(|examined| findings_of(examined, &detected))
        .collect();
    let assess_all = |all: &[OtherVerdict<'_>]| -> Vec<Assessment> {
        let examined = plan.examined.iter().zip(&own);
        examined
            .map(|(examined, findings)| assessment(examined, findings, all, &detected, &captures))
            .collect()
    };
    // Each by itself first; then with what the others came to.
    let alone = assess_all(&[]);
    let verdicts = plan.examined.iter().zip(&alone);
    let verdicts: Vec<OtherVerdict<'_>> = verdicts
        .map(|(examined, a)| OtherVerdict {
            system: &examined.system.sheet.name,
            verdict: &a.verdict,
        })
        .collect();
    let assessments = assess_all(&verdicts);
    let systems: Vec<SystemRecord> = plan
        .examined
        .iter()
        .zip(assessments)
        .map(|(examined, assessment)| SystemRecord {
            known_good: learned.curves(examined, &detected.derived),
            ..record(examined, assessment, &detected, localizer)
        })
        .collect();
    let verdict = match lead(&systems, plan) {
        Some(lead) => Verdict {
            system: Some(lead.system.clone()),
            ..lead.verdict.clone()
        },
        None => worded(nothing_examined(&detected.derived), localizer),
    };
    Assessed {
        captures,
        systems,
        verdict,
        detected,
    }
}

/// Findings that a system is judged by: all but those of the other systems that are examined.
fn findings_of(examined: &Examined<'_>, detected: &Detected<'_>) -> Vec<Finding> {
    let own = &examined.system.sheet.name;
    let plan = &detected.derived.plan;
    let is_others = |f: &&Finding| {
        let mut systems = plan.examined.iter().map(|e| &e.system.sheet.name);
        f.system != *own && systems.any(|s| f.system == *s)
    };
    let findings = detected.findings.iter();
    findings.filter(|f| !is_others(f)).cloned().collect()
}

fn assessment(
    examined: &Examined<'_>,
    findings: &[Finding],
    others: &[OtherVerdict<'_>],
    detected: &Detected<'_>,
    captures: &[CaptureRecord],
) -> Assessment {
    match detected.derived.plan.unit_is_unknown() {
        // Measurements are made and held against nothing: no limits, no verdict.
        true => Assessment {
            causes: Vec::new(),
            verdict: open("reason-unit-unknown", "next-state-unit"),
            coverage: Coverage::default(),
        },
        false => assess::assess(&Evidence {
            findings,
            captures,
            not_run: &detected.not_run,
            system: examined.system,
            repair_unread: detected.derived.repair_unread(),
            others,
        }),
    }
}

fn record(
    examined: &Examined<'_>,
    assessment: Assessment,
    detected: &Detected<'_>,
    localizer: &Localizer,
) -> SystemRecord {
    SystemRecord {
        system: examined.system.sheet.name.clone(),
        limits: examined.limits.name.clone(),
        unit_named: examined.unit_named,
        verdict: worded(
            ask_for_times(assessment.verdict, &detected.derived),
            localizer,
        ),
        causes: assessment.causes,
        coverage: assessment.coverage,
        known_good: Vec::new(),
    }
}

fn open(reason: &str, next: &str) -> Verdict {
    Verdict::open(vec![reason.into()], vec![NextRecording::named(next)])
}

fn nothing_examined(derived: &Derived<'_>) -> Verdict {
    let verdict = match derived.plan.unit_is_unknown() {
        true => open("reason-unit-unknown", "next-state-unit"),
        false => open("reason-no-system", "next-state-systems"),
    };
    ask_for_times(verdict, derived)
}

/// Puts the unit of time first among the steps of an open verdict, where a recording was rejected for want of it.
fn ask_for_times(mut verdict: Verdict, derived: &Derived<'_>) -> Verdict {
    if derived.unknown_times && verdict.state == VerdictState::Open {
        verdict.reasons.insert(0, "reason-time-unknown".into());
        verdict
            .next
            .insert(0, NextRecording::named("next-state-time-unit"));
    }
    verdict
}

fn worded(mut verdict: Verdict, localizer: &Localizer) -> Verdict {
    for step in &mut verdict.next {
        step.text = localizer.next(&step.step);
    }
    verdict
}

/// The first where job.toml names it, else the strongest verdict. An open question stands before a system that is in
/// order: it may be what the customer complains of.
fn lead<'s>(systems: &'s [SystemRecord], plan: &Plan<'_>) -> Option<&'s SystemRecord> {
    let strength = |s: &&SystemRecord| match s.verdict.state {
        VerdictState::Established => 3,
        VerdictState::Probable => 2,
        VerdictState::Open => 1,
        VerdictState::NothingFound => 0,
    };
    let weight = |s: &SystemRecord| s.causes.first().map_or(0.0, |c| c.weight_dban);
    match plan.lead_is_named {
        true => systems.first(),
        // Of equal ones the first.
        false => systems.iter().rev().max_by(|a, b| {
            strength(a)
                .cmp(&strength(b))
                .then(weight(a).total_cmp(&weight(b)))
        }),
    }
}

impl Assessed<'_> {
    /// The case, but for what the shop's prices and a review add, with what the report draws; `name` stands in for a job number that nobody gave.
    pub fn into_case(self, name: &str) -> (Case, super::Acquired, Vec<SpeedCurve>) {
        let Detected {
            derived,
            findings,
            not_run,
            is_due_again: _,
            plugins,
            speeds,
        } = self.detected;
        let acquired = derived.acquired;
        let job = acquired.job.clone().unwrap_or_default();
        let scans = || acquired.scans.iter();
        let case = Case {
            schema: SCHEMA.into(),
            job: JobRecord {
                number: job.job.number.unwrap_or_else(|| name.to_string()),
                opened: job.job.opened.or_else(|| scans().find_map(|s| s.date)),
                technician: job.job.technician,
                revision: 0,
                reviewed_by: None,
            },
            client: job.client,
            customer: job.customer,
            vehicle: derived.vehicle,
            concern: job.concern.text,
            files: acquired.files.clone(),
            captures: self.captures,
            codes: scans().flat_map(|s| s.codes.iter().cloned()).collect(),
            findings,
            systems: self.systems,
            verdict: self.verdict,
            labour: Vec::new(),
            labour_totals: None,
            order: None,
            not_run,
            plugins,
            problems: acquired.problems.clone(),
        };
        (case, acquired, speeds)
    }
}
