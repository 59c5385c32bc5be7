//! Known-good values that shops give each other: without a number, name, plate or note, and no time finer than a month.

use crate::known_good::Sample;
use crate::sheet::{BasisRange, Origin, Own, Proposal, VehicleRange, propose};
use crate::unit::UnitKey;
use model::KnownGoodCurve;
use model::limits_sheet::LimitValue;
use model::system::Bound;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Name of the format.
pub const SCHEMA: &str = "baybrief.known-good/1";

/// Fewest vehicles of a value that is given away: of fewer, somebody might know whose they are.
pub const LEAST_SHARED: usize = 5;

/// Known-good values of one shop.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KnownGood {
    /// Always `baybrief.known-good/1`.
    pub schema: String,
    /// Version of the program that measured.
    pub program: String,
    /// Month in which it was written, `2026-03`.
    pub month: String,
    /// Values by kind of unit and limit.
    pub values: Vec<SharedValue>,
    /// Curves by kind of unit.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub curves: Vec<SharedCurve>,
}

/// Values of one limit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SharedValue {
    /// Kind of unit.
    pub key: UnitKey,
    /// Name of the limit.
    pub limit: String,
    /// Unit.
    pub unit: String,
    /// Bounds that the values are fit for.
    pub bounds: Vec<Bound>,
    /// Smallest value of each vehicle, rising: no vehicle can be told from its place.
    pub low: Vec<f64>,
    /// Largest value of each vehicle, rising.
    pub high: Vec<f64>,
    /// Median of each vehicle, rising.
    pub median: Vec<f64>,
    /// Number of recordings.
    pub recordings: usize,
    /// Number of the vehicles that the shop's limit in force alone calls good.
    pub judged: usize,
    /// First and last month of the jobs.
    pub months: (String, String),
}

/// Curves of one kind of unit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SharedCurve {
    /// Kind of unit.
    pub key: UnitKey,
    /// Curve.
    pub curve: KnownGoodCurve,
}

/// Builds the samples that a shop may share, without outliers.
pub fn export(
    samples: &[Sample],
    curves: Vec<SharedCurve>,
    (program, month): (&str, &str),
    standing: &dyn Fn(&UnitKey, &str) -> Option<LimitValue>,
) -> KnownGood {
    let proposals = propose(samples, Own::default(), standing);
    let values = proposals
        .into_iter()
        .filter(|p| p.vehicles.len() >= LEAST_SHARED)
        .map(|p| {
            let sorted = |value: &dyn Fn(&VehicleRange) -> f64| {
                let mut all: Vec<f64> = p.vehicles.iter().map(value).collect();
                all.sort_by(f64::total_cmp);
                all
            };
            SharedValue {
                low: sorted(&|v| v.range.low),
                high: sorted(&|v| v.range.high),
                median: sorted(&|v| v.median),
                recordings: p.recordings(),
                judged: p.judged(),
                bounds: p.bounds.iter().map(|b| b.side).collect(),
                unit: p.replaced.unit.clone(),
                key: p.key,
                limit: p.limit,
                months: p.months,
            }
        });
    KnownGood {
        schema: SCHEMA.into(),
        program: program.into(),
        month: month.into(),
        values: values.collect(),
        curves,
    }
}

/// Known-good values of a shop as they came.
///
/// # Errors
/// Text that is no such file, with what was expected.
pub fn parse(bytes: &[u8]) -> Result<KnownGood, String> {
    let known: KnownGood = serde_json::from_slice(bytes).map_err(|e| {
        format!("expected known-good values as `export --known-good` writes them: {e}")
    })?;
    if known.schema != SCHEMA {
        return Err(format!(
            "expected the schema {SCHEMA:?}; found {:?}",
            known.schema
        ));
    }
    for value in &known.values {
        let n = value.low.len();
        let is_sound = n == value.high.len()
            && n == value.median.len()
            && value.judged <= n
            && [&value.low, &value.high, &value.median]
                .iter()
                .all(|list| list.iter().all(|v| v.is_finite()) && list.is_sorted());
        if !is_sound {
            return Err(format!(
                "{}, {}: expected as many smallest as largest values and medians, finite and rising",
                value.key, value.limit
            ));
        }
    }
    Ok(known)
}

/// Proposals from another shop's values. Each of its vehicles counts half, and its values only ever widen a limit.
pub fn proposals(
    known: &KnownGood,
    origin: &Origin,
    standing: &dyn Fn(&UnitKey, &str) -> Option<LimitValue>,
) -> Vec<Proposal> {
    let proposals = known.values.iter().filter_map(|value| {
        let replaced = standing(&value.key, &value.limit)?;
        if replaced.unit != value.unit || value.bounds.is_empty() {
            return None;
        }
        let ranges = value.low.iter().zip(&value.high).zip(&value.median);
        let recordings = value.recordings / value.low.len().max(1);
        let mut vehicles: Vec<VehicleRange> = ranges
            .enumerate()
            .map(|(i, ((low, high), median))| VehicleRange {
                range: BasisRange {
                    vehicle: String::new(),
                    low: *low,
                    high: *high,
                },
                median: *median,
                jobs: Vec::new(),
                recordings,
                is_judged: i < value.judged,
            })
            .collect();
        if let Some(first) = vehicles.first_mut() {
            first.recordings += value.recordings % value.low.len().max(1);
        }
        let sides = crate::sheet::sides(&value.bounds, &replaced);
        let proposal = Proposal::new(
            (value.key.clone(), value.limit.clone()),
            Some(origin.clone()),
            replaced,
            (vehicles, &[]),
            &sides,
            value.months.clone(),
        );
        (!sides.is_empty()).then_some(proposal)
    });
    proposals.collect()
}

/// Curves of another shop by kind of unit.
pub fn curves(known: &KnownGood) -> BTreeMap<UnitKey, Vec<KnownGoodCurve>> {
    let mut by_key: BTreeMap<UnitKey, Vec<KnownGoodCurve>> = BTreeMap::new();
    for shared in &known.curves {
        let curves = by_key.entry(shared.key.clone()).or_default();
        curves.push(shared.curve.clone());
    }
    by_key
}
