//! Missing samples.

/// The samples with straight lines across those that are not finite; at the ends the nearest finite one is repeated.
///
/// `None` when no sample is finite.
pub fn bridged(x: &[f32]) -> Option<Vec<f64>> {
    let first = x.iter().position(|v| v.is_finite())?;
    let mut out = vec![f64::from(x[first]); x.len()];
    let mut last = first;
    for (i, &v) in x.iter().enumerate().skip(first) {
        if !v.is_finite() {
            continue;
        }
        let v = f64::from(v);
        let from = out[last];
        for (k, missing) in out[last..i].iter_mut().enumerate().skip(1) {
            *missing = from + (v - from) * k as f64 / (i - last) as f64;
        }
        out[i] = v;
        last = i;
    }
    let end = out[last];
    out[last..].fill(end);
    Some(out)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// As `numpy.interp` at the missing places (NumPy 2.4.6).
    #[test]
    fn straight_lines_across_gaps() {
        let x = [f32::NAN, 1.0, f32::NAN, f32::INFINITY, 4.0, f32::NAN];
        assert_eq!(bridged(&x).unwrap(), [1.0, 1.0, 2.0, 3.0, 4.0, 4.0]);
        assert_eq!(bridged(&[f32::NAN]), None);
    }
}
