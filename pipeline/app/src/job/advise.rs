//! Advise: labour lines, report, case.json.

use super::Review;
use super::acquire::Acquired;
use super::labour::{self, LedgerFacts};
use crate::context::AppContext;
use anyhow::{Context, Result};
use billing::Bill;
use intake::{Output, Signature};
use model::Case;
use model::party::Parties;
use report::{Advice, Audience, ReportError, ReportInput, Reviewed, SpeedCurve};
use std::panic::resume_unwind;

/// Makes the results, and the bill. The recordings are gone afterwards.
pub fn make(
    case: &mut Case,
    (acquired, speeds): (&mut Acquired, &[SpeedCurve]),
    name: &str,
    review: Review<'_>,
    ledger: LedgerFacts<'_>,
    context: &AppContext,
) -> Result<(Vec<Output>, Bill)> {
    let labour = labour::make(name, case, acquired, context, ledger)?;
    let reviewed = |signature: &Signature| Reviewed {
        by: signature.by.clone(),
        at: signature.at,
        note: signature.note.clone(),
    };
    let earlier = review.earlier.map(reviewed);
    let reviewed = review.signature.map(reviewed);
    let localizer = context.localizer();
    let captures = std::mem::take(&mut acquired.captures);
    let evidence = report::evidence::choose(case, &captures, speeds, localizer);
    // The pictures hold what is shown: the samples need no memory beside the typesetter's.
    drop(captures);
    let advice = case
        .verdict
        .cause
        .as_ref()
        .map(|cause| localizer.advice(cause, case.verdict.teardown));
    let cautions = cautions(case, advice.as_ref(), context);
    let driver: Vec<String> = context.knowledge.driver_cautions(case);
    let client = acquired.job.as_ref().map(|job| job.client.clone());
    let shop = &context.settings.shop;
    let parties = Parties::new(&shop.shop, &client.unwrap_or_default(), &case.customer);
    let input = ReportInput {
        case,
        shop,
        theme: &context.theme,
        advice: advice.as_ref(),
        cautions: &cautions,
        driver: &driver,
        parties: &parties,
        evidence: &evidence,
        photos: &acquired.photos,
        totals: labour.bill.totals.as_ref(),
        reviewed: reviewed.as_ref(),
        earlier_review: earlier.as_ref(),
    };
    let mut outputs = match acquired.has_evidence {
        true => reports(&input)?,
        false => Vec::new(),
    };
    let mut json = serde_json::to_vec_pretty(&*case).context("case.json")?;
    json.push(b'\n');
    outputs.push(Output::new("case.json", json));
    Ok(labour.into_files(outputs))
}

/// The reports, set at the same time.
fn reports(input: &ReportInput<'_>) -> Result<Vec<Output>, ReportError> {
    let set = |audience, name: &str| Ok(Output::new(name, report::render(input, audience)?));
    std::thread::scope(|scope| {
        let wanted = input.shop.report.technician;
        let technician =
            wanted.then(|| scope.spawn(|| set(Audience::Technician, "technician.pdf")));
        let mut outputs = vec![set(Audience::Customer, "report.pdf")?];
        if let Some(technician) = technician {
            let set = technician.join();
            outputs.push(set.unwrap_or_else(|panic| resume_unwind(panic))?);
        }
        Ok(outputs)
    })
}

/// Keys of the cautions for the work that is left: those of the cause, those of each step of the repair and its proof,
/// and those of what to record next.
fn cautions(case: &Case, advice: Option<&Advice>, context: &AppContext) -> Vec<String> {
    let system = case.verdict.system.as_deref();
    let system = system.and_then(|name| context.knowledge.system(name));
    let cause = system.and_then(|s| {
        let name = case.verdict.cause.as_deref()?;
        s.causes.causes.iter().find(|c| c.name == name)
    });
    let of_advice = advice.into_iter().flat_map(|a| {
        let ends = a.proof.iter().chain(&a.opens);
        a.repair.iter().chain(ends)
    });
    let next = case.verdict.next.iter().map(|n| &n.step);
    let steps: Vec<String> = of_advice.chain(next).cloned().collect();
    let of_steps = context
        .knowledge
        .cautions(system, &steps, case.vehicle.high_voltage);
    let mut all: Vec<String> = cause.map_or_else(Vec::new, |c| c.cautions.clone());
    for key in of_steps {
        if !all.iter().any(|k| k == key) {
            all.push(key.to_owned());
        }
    }
    all
}
