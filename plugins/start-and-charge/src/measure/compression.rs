//! Cylinders compared by their humps.

use super::humps::Humps;

/// Fewest engine cycles from which cylinders are compared.
pub const FEWEST_CYCLES: usize = 3;
/// Numbers of cylinders that are tried where none is stated.
const COUNTS: [usize; 6] = [3, 4, 5, 6, 8, 12];
/// How many times the scatter within a cylinder the scatter between cylinders must be before a number is believed.
const CERTAIN: f64 = 12.0;

/// How the cylinders of an engine compress.
#[derive(Debug, Clone, PartialEq)]
pub struct Compression {
    /// Cylinders by which the humps were sorted; `None` where no number fits better than another, which it does
    /// not when all compress alike.
    pub cylinders: Option<usize>,
    /// Cycles of two turns that were seen.
    pub cycles: usize,
    /// Mean hump of each cylinder in firing order from the first hump on, % of the best one's.
    pub each: Vec<f64>,
    /// Time from each cylinder's hump to the next one's, % of the mean.
    pub times: Vec<f64>,
    /// Weakest cylinder's hump, % of the best one's.
    pub weakest: f64,
    /// Standard uncertainty of that, %.
    pub uncertainty: f64,
}

/// Compares the cylinders. Without a stated number of cylinders, that whose places of the cycle differ most clearly;
/// where none do, that under which they differ most, so that a weak one is not overlooked. `None` with fewer than
/// three cycles.
pub fn compare(humps: &Humps, stated: Option<usize>) -> Option<Compression> {
    if let Some(n) = stated {
        return sorted(humps, n).map(|mut c| {
            c.cylinders = Some(n);
            c
        });
    }
    let clear = COUNTS
        .iter()
        .map(|&n| (n, between_over_within(&humps.heights, n)))
        // Twice the number fits as well: of the fitting ones, the smallest.
        .find(|(_, f)| *f >= CERTAIN)
        .map(|(n, _)| n);
    if let Some(n) = clear {
        let mut c = sorted(humps, n)?;
        c.cylinders = Some(n);
        return Some(c);
    }
    COUNTS
        .iter()
        .filter_map(|&n| sorted(humps, n))
        .min_by(|a, b| a.weakest.total_cmp(&b.weakest))
}

fn sorted(humps: &Humps, n: usize) -> Option<Compression> {
    let cycles = humps.heights.len() / n;
    if cycles < FEWEST_CYCLES || n < 2 {
        return None;
    }
    let slot = |k: usize| mean(humps.heights.iter().skip(k).step_by(n).copied());
    let means: Vec<(f64, f64)> = (0..n).map(slot).collect();
    let best = *means.iter().max_by(|a, b| a.0.total_cmp(&b.0))?;
    let worst = *means.iter().min_by(|a, b| a.0.total_cmp(&b.0))?;
    if best.0 <= 0.0 {
        return None;
    }
    let weakest = 100.0 * worst.0 / best.0;
    let times: Vec<f64> = humps.tops_s.windows(2).map(|w| w[1] - w[0]).collect();
    let all = mean(times.iter().copied()).0;
    Some(Compression {
        cylinders: None,
        cycles,
        each: means.iter().map(|m| 100.0 * m.0 / best.0).collect(),
        times: (0..n)
            .map(|k| 100.0 * mean(times.iter().skip(k).step_by(n).copied()).0 / all)
            .collect(),
        weakest,
        // Independent contributions of both means (GUM).
        uncertainty: (100.0 * worst.1 / best.0).hypot(weakest * best.1 / best.0),
    })
}

/// F ratio of a one-way analysis of variance over the places of a cycle of `n` humps; 0 with fewer than three cycles.
fn between_over_within(heights: &[f64], n: usize) -> f64 {
    let cycles = heights.len() / n;
    if cycles < FEWEST_CYCLES {
        return 0.0;
    }
    let heights = &heights[..cycles * n];
    let all = mean(heights.iter().copied()).0;
    let (mut between, mut within) = (0.0, 0.0);
    for k in 0..n {
        let slot = || heights.iter().skip(k).step_by(n).copied();
        let m = mean(slot()).0;
        between += cycles as f64 * (m - all) * (m - all);
        within += slot().map(|v| (v - m) * (v - m)).sum::<f64>();
    }
    let degrees = ((n - 1) as f64, (n * (cycles - 1)) as f64);
    // Heights that repeat exactly differ only by rounding.
    let least = 1e-6 * all * all * degrees.1;
    (between / degrees.0) / ((within + least) / degrees.1)
}

/// Mean and its standard uncertainty (k = 1).
fn mean(values: impl Iterator<Item = f64>) -> (f64, f64) {
    let values: Vec<f64> = values.collect();
    let n = values.len() as f64;
    let mean = values.iter().sum::<f64>() / n;
    let squares: f64 = values.iter().map(|v| (v - mean) * (v - mean)).sum();
    (mean, (squares / (n - 1.0).max(1.0) / n).sqrt())
}
