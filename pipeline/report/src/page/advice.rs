//! The codes, the repair, its proof, and what it changed.

use crate::ReportInput;
use crate::localizer::{Localizer, args};
use model::verdict::ComparedOutcome;
use model::{Case, Finding, TroubleCode};
use serde::Serialize;
use std::collections::BTreeMap;

/// A trouble code and what it means here.
#[derive(Serialize)]
pub(super) struct Code {
    code: String,
    text: Option<String>,
    module: Option<String>,
    status: String,
    here: Vec<String>,
}

/// The repair.
#[derive(Serialize)]
pub(super) struct Repair {
    steps: Vec<String>,
    proof: Option<String>,
}

impl Repair {
    /// The steps and the proof.
    pub(super) fn prose(&self) -> impl Iterator<Item = &String> {
        self.steps.iter().chain(&self.proof)
    }
}

/// One observation before and after the repair.
#[derive(Serialize)]
pub(super) struct Compared {
    what: String,
    before: Option<String>,
    after: Option<String>,
    outcome: String,
    good: bool,
}

fn by_id(case: &Case) -> BTreeMap<&str, &Finding> {
    case.findings.iter().map(|f| (f.id.as_str(), f)).collect()
}

/// The findings that speak for the verdict's cause, weightiest first, one for each row of the cause sheet.
pub(super) fn supporting(case: &Case) -> Vec<&Finding> {
    let findings = by_id(case);
    let Some(cause) = case.verdict_cause() else {
        return Vec::new();
    };
    let mut weights: Vec<_> = cause
        .weights
        .iter()
        .filter(|w| w.weight_dban > 0.0)
        .collect();
    weights.sort_by(|a, b| b.weight_dban.total_cmp(&a.weight_dban));
    let mut rows = Vec::new();
    let mut found: Vec<&Finding> = Vec::new();
    for weight in weights {
        let finding = weight
            .finding
            .as_deref()
            .and_then(|id| findings.get(id).copied());
        if let Some(finding) = finding
            && !rows.contains(&weight.row.as_str())
            && !found.iter().any(|f| f.id == finding.id)
        {
            rows.push(&weight.row);
            found.push(finding);
        }
    }
    if found.is_empty() {
        found.extend(
            cause
                .supporting
                .iter()
                .filter_map(|id| findings.get(id.as_str()).copied()),
        );
    }
    found
}

/// The trouble codes, each with what the findings say of it.
pub(super) fn codes(case: &Case, localizer: &Localizer) -> Vec<Code> {
    case.codes
        .iter()
        .map(|c| {
            let here: Vec<String> = case
                .findings
                .iter()
                .filter(|f| f.file.is_none() && f.subject.as_ref() == Some(&c.code))
                .map(|f| localizer.finding(f))
                .collect();
            Code {
                code: full_code(c),
                text: c.text.clone().filter(|t| !t.trim().is_empty()),
                module: c.module.clone(),
                status: localizer.code_status(&c.status),
                here: if here.is_empty() {
                    vec![localizer.message("report-code-unjudged")]
                } else {
                    here
                },
            }
        })
        .collect()
}

fn full_code(c: &TroubleCode) -> String {
    match &c.failure_type {
        Some(failure) => format!("{}-{failure}", c.code),
        None => c.code.clone(),
    }
}

/// Returns true if the recording after the repair proves it: then there is no work to be done.
pub(super) fn mended(case: &Case) -> bool {
    case.verdict.is_mended()
}

/// The steps of the repair and its proof; nothing where the sheet advises nothing.
pub(super) fn repair(input: &ReportInput<'_>) -> Option<Repair> {
    let advice = input.advice.filter(|_| !mended(input.case))?;
    if advice.repair.is_empty() && advice.proof.is_none() {
        return None;
    }
    let own = advice.repair.iter();
    let own = own.map(|key| input.theme.localizer().message(key));
    Some(Repair {
        steps: cleared_first(input).chain(own).collect(),
        proof: advice
            .proof
            .as_ref()
            .map(|key| input.theme.localizer().message(key)),
    })
}

/// What is found on other systems and explains the verdict: it is put right before anything else, each in a sentence.
fn cleared_first<'a>(input: &'a ReportInput<'_>) -> impl Iterator<Item = String> + 'a {
    let systems = input.case.verdict.clear_first.iter();
    systems.filter_map(|name| {
        let other = input.case.systems.iter().find(|s| s.system == *name)?;
        let localizer = input.theme.localizer();
        let cause = localizer.cause_title(other.verdict.cause.as_deref()?);
        Some(localizer.message_with("report-clear-first", &args([("cause", cause.into())])))
    })
}

/// Comparison of the recording after the repair with the one before.
pub(super) fn compared(case: &Case, localizer: &Localizer) -> Vec<Compared> {
    let findings = by_id(case);
    let say = |id: &Option<String>| {
        let finding = findings.get(id.as_deref()?)?;
        Some(match finding.value {
            // How exact it is stands in the technician's report.
            Some(v) => localizer.quantity(v, finding.unit.as_deref()),
            None => localizer.finding(finding),
        })
    };
    let compared = case.verdict.repair.iter().flat_map(|r| &r.compared);
    compared
        .map(|c| Compared {
            what: format!(
                "{}, {}",
                localizer.kind(&c.kind),
                localizer.subject(c.subject.as_deref())
            ),
            before: say(&c.before),
            after: say(&c.after).or_else(|| {
                let gone = c.outcome == ComparedOutcome::Mended;
                gone.then(|| localizer.message("report-not-seen"))
            }),
            outcome: localizer.message(&format!("outcome-{}", c.outcome)),
            good: c.outcome == ComparedOutcome::Mended,
        })
        .collect()
}
