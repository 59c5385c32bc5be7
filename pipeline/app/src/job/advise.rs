//! Advise: labour lines, report, case.json, written whole or not at all.

use super::acquire::Files;
use super::labour;
use crate::house::House;
use anyhow::{Context, Result};
use model::Case;
use report::{Audience, ReportInput};
use std::path::Path;

/// Makes and writes the results into `folder`. case.json comes last: where it lies, the others are complete.
pub fn write(case: &mut Case, files: &Files, folder: &Path, house: &House) -> Result<()> {
    let labour = labour::make(case, files, house, &[])?;
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
        reviewed: None,
    };
    let pdf = report::render(&input, Audience::Customer)?;
    if house.shop.report.technician {
        let pdf = report::render(&input, Audience::Technician)?;
        intake::write_atomic(&folder.join("technician.pdf"), &pdf)?;
    }
    let mut json = serde_json::to_vec_pretty(&*case).context("case.json")?;
    json.push(b'\n');
    intake::write_atomic(&folder.join("report.pdf"), &pdf)?;
    labour.write(folder)?;
    intake::write_atomic(&folder.join("case.json"), &json)?;
    Ok(())
}
