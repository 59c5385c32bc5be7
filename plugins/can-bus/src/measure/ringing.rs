//! Ringing after the bus becomes recessive: reflections at stubs and at ends without terminator.

use super::edges::Logic;
use plugin_sdk::signal::stats;

/// Samples a bit below which ringing cannot be seen: it dies out within a few hundred nanoseconds.
const LEAST_SAMPLES_A_BIT: f64 = 16.0;
/// Edges that are looked at, at most.
const MOST_EDGES: usize = 2_000;

/// Oscillation after a recessive edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ringing {
    /// Median undershoot below the recessive level, % of the dominant differential.
    pub undershoot: f64,
    /// Smallest undershoot that would have been told from noise, %.
    pub detectable: f64,
    /// Median time from the middle of the edge until the differential stays within 0.25 V of the recessive level, in
    /// samples.
    pub settling: f64,
    /// Edges behind it.
    pub edges: usize,
}

/// Measures ringing of a differential signal. `None` where the recording is too coarse or has no bits to look at.
pub fn ringing(
    differential: impl Fn(usize) -> f64,
    logic: &Logic,
    bit: f64,
    recessive: f64,
    dominant: f64,
    noise: f64,
) -> Option<Ringing> {
    if bit < LEAST_SAMPLES_A_BIT || dominant <= recessive {
        return None;
    }
    let (mut under, mut settling) = (Vec::new(), Vec::new());
    for pair in logic.edges.windows(2).take(MOST_EDGES) {
        if pair[0].dominant || pair[1].at - pair[0].at < 0.9 * bit {
            continue;
        }
        let from = pair[0].at.ceil() as usize;
        let to = ((pair[0].at + 0.9 * bit) as usize).min(logic.samples.saturating_sub(1));
        let (mut lowest, mut last) = (f64::INFINITY, from);
        for i in from..=to {
            let d = differential(i) - recessive;
            lowest = lowest.min(d);
            if d.abs() > 0.25 {
                last = i;
            }
        }
        if lowest.is_finite() {
            under.push(-lowest);
            settling.push(last as f64 - pair[0].at);
        }
    }
    let swing = dominant - recessive;
    // The least of so many noisy samples lies about two sigma low.
    let expected = 2.0 * noise;
    Some(Ringing {
        undershoot: 100.0 * (stats::median(&under)? - expected).max(0.0) / swing,
        detectable: 100.0 * 2.0 * expected / swing,
        settling: stats::median(&settling)?,
        edges: under.len(),
    })
}
