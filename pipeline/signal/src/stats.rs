//! Order statistics and straight lines.

/// Median of the finite values; `None` when there is none. Even counts take the mean of the middle two.
pub fn median(x: &[f64]) -> Option<f64> {
    quantile(x, 0.5)
}

/// Quantile `q` in 0..=1 of the finite values, linearly interpolated between order statistics
/// (Hyndman & Fan type 7, the default of NumPy); `None` when there is no finite value.
pub fn quantile(x: &[f64], q: f64) -> Option<f64> {
    quantile_of(&mut x.to_vec(), q)
}

/// Median, see [`quantile_of`].
pub fn median_of(v: &mut Vec<f64>) -> Option<f64> {
    quantile_of(v, 0.5)
}

/// Quantile like [`quantile`] of numbers that need not keep their order, without a copy of them: what is not finite is
/// dropped.
pub fn quantile_of(v: &mut Vec<f64>, q: f64) -> Option<f64> {
    v.retain(|v| v.is_finite());
    if v.is_empty() {
        return None;
    }
    let h = (v.len() - 1) as f64 * q.clamp(0.0, 1.0);
    let (i, frac) = (h as usize, h.fract());
    let (_, low, rest) = v.select_nth_unstable_by(i, f64::total_cmp);
    let low = *low;
    let next = rest.iter().copied().min_by(f64::total_cmp).unwrap_or(low);
    Some(low + frac * (next - low))
}

/// Quantile of at most about `most` evenly picked samples of a long record: enough for levels,
/// never for a peak.
pub fn sampled_quantile(x: &[f32], q: f64, most: usize) -> Option<f64> {
    sampled_quantile_by(x, q, most, f64::from)
}

/// The same of what is made of each of those samples.
pub fn sampled_quantile_by(
    x: &[f32],
    q: f64,
    most: usize,
    value: impl Fn(f32) -> f64,
) -> Option<f64> {
    let step = (x.len() / most.max(1)).max(1);
    quantile_of(&mut x.iter().step_by(step).map(|&v| value(v)).collect(), q)
}

/// Median absolute deviation from the median, unscaled (times 1.4826 estimates sigma of a normal
/// distribution); `None` when there is no finite value.
pub fn median_abs_deviation(x: &[f64]) -> Option<f64> {
    let m = median(x)?;
    let finite = x.iter().filter(|v| v.is_finite());
    median_of(&mut finite.map(|v| (v - m).abs()).collect())
}

/// A least-squares straight line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// Slope.
    pub slope: f64,
    /// Value at x = 0.
    pub intercept: f64,
    /// Standard error of the slope.
    pub slope_stderr: f64,
    /// Correlation coefficient, -1 to 1.
    pub r: f64,
    /// Number of points.
    pub n: usize,
}

/// Ordinary least squares of `y` on `x`; pairs with a value that is not finite are left out. `None` with
/// fewer than three pairs or when `x` does not vary.
pub fn line_fit(x: &[f64], y: &[f64]) -> Option<Line> {
    let pairs: Vec<(f64, f64)> = x
        .iter()
        .copied()
        .zip(y.iter().copied())
        .filter(|(a, b)| a.is_finite() && b.is_finite())
        .collect();
    let n = pairs.len();
    if n < 3 {
        return None;
    }
    let mx = pairs.iter().map(|p| p.0).sum::<f64>() / n as f64;
    let my = pairs.iter().map(|p| p.1).sum::<f64>() / n as f64;
    let (mut sxx, mut sxy, mut syy) = (0.0, 0.0, 0.0);
    for (a, b) in &pairs {
        sxx += (a - mx) * (a - mx);
        sxy += (a - mx) * (b - my);
        syy += (b - my) * (b - my);
    }
    if sxx <= 0.0 {
        return None;
    }
    let slope = sxy / sxx;
    let residual = (syy - slope * sxy).max(0.0);
    Some(Line {
        slope,
        intercept: my - slope * mx,
        slope_stderr: (residual / (n - 2) as f64 / sxx).sqrt(),
        r: if syy > 0.0 {
            sxy / (sxx * syy).sqrt()
        } else {
            0.0
        },
        n,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(a: f64, b: f64, tol: f64) {
        assert!((a - b).abs() <= tol, "{a} is not {b} within {tol}");
    }

    /// scipy.stats.linregress (SciPy 1.17.1): slope 0.8, intercept 1.4, r 0.8, stderr 0.34641.
    #[test]
    fn line_as_scipy_linregress() {
        let l = line_fit(&[0., 1., 2., 3., 4.], &[1., 3., 2., 5., 4.]).unwrap();
        near(l.slope, 0.8, 1e-12);
        near(l.intercept, 1.4, 1e-12);
        near(l.r, 0.8, 1e-12);
        near(l.slope_stderr, 0.34641, 1e-5);
    }

    /// scipy.stats.median_abs_deviation (SciPy 1.17.1), the worked example of its documentation's kind.
    #[test]
    fn mad_as_scipy() {
        near(
            median_abs_deviation(&[1., 1., 2., 2., 4., 6., 9.]).unwrap(),
            1.0,
            0.0,
        );
    }

    /// numpy.quantile([1, 2, 3, 4], [0.25, 0.5, 0.9]) = 1.75, 2.5, 3.7 (NumPy 2.4.6, default method).
    #[test]
    fn quantiles_as_numpy() {
        let x = [4.0, 1.0, 3.0, 2.0];
        near(quantile(&x, 0.25).unwrap(), 1.75, 1e-12);
        near(median(&x).unwrap(), 2.5, 1e-12);
        near(quantile(&x, 0.9).unwrap(), 3.7, 1e-12);
    }

    #[test]
    fn values_that_are_not_finite_are_left_out() {
        assert_eq!(median(&[f64::NAN, 1.0, f64::INFINITY]), Some(1.0));
        assert_eq!(median(&[]), None);
        assert!(line_fit(&[1.0, 1.0, 1.0], &[1.0, 2.0, 3.0]).is_none());
    }
}
