//! Moving averages and running medians.

/// Centred moving average over `n` samples (made odd); the ends average what there is. Values that are not
/// finite are left out; where a window has none, the result is NaN.
pub fn moving_average(x: &[f32], n: usize) -> Vec<f32> {
    let half = n / 2;
    if half == 0 {
        return x.to_vec();
    }
    let mut out = Vec::with_capacity(x.len());
    let (mut sum, mut count) = (0.0f64, 0usize);
    let mut add = |v: f32, sign: f64| {
        if v.is_finite() {
            sum += sign * v as f64;
            count = if sign > 0.0 { count + 1 } else { count - 1 };
        }
        if count == 0 {
            sum = 0.0;
        }
        if count > 0 {
            (sum / count as f64) as f32
        } else {
            f32::NAN
        }
    };
    for &v in x.iter().take(half) {
        add(v, 1.0);
    }
    for i in 0..x.len() {
        let mut now = f32::NAN;
        if let Some(&v) = x.get(i + half) {
            now = add(v, 1.0);
        }
        if i > half {
            now = add(x[i - half - 1], -1.0);
        } else if x.get(i + half).is_none() {
            now = add(f32::NAN, 1.0);
        }
        out.push(now);
    }
    out
}

/// Running median over `n` (odd) values; beyond the ends the record is taken as zero, as SciPy's `medfilt`
/// does it.
pub fn median_filter(x: &[f64], n: usize) -> Vec<f64> {
    let half = n / 2;
    let mut window = vec![0.0; 2 * half + 1];
    (0..x.len())
        .map(|i| {
            for (k, w) in window.iter_mut().enumerate() {
                *w = (i + k)
                    .checked_sub(half)
                    .and_then(|j| x.get(j))
                    .copied()
                    .unwrap_or(0.0);
            }
            window.sort_unstable_by(f64::total_cmp);
            window[half]
        })
        .collect()
}

/// Running median over up to `n` (odd) values; at the ends over what there is, so that it never invents a
/// zero.
pub fn median_smooth(x: &[f64], n: usize) -> Vec<f64> {
    let half = n / 2;
    (0..x.len())
        .map(|i| {
            let w = &x[i.saturating_sub(half)..(i + half + 1).min(x.len())];
            crate::stats::median(w).unwrap_or(f64::NAN)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// scipy.signal.medfilt([2, 8, 0, 4, 1, 9, 9, 0], 3) = [2, 2, 4, 1, 4, 9, 9, 0] (SciPy 1.17.1).
    #[test]
    fn median_filter_as_scipy() {
        let x = [2., 8., 0., 4., 1., 9., 9., 0.];
        assert_eq!(median_filter(&x, 3), [2., 2., 4., 1., 4., 9., 9., 0.]);
    }

    #[test]
    fn average_at_the_ends_takes_what_there_is() {
        let a = moving_average(&[1.0, 2.0, 3.0, 4.0, 100.0], 3);
        assert_eq!(a[0], 1.5);
        assert_eq!(a[1], 2.0);
        assert!((a[3] - 107.0 / 3.0).abs() < 1e-4);
        assert_eq!(a[4], 52.0);
    }

    #[test]
    fn a_hole_is_left_out() {
        let a = moving_average(&[1.0, f32::NAN, 3.0], 3);
        assert_eq!(a, [1.0, 2.0, 3.0]);
    }
}
