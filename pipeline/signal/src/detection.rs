//! Capability of detection: the smallest signal that a recording would have shown.
//!
//! The form is that of IUPAC 1995 (Pure Appl. Chem. 67, 1699), which ISO 11843 shares: a critical value `x_C` that
//! the blank exceeds with probability alpha, and a detectable value `x_D` that stays below `x_C` with probability beta;
//! with a known standard deviation and alpha = beta = 5 %, `x_C = 1.645 s` and `x_D = 3.29 s`.

use std::f64::consts::PI;

/// Error probabilities of the first and second kind, as IUPAC 1995 and ISO 11843 propose them.
pub const ALPHA: f64 = 0.05;

/// Critical value of a net signal: `t(1 - alpha, nu) * s` (IUPAC 1995), with `nu` degrees of freedom of the standard
/// deviation `s` of the net signal under the null hypothesis; `None` for a known standard deviation.
pub fn critical_value(s: f64, nu: Option<usize>, alpha: f64) -> f64 {
    s * match nu {
        Some(nu) => student_quantile(1.0 - alpha, nu as f64),
        None => normal_quantile(1.0 - alpha),
    }
}

/// Quantile of the standard normal distribution for 0 < p < 1, by bisection of its distribution function.
pub fn normal_quantile(p: f64) -> f64 {
    student_quantile(p, 1e9)
}

/// Quantile of Student's t distribution for 0 < p < 1 and `nu` > 0 degrees of freedom, by bisection of the
/// integrated density; good to 1e-6 for 0.001 <= p <= 0.999.
pub fn student_quantile(p: f64, nu: f64) -> f64 {
    if p < 0.5 {
        return -student_quantile(1.0 - p, nu);
    }
    let area = student_area(nu);
    let (mut low, mut high) = (0.0, 1.0);
    while 0.5 + area(high) < p && high < 1e6 {
        high *= 2.0;
    }
    for _ in 0..60 {
        let middle = (low + high) / 2.0;
        match 0.5 + area(middle) < p {
            true => low = middle,
            false => high = middle,
        }
    }
    (low + high) / 2.0
}

/// Area below the density between 0 and `t`, as a function of `t`: with x = sqrt(nu) tan(u) the density becomes
/// cos(u)^(nu - 1), which is integrated by Simpson's rule and divided by the same over the whole half line.
fn student_area(nu: f64) -> impl Fn(f64) -> f64 {
    let root = nu.sqrt();
    let simpson = move |to: f64| {
        const N: usize = 400;
        let h = to / N as f64;
        let f = |k: usize| ((nu - 1.0) * (h * k as f64).cos().max(0.0).ln()).exp();
        let inner: f64 = (1..N)
            .map(|k| if k % 2 == 1 { 4.0 * f(k) } else { 2.0 * f(k) })
            .sum();
        (f(0) + inner + f(N)) * h / 3.0
    };
    // Beyond ten standard deviations of the angle nothing is left.
    let end = (PI / 2.0).min(10.0 / root.max(1e-9));
    let whole = simpson(end);
    move |t| 0.5 * simpson((t / root).atan().min(end)) / whole
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stats::line_fit;

    /// Student's t as tabled: Wisconsin Administrative Code NR 252.0365, t(0.99, n - 1) for n = 7 to 10; 97.5 % with 4
    /// degrees of freedom and of the normal distribution (SciPy 1.17.1).
    #[test]
    fn tabled_quantiles() {
        for (n, t) in [(7, 3.143), (8, 2.998), (9, 2.896), (10, 2.821)] {
            let found = student_quantile(0.99, f64::from(n - 1));
            assert!((found - t).abs() < 6e-4, "{n}: {found}");
        }
        assert!((student_quantile(0.975, 4.0) - 2.776445).abs() < 1e-4);
        assert!((normal_quantile(0.975) - 1.959964).abs() < 1e-4);
    }

    /// IUPAC 1995, known standard deviation: 1.645 times it.
    #[test]
    fn iupac_factor() {
        assert!((critical_value(1.0, None, ALPHA) - 1.645).abs() < 5e-4);
    }

    /// DIN 32645, "equivalent to ISO 11843" (data set `din32645` of the R package chemCal 0.2.3): ten calibration points,
    /// alpha = 0.01, K = 1: x_C = 0.0698; alpha = 0.05: x_C = 0.044820.
    #[test]
    fn worked_example_of_din_32645() {
        let x: Vec<f64> = (1..=10).map(|k| 0.05 * f64::from(k)).collect();
        let y = [
            3060., 3522., 3707., 4280., 5058., 5510., 5703., 6205., 7156., 7178.,
        ];
        let line = line_fit(&x, &y).unwrap();
        let residuals = x.iter().zip(y);
        let squares: f64 = residuals
            .map(|(x, y)| (y - line.intercept - line.slope * x).powi(2))
            .sum();
        let s = (squares / 8.0).sqrt();
        assert!((s - 192.294).abs() < 1e-3);
        let (mean, sxx) = (0.275_f64, 0.20625);
        let net = s / line.slope * (1.0 + 0.1 + mean * mean / sxx).sqrt();
        assert!((critical_value(net, Some(8), 0.01) - 0.069813).abs() < 2e-5);
        assert!((critical_value(net, Some(8), 0.05) - 0.044820).abs() < 2e-5);
    }
}
