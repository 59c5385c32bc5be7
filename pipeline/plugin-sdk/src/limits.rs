//! Values of the limits sheet that a job goes by, over those of the system's own sheet.

use crate::settings::LimitValue;
use crate::{Grade, Limit, Settings};
use serde::Deserialize;
use std::collections::BTreeMap;
use std::sync::OnceLock;

/// Side of a limit on which a value lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Below the lower limit, by more than twice its standard uncertainty.
    Below,
    /// Within the limits, or nearer to one than its uncertainty tells.
    Within,
    /// Above the upper limit, by more than twice its standard uncertainty.
    Above,
}

impl Side {
    /// Side of a limit on which a value with its standard uncertainty lies.
    pub fn of(value: f64, uncertainty: f64, limit: &Limit) -> Side {
        match (limit.low, limit.high) {
            (Some(low), _) if value + 2.0 * uncertainty < low => Side::Below,
            (_, Some(high)) if value - 2.0 * uncertainty > high => Side::Above,
            _ => Side::Within,
        }
    }

    /// Grade of a value on that side.
    pub fn grade(self) -> Grade {
        if self == Side::Within {
            Grade::Normal
        } else {
            Grade::Abnormal
        }
    }
}

/// A system's own limits.toml, embedded in its library, over that of `recording`.
pub struct LimitsSheet {
    texts: &'static [&'static str],
    values: OnceLock<BTreeMap<String, LimitValue>>,
}

#[derive(Deserialize)]
struct Sheet {
    #[serde(default)]
    value: BTreeMap<String, LimitValue>,
}

impl LimitsSheet {
    /// Sheet of these texts; of two values of one name the first counts:
    /// `LimitsSheet::embedded(&[include_str!("../limits.toml"), include_str!("../../recording/limits.toml")])`.
    pub const fn embedded(texts: &'static [&'static str]) -> LimitsSheet {
        LimitsSheet {
            texts,
            values: OnceLock::new(),
        }
    }

    /// Its values.
    ///
    /// # Errors
    /// The line that is no limits sheet, for the library's own tests.
    pub fn parse(&self) -> Result<BTreeMap<String, LimitValue>, String> {
        let mut values = BTreeMap::new();
        for text in self.texts {
            let sheet: Sheet = toml::from_str(text).map_err(|e| format!("limits.toml: {e}"))?;
            for (name, value) in sheet.value {
                values.entry(name).or_insert(value);
            }
        }
        Ok(values)
    }

    /// The job's values over this sheet's.
    pub fn with<'a>(&'static self, settings: &'a Settings) -> Limits<'a> {
        Limits {
            job: &settings.limits,
            own: self.values.get_or_init(|| self.parse().unwrap_or_default()),
        }
    }
}

/// Values of the limits sheets by name: the job's, else the system's own.
#[derive(Debug, Clone, Copy)]
pub struct Limits<'a> {
    job: &'a BTreeMap<String, LimitValue>,
    own: &'static BTreeMap<String, LimitValue>,
}

impl Limits<'_> {
    /// The value of that name.
    pub fn get(&self, name: &str) -> Option<&LimitValue> {
        self.job.get(name).or_else(|| self.own.get(name))
    }

    /// The nominal value, else the upper, else the lower end of the range.
    ///
    /// # Panics
    /// For a name that no sheet has a number for: a mistake in the library, whose analyzer then counts as not run. Were
    /// it a number that compares with nothing, what hangs on it would silently not be looked for.
    pub fn number(&self, name: &str) -> f64 {
        let value = self.get(name);
        let number = value.and_then(|n| n.nominal.or(n.high).or(n.low));
        number.unwrap_or_else(|| panic!("no limits sheet has a number for {name}"))
    }

    /// The lower end of the range; negative infinity when there is none.
    pub fn low(&self, name: &str) -> f64 {
        self.get(name)
            .and_then(|n| n.low)
            .unwrap_or(f64::NEG_INFINITY)
    }

    /// The upper end of the range; infinity when there is none.
    pub fn high(&self, name: &str) -> f64 {
        self.get(name).and_then(|n| n.high).unwrap_or(f64::INFINITY)
    }

    /// The range as a finding's limit.
    pub fn limit(&self, name: &str) -> Limit {
        self.get(name)
            .cloned()
            .map_or_else(Limit::default, |n| Limit {
                low: n.low,
                high: n.high,
                unit: n.unit,
                source: n.source,
            })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    static SHEET: LimitsSheet = LimitsSheet::embedded(&[
        "[value.idle]\nlow = 0.1\nhigh = 0.4\nunit = \"A\"\nsource = \"invented\"",
    ]);

    #[test]
    #[should_panic(expected = "no limits sheet has a number for peak")]
    fn a_name_that_no_sheet_has_is_a_mistake_and_no_number() {
        let settings = Settings::default();
        let limits = SHEET.with(&settings);
        assert_eq!(limits.number("idle"), 0.4);
        limits.number("peak");
    }
}
