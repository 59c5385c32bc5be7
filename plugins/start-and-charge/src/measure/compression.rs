//! Cylinders compared by their humps.

use super::humps::Humps;
use plugin_sdk::signal::stats;

/// Fewest engine cycles from which cylinders are compared.
pub const FEWEST_CYCLES: usize = 2;
/// Fewest from which their number is found.
const CYCLES_TO_COUNT: usize = 3;
/// Numbers of cylinders that are tried where none is stated.
const COUNTS: [usize; 6] = [3, 4, 5, 6, 8, 12];
/// Least ratio of the scatter between cylinders to that within one before a number is believed.
const CERTAIN: f64 = 25.0;
/// Least difference of the cylinders, as a share of the mean, before a number is looked for.
const UNEVEN: f64 = 0.1;
/// The same where a number is believed only within the speeds of starters.
const SLIGHTLY_UNEVEN: f64 = 0.015;
/// Slowest and fastest speed at which a starter turns an engine that starts, rpm; common practice, no source.
const SLOWEST_RPM: f64 = 100.0;
const FASTEST_RPM: f64 = 350.0;
/// By how much a number's information criterion must be better than that of a smaller one that fits, too.
const BETTER: f64 = 10.0;

/// Cylinders of an engine compared.
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
    if let Some(n) = count(humps) {
        let mut c = sorted(humps, n)?;
        c.cylinders = Some(n);
        return Some(c);
    }
    COUNTS
        .iter()
        .filter_map(|&n| sorted(humps, n))
        .min_by(|a, b| a.weakest.total_cmp(&b.weakest))
}

/// The number of cylinders under which the heights repeat. What repeats once a turn (the starter's ring gear) looks like
/// half their number: where they differ slightly, a number is believed only if twice as many would turn too slowly for
/// any start.
fn count(humps: &Humps) -> Option<usize> {
    let clear = repeating(&humps.heights, UNEVEN);
    clear.or_else(|| {
        let n = repeating(&without_trend(&humps.heights), SLIGHTLY_UNEVEN)?;
        let rpm = 120.0 / (n as f64 * humps.period_s);
        (rpm < FASTEST_RPM && rpm / 2.0 < SLOWEST_RPM).then_some(n)
    })
}

/// The number after which heights that differ by `uneven` at least repeat. Multiples of it fit as well, and a part of it
/// fits a little: a larger number must be better by the Bayesian information criterion (Schwarz 1978).
fn repeating(heights: &[f64], uneven: f64) -> Option<usize> {
    let mut best: Option<(usize, f64)> = None;
    for &n in &COUNTS {
        if heights.len() / n < CYCLES_TO_COUNT {
            continue;
        }
        let differ = |v: &Variances| v.between >= CERTAIN * v.within && v.range >= uneven;
        let Some(v) = variances(heights, n).filter(differ) else {
            continue;
        };
        let m = heights.len() as f64;
        let criterion = m * v.residual.ln() + n as f64 * m.ln();
        if best.is_none_or(|(_, b)| criterion < b - BETTER) {
            best = Some((n, criterion));
        }
    }
    best.map(|b| b.0)
}

/// Heights without their straight line: an engine gathers speed.
fn without_trend(heights: &[f64]) -> Vec<f64> {
    let x: Vec<f64> = (0..heights.len()).map(|i| i as f64).collect();
    match stats::line_fit(&x, heights) {
        Some(line) => x
            .iter()
            .zip(heights)
            .map(|(x, h)| h - line.slope * (x - (heights.len() - 1) as f64 / 2.0))
            .collect(),
        None => heights.to_vec(),
    }
}

fn sorted(humps: &Humps, n: usize) -> Option<Compression> {
    let cycles = humps.heights.len() / n;
    if cycles < FEWEST_CYCLES || n < 2 {
        return None;
    }
    let slot = |k: usize| mean(humps.heights.iter().skip(k).step_by(n).copied());
    let means: Vec<f64> = (0..n).map(slot).collect();
    let best = means.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let worst = means.iter().copied().fold(f64::INFINITY, f64::min);
    if best <= 0.0 {
        return None;
    }
    let weakest = 100.0 * worst / best;
    // The scatter within a cylinder is that of all of them: few cycles tell it of none alone.
    let within = variances(&humps.heights, n)?.within;
    let error = (within / cycles as f64).sqrt();
    let times: Vec<f64> = humps.tops_s.windows(2).map(|w| w[1] - w[0]).collect();
    let all = mean(times.iter().copied());
    Some(Compression {
        cylinders: None,
        cycles,
        each: means.iter().map(|m| 100.0 * m / best).collect(),
        times: (0..n)
            .map(|k| 100.0 * mean(times.iter().skip(k).step_by(n).copied()) / all)
            .collect(),
        weakest,
        // Independent contributions of both means (GUM).
        uncertainty: 100.0 * error / best * (1.0f64).hypot(weakest / 100.0),
    })
}

/// Analysis of variance of heights by their place in a cycle.
struct Variances {
    /// Variance of the places' means, times the number of cycles.
    between: f64,
    /// Variance within a place.
    within: f64,
    /// Difference of the highest and the lowest place, as a share of the mean.
    range: f64,
    /// Mean square of what the places do not explain.
    residual: f64,
}

/// One-way analysis of variance over the places of a cycle of `n` humps; `None` with fewer than two cycles.
fn variances(heights: &[f64], n: usize) -> Option<Variances> {
    let cycles = heights.len() / n;
    if cycles < FEWEST_CYCLES {
        return None;
    }
    let all = mean(heights.iter().copied());
    let (mut between, mut squares) = (0.0, 0.0);
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    for k in 0..n {
        let slot = || heights.iter().skip(k).step_by(n).copied();
        let m = mean(slot());
        (low, high) = (low.min(m), high.max(m));
        between += slot().count() as f64 * (m - all) * (m - all);
        squares += slot().map(|v| (v - m) * (v - m)).sum::<f64>();
    }
    // Heights that repeat exactly differ by rounding and by the recorder's steps.
    let least = 1e-5 * all * all;
    let m = heights.len() as f64;
    Some(Variances {
        between: between / (n - 1) as f64,
        range: (high - low) / all,
        within: squares / (m - n as f64) + least,
        residual: squares / m + least,
    })
}

fn mean(values: impl Iterator<Item = f64>) -> f64 {
    let (sum, n) = values.fold((0.0, 0.0), |(s, n), v| (s + v, n + 1.0));
    sum / n
}
