//! Bills that are handed over.

use super::{bill, clutch_2_drag, shop, three_operations};
use baybrief_billing::{Export, append_batch};
use model::LabourLine;
use model::labour::{HandedRow, LineState};
use model::shop_file::LabourCsvSection;
use rust_decimal::Decimal;

/// The lines of three operations at a rate.
pub fn at(rate: &str, authorised: &[&str]) -> Vec<LabourLine> {
    bill(
        &three_operations("EUR", rate, ""),
        &clutch_2_drag(),
        authorised,
    )
    .lines
}

/// The lines at one of four rates, authorised by the bits of a mask.
pub fn some(rate: usize, mask: usize) -> Vec<LabourLine> {
    let codes = ["T", "R", "C"];
    let authorised: Vec<&str> = (0..3)
        .filter(|i| mask >> i & 1 == 1)
        .map(|i| codes[i])
        .collect();
    at(["100", "129.95", "0.01", "140"][rate], &authorised)
}

/// What the billable lines come to.
pub fn billable(lines: &[LabourLine]) -> Decimal {
    let billable = lines.iter().filter(|l| l.state == LineState::Billable);
    billable.map(|l| l.amount).sum()
}

/// What rows come to.
pub fn sum<'a>(rows: impl IntoIterator<Item = &'a HandedRow>) -> Decimal {
    rows.into_iter().map(|r| r.line.amount).sum()
}

const BATCH: &str = "
    [labour_csv]
    daily_batch = true
    [[labour_csv.column]]
    name = \"id\"
    field = \"row_id\"
    [[labour_csv.column]]
    name = \"job\"
    field = \"job\"
    [[labour_csv.column]]
    name = \"net\"
    field = \"amount\"
";

/// A column map with a batch file.
pub fn batch_map(more: &str) -> LabourCsvSection {
    shop(&BATCH.replace("daily_batch = true", &format!("daily_batch = true\n{more}"))).labour_csv
}

/// Rows of job R-1 on their way out.
pub fn export<'a>(rows: &'a [&'a HandedRow]) -> Export<'a> {
    Export {
        job: "R-1",
        opened: None,
        texts: None,
        rows,
    }
}

/// The batch file with the rows added; `None` where it has them.
pub fn append(file: Option<&[u8]>, rows: &[HandedRow], map: &LabourCsvSection) -> Option<Vec<u8>> {
    let rows: Vec<&HandedRow> = rows.iter().collect();
    let export = export(&rows);
    append_batch(file, &export, map).unwrap()
}
