//! Decimals read as they were written.

use rust_decimal::Decimal;
use serde::de::{Error, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::fmt;

/// A decimal number of a settings file, written as a string (`"129.95"`) or as a number (`129.95`).
///
/// A binary float cannot hold 129.95, but its shortest decimal form is 129.95 again as long as the
/// number has at most 15 significant digits (`DBL_DIG` of C11, 5.2.4.2.2). Longer ones must be written
/// as a string.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Exact(pub Decimal);

impl Exact {
    /// Restores the decimal that was written where a reader has already made a float of it; `None` for NaN,
    /// infinities, more than 15 significant digits and what a [`Decimal`] cannot hold.
    pub fn from_float(v: f64) -> Option<Exact> {
        let text = v.is_finite().then(|| v.to_string())?;
        let digits = text
            .trim_start_matches(['-', '0', '.'])
            .chars()
            .filter(char::is_ascii_digit);
        if digits.count() > 15 {
            return None;
        }
        Decimal::from_str_exact(&text).ok().map(Exact)
    }
}

impl Serialize for Exact {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.collect_str(&self.0)
    }
}

impl<'de> Deserialize<'de> for Exact {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        d.deserialize_any(ExactVisitor)
    }
}

struct ExactVisitor;

impl Visitor<'_> for ExactVisitor {
    type Value = Exact;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a decimal number with a point, such as \"129.95\" or 129.95")
    }

    fn visit_str<E: Error>(self, v: &str) -> Result<Exact, E> {
        Decimal::from_str_exact(v.trim())
            .map(Exact)
            .map_err(|_| E::invalid_value(serde::de::Unexpected::Str(v), &self))
    }

    fn visit_i64<E: Error>(self, v: i64) -> Result<Exact, E> {
        Ok(Exact(v.into()))
    }

    fn visit_u64<E: Error>(self, v: u64) -> Result<Exact, E> {
        Ok(Exact(v.into()))
    }

    fn visit_f64<E: Error>(self, v: f64) -> Result<Exact, E> {
        Exact::from_float(v).ok_or_else(|| {
            E::custom(format!(
                "{v} has too many digits to be read exactly: write it as a string, \"{v}\""
            ))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;

    fn read(toml: &str) -> Result<String, String> {
        toml::from_str::<BTreeMap<String, Exact>>(toml)
            .map(|m| m["v"].0.to_string())
            .map_err(|e| e.to_string())
    }

    #[test]
    fn strings_and_numbers_are_read_as_written() {
        // 1.005 and 298.885 are the classic decimals that no binary float holds (IEEE 754 binary64).
        for text in [
            "129.95",
            "1.005",
            "298.885",
            "0.1",
            "-5.5",
            "130",
            "99999999999.99",
        ] {
            assert_eq!(read(&format!("v = {text}")).as_deref(), Ok(text));
            assert_eq!(read(&format!("v = \"{text}\"")).as_deref(), Ok(text));
        }
        assert_eq!(read("v = \"129.950\"").as_deref(), Ok("129.950"));
    }

    #[test]
    fn what_cannot_be_exact_is_refused() {
        assert!(
            read("v = 0.12345678901234567")
                .unwrap_err()
                .contains("write it as a string")
        );
        for bad in ["nan", "inf", "\"129,95\"", "\"12 EUR\"", "\"\"", "true"] {
            assert!(read(&format!("v = {bad}")).is_err(), "{bad}");
        }
    }
}
