//! Averages, levels and noise of stretches in double precision.

use crate::stats;

/// Samples that are enough for a level; longer stretches are thinned to them.
const ENOUGH: usize = 20_000;

/// Centred mean over about `n` samples (made odd) at every sample; the ends average what there is.
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

/// Mean; NaN of nothing.
pub fn mean(x: &[f64]) -> f64 {
    x.iter().sum::<f64>() / x.len() as f64
}

/// Quantile of at most about 20,000 of the values, evenly picked; `None` when there is none.
pub fn quantile(x: &[f64], q: f64) -> Option<f64> {
    let picked: Vec<f64> = x
        .iter()
        .step_by((x.len() / ENOUGH).max(1))
        .copied()
        .collect();
    stats::quantile(&picked, q)
}

/// Median, as [`quantile`].
pub fn median(x: &[f64]) -> Option<f64> {
    quantile(x, 0.5)
}

/// Standard deviation of most of the values, from the median deviation; 0 of nothing.
pub fn spread(x: &[f64]) -> f64 {
    let picked: Vec<f64> = x
        .iter()
        .step_by((x.len() / ENOUGH).max(1))
        .copied()
        .collect();
    1.4826 * stats::median_abs_deviation(&picked).unwrap_or(0.0)
}

/// Difference of the highest and the lowest value; negative infinity of nothing.
pub fn swing(x: &[f64]) -> f64 {
    let start = (f64::INFINITY, f64::NEG_INFINITY);
    let (low, high) = x.iter().fold(start, |(l, h), v| (l.min(*v), h.max(*v)));
    high - low
}

/// Standard deviation of white noise on a smooth signal: root of half the mean squared difference of neighbours (von
/// Neumann 1941).
pub fn noise(x: &[f64]) -> f64 {
    let squares: f64 = x.windows(2).map(|w| (w[1] - w[0]) * (w[1] - w[0])).sum();
    (squares / (2 * x.len().max(2) - 2) as f64).sqrt()
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::noise::noise as even;

    /// As `scipy.ndimage.uniform_filter1d` inside the record; at the ends the mean of what there is.
    #[test]
    fn average_inside_and_at_the_ends() {
        assert_eq!(
            average(&[1.0, 2.0, 6.0, 3.0], 3),
            [1.5, 3.0, 11.0 / 3.0, 4.5]
        );
        assert_eq!(average(&[1.0, 2.0], 1), [1.0, 2.0]);
    }

    /// Even noise of width 1 has a standard deviation of 1 over the root of 12.
    #[test]
    fn noise_on_a_slope() {
        let x: Vec<f64> = even(8)
            .take(10_000)
            .enumerate()
            .map(|(i, n)| 0.01 * i as f64 + n)
            .collect();
        assert!((noise(&x) - 1.0 / 12f64.sqrt()).abs() < 0.01);
        assert!((swing(&[3.0, -1.0, 2.0]) - 4.0).abs() < 1e-12);
        assert_eq!(resolution(&[1.0, 1.0, 1.5, 3.0]), 0.5);
    }
}
