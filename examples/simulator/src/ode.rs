//! Numerical integration.

/// One step of the classical Runge-Kutta method of fourth order for an autonomous system.
pub fn rk4<const N: usize>(
    y: [f64; N],
    step: f64,
    slope: impl Fn(&[f64; N]) -> [f64; N],
) -> [f64; N] {
    let along = |k: &[f64; N], h: f64| std::array::from_fn(|i| y[i] + h * k[i]);
    let k1 = slope(&y);
    let k2 = slope(&along(&k1, step / 2.0));
    let k3 = slope(&along(&k2, step / 2.0));
    let k4 = slope(&along(&k3, step));
    std::array::from_fn(|i| y[i] + step / 6.0 * (k1[i] + 2.0 * k2[i] + 2.0 * k3[i] + k4[i]))
}
