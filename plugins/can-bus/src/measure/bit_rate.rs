//! The bit time behind a row of edges.

use super::edges::Logic;
use std::f64::consts::TAU;

/// Least number of distances between edges from which a bit time is found.
const LEAST_DISTANCES: usize = 12;
/// Longest distance between two dominant edges within a frame, in bits: five of either level.
const LONGEST_BITS: f64 = 10.5;
/// Shortest distance between two dominant edges, in bits: one of either level.
const SHORTEST_BITS: f64 = 2.0;
/// Samples a bit below which frames are not read: both edges of a bit then may be off by half a sample each, and the
/// sampling point no longer lies within the bit for certain.
pub const LEAST_SAMPLES_A_BIT: f64 = 3.0;
/// Least mean coherence of the distances with the bit grid, 0 to 1.
const LEAST_COHERENCE: f64 = 0.6;

/// A bit time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BitTime {
    /// Samples a bit.
    pub samples: f64,
    /// Standard uncertainty (k = 1), in samples.
    pub uncertainty: f64,
    /// Mean cosine of the distances' phases on the grid: 1 for a perfect grid, 0 for none.
    pub coherence: f64,
    /// Number of distances used.
    pub distances: usize,
}

/// Result of the search.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Search {
    /// The shortest bit of the recording.
    Found(BitTime),
    /// Too few edges.
    TooFewEdges,
    /// The edges come so close that a bit has fewer samples than can be read.
    TooSlow,
    /// The edges lie on no common grid.
    NoGrid,
}

/// Finds the bit time: the longest of which nearly all distances between dominant edges are multiples.
///
/// The coherence of a candidate T is the mean of cos(2 pi d / T) over the distances d (a periodogram of Rayleigh's
/// kind). T / 2 and T / 3 fit as well as T itself, so that the longest of those that fit is taken.
pub fn find(logic: &Logic) -> Search {
    let edges: Vec<f64> = logic.dominant_edges().collect();
    let distances: Vec<f64> = edges.windows(2).map(|w| w[1] - w[0]).collect();
    let Some(short) = shortest(&distances) else {
        return Search::TooFewEdges;
    };
    // Dominant edges two bits apart at least: closer ones mean that bits are shorter than can be read.
    if short < SHORTEST_BITS * LEAST_SAMPLES_A_BIT * 0.9 {
        return Search::TooSlow;
    }
    let within: Vec<f64> = distances
        .iter()
        .copied()
        .filter(|&d| d < LONGEST_BITS * short)
        .collect();
    if within.len() < LEAST_DISTANCES {
        return Search::TooFewEdges;
    }
    // The shortest distance is two bits, or more where no two neighbours alternate.
    let (from, to) = (short / 6.0, short / SHORTEST_BITS * 1.15);
    let from = from.max(LEAST_SAMPLES_A_BIT * 0.9);
    let steps = ((to / from).ln() / 0.002).ceil().max(1.0) as usize;
    let candidates: Vec<(f64, f64)> = (0..=steps)
        .map(|k| from * (to / from).powf(k as f64 / steps as f64))
        .map(|t| (t, coherence(&within, t)))
        .collect();
    let best = candidates.iter().map(|c| c.1).fold(0.0, f64::max);
    if best < LEAST_COHERENCE {
        return Search::NoGrid;
    }
    let peak = candidates
        .iter()
        .enumerate()
        .rev()
        .find(|(k, c)| {
            let left = k.checked_sub(1).map_or(0.0, |i| candidates[i].1);
            let right = candidates.get(k + 1).map_or(0.0, |c| c.1);
            c.1 >= 0.9 * best && c.1 >= left && c.1 >= right
        })
        .map(|(_, c)| c.0);
    match peak {
        Some(t) => Search::Found(refine(&within, t)),
        None => Search::NoGrid,
    }
}

/// The shortest distance but for the closest hundredth: glitches and single errors are no bits.
fn shortest(distances: &[f64]) -> Option<f64> {
    let mut sorted = distances.to_vec();
    sorted.sort_by(f64::total_cmp);
    (sorted.len() >= LEAST_DISTANCES).then(|| sorted[sorted.len() / 100])
}

fn coherence(distances: &[f64], t: f64) -> f64 {
    distances.iter().map(|d| (TAU * d / t).cos()).sum::<f64>() / distances.len() as f64
}

/// Least squares of the distances on their whole numbers of bits, through the origin.
fn refine(distances: &[f64], mut t: f64) -> BitTime {
    let (mut spread, mut bits) = (0.0, 1.0);
    for _ in 0..3 {
        let (mut nd, mut nn, mut rr, mut n) = (0.0, 0.0, 0.0, 0.0f64);
        for d in distances {
            let k = (d / t).round();
            let r = d - k * t;
            if r.abs() < 0.3 * t {
                nd += k * d;
                nn += k * k;
                rr += r * r;
                n += 1.0;
            }
        }
        if nn > 0.0 {
            t = nd / nn;
            spread = (rr / (n - 1.0).max(1.0)).sqrt();
            bits = nn;
        }
    }
    BitTime {
        samples: t,
        uncertainty: spread / bits.sqrt(),
        coherence: coherence(distances, t),
        distances: distances.len(),
    }
}
