//! Proposals from known-good values.

use super::bound::{Change, LearnedBound, ODD_SHARE, rank};
use super::{BasisRange, Origin};
use crate::known_good::Sample;
use crate::statistics::{COVERAGE, median, outer_fences, tolerance_confidence, tolerance_size};
use crate::unit::UnitKey;
use model::limits_sheet::LimitValue;
use model::system::Bound;
use std::collections::{BTreeMap, BTreeSet};

/// Values of one vehicle, from all of its jobs.
#[derive(Debug, Clone, PartialEq)]
pub struct VehicleRange {
    /// Digest that tells it from others, with its smallest and largest value.
    pub range: BasisRange,
    /// Median of its values.
    pub median: f64,
    /// Its jobs.
    pub jobs: Vec<String>,
    /// Number of recordings.
    pub recordings: usize,
    /// True where no job of it is called good by a person.
    pub is_judged: bool,
}

/// Proposed limit of a kind of unit.
#[derive(Debug, Clone, PartialEq)]
pub struct Proposal {
    /// Kind of unit.
    pub key: UnitKey,
    /// Name of the limit.
    pub limit: String,
    /// Shop whose vehicles they were; `None` for one's own.
    pub origin: Option<Origin>,
    /// Limit in force.
    pub replaced: LimitValue,
    /// Vehicles that count.
    pub vehicles: Vec<VehicleRange>,
    /// Vehicles with values so far from the others' that a person has to say that they are good.
    pub outliers: Vec<VehicleRange>,
    /// Median over the vehicles.
    pub median: f64,
    /// Bounds, the low one first; empty where no vehicle is left.
    pub bounds: Vec<LearnedBound>,
    /// Confidence with which the bounds hold 95 % of such vehicles.
    pub confidence: f64,
    /// Number of vehicles from which on the bounds can be adopted.
    pub needed: usize,
    /// First and last month of the jobs.
    pub months: (String, String),
}

/// Reason why a bound waits for a person to name it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reason {
    /// It would be narrower than the one in force.
    Narrower,
    /// Only these many vehicles lie beyond the one in force.
    FewBeyond(usize),
    /// So many vehicles are called good by the limit in force alone.
    Judged(usize),
}

/// The shop's own side of a proposal: jobs whose odd values a person took for good.
#[derive(Debug, Clone, Copy, Default)]
pub struct Own<'a> {
    /// Names of jobs.
    pub included: &'a [String],
}

/// Proposes limits from samples. `in_force` gives the limit that stands without anything learned; a sample of a limit
/// that it does not know, or of another unit, proposes nothing.
pub fn propose(
    samples: &[Sample],
    own: Own<'_>,
    in_force: &dyn Fn(&UnitKey, &str) -> Option<LimitValue>,
) -> Vec<Proposal> {
    let mut groups: BTreeMap<(&UnitKey, &str), Vec<&Sample>> = BTreeMap::new();
    for sample in samples {
        let group = groups.entry((&sample.key, sample.limit.as_str()));
        group.or_default().push(sample);
    }
    let proposals = groups.into_iter().filter_map(|((key, limit), samples)| {
        let replaced = in_force(key, limit)?;
        let samples: Vec<&Sample> = samples
            .into_iter()
            .filter(|s| s.unit == replaced.unit)
            .collect();
        let sides = sides(&samples.first()?.bounds, &replaced);
        let months: Vec<&String> = samples.iter().map(|s| &s.month).collect();
        let months = (
            months.iter().min()?.to_string(),
            months.iter().max()?.to_string(),
        );
        Some(Proposal::new(
            (key.clone(), limit.to_owned()),
            None,
            replaced,
            (vehicles(&samples), own.included),
            &sides,
            months,
        ))
    });
    proposals.filter(|p| p.needed < usize::MAX).collect()
}

/// Bounds that are learned: those wanted, as far as the limit has them.
pub(crate) fn sides(wanted: &[Bound], replaced: &LimitValue) -> Vec<(Bound, f64)> {
    let has = [(Bound::Low, replaced.low), (Bound::High, replaced.high)];
    let is_wanted = |side: Bound| wanted.is_empty() || wanted.contains(&side);
    has.into_iter()
        .filter(|(side, _)| is_wanted(*side))
        .filter_map(|(side, value)| Some((side, value?)))
        .collect()
}

/// Samples by their vehicles, each vehicle once.
fn vehicles(samples: &[&Sample]) -> Vec<VehicleRange> {
    let mut by_vehicle: BTreeMap<&str, Vec<&&Sample>> = BTreeMap::new();
    for sample in samples {
        by_vehicle.entry(&sample.vehicle).or_default().push(sample);
    }
    let range = |(vehicle, samples): (&str, Vec<&&Sample>)| {
        let values: Vec<f64> = samples.iter().flat_map(|s| s.values.clone()).collect();
        let jobs: BTreeSet<&String> = samples.iter().map(|s| &s.job).collect();
        VehicleRange {
            range: BasisRange {
                vehicle: vehicle.into(),
                low: values.iter().copied().fold(f64::INFINITY, f64::min),
                high: values.iter().copied().fold(f64::NEG_INFINITY, f64::max),
            },
            median: median(values),
            jobs: jobs.into_iter().cloned().collect(),
            recordings: samples.iter().map(|s| s.recordings).sum(),
            is_judged: samples.iter().all(|s| s.is_judged),
        }
    };
    by_vehicle.into_iter().map(range).collect()
}

impl Proposal {
    pub(crate) fn new(
        (key, limit): (UnitKey, String),
        origin: Option<Origin>,
        replaced: LimitValue,
        (all, included): (Vec<VehicleRange>, &[String]),
        sides: &[(Bound, f64)],
        months: (String, String),
    ) -> Proposal {
        let (vehicles, outliers) = without_outliers(all, included, sides);
        let ranges: Vec<BasisRange> = vehicles.iter().map(|v| v.range.clone()).collect();
        let is_foreign = origin.is_some();
        let rank = rank(vehicles.len(), is_foreign, sides.len());
        let cut = sides.len() * rank.unwrap_or(1);
        let counted = vehicles.len() / if is_foreign { 2 } else { 1 };
        let bounds = sides.iter().filter_map(|(side, replaced)| {
            LearnedBound::of(*side, *replaced, &ranges, rank.unwrap_or(1))
        });
        let needed = match sides.len() {
            0 => usize::MAX,
            n => tolerance_size(n) * if is_foreign { 2 } else { 1 },
        };
        Proposal {
            key,
            limit,
            origin,
            replaced,
            median: median(vehicles.iter().map(|v| v.median).collect()),
            bounds: bounds.collect(),
            confidence: tolerance_confidence(counted, cut, COVERAGE),
            needed,
            months,
            vehicles,
            outliers,
        }
    }

    /// True where the vehicles carry a tolerance interval; else it stays a proposal.
    pub fn is_carried(&self) -> bool {
        rank(
            self.vehicles.len(),
            self.origin.is_some(),
            self.bounds.len(),
        )
        .is_some()
    }

    /// Number of vehicles that the limit in force alone calls good.
    pub fn judged(&self) -> usize {
        self.vehicles.iter().filter(|v| v.is_judged).count()
    }

    /// Number of recordings.
    pub fn recordings(&self) -> usize {
        self.vehicles.iter().map(|v| v.recordings).sum()
    }

    /// Reasons why a bound waits for a person to name the value; none where it moves by itself or stays as it is.
    pub fn reasons(&self, bound: &LearnedBound) -> Vec<Reason> {
        let n = self.vehicles.len();
        let mut reasons = match bound.change() {
            Change::Same => return Vec::new(),
            Change::Narrower => vec![Reason::Narrower],
            Change::Wider if bound.beyond * ODD_SHARE <= n => {
                vec![Reason::FewBeyond(bound.beyond)]
            }
            Change::Wider => return Vec::new(),
        };
        if self.judged() > 0 {
            reasons.push(Reason::Judged(self.judged()));
        }
        reasons
    }
}

/// Vehicles whose smallest or largest value lies beyond the outer fences of the vehicles' values are left out, unless a
/// person included one of their jobs.
fn without_outliers(
    all: Vec<VehicleRange>,
    included: &[String],
    sides: &[(Bound, f64)],
) -> (Vec<VehicleRange>, Vec<VehicleRange>) {
    let (low, _) = outer_fences(all.iter().map(|v| v.range.low).collect());
    let (_, high) = outer_fences(all.iter().map(|v| v.range.high).collect());
    all.into_iter().partition(|v| {
        let is_inside = sides.iter().all(|(side, _)| match side {
            Bound::Low => v.range.low >= low,
            Bound::High => v.range.high <= high,
        });
        is_inside || v.jobs.iter().any(|job| included.contains(job))
    })
}
