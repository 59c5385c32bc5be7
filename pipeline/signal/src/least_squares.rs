//! Linear least squares with a few unknowns.

/// Coefficients with their standard errors.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit<const N: usize> {
    /// Least-squares coefficients.
    pub coefficients: [f64; N],
    /// Their standard errors for independent residuals.
    pub stderr: [f64; N],
    /// Root mean square of the residuals, with the degrees of freedom taken off.
    pub residual: f64,
    /// Number of rows.
    pub rows: usize,
}

/// Solves `y = sum of coefficient times regressor` over all rows by the normal equations; rows that are not finite
/// are left out.
///
/// `None` with no more rows than unknowns, or when the regressors depend on each other.
pub fn fit<const N: usize>(rows: impl Iterator<Item = ([f64; N], f64)>) -> Option<Fit<N>> {
    let mut a = [[0.0; N]; N];
    let (mut b, mut yy, mut n) = ([0.0; N], 0.0, 0usize);
    for (x, y) in rows {
        if !y.is_finite() || x.iter().any(|v| !v.is_finite()) {
            continue;
        }
        for i in 0..N {
            for j in 0..N {
                a[i][j] += x[i] * x[j];
            }
            b[i] += x[i] * y;
        }
        yy += y * y;
        n += 1;
    }
    let inverse = invert(a)?;
    let degrees = n.checked_sub(N).filter(|&d| d > 0)? as f64;
    let mut coefficients = [0.0; N];
    for i in 0..N {
        coefficients[i] = (0..N).map(|j| inverse[i][j] * b[j]).sum();
    }
    let explained: f64 = (0..N).map(|i| coefficients[i] * b[i]).sum();
    let residual = ((yy - explained).max(0.0) / degrees).sqrt();
    let mut stderr = [0.0; N];
    for i in 0..N {
        stderr[i] = residual * inverse[i][i].max(0.0).sqrt();
    }
    Some(Fit {
        coefficients,
        stderr,
        residual,
        rows: n,
    })
}

/// Inverse of a symmetric matrix by Gauss-Jordan elimination with scaling of rows and columns to a unit diagonal.
fn invert<const N: usize>(a: [[f64; N]; N]) -> Option<[[f64; N]; N]> {
    let mut scale = [0.0; N];
    for i in 0..N {
        scale[i] = a[i][i].sqrt();
        if !scale[i].is_finite() || scale[i] <= 0.0 {
            return None;
        }
    }
    let (mut m, mut inverse) = (a, [[0.0; N]; N]);
    for i in 0..N {
        for j in 0..N {
            m[i][j] /= scale[i] * scale[j];
        }
        inverse[i][i] = 1.0;
    }
    for k in 0..N {
        let pivot = (k..N).max_by(|&i, &j| m[i][k].abs().total_cmp(&m[j][k].abs()))?;
        if m[pivot][k].abs() < 1e-10 {
            return None;
        }
        m.swap(k, pivot);
        inverse.swap(k, pivot);
        let p = m[k][k];
        for j in 0..N {
            m[k][j] /= p;
            inverse[k][j] /= p;
        }
        for i in (0..N).filter(|&i| i != k) {
            let f = m[i][k];
            for j in 0..N {
                m[i][j] -= f * m[k][j];
                inverse[i][j] -= f * inverse[k][j];
            }
        }
    }
    for i in 0..N {
        for j in 0..N {
            inverse[i][j] /= scale[i] * scale[j];
        }
    }
    Some(inverse)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// `numpy.linalg.lstsq` of the same rows (NumPy 2.4.6): coefficients 1.04, 0.94, -0.1, sum of squares 0.032. The
    /// standard errors are the roots of the diagonal of s^2 (X'X)^-1: 0.11904, 0.14102, 0.03381.
    #[test]
    fn parabola_as_numpy() {
        let rows = [(0.0, 1.0), (1.0, 2.0), (2.0, 2.4), (3.0, 3.0), (4.0, 3.2)];
        let f = fit(rows.iter().map(|&(x, y)| ([1.0, x, x * x], y))).unwrap();
        let near = |got: [f64; 3], expected: [f64; 3]| {
            let mut pairs = got.iter().zip(expected);
            assert!(pairs.all(|(g, e)| (g - e).abs() < 1e-5), "{got:?}");
        };
        near(f.coefficients, [1.04, 0.94, -0.1]);
        near(f.stderr, [0.11904, 0.14102, 0.03381]);
        assert!((f.residual * f.residual * 2.0 - 0.032).abs() < 1e-9);
    }

    #[test]
    fn dependent_regressors_have_no_solution() {
        let rows = (0..9).map(|i| ([1.0, 2.0], f64::from(i)));
        assert_eq!(fit(rows), None);
    }
}
