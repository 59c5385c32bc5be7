//! Advise: labour lines, report, case.json.

use super::acquire::Files;
use super::labour;
use crate::house::House;
use anyhow::{Context, Result};
use intake::{Output, Signature};
use model::Case;
use model::labour::HandedRow;
use report::{Audience, ReportInput, Reviewed};

/// Makes the results, and the labour rows that they hand over.
pub fn make(
    case: &mut Case,
    files: &Files,
    review: Option<&Signature>,
    handed: &[HandedRow],
    house: &House,
) -> Result<(Vec<Output>, Vec<HandedRow>)> {
    let labour = labour::make(case, files, house, handed, review.is_some())?;
    let reviewed = review.map(|r| Reviewed {
        by: r.by.clone(),
        at: r.at,
    });
    let evidence = report::evidence::choose(case, &files.captures, house.words());
    let advice = case.verdict.cause.as_ref().and_then(|name| {
        let row = house.causes.causes.iter().find(|c| c.name == *name)?;
        Some(
            house
                .words()
                .advice(name, case.verdict.teardown, &row.cautions),
        )
    });
    let input = ReportInput {
        case,
        shop: &house.shop,
        stationery: &house.stationery,
        advice: advice.as_ref(),
        evidence: &evidence,
        totals: labour.bill.totals.as_ref(),
        reviewed: reviewed.as_ref(),
    };
    let pdf = report::render(&input, Audience::Customer)?;
    let mut outputs = vec![Output::new("report.pdf", pdf)];
    if house.shop.report.technician {
        let pdf = report::render(&input, Audience::Technician)?;
        outputs.push(Output::new("technician.pdf", pdf));
    }
    let mut json = serde_json::to_vec_pretty(&*case).context("case.json")?;
    json.push(b'\n');
    outputs.push(Output::new("case.json", json));
    Ok(labour.into_files(outputs))
}
