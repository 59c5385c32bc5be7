//! Exactly once: what of a bill the billing system does not have yet.
//!
//! The ledger keeps the rows that [`hand_over`] gave, in their order. A job is handed over in five steps, each of
//! which may be the last before a crash:
//!
//! 1. `handed`: all rows that the ledger has of the job, those included that it has not seen written.
//! 2. `new = hand_over(&handed, &bill.lines, corrections)`.
//! 3. The ledger adds `new`, as not written, with the day of their batch file: one transaction.
//! 4. The files are written: labour.csv whole, from [`account`] over both; the batch file of each day that has rows
//!    not written, with [`append_batch`](crate::append_batch), which leaves out rows that the file has already.
//! 5. The ledger marks the rows as written.
//!
//! A crash before 3 leaves nothing behind; one before 5 is made good by the next run, which finds no `new` rows, and
//! in 4 only what is missing.

use crate::rounding::with_digits;
use model::LabourLine;
use model::labour::{HandedRow, LineState, RowKind};
use model::shop_file::Corrections;
use rust_decimal::Decimal;
use std::collections::{BTreeMap, BTreeSet};

/// The rows that are to be handed over, so that what the billing system has comes to the billable ones of `lines`.
///
/// `handed` are the job's rows in the order in which they were handed over. Nothing comes back for a line that has not
/// changed: its position in the job may. A changed one becomes a reversal and a new row, or a new revision; one that is
/// not billable any more, a reversal, or a revision that withdraws it.
pub fn hand_over(
    handed: &[HandedRow],
    lines: &[LabourLine],
    corrections: Corrections,
) -> Vec<HandedRow> {
    let last: BTreeMap<&str, &HandedRow> = handed
        .iter()
        .map(|row| (row.line.line_id.as_str(), row))
        .collect();
    let billable: Vec<&LabourLine> = lines
        .iter()
        .filter(|l| l.state == LineState::Billable)
        .collect();
    let kept: BTreeSet<&str> = billable.iter().map(|l| l.line_id.as_str()).collect();
    let mut rows = Vec::new();
    // Last rows in the order of their first appearance: what is taken back comes before what is added.
    let mut seen = BTreeSet::new();
    for id in handed.iter().map(|row| row.line.line_id.as_str()) {
        if seen.insert(id)
            && !kept.contains(id)
            && let Some(row) = last.get(id).filter(|row| row.kind == RowKind::Bill)
        {
            rows.push(match corrections {
                Corrections::Pair => reversal(row),
                Corrections::Revision => withdrawal(row),
            });
        }
    }
    for line in billable {
        let before = last.get(line.line_id.as_str()).copied();
        let open = before.filter(|row| row.kind == RowKind::Bill);
        match open {
            Some(row) if is_same(&row.line, line) => continue,
            Some(row) if corrections == Corrections::Pair => rows.push(reversal(row)),
            _ => {}
        }
        rows.push(bill(line, before.map_or(1, |row| row.revision + 1)));
    }
    rows
}

/// The rows that make up the job's account as the billing system should see it: all of them, without the versions
/// that a later revision replaced. Their sum is what is billed.
pub fn account<'a>(rows: impl IntoIterator<Item = &'a HandedRow>) -> Vec<&'a HandedRow> {
    let mut kept: Vec<Option<&HandedRow>> = Vec::new();
    // Where the version of a line stands that nothing has taken back yet.
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

/// Whether a row of the one line would say the same work as a row of the other. The position in the job is no part of
/// it: it moves when other work comes in between.
fn is_same(handed: &LabourLine, line: &LabourLine) -> bool {
    let at_place = LabourLine {
        line: line.line,
        ..handed.clone()
    };
    at_place == *line
}

fn bill(line: &LabourLine, revision: u32) -> HandedRow {
    row(RowKind::Bill, revision, line.clone())
}

fn reversal(of: &HandedRow) -> HandedRow {
    let mut line = of.line.clone();
    line.hours = -line.hours;
    line.pieces = line.pieces.map(|p| -p);
    line.amount = -line.amount;
    row(RowKind::Reversal, of.revision, line)
}

fn withdrawal(of: &HandedRow) -> HandedRow {
    let nothing = |v: Decimal| with_digits(Decimal::ZERO, v.scale());
    let mut line = of.line.clone();
    line.hours = nothing(line.hours);
    line.pieces = line.pieces.map(nothing);
    line.amount = nothing(line.amount);
    row(RowKind::Withdrawal, of.revision + 1, line)
}

fn row(kind: RowKind, revision: u32, line: LabourLine) -> HandedRow {
    let mark = match kind {
        RowKind::Bill => "",
        RowKind::Reversal => "-reversal",
        RowKind::Withdrawal => "-withdrawal",
    };
    HandedRow {
        row_id: format!("{}-{revision}{mark}", line.line_id),
        revision,
        kind,
        line,
    }
}
