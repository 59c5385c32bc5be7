//! Learned limits of one job: those of its unit, in which its own vehicle takes no part.

use crate::sheet::LearnedSheet;
use crate::unit::UnitKey;
use model::KnownGoodCurve;
use model::limits_sheet::{LimitValue, LimitsSheet};
use std::collections::BTreeMap;

/// All learned sheets in force.
#[derive(Debug, Clone, Default)]
pub struct InForce {
    sheets: Vec<LearnedSheet>,
}

impl InForce {
    /// Puts sheets in force, one for each kind of unit and origin: the shop's own come before those of others. Also
    /// returns what is left out, a sentence each: a value is in force only as long as the limit that it replaced is the
    /// one that stands without it.
    pub fn new(
        mut sheets: Vec<LearnedSheet>,
        standing: &dyn Fn(&UnitKey, &str) -> Option<LimitValue>,
    ) -> (InForce, Vec<String>) {
        sheets.sort_by(|a, b| (&a.origin, &a.key).cmp(&(&b.origin, &b.key)));
        let mut stale = Vec::new();
        for sheet in &mut sheets {
            let key = sheet.key.clone();
            sheet.value.retain(|name, value| {
                let now = standing(&key, name);
                let is_same = now.is_some_and(|now| {
                    (now.low, now.high) == (value.replaced_low, value.replaced_high)
                        && now.unit == value.unit
                });
                if !is_same {
                    stale.push(format!(
                        "{}: the learned limit {name} is left out: the limit that it replaced has changed since; look \
                         at the proposals again (`learn`)",
                        key.name()
                    ));
                }
                is_same
            });
        }
        (InForce { sheets }, stale)
    }

    /// Sheets, the shop's own first.
    pub fn sheets(&self) -> &[LearnedSheet] {
        &self.sheets
    }

    fn of<'a>(&'a self, key: &'a UnitKey) -> impl Iterator<Item = &'a LearnedSheet> {
        self.sheets.iter().filter(move |s| s.key == *key)
    }

    /// Limits that stand before those of `sheet`, for a job on this vehicle; `None` where nothing was learned of its
    /// unit. The nominal values are those of `sheet`.
    pub fn limits(&self, key: &UnitKey, vehicle: &str, sheet: &LimitsSheet) -> Option<LimitsSheet> {
        let mut value: BTreeMap<String, LimitValue> = BTreeMap::new();
        let mut name = None;
        for learned in self.of(key) {
            for (limit, v) in &learned.value {
                let Some(found) = v.without(vehicle, learned.origin.is_some()) else {
                    continue;
                };
                let nominal = sheet.value.get(limit).and_then(|v| v.nominal);
                value
                    .entry(limit.clone())
                    .or_insert(LimitValue { nominal, ..found });
                name.get_or_insert_with(|| format!("{}, learned {}", sheet.name, learned.version));
            }
        }
        Some(LimitsSheet {
            name: name?,
            system: sheet.system.clone(),
            value,
            ..LimitsSheet::default()
        })
    }

    /// Curves of known-good units of this kind.
    pub fn curves(&self, key: &UnitKey) -> Vec<KnownGoodCurve> {
        let first = self.of(key).find(|s| !s.curves.is_empty());
        first.map(|s| s.curves.clone()).unwrap_or_default()
    }

    /// Reduces the sheets to those in force for one job, for sealed evidence.
    pub fn as_applied(&self, keys: &[UnitKey], vehicle: &str) -> Vec<LearnedSheet> {
        let mut applied: Vec<LearnedSheet> = Vec::new();
        for sheet in self.sheets.iter().filter(|s| keys.contains(&s.key)) {
            let mut sheet = sheet.clone();
            let is_foreign = sheet.origin.is_some();
            sheet.value = sheet
                .value
                .into_iter()
                .filter_map(|(name, v)| {
                    let found = v.without(vehicle, is_foreign)?;
                    let basis = Vec::new();
                    let (low, high, source) = (found.low, found.high, found.source);
                    Some((
                        name,
                        crate::sheet::LearnedValue {
                            low,
                            high,
                            source,
                            basis,
                            ..v
                        },
                    ))
                })
                .collect();
            sheet.included.clear();
            applied.push(sheet);
        }
        applied
    }
}
