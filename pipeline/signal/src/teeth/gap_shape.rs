//! Shape of a coil's signal where a tooth is missing: which way it crosses its middle, and what is left of the tooth.
//!
//! A coil's voltage is the change of its flux (Faraday): one half wave while a tooth comes, the opposite one while it
//! leaves, and the steep crossing between them at the tooth's middle. Over a gap the flux stays low, so that the signal
//! lies at its middle between the half wave of the tooth that left and that of the one that comes: it crosses slowly, and
//! in the direction that is opposite to that at the teeth.

use super::train::ToothTrain;
use crate::{Time, stats};
use std::collections::BTreeMap;

/// Direction in which a coil's signal crosses its gaps.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct GapCrossings {
    /// Gaps that are crossed upwards: the signal falls at the middle of a tooth.
    pub rising: u32,
    /// Gaps that are crossed downwards: the signal rises at the middle of a tooth.
    pub falling: u32,
}

/// Share of the half amplitude within which the signal lies at its middle.
const FLAT: f64 = 0.25;

/// Least length of that, pitches. A sine is there for 0.08 of its period.
const LEAST_FLAT: f64 = 0.35;

/// Crossings of the gaps of a train, `x` being the samples that it was read from.
pub fn gap_crossings(x: &[f32], time: Time<'_>, train: &ToothTrain) -> GapCrossings {
    let mut found = GapCrossings::default();
    for gap in gaps(train) {
        let pitch = (gap.end_s - gap.start_s) / f64::from(gap.step);
        let range = range(x, time, gap.start_s - 0.7 * pitch, gap.end_s + 0.7 * pitch);
        let own = &x[range];
        let step_s = (gap.end_s - gap.start_s + 1.4 * pitch) / own.len().max(1) as f64;
        let values: Vec<f64> = own.iter().map(|v| f64::from(*v)).collect();
        let (Some(low), Some(high)) = (
            stats::quantile(&values, 0.02),
            stats::quantile(&values, 0.98),
        ) else {
            continue;
        };
        let middle = (low + high) / 2.0;
        let near = FLAT * (high - low) / 2.0;
        let Some((from, to)) = longest_run(&values, |v| (v - middle).abs() < near) else {
            continue;
        };
        let inside = from > 0 && to < values.len();
        if !inside || (to - from) as f64 * step_s < LEAST_FLAT * pitch {
            continue;
        }
        match (values[from - 1] > middle, values[to] > middle) {
            (false, true) => found.rising += 1,
            (true, false) => found.falling += 1,
            _ => {}
        }
    }
    found
}

/// Rest of a tooth at one place of the wheel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stub {
    /// Place on the wheel, positions.
    pub place: u32,
    /// Movement against the direction in which a clean gap is crossed, share of the amplitude of the teeth beside it.
    pub share: f64,
    /// Noise of that share.
    pub noise: f64,
    /// Turns averaged.
    pub turns: u32,
}

/// Points over a gap.
const POINTS: usize = 33;

/// Remains of teeth in the gaps of one position, averaged over the turns at each place. A clean gap is crossed in one
/// direction; a tooth that is broken off leaves a small wave in it. Empty where the positions per turn are not known.
pub fn stubs(x: &[f32], time: Time<'_>, train: &ToothTrain) -> Vec<Stub> {
    let Some(positions) = train.wheel.positions_per_turn() else {
        return Vec::new();
    };
    let sign = if train.choice.rising { -1.0 } else { 1.0 };
    let mut places: BTreeMap<u64, (Vec<f64>, u32)> = BTreeMap::new();
    for gap in gaps(train).filter(|g| g.step == 2) {
        let own = &x[range(x, time, gap.start_s, gap.end_s)];
        if own.len() < 8 || gap.amplitude <= 0.0 {
            continue;
        }
        let entry = places
            .entry(gap.position % u64::from(positions))
            .or_insert_with(|| (vec![0.0; POINTS], 0));
        for (i, sum) in entry.0.iter_mut().enumerate() {
            // The middle of the gap, 0.55 to 1.45 of its two pitches.
            let share = 0.275 + 0.45 * i as f64 / (POINTS - 1) as f64;
            let at = share * (own.len() - 1) as f64;
            let k = (at as usize).min(own.len() - 2);
            let v = f64::from(own[k]) + (at - k as f64) * f64::from(own[k + 1] - own[k]);
            *sum += sign * v / gap.amplitude;
        }
        entry.1 += 1;
    }
    let amplitude = stats::median(
        &gaps(train)
            .map(|g| g.amplitude)
            .filter(|a| *a > 0.0)
            .collect::<Vec<_>>(),
    );
    let noise = train.signal.noise.unwrap_or(train.signal.threshold / 8.0);
    let stub = |(place, (sums, turns)): (u64, (Vec<f64>, u32))| {
        let mean: Vec<f64> = sums.iter().map(|s| s / f64::from(turns)).collect();
        Stub {
            place: place as u32,
            share: largest_fall(&mean),
            noise: noise / amplitude.unwrap_or(f64::INFINITY) / f64::from(turns).sqrt(),
            turns,
        }
    };
    places.into_iter().map(stub).collect()
}

/// A gap within a segment of turning.
struct Gap {
    start_s: f64,
    end_s: f64,
    step: u32,
    /// Positions passed since the segment's start.
    position: u64,
    /// Mean amplitude of the teeth around it, peak to peak.
    amplitude: f64,
}

/// Gaps of up to four positions that have a tooth of one position on either side.
fn gaps(train: &ToothTrain) -> impl Iterator<Item = Gap> + '_ {
    let longest = train.turning().max_by_key(|s| s.last - s.first);
    let edges = longest.map_or(&[][..], |s| train.edges_of(s));
    let mut position = 0;
    (1..edges.len().saturating_sub(1)).filter_map(move |k| {
        let e = edges[k];
        position += u64::from(e.step);
        let single = |j: usize| edges.get(j).is_some_and(|e| e.step == 1);
        if !(2..=4).contains(&e.step) || k < 2 || !single(k - 1) || !single(k + 1) {
            return None;
        }
        Some(Gap {
            start_s: edges[k - 1].at_s,
            end_s: e.at_s,
            step: e.step,
            position,
            amplitude: f64::from(edges[k - 2].amplitude + edges[k + 1].amplitude) / 2.0,
        })
    })
}

fn range(x: &[f32], time: Time<'_>, from_s: f64, to_s: f64) -> std::ops::Range<usize> {
    let to = time.index_at(to_s, x.len()).min(x.len());
    time.index_at(from_s, x.len()).min(to)..to
}

fn longest_run(values: &[f64], keeps: impl Fn(f64) -> bool) -> Option<(usize, usize)> {
    let mut best: Option<(usize, usize)> = None;
    let mut from = 0;
    for part in values.chunk_by(|a, b| keeps(*a) == keeps(*b)) {
        let to = from + part.len();
        if keeps(part[0]) && best.is_none_or(|(a, b)| to - from > b - a) {
            best = Some((from, to));
        }
        from = to;
    }
    best
}

/// Largest fall from a value to a later one.
fn largest_fall(values: &[f64]) -> f64 {
    let mut highest = f64::NEG_INFINITY;
    values.iter().fold(0.0, |fall: f64, v| {
        highest = highest.max(*v);
        fall.max(highest - v)
    })
}
