//! The cost table.

use crate::ReportInput;
use crate::localizer::Localizer;
use model::labour::{HoursFrom, LabourLine, LineKind, LineState, Totals};
use serde::Serialize;

/// The cost table.
#[derive(Serialize)]
pub(super) struct Cost {
    lines: Vec<Line>,
    sums: Vec<Sum>,
    note: Vec<String>,
}

#[derive(Serialize)]
struct Line {
    work: String,
    hours: String,
    rate: String,
    amount: String,
    state: String,
}

/// A line under the table; the last of each state is its total.
#[derive(Serialize)]
struct Sum {
    label: String,
    amount: String,
    total: bool,
}

/// `None` without labour lines.
pub(super) fn cost(input: &ReportInput<'_>) -> Option<Cost> {
    let (lines, localizer) = (&input.case.labour, input.theme.localizer());
    if lines.is_empty() {
        return None;
    }
    let mut sums = Vec::new();
    if let Some(totals) = input.totals {
        for (key, of_state) in [
            ("report-total-done", &totals.done),
            ("report-total-authorised", &totals.authorised),
            ("report-total-estimate", &totals.offered),
        ] {
            sums.extend(self::sums(key, of_state, &totals.currency, localizer));
        }
    }
    let mut note = Vec::new();
    if lines.iter().all(|l| l.kind == LineKind::Labour) {
        note.push(localizer.message("report-estimate-note"));
    }
    if lines
        .iter()
        .any(|l| l.hours_from == HoursFrom::ExampleCatalogue)
    {
        note.push(localizer.message("report-estimate-example"));
    }
    Some(Cost {
        lines: lines.iter().map(|l| line(l, localizer)).collect(),
        sums,
        note,
    })
}

fn line(l: &LabourLine, localizer: &Localizer) -> Line {
    let count = l.quantity().normalize().to_string();
    let count = count
        .parse()
        .map_or(count, |n: f64| localizer.fixed(n, decimals(l)));
    Line {
        work: l.description.clone(),
        hours: match l.kind {
            LineKind::Labour => count,
            LineKind::Part | LineKind::Fee => format!("{count}\u{a0}×"),
        },
        rate: localizer.money(l.rate, &l.currency),
        amount: localizer.money(l.net_amount, &l.currency),
        state: localizer.message(match l.state {
            LineState::Offered => "line-offered",
            LineState::Declined => "line-declined",
            LineState::Authorised => "line-authorised",
            LineState::Done => "line-done",
            LineState::Billed => "line-billed",
        }),
    }
}

/// Tenths as tenths; minutes, which become six decimals, to the hundredth; whole pieces as they are.
fn decimals(l: &LabourLine) -> usize {
    let at_least = usize::from(l.kind == LineKind::Labour);
    (l.quantity().normalize().scale() as usize).clamp(at_least, 2)
}

fn sums(key: &str, sum: &Totals, currency: &str, localizer: &Localizer) -> Vec<Sum> {
    if sum.gross.is_zero() && sum.net.is_zero() {
        return Vec::new();
    }
    let row = |label: String, amount, total| Sum {
        label,
        amount: localizer.money(amount, currency),
        total,
    };
    let mut rows = Vec::new();
    if !sum.by_tax.is_empty() {
        rows.push(row(localizer.message("report-total-net"), sum.net, false));
        rows.push(row(localizer.message("report-total-tax"), sum.tax, false));
    }
    rows.push(row(localizer.message(key), sum.gross, true));
    rows
}
