//! Currencies and their minor units (ISO 4217).

use crate::{BillingError, KeyPath};
use iso_currency::Currency;

/// Number of decimals of a currency's minor unit: EUR 2, JPY 0, KWD 3.
pub(crate) fn minor_digits(code: &str) -> Result<u32, BillingError> {
    let wrong = |why: &str| {
        BillingError::setting(
            KeyPath::new(["billing", "currency"]),
            format!("{code:?} {why}; expected a currency of ISO 4217 in capitals, such as \"EUR\""),
        )
    };
    let currency = Currency::from_code(code).ok_or_else(|| wrong("is not an ISO 4217 code"))?;
    let digits = currency
        .exponent()
        .ok_or_else(|| wrong("has no minor unit, so nothing can be billed in it"))?;
    Ok(digits.into())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn minor_units_are_those_of_iso_4217() {
        // ISO 4217 table A.1, from memory, held against the crate's table.
        let table = [
            (2, ["USD", "EUR", "GBP", "CAD"]),
            (0, ["JPY", "KRW", "ISK", "CLP"]),
            (3, ["KWD", "BHD", "TND", "OMR"]),
        ];
        for (digits, codes) in table {
            for code in codes {
                assert_eq!(minor_digits(code).unwrap(), digits, "{code}");
            }
        }
    }

    #[test]
    fn unknown_codes_and_codes_without_money_are_refused() {
        for (code, why) in [
            ("EURO", "not an ISO 4217 code"),
            ("eur", "not an ISO 4217 code"),
            ("", "not an ISO 4217 code"),
            ("XAU", "no minor unit"),
        ] {
            let said = minor_digits(code).unwrap_err().to_string();
            assert!(
                said.contains("billing.currency") && said.contains(why),
                "{said}"
            );
        }
    }
}
