//! Pitch positions that lie between the edges of a train.

use super::local::pitch_ratio;
use super::pattern::Pattern;

/// One edge of a train with its place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlacedEdge {
    /// Index among the edges that were given.
    pub index: usize,
    /// Time, s.
    pub at_s: f64,
    /// Pitch positions since the edge before; 0 for the first of a train and after an interruption whose length in
    /// positions is not known.
    pub step: u32,
}

/// Edges of one run with their positions.
#[derive(Debug, Clone, Default)]
pub struct Placed {
    /// Edges in order of time.
    pub edges: Vec<PlacedEdge>,
    /// Edges left out because two of them share one pitch.
    pub doubled: usize,
}

/// Ratio to the local pitch from which on an interval spans several positions.
const SEVERAL: f64 = 1.55;

/// Ratio below which an interval is part of a pitch.
const PART: f64 = 0.78;

/// Counts the pitch positions between the edges of one run. Unequal pitches (`by_edges`) are counted by edges; else an
/// interval that spans several pitches counts as so many, and of two edges that share one pitch the second is left out.
pub fn place_edges(at_s: &[f64], pattern: &Pattern, by_edges: bool) -> Placed {
    if at_s.is_empty() {
        return Placed::default();
    }
    let mut edges = Vec::with_capacity(at_s.len());
    let mut push = |index: usize, step: u32| {
        edges.push(PlacedEdge {
            index,
            at_s: at_s[index],
            step,
        });
    };
    let periods: Vec<f64> = at_s.windows(2).map(|w| w[1] - w[0]).collect();
    push(0, 0);
    let mut doubled = 0;
    let mut k = 0;
    while k < periods.len() {
        let ratio = pitch_ratio(&periods, k);
        let step = match by_edges {
            true => 1,
            false => steps_in(&periods, k, ratio, pattern),
        };
        let shared = !by_edges && ratio < PART && k + 1 < periods.len() && {
            let next = pitch_ratio(&periods, k + 1);
            next < PART && (0.8..1.25).contains(&(ratio + next))
        };
        if shared {
            doubled += 1;
            k += 1;
        }
        push(k + 1, step);
        k += 1;
    }
    Placed { edges, doubled }
}

/// Pitch positions that interval `k` stands for. What is not the wheel's own gap must be longer than both intervals beside
/// it: a shaft that starts or stops has ever longer ones, and no tooth is missing.
fn steps_in(periods: &[f64], k: usize, ratio: f64, pattern: &Pattern) -> u32 {
    if let Some(gap) = pattern.gap_near(ratio) {
        return gap;
    }
    if k == 0 || k + 1 >= periods.len() {
        return 1;
    }
    // The lesser of two on either side: the other may be wide itself.
    let least = |own: &[f64]| own.iter().copied().fold(f64::INFINITY, f64::min);
    let before = least(&periods[k.saturating_sub(2)..k]);
    let after = least(&periods[k + 1..(k + 3).min(periods.len())]);
    match ratio {
        r if r >= SEVERAL && periods[k] > 0.9 * SEVERAL * before.max(after) => r.round() as u32,
        _ => 1,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn steps(instants: &[f64]) -> (Vec<u32>, usize) {
        let placed = place_edges(instants, &Pattern::even(), false);
        (
            placed.edges.iter().map(|e| e.step).collect(),
            placed.doubled,
        )
    }

    /// 60-2 turning 60 times a second: 58 teeth and one interval of three positions.
    #[test]
    fn a_gap_counts_the_positions_it_stands_for() {
        let teeth = (0..180)
            .filter(|p| p % 60 < 58)
            .map(|p| f64::from(p) / 3600.0);
        let (steps, doubled) = steps(&teeth.collect::<Vec<_>>());
        assert_eq!(steps.iter().sum::<u32>(), 177);
        assert_eq!(steps.iter().filter(|s| **s == 3).count(), 2);
        assert_eq!(doubled, 0);
    }

    #[test]
    fn two_edges_in_one_pitch_are_one_tooth() {
        let mut teeth: Vec<f64> = (0..40).map(f64::from).collect();
        teeth.insert(21, 20.45);
        let (steps, doubled) = steps(&teeth);
        assert_eq!((steps.iter().sum::<u32>(), doubled), (39, 1));
    }

    /// Speed doubles within five teeth: no tooth is missing.
    #[test]
    fn a_start_from_rest_misses_no_tooth() {
        let periods = [100.0, 70.0, 57.0, 50.0, 45.0, 41.0, 38.0, 36.0, 35.0, 34.0];
        let mut t = 0.0;
        let teeth: Vec<f64> = std::iter::once(0.0)
            .chain(periods.iter().map(|p| {
                t += p;
                t
            }))
            .collect();
        assert!(steps(&teeth).0[1..].iter().all(|s| *s == 1));
    }
}
