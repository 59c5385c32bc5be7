//! Sum that a shop does not exceed without asking.

use crate::rounding::Money;
use crate::totals::sum_on;
use crate::{BillingError, KeyPath};
use model::ShopFile;
use model::labour::{SumBasis, SumLimit, Totals};
use model::shop_file::AuthorisationSection;
use rust_decimal::Decimal;

/// Limit of an authorisation of work that comes to `estimate`, by `[report.authorisation]`: the sum stated there, or
/// the percentage above the gross estimate, and never less than the estimate itself.
pub(crate) fn authorisation_limit(estimate: &Totals, shop: &ShopFile, money: Money) -> SumLimit {
    let section = &shop.report.authorisation;
    match section.limit {
        Some(limit) => SumLimit {
            sum: money
                .round(limit.0)
                .max(sum_on(estimate, section.limit_basis)),
            basis: section.limit_basis,
        },
        None => {
            let percent = section.limit_percent.map_or(Decimal::ZERO, |p| p.0);
            let factor = (Decimal::ONE_HUNDRED + percent) / Decimal::ONE_HUNDRED;
            SumLimit {
                sum: money.round(estimate.gross * factor),
                basis: SumBasis::Gross,
            }
        }
    }
}

/// Checks `[report.authorisation]`.
pub(crate) fn check(section: &AuthorisationSection) -> Result<(), BillingError> {
    let path = KeyPath::new(["report", "authorisation"]);
    let wrong = |key: &str, message: String| Err(BillingError::setting(path.key(key), message));
    if section.limit.is_some() && section.limit_percent.is_some() {
        return wrong(
            "limit_percent",
            "stands beside limit: give one of the two".into(),
        );
    }
    if let Some(limit) = section.limit.filter(|l| l.0 <= Decimal::ZERO) {
        return wrong(
            "limit",
            format!("{} is no sum: expected more than 0", limit.0),
        );
    }
    let range = Decimal::ZERO..=Decimal::ONE_HUNDRED;
    if let Some(percent) = section.limit_percent.filter(|p| !range.contains(&p.0)) {
        let message = format!("{} is not usable: expected 0 to 100 percent", percent.0);
        return wrong("limit_percent", message);
    }
    Ok(())
}
