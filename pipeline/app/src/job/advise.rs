//! Advise: labour lines, report, case.json, written whole or not at all.

use super::acquire::Files;
use crate::house::House;
use anyhow::{Context, Result};
use billing::BillingInput;
use model::{Case, Problem};
use report::ReportInput;
use std::path::Path;

/// Makes and writes the three results into `folder`. case.json comes last: where it lies, the others are complete.
pub fn write(case: &mut Case, files: &Files, folder: &Path, house: &House) -> Result<()> {
    let job = files.job.clone().unwrap_or_default().job;
    let span: f64 = case.captures.iter().map(|c| c.end_s - c.start_s).sum();
    let bill = billing::lines(
        &BillingInput {
            job: &case.job.number,
            technician: case.job.technician.as_deref(),
            verdict: &case.verdict,
            diagnosis_hours: job.diagnosis_hours,
            recordings_span_s: (span > 0.0).then_some(span),
            authorised: &job.authorised,
        },
        &house.shop,
    )?;
    case.labour = bill.lines.clone();
    case.labour_totals = bill.totals.clone();
    case.problems.extend(bill.problems.iter().cloned());
    let mut csv = Vec::new();
    if let Err(e) = billing::write_csv(&bill, &house.shop.labour_csv, &mut csv) {
        // The report must not be lost for a character that the billing system's encoding lacks.
        csv.clear();
        case.problems.push(Problem {
            file: "labour.csv".into(),
            place: None,
            message: e.to_string(),
        });
    }

    let evidence = report::evidence::choose(case, &files.captures, &house.words);
    let advice = case.verdict.cause.as_ref().and_then(|name| {
        let row = house.causes.causes.iter().find(|c| c.name == *name)?;
        Some(
            house
                .words
                .advice(name, case.verdict.teardown, &row.cautions),
        )
    });
    let pdf = report::render(&ReportInput {
        case,
        shop: &house.shop,
        words: &house.words,
        advice: advice.as_ref(),
        evidence: &evidence,
        totals: bill.totals.as_ref(),
        reviewed: None,
        legal_text: house.legal_text.as_deref(),
        template: None,
    })?;
    let mut json = serde_json::to_vec_pretty(&*case).context("case.json")?;
    json.push(b'\n');
    for (name, bytes) in [
        ("report.pdf", &pdf),
        ("labour.csv", &csv),
        ("case.json", &json),
    ] {
        intake::write_atomic(&folder.join(name), bytes)?;
    }
    Ok(())
}
