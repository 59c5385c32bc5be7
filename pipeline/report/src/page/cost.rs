//! The cost table.

use super::work::has_tax;
use crate::ReportInput;
use crate::localizer::{Localizer, args};
use model::labour::{HoursFrom, LabourLine, LabourTotals, LineKind, Totals};
use serde::Serialize;

/// The cost table.
#[derive(Serialize)]
pub(super) struct Cost {
    lines: Vec<Line>,
    /// Heading of the tax, with its rate where there is one; `None` where the shop states no tax.
    tax: Option<String>,
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

/// Sum over the lines of one state.
#[derive(Serialize)]
struct Sum {
    label: String,
    net: String,
    tax: String,
    gross: String,
}

/// `None` without labour lines.
pub(super) fn cost(input: &ReportInput<'_>) -> Option<Cost> {
    let (lines, localizer) = (&input.case.labour, input.theme.localizer());
    if lines.is_empty() {
        return None;
    }
    let sums = input.totals.map_or_else(Vec::new, |t| sums(t, localizer));
    let mut note = Vec::new();
    let mut say = |wanted: bool, key: &str| {
        if wanted {
            note.push(localizer.message(key));
        }
    };
    let is_labour = lines.iter().all(|l| l.kind == LineKind::Labour);
    say(is_labour, "report-estimate-note");
    say(
        input.totals.is_some_and(|t| !has_tax(t)),
        "report-estimate-no-tax",
    );
    let is_example = |l: &LabourLine| l.hours_from == HoursFrom::ExampleCatalogue;
    say(lines.iter().any(is_example), "report-estimate-example");
    if let Some(totals) = input.totals.filter(|_| !input.case.verdict.next.is_empty())
        && let Some(rate) = totals.diagnosis_rate
    {
        let rate = localizer.money(rate, &totals.currency);
        note.push(localizer.message_with("report-cost-next", &args([("rate", rate.into())])));
    }
    Some(Cost {
        lines: lines.iter().map(|l| line(l, localizer)).collect(),
        tax: input.totals.and_then(|t| tax_heading(t, localizer)),
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
        hours: match (l.pieces, l.kind) {
            (None, LineKind::Labour) => format!("{count}\u{a0}h"),
            _ => format!("{count}\u{a0}×"),
        },
        rate: localizer.money(l.rate, &l.currency),
        amount: localizer.money(l.net_amount, &l.currency),
        state: match l.life.hold {
            Some(_) => localizer.message("line-held"),
            None => localizer.message(&format!("line-{}", l.state)),
        },
    }
}

/// Tenths as tenths; minutes, which become six decimals, to the hundredth; whole pieces as they are.
fn decimals(l: &LabourLine) -> usize {
    let at_least = usize::from(l.kind == LineKind::Labour && l.pieces.is_none());
    (l.quantity().normalize().scale() as usize).clamp(at_least, 2)
}

fn sums(totals: &LabourTotals, localizer: &Localizer) -> Vec<Sum> {
    let money = |amount| localizer.money(amount, &totals.currency);
    let by_state = [
        ("line-done", &totals.done),
        ("line-authorised", &totals.authorised),
        ("line-offered", &totals.offered),
        ("line-held", &totals.held),
    ];
    let is_any = |sum: &Totals| !sum.gross.is_zero() || !sum.net.is_zero();
    by_state
        .into_iter()
        .filter(|(_, sum)| is_any(sum))
        .map(|(key, sum)| {
            let state = localizer.message(key);
            Sum {
                label: localizer.message_with("report-total", &args([("state", state.into())])),
                net: money(sum.net),
                tax: money(sum.tax),
                gross: money(sum.gross),
            }
        })
        .collect()
}

/// "Tax 19 %", or "Tax" where there are several rates.
fn tax_heading(totals: &LabourTotals, localizer: &Localizer) -> Option<String> {
    let sums = [
        &totals.done,
        &totals.authorised,
        &totals.offered,
        &totals.held,
    ];
    let mut rates: Vec<_> = sums
        .iter()
        .flat_map(|s| &s.by_tax)
        .map(|t| t.tax.rate)
        .collect();
    rates.sort_unstable();
    rates.dedup();
    Some(match &rates[..] {
        [] => return None,
        [rate] => {
            let rate = localizer.exact(rate.normalize());
            localizer.message_with("report-total-tax-rate", &args([("rate", rate.into())]))
        }
        _ => localizer.message("report-total-tax"),
    })
}
