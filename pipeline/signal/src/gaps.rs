//! Missing samples.

use crate::Time;

/// Times without a sample, longer than four mean sample intervals: last finite sample before and first one after, s.
pub fn blind_times(x: &[f32], time: Time<'_>) -> Vec<(f64, f64)> {
    const INTERVALS: f64 = 4.0;
    let Some(mean_s) = time.mean_step(x.len()) else {
        return Vec::new();
    };
    let mut out = Vec::new();
    let mut last_s = time.at(0);
    for (i, _) in x.iter().enumerate().filter(|(_, v)| v.is_finite()) {
        let at_s = time.at(i);
        if at_s - last_s > INTERVALS * mean_s {
            out.push((last_s, at_s));
        }
        last_s = at_s;
    }
    out
}

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

    #[test]
    fn blocks_that_a_recorder_lost() {
        let at: Vec<f64> = (0..40)
            .map(|i| f64::from(i) + if i < 20 { 0.0 } else { 9.0 })
            .collect();
        let even = Time::Even {
            start_s: 0.0,
            step_s: 1.0,
        };
        let mut x = vec![1.0; 40];
        assert_eq!(blind_times(&x, Time::Listed(&at)), [(19.0, 29.0)]);
        assert!(blind_times(&x, even).is_empty());
        x[10..16].fill(f32::NAN);
        assert_eq!(blind_times(&x, even), [(9.0, 16.0)]);
    }

    /// As `numpy.interp` at the missing places (NumPy 2.4.6).
    #[test]
    fn straight_lines_across_gaps() {
        let x = [f32::NAN, 1.0, f32::NAN, f32::INFINITY, 4.0, f32::NAN];
        assert_eq!(bridged(&x).unwrap(), [1.0, 1.0, 2.0, 3.0, 4.0, 4.0]);
        assert_eq!(bridged(&[f32::NAN]), None);
    }
}
