//! Time that the differential takes to fall once nobody drives it: termination and capacitance discharge each other.

use super::edges::Logic;
use plugin_sdk::signal::stats;

/// Edges that are looked at, at most.
const MOST_EDGES: usize = 2_000;
/// Share of the dominant differential at which the fall begins, and the differential at which it ends, V: a receiver
/// takes 0.5 V for recessive.
const FROM: f64 = 0.8;
const TO: f64 = 0.5;

/// Decay of the bus to recessive.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Decay {
    /// Median time from 80 % of the dominant differential to 0.5 V, in samples.
    pub samples: f64,
    /// Time constant of an exponential that takes as long, in samples.
    pub time_constant: f64,
    /// Shortest time that would have been resolved, in samples.
    pub detectable: f64,
    /// Edges behind it.
    pub edges: usize,
}

/// Measures the decay of the differential. `None` without edges to measure.
pub fn decay(differential: impl Fn(usize) -> f64, logic: &Logic, dominant: f64) -> Option<Decay> {
    let from = FROM * dominant;
    if from <= TO {
        return None;
    }
    let mut times = Vec::new();
    for edge in logic.edges.iter().filter(|e| !e.dominant).take(MOST_EDGES) {
        let middle = edge.at.floor().max(0.0) as usize;
        let begin = (0..=middle)
            .rev()
            .take(1_000_000)
            .find(|&i| differential(i) >= from);
        let end = (middle..logic.samples).find(|&i| differential(i) <= TO);
        if let (Some(begin), Some(end)) = (begin, end) {
            let crossing = |before: usize, after: usize, level: f64| {
                let (a, b) = (differential(before), differential(after));
                before as f64 + if a == b { 0.5 } else { (a - level) / (a - b) }
            };
            times.push(crossing(end - 1, end, TO) - crossing(begin, begin + 1, from));
        }
    }
    let samples = stats::median(&times)?.max(0.0);
    Some(Decay {
        samples,
        time_constant: samples / (from / TO).ln(),
        detectable: 1.0,
        edges: times.len(),
    })
}
