//! Bills that are handed over.

use super::{bill, clutch_2_drag, shop, three_operations, with_map};
use baybrief_billing::{Export, HandOver, append_batch, hand_over};
use chrono::NaiveDate;
use model::labour::{HandedRow, LineState};
use model::shop_file::{Corrections, LabourCsvSection};
use model::{LabourLine, ShopFile};
use rust_decimal::Decimal;

/// Lines of three operations at a rate that are done.
pub fn at(rate: &str, done: &[&str]) -> Vec<LabourLine> {
    let bill = bill(&three_operations("EUR", rate, ""), &clutch_2_drag(), done);
    let lines = bill.lines.into_iter();
    lines.filter(|l| l.state == LineState::Billed).collect()
}

/// Lines at one of four rates, done by the bits of a mask.
pub fn some(rate: usize, mask: usize) -> Vec<LabourLine> {
    let codes = ["T", "R", "C"];
    let done: Vec<&str> = (0..3)
        .filter(|i| mask >> i & 1 == 1)
        .map(|i| codes[i])
        .collect();
    at(["100", "129.95", "0.01", "140"][rate], &done)
}

/// Rows that bring what was handed over up to the lines that are due.
pub fn add(handed: &[HandedRow], due: &[LabourLine], corrections: Corrections) -> Vec<HandedRow> {
    let due: Vec<&LabourLine> = due.iter().collect();
    let out = HandOver {
        number: "R-1",
        opened: None,
        day: NaiveDate::from_ymd_opt(2026, 3, 2).unwrap(),
        corrections,
    };
    hand_over(handed, &due, out)
}

/// Sum of lines.
pub fn total(lines: &[LabourLine]) -> Decimal {
    lines.iter().map(|l| l.net_amount).sum()
}

/// Sum of rows.
pub fn sum<'a>(rows: impl IntoIterator<Item = &'a HandedRow>) -> Decimal {
    rows.into_iter().map(|r| r.line.net_amount).sum()
}

const BATCH: &str = "
    [labour_csv]
    batch = \"day\"
    [[labour_csv.column]]
    name = \"id\"
    field = \"row_id\"
    [[labour_csv.column]]
    name = \"job\"
    field = \"job\"
    [[labour_csv.column]]
    name = \"net\"
    field = \"net_amount\"
";

/// A column map with a batch file.
pub fn batch_map(more: &str) -> LabourCsvSection {
    shop(&BATCH.replace("batch = \"day\"", &format!("batch = \"day\"\n{more}"))).labour_csv
}

/// A batch file with the rows added; `None` where it has them.
pub fn append(file: Option<&[u8]>, rows: &[HandedRow], map: &LabourCsvSection) -> Option<Vec<u8>> {
    let rows: Vec<&HandedRow> = rows.iter().collect();
    append_batch(file, &export(&rows), &shop_of(map)).unwrap()
}

/// Rows on their way out.
pub fn export<'a>(rows: &'a [&'a HandedRow]) -> Export<'a> {
    Export { texts: None, rows }
}

/// A shop of nothing but a column map.
pub fn shop_of(map: &LabourCsvSection) -> ShopFile {
    with_map(map)
}
