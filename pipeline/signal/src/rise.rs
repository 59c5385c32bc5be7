//! Fit of an exponential rise: current into a coil, voltage onto a capacitor.

/// An exponential rise y = end (1 - exp(-t / tau)) that begins at t = 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rise {
    /// Final value.
    pub end: f64,
    /// Standard uncertainty of the final value (k = 1).
    pub end_uncertainty: f64,
    /// Time constant.
    pub tau: f64,
    /// Standard deviation of the residuals.
    pub residual: f64,
}

impl Rise {
    /// Slope at t = 0.
    pub fn initial_slope(&self) -> f64 {
        self.end / self.tau
    }
}

/// Steps of the search over the time constant, and its range as shares of the longest time.
const STEPS: usize = 120;
const RANGE: (f64, f64) = (0.02, 20.0);

/// Least squares over the points (t, y), t from 0 on. For each time constant the final value is linear; the time constant
/// is searched on a logarithmic grid and refined by the parabola through the best three (variable projection: Golub and
/// Pereyra 1973). The uncertainty comes from the Jacobian at the optimum. `None` with fewer than five points or where the
/// points do not rise.
pub fn fit_rise(points: &[(f64, f64)]) -> Option<Rise> {
    let longest = points.iter().map(|p| p.0).fold(0.0, f64::max);
    if points.len() < 5 || longest <= 0.0 {
        return None;
    }
    let tau_at = |x: f64| longest * RANGE.0 * (RANGE.1 / RANGE.0).powf(x);
    let cost = |x: f64| project(points, tau_at(x)).1;
    let costs: Vec<f64> = (0..=STEPS).map(|k| cost(k as f64 / STEPS as f64)).collect();
    let best = (0..costs.len()).min_by(|&a, &b| costs[a].total_cmp(&costs[b]))?;
    let mut x = best as f64 / STEPS as f64;
    if best > 0 && best < STEPS {
        let (a, b, c) = (costs[best - 1], costs[best], costs[best + 1]);
        let curvature = a - 2.0 * b + c;
        if curvature > 0.0 {
            x += 0.5 * (a - c) / curvature / STEPS as f64;
        }
    }
    let tau = tau_at(x);
    let (end, squares) = project(points, tau);
    if end <= 0.0 {
        return None;
    }
    let free = (points.len() - 2) as f64;
    let variance = squares / free;
    // Jacobian columns: d/d end and d/d tau.
    let (mut aa, mut ab, mut bb) = (0.0, 0.0, 0.0);
    for &(t, _) in points {
        let a = 1.0 - (-t / tau).exp();
        let b = -end * t / (tau * tau) * (-t / tau).exp();
        aa += a * a;
        ab += a * b;
        bb += b * b;
    }
    let determinant = aa * bb - ab * ab;
    let end_uncertainty = match determinant > 0.0 {
        true => (variance * bb / determinant).sqrt(),
        false => f64::INFINITY,
    };
    Some(Rise {
        end,
        end_uncertainty,
        tau,
        residual: variance.sqrt(),
    })
}

/// Best final value for a time constant, and the sum of squares that it leaves.
fn project(points: &[(f64, f64)], tau: f64) -> (f64, f64) {
    let (mut gy, mut gg) = (0.0, 0.0);
    for &(t, y) in points {
        let g = 1.0 - (-t / tau).exp();
        gy += g * y;
        gg += g * g;
    }
    let end = if gg > 0.0 { gy / gg } else { 0.0 };
    let squares = points
        .iter()
        .map(|&(t, y)| (y - end * (1.0 - (-t / tau).exp())).powi(2))
        .sum();
    (end, squares)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::noise::noise;

    /// LM1949 data sheet (TI SNLS349C): 2 mH and 1 ohm with 0.1 ohm at 14 V reach 1.3 A after 0.196 ms and 3.85 A after
    /// 0.655 ms (worked out from its circuit, -(L/R) ln(1 - I R/V)).
    #[test]
    fn a_rise_as_the_data_sheet_has_it() {
        let (r, l, v) = (1.1, 2e-3, 14.0);
        let current = |t: f64| v / r * (1.0 - (-t * r / l).exp());
        assert!((current(0.196e-3) - 1.3).abs() < 0.01);
        assert!((current(0.655e-3) - 3.85).abs() < 0.01);
        let points: Vec<_> = (0..200)
            .map(|k| (k as f64 * 2e-5, current(k as f64 * 2e-5)))
            .collect();
        let rise = fit_rise(&points).unwrap();
        assert!((rise.end / (v / r) - 1.0).abs() < 1e-3);
        assert!((rise.tau / (l / r) - 1.0).abs() < 1e-3);
    }

    /// SciPy 1.17.1, curve_fit of the same model to t = 0, 1, ... 9 and y = 0, 2, 3, 4, 4, 5, 5, 5, 5, 5:
    /// end, tau and standard error of end (absolute_sigma=False).
    #[test]
    fn a_fit_as_scipy_curve_fit() {
        let y = [0.0, 2.0, 3.0, 4.0, 4.0, 5.0, 5.0, 5.0, 5.0, 5.0];
        let points: Vec<_> = y.iter().enumerate().map(|(t, &y)| (t as f64, y)).collect();
        let rise = fit_rise(&points).unwrap();
        assert!((rise.end - SCIPY.0).abs() < 0.002, "{rise:?}");
        assert!((rise.tau - SCIPY.1).abs() < 0.004, "{rise:?}");
        assert!((rise.end_uncertainty - SCIPY.2).abs() < 0.002, "{rise:?}");
    }

    const SCIPY: (f64, f64, f64) = (5.19339052, 2.17486888, 0.13333242);

    #[test]
    fn the_uncertainty_covers_noise() {
        let mut outside = 0;
        for seed in 0..200 {
            let mut noise = noise(seed);
            let points: Vec<_> = (0..60)
                .map(|k| {
                    (
                        k as f64,
                        2.0 * (1.0 - (-(k as f64) / 25.0).exp()) + 0.1 * noise.next().unwrap(),
                    )
                })
                .collect();
            let rise = fit_rise(&points).unwrap();
            outside += usize::from((rise.end - 2.0).abs() > 2.0 * rise.end_uncertainty);
        }
        // 5 % by chance: up to 20 of 200.
        assert!(outside <= 20, "{outside}");
    }
}
