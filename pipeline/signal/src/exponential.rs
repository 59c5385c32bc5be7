//! An exponential approach to a level.

use crate::least_squares;

/// `level + step * exp(-t / tau)`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Exponential {
    /// Level that is approached.
    pub level: f64,
    /// Distance from it at t = 0.
    pub step: f64,
    /// Time constant, in the unit of t.
    pub tau: f64,
    /// Standard error of the value at t = 0 for independent residuals.
    pub start_stderr: f64,
    /// Root mean square of the residuals.
    pub residual: f64,
}

/// Fits an exponential by least squares: for each time constant the rest is linear, and the best one is found by
/// golden-section search over its logarithm between two bounds.
///
/// `None` with fewer than eight points or when they do not vary.
pub fn fit(t: &[f64], y: &[f64], shortest: f64, longest: f64) -> Option<Exponential> {
    if t.len() < 8 || shortest <= 0.0 || longest <= shortest {
        return None;
    }
    let at = |log: f64| {
        let tau = log.exp();
        let rows = t.iter().zip(y).map(|(&t, &y)| ([1.0, (-t / tau).exp()], y));
        least_squares::fit(rows).map(|f| (f, tau))
    };
    let cost = |log: f64| at(log).map_or(f64::INFINITY, |(f, _)| f.residual);
    // Coarse first: the cost may have more than one hollow.
    let (low, high) = (shortest.ln(), longest.ln());
    let steps = 24;
    let grid = |k: usize| low + (high - low) * k as f64 / steps as f64;
    let best = (0..=steps).min_by(|&a, &b| cost(grid(a)).total_cmp(&cost(grid(b))))?;
    let (mut a, mut b) = (grid(best.saturating_sub(1)), grid((best + 1).min(steps)));
    let ratio = (5f64.sqrt() - 1.0) / 2.0;
    for _ in 0..24 {
        let (c, d) = (b - ratio * (b - a), a + ratio * (b - a));
        if cost(c) < cost(d) {
            b = d;
        } else {
            a = c;
        }
    }
    let (f, tau) = at((a + b) / 2.0)?;
    Some(Exponential {
        level: f.coefficients[0],
        step: f.coefficients[1],
        tau,
        start_stderr: f.stderr[0].hypot(f.stderr[1]),
        residual: f.residual,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::noise::noise;

    /// By construction: 63.2 % of the way after one time constant.
    #[test]
    fn known_exponential_in_noise() {
        let t: Vec<f64> = (0..2_000).map(|i| f64::from(i) * 1e-4).collect();
        let y: Vec<f64> = t
            .iter()
            .zip(noise(3))
            .map(|(t, n)| 2.0 + 5.0 * (-t / 0.03).exp() + 0.2 * n)
            .collect();
        let f = fit(&t, &y, 1e-3, 1.0).unwrap();
        assert!(
            (f.level - 2.0).abs() < 0.01 && (f.step - 5.0).abs() < 0.03,
            "{f:?}"
        );
        assert!((f.tau / 0.03 - 1.0).abs() < 0.02, "{f:?}");
    }
}
