//! Exactly once: rows that the billing system does not have yet.
//!
//! The ledger keeps the rows in their order. A job is handed over in five steps, each of which may be the last before
//! a crash:
//!
//! 1. The ledger gives all rows of the job, those included that it has not seen written.
//! 2. `new = hand_over(&handed, &due, ...)`.
//! 3. The ledger adds `new`, as pending: one transaction.
//! 4. The files are written: labour.csv whole, from [`account`] over both; the batch files of the pending rows, with
//!    [`append_batch`](crate::append_batch), which leaves out rows that a file has already.
//! 5. The ledger marks the rows as written.
//!
//! A crash before 3 leaves nothing behind; one before 5 is made good by the next run, which finds no `new` rows, and
//! in 4 only what is missing.

use crate::rounding::with_digits;
use chrono::NaiveDate;
use model::LabourLine;
use model::labour::{HandedRow, HoursFrom, PriceRule, RowKind};
use model::shop_file::Corrections;
use rust_decimal::Decimal;
use std::collections::{BTreeMap, BTreeSet};

/// Facts that every new row carries, and the rule for corrections.
#[derive(Debug, Clone, Copy)]
pub struct HandOver<'a> {
    /// Number of the job.
    pub number: &'a str,
    /// Day on which the job was opened.
    pub opened: Option<NaiveDate>,
    /// Day of the hand-over.
    pub day: NaiveDate,
    /// Correction of a line that was handed over and has changed since.
    pub corrections: Corrections,
}

/// Rows to append so that the billing system's total equals that of the lines that are `due`.
///
/// `handed` are the job's rows in the order in which they were handed over. A line that has not changed gives no row;
/// its position in the job may change. A changed one becomes a reversal and a new row, or a new revision; one that is
/// not due any more, a reversal, or a revision that withdraws it. A reversal mirrors its row exactly, under the job's
/// number of then.
pub fn hand_over(handed: &[HandedRow], due: &[&LabourLine], out: HandOver<'_>) -> Vec<HandedRow> {
    let open = open_rows(handed);
    let versions: BTreeMap<&str, u32> = (handed.iter())
        .map(|row| (row.line.line_id.as_str(), row.revision))
        .collect();
    let kept: BTreeSet<&str> = due.iter().map(|l| l.line_id.as_str()).collect();
    let mut rows = Vec::new();
    // Last rows in the order of their first appearance: what is taken back comes before what is added.
    let mut seen = BTreeSet::new();
    for id in handed.iter().map(|row| row.line.line_id.as_str()) {
        if seen.insert(id)
            && !kept.contains(id)
            && let Some(row) = open.get(id)
        {
            rows.push(match out.corrections {
                Corrections::Pair => reversal(row, out.day),
                Corrections::Revision => withdrawal(row, out.day),
            });
        }
    }
    for line in due {
        let id = line.line_id.as_str();
        match open.get(id) {
            Some(row) if row.job == out.number && is_same(&row.line, line) => continue,
            Some(row) if out.corrections == Corrections::Pair => rows.push(reversal(row, out.day)),
            _ => {}
        }
        rows.push(bill(line, versions.get(id).map_or(1, |v| v + 1), out));
    }
    rows
}

/// Rows that make up the job's account as the billing system should see it: all of them, without the versions that a
/// later revision replaced. Their sum is what is billed.
pub fn account<'a>(rows: impl IntoIterator<Item = &'a HandedRow>) -> Vec<&'a HandedRow> {
    let mut kept: Vec<Option<&HandedRow>> = Vec::new();
    // Index of the version of a line that nothing has taken back yet.
    let mut open: BTreeMap<&str, usize> = BTreeMap::new();
    for row in rows {
        let id = row.line.line_id.as_str();
        if let Some(at) = open.remove(id)
            && row.kind != RowKind::Reversal
        {
            kept[at] = None;
        }
        if row.kind != RowKind::Reversal {
            open.insert(id, kept.len());
        }
        kept.push(Some(row));
    }
    kept.into_iter().flatten().collect()
}

/// Rows that bill a line at present, by line: the newest of each, unless it takes the line back.
pub(crate) fn open_rows<'a>(
    rows: impl IntoIterator<Item = &'a HandedRow>,
) -> BTreeMap<&'a str, &'a HandedRow> {
    let newest: BTreeMap<&str, &HandedRow> = rows
        .into_iter()
        .map(|row| (row.line.line_id.as_str(), row))
        .collect();
    let is_open = |(_, row): &(&str, &HandedRow)| row.kind == RowKind::Bill;
    newest.into_iter().filter(is_open).collect()
}

/// Returns whether a row of the one line would bill the same as a row of the other. Its position in the job, its life
/// and the origin of its hours are no part of that.
fn is_same(handed: &LabourLine, line: &LabourLine) -> bool {
    let billed = |line: &LabourLine| LabourLine {
        hours_from: HoursFrom::default(),
        price_rule: PriceRule::default(),
        parent_id: None,
        ..line.terms()
    };
    billed(handed) == billed(line)
}

fn bill(line: &LabourLine, revision: u32, out: HandOver<'_>) -> HandedRow {
    let line = LabourLine {
        line: line.line,
        ..line.terms()
    };
    HandedRow {
        row_id: format!("{}-{revision}", line.line_id),
        revision,
        kind: RowKind::Bill,
        job: out.number.into(),
        opened: out.opened,
        day: out.day,
        line,
    }
}

fn reversal(of: &HandedRow, day: NaiveDate) -> HandedRow {
    let mut line = of.line.clone();
    line.hours = -line.hours;
    line.pieces = line.pieces.map(|p| -p);
    line.net_amount = -line.net_amount;
    HandedRow {
        row_id: format!("{}-{}-reversal", line.line_id, of.revision),
        kind: RowKind::Reversal,
        day,
        line,
        ..of.clone()
    }
}

fn withdrawal(of: &HandedRow, day: NaiveDate) -> HandedRow {
    let zero = |v: Decimal| with_digits(Decimal::ZERO, v.scale());
    let mut line = of.line.clone();
    line.hours = zero(line.hours);
    line.pieces = line.pieces.map(zero);
    line.net_amount = zero(line.net_amount);
    let revision = of.revision + 1;
    HandedRow {
        row_id: format!("{}-{revision}-withdrawal", line.line_id),
        revision,
        kind: RowKind::Withdrawal,
        day,
        line,
        ..of.clone()
    }
}
