//! Runs of edges that belong together.

use crate::stats;
use std::ops::Range;

/// Periods on either side of an interval that say how fast the train was and goes on.
const NEAR: usize = 4;

/// Interval, in periods, beyond which a train is interrupted; the largest gap of a wheel is less.
const INTERRUPTED: f64 = 8.5;

/// Ratio of the periods after an interval to those before it, either way, that no shaft's speed changes by at once: a burst
/// of noise, as a supply that is switched on leaves it.
const BURST: f64 = 30.0;

/// Longest interruption after which a train can go on as the same, s.
const LONGEST_HOLE_S: f64 = 5.0;

/// Slowest train that is followed whatever was stated, period in s.
const SLOWEST_PERIOD_S: f64 = 1.0;

/// Splits edges into runs: a run ends where the next edge is later than `longest_s` and neither fits the rate around
/// it nor follows a hole in a steady train. Runs of a single edge are runs as well.
pub fn split_runs(at_s: &[f64], longest_s: f64) -> Vec<Range<usize>> {
    let mut runs = Vec::new();
    let mut first = 0;
    for k in 1..=at_s.len() {
        if k == at_s.len() || ends_run(at_s, first, k, longest_s) {
            runs.push(first..k);
            first = k;
        }
    }
    runs
}

fn ends_run(at_s: &[f64], first: usize, k: usize, longest_s: f64) -> bool {
    let gap = at_s[k] - at_s[k - 1];
    let before = first.max(k.saturating_sub(NEAR + 1))..k;
    // Nearly every edge follows closely: by a few of even the shortest period before it.
    let shortest = at_s[before.clone()].windows(2).map(|w| w[1] - w[0]);
    let shortest = shortest.reduce(f64::min);
    if gap <= longest_s && shortest.is_some_and(|s| gap <= INTERRUPTED * s) {
        return false;
    }
    let period = |range: Range<usize>| {
        let own = at_s.get(range).filter(|own| own.len() > 1)?;
        stats::median_of(&mut own.windows(2).map(|w| w[1] - w[0]).collect())
    };
    let before = period(before);
    let after = period(k..(k + NEAR + 1).min(at_s.len()));
    let (slower, faster) = match (before, after) {
        (Some(a), Some(b)) => (a.max(b), a.min(b)),
        (Some(a), None) | (None, Some(a)) => (a, a),
        (None, None) => return gap > longest_s,
    };
    let interrupted = gap > INTERRUPTED * slower || slower > BURST * faster;
    if gap <= longest_s && !interrupted {
        return false;
    }
    if gap <= SLOWEST_PERIOD_S && gap < 2.5 * faster {
        return false;
    }
    !is_hole(at_s, first, k, gap, before, after)
}

/// A train that goes on after an interruption as fast as it was before it, and steady on either side: no shaft stops and
/// starts like that.
fn is_hole(
    at_s: &[f64],
    first: usize,
    k: usize,
    gap: f64,
    before: Option<f64>,
    after: Option<f64>,
) -> bool {
    let (Some(before), Some(after)) = (before, after) else {
        return false;
    };
    let enough = k > first + 2 * NEAR && k + 2 * NEAR < at_s.len();
    if !enough || gap > LONGEST_HOLE_S || gap < 4.0 * before {
        return false;
    }
    let further = |from: usize| (at_s[from + NEAR] - at_s[from]) / NEAR as f64;
    let rates = [
        further(k - 1 - 2 * NEAR),
        further(k - 1 - NEAR),
        further(k),
        further(k + NEAR),
    ];
    let slowest = rates.iter().copied().fold(0.0, f64::max);
    let fastest = rates.iter().copied().fold(f64::INFINITY, f64::min);
    // A wheel's gap may lie in one of the four.
    (after / before).ln().abs() < 0.2 && slowest < 1.8 * fastest
}
