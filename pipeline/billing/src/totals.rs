//! Sums over lines, net and gross.

use crate::rounding::Money;
use model::LabourLine;
use model::labour::{LineTax, SumBasis, TaxTotal, Totals};
use rust_decimal::Decimal;
use std::collections::BTreeMap;

/// Sums the rounded amounts exactly and takes each tax once on its sum (EN 16931 BR-CO-10, BR-CO-17).
pub(crate) fn totals<'a>(lines: impl Iterator<Item = &'a LabourLine>, money: Money) -> Totals {
    let mut net = Decimal::ZERO;
    let mut bases: BTreeMap<&LineTax, Decimal> = BTreeMap::new();
    for line in lines {
        net += line.net_amount;
        if let Some(tax) = &line.tax {
            *bases.entry(tax).or_default() += line.net_amount;
        }
    }
    let by_tax: Vec<TaxTotal> = bases
        .into_iter()
        .map(|(tax, base)| TaxTotal {
            tax: tax.clone(),
            base: money.round(base),
            amount: money.round(base * tax.rate / Decimal::ONE_HUNDRED),
        })
        .collect();
    let tax: Decimal = by_tax.iter().map(|t| t.amount).sum();
    Totals {
        net: money.round(net),
        tax: money.round(tax),
        gross: money.round(net + tax),
        by_tax,
    }
}

/// Sum of the lines on one basis.
pub(crate) fn sum_on(totals: &Totals, basis: SumBasis) -> Decimal {
    match basis {
        SumBasis::Net => totals.net,
        SumBasis::Gross => totals.gross,
    }
}
