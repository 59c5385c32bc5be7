//! The start of a rise that flattens: where a parabola through its points leaves zero.

use plugin_sdk::signal::stats::line_fit;

/// Start of a rise.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Start {
    /// Zero of the parabola.
    pub at: f64,
    /// Its slope there.
    pub slope: f64,
}

/// Least squares of y = a + b t + c t^2, followed back to y = 0. A straight line where the points do not flatten: a rise
/// into a coil never bends up. `None` with fewer than three points or without a rise.
pub fn start(points: &[(f64, f64)]) -> Option<Start> {
    let (t, y): (Vec<f64>, Vec<f64>) = points.iter().copied().unzip();
    let line = || {
        let line = line_fit(&t, &y).filter(|l| l.slope > 0.0)?;
        Some(Start {
            at: -line.intercept / line.slope,
            slope: line.slope,
        })
    };
    let n = points.len() as f64;
    let middle = t.iter().sum::<f64>() / n;
    let scale = points.last()?.0 - points.first()?.0;
    if points.len() < 6 || scale <= 0.0 {
        return line();
    }
    let mut m = [[0.0f64; 4]; 3];
    for &(t, y) in points {
        let u = (t - middle) / scale;
        let powers = [1.0, u, u * u];
        for (row, a) in m.iter_mut().zip(powers) {
            for (cell, b) in row.iter_mut().zip(powers) {
                *cell += a * b;
            }
            row[3] += a * y;
        }
    }
    for k in 0..3 {
        let pivot = m[k];
        for (r, row) in m.iter_mut().enumerate() {
            if r != k {
                let f = row[k] / pivot[k];
                row.iter_mut().zip(pivot).for_each(|(v, p)| *v -= f * p);
            }
        }
    }
    let [a, b, c] = [0, 1, 2].map(|k| m[k][3] / m[k][k]);
    let root = b * b - 4.0 * c * a;
    if c >= 0.0 || root <= 0.0 {
        return line();
    }
    let u = (-b + root.sqrt()) / (2.0 * c);
    Some(Start {
        at: middle + scale * u,
        slope: root.sqrt() / scale,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// y = 3 (t - 2) - 0.1 (t - 2)^2 leaves zero at 2 with the slope 3.
    #[test]
    fn a_parabola_is_followed_back_to_zero() {
        let y = |t: f64| 3.0 * (t - 2.0) - 0.1 * (t - 2.0).powi(2);
        let points: Vec<_> = (3..12).map(|k| (f64::from(k), y(f64::from(k)))).collect();
        let start = start(&points).unwrap();
        assert!((start.at - 2.0).abs() < 1e-9 && (start.slope - 3.0).abs() < 1e-9);
    }

    #[test]
    fn points_that_bend_up_are_taken_for_a_line() {
        let points: Vec<_> = (1..9).map(|k| (f64::from(k), f64::from(k * k))).collect();
        assert!(start(&points).unwrap().at > 0.0);
    }
}
