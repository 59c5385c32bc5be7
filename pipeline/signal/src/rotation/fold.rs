//! A recorder that overflows: what lies beyond the top of its range comes out near the bottom.

use crate::stats;
use std::borrow::Cow;

/// Puts samples that came out at the wrong end of the range back to the top, and says how many. Such a stretch begins with a fall of more
/// than half of the range within one sample, out of a slow rise that has just reached the top, and ends with as
/// sudden a return to it; no coil's signal does that.
pub fn unfold(x: &[f32]) -> (Cow<'_, [f32]>, usize) {
    let q = |q| stats::sampled_quantile(x, q, 100_000);
    let (Some(low), Some(top)) = (q(0.001), q(0.999)) else {
        return (Cow::Borrowed(x), 0);
    };
    let range = (top - low) as f32;
    let near_top = top as f32 - 0.15 * range;
    let mut out = Cow::Borrowed(x);
    let mut folded = 0;
    let mut k = 1;
    while k + 1 < x.len() {
        let slow = (x[k] - x[k - 1]).abs() < 0.2 * range;
        let falls = x[k] > near_top && x[k] - x[k + 1] > 0.6 * range && slow;
        if !falls {
            k += 1;
            continue;
        }
        // Back to the top at once, not later than the signal's own half period would allow.
        let back = (k + 1..x.len().saturating_sub(1))
            .take(LONGEST)
            .find(|&j| x[j + 1] - x[j] > 0.5 * range && x[j + 1] > near_top);
        match back.filter(|&j| j + 2 >= x.len() || (x[j + 2] - x[j + 1]).abs() < 0.2 * range) {
            Some(j) => {
                out.to_mut()[k + 1..=j].fill(top as f32);
                folded += j - k;
                k = j + 1;
            }
            None => k += 1,
        }
    }
    (out, folded)
}

/// The longest stretch beyond the range, samples.
const LONGEST: usize = 64;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_folded_sine_is_unfolded() {
        // Amplitude 5 about 3.5, recorder's range -1.5 to 7.5; 60 samples a period.
        let true_value = |i: usize| 3.5 + 5.0 * (i as f32 * std::f32::consts::TAU / 60.0).sin();
        let x: Vec<f32> = (0..6000)
            .map(|i| {
                let v = true_value(i).max(-1.5);
                if v > 7.5 { v - 9.0 } else { v }
            })
            .collect();
        let (y, _) = unfold(&x);
        assert!(
            y.iter()
                .enumerate()
                .all(|(i, v)| true_value(i) < 7.5 || *v > 7.0)
        );
    }

    #[test]
    fn a_plain_sine_is_left_alone() {
        for per_period in [5.0f32, 8.0, 40.0] {
            let x: Vec<f32> = (0..5000)
                .map(|i| (i as f32 * std::f32::consts::TAU / per_period).sin())
                .collect();
            assert_eq!(unfold(&x).1, 0, "{per_period}");
        }
    }
}
