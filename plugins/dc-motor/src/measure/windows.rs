//! Averages and levels over short windows.

use plugin_sdk::signal::stats;

/// Centred mean over about `n` samples; the ends average what there is.
pub fn average(x: &[f64], n: usize) -> Vec<f64> {
    let half = n / 2;
    let mut sums = Vec::with_capacity(x.len() + 1);
    let mut sum = 0.0;
    sums.push(sum);
    for v in x {
        sum += v;
        sums.push(sum);
    }
    (0..x.len())
        .map(|i| {
            let (from, to) = (i.saturating_sub(half), (i + half + 1).min(x.len()));
            (sums[to] - sums[from]) / (to - from) as f64
        })
        .collect()
}

/// Quantile of at most about 20,000 of the values, evenly picked: enough for a level.
pub fn quantile(x: &[f64], q: f64) -> Option<f64> {
    let picked: Vec<f64> = x
        .iter()
        .step_by((x.len() / 20_000).max(1))
        .copied()
        .collect();
    stats::quantile(&picked, q)
}

/// Median, as [`quantile`].
pub fn median(x: &[f64]) -> Option<f64> {
    quantile(x, 0.5)
}

/// Standard deviation from the median deviation.
pub fn spread(x: &[f64]) -> f64 {
    let picked: Vec<f64> = x
        .iter()
        .step_by((x.len() / 20_000).max(1))
        .copied()
        .collect();
    1.4826 * stats::median_abs_deviation(&picked).unwrap_or(0.0)
}

/// Smallest step between neighbours; 0 when none differ.
pub fn resolution(x: &[f64]) -> f64 {
    let steps = x
        .windows(2)
        .map(|w| (w[1] - w[0]).abs())
        .filter(|d| *d > 1e-9);
    let least = steps.fold(f64::INFINITY, f64::min);
    if least.is_finite() { least } else { 0.0 }
}
