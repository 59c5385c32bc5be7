//! Recorder overflow: samples beyond the top of the range that come out near the bottom.

use crate::levels::{self, least_and_greatest};
use crate::stats;
use std::borrow::Cow;

/// Longest stretch beyond the range that is looked at, samples.
const LONGEST: usize = 64;

/// Share, among the samples in the upper two fifths of the range, of those within one tenth of the range from which on the
/// signal is held there; a wave that wraps passes all of that part alike.
const HELD: f64 = 0.6;

/// Wrapped stretches from which on a plateau inside the range is taken for the clamped top.
const SURE: usize = 8;

/// Least share of the rises through the range, from the first wrapped stretch to the last, that are a wrapped stretch's own:
/// a wave that passes the top does so on nearly every period, and such a period rises twice.
const LEAST_SHARE: f64 = 0.25;

/// Puts samples that came out at the wrong end of the range back to the top; returns their number as well.
///
/// The top of a wave that wraps comes out as a hill near the bottom between two sudden steps; a true valley between two
/// waves is a bowl, and no signal falls by half of the range and back within a sample at either end of a hill. Where the
/// input clamps above the wrap, the hill's top is a plateau at one value; every plateau at it belongs to the top.
pub fn unwrap_samples(x: Cow<'_, [f32]>) -> (Cow<'_, [f32]>, usize) {
    let q = |q| stats::sampled_quantile(&x, q, 100_000);
    let (Some(low), Some(top)) = (q(0.001), q(0.999)) else {
        return (x, 0);
    };
    let range = Range {
        low: low as f32,
        top: top as f32,
    };
    if levels::is_white(&x) || range.is_held_high(&x) {
        return (x, 0);
    }
    let mut stretches = Vec::new();
    let mut k = 0;
    while k + 2 < x.len() {
        match range.find_hill(&x, k) {
            Some(end) => {
                stretches.push(k + 1..end);
                k = end;
            }
            None => k += 1,
        }
    }
    let (Some(first), Some(last)) = (stretches.first(), stretches.last()) else {
        return (x, 0);
    };
    let rises = range.count_rises(&x[first.start..last.end]);
    if (stretches.len() as f64) < LEAST_SHARE * rises as f64 {
        return (x, 0);
    }
    let mut highest: Vec<f64> = stretches
        .iter()
        .map(|s| {
            f64::from(
                x[s.clone()]
                    .iter()
                    .copied()
                    .fold(f32::NEG_INFINITY, f32::max),
            )
        })
        .collect();
    highest.sort_unstable_by(f64::total_cmp);
    let mut out = x.into_owned();
    let mut wrapped = 0;
    let mut raise = |part: &mut [f32]| {
        wrapped += part.len();
        part.fill(range.top);
    };
    let sure = stretches.len() >= SURE;
    for s in stretches {
        raise(&mut out[s]);
    }
    let clamp = highest[highest.len() - 1] as f32;
    if sure && clamp > range.low + 0.1 * range.size() && clamp < range.low + 0.6 * range.size() {
        let near = 0.01 * range.size();
        for plateau in
            out.chunk_by_mut(|a, b| (a - clamp).abs() <= near && (b - clamp).abs() <= near)
        {
            if plateau.len() >= 3 {
                raise(plateau);
            }
        }
    }
    (Cow::Owned(out), wrapped)
}

struct Range {
    low: f32,
    top: f32,
}

impl Range {
    fn size(&self) -> f32 {
        self.top - self.low
    }

    /// Number of rises from the lower two fifths of the range to the upper two.
    fn count_rises(&self, x: &[f32]) -> usize {
        let (low, high) = (self.low + 0.4 * self.size(), self.top - 0.4 * self.size());
        let mut below = true;
        let mut count = 0;
        for v in x {
            if *v < low {
                below = true;
            } else if *v > high && below {
                below = false;
                count += 1;
            }
        }
        count
    }

    /// Tells whether a level in the upper two fifths of the range is held: a switched or clamped signal, which does not wrap.
    /// Stretches in which the signal does not swing tell nothing.
    fn is_held_high(&self, x: &[f32]) -> bool {
        const BINS: usize = 40;
        let share = |v: f32| (v - self.low) / self.size();
        let swings = |stretch: &&[f32]| {
            let (low, high) = least_and_greatest(stretch, (f32::INFINITY, f32::NEG_INFINITY));
            share(low) < 0.4 && share(high) > 0.6
        };
        let mut count = [0usize; BINS];
        for v in x.chunks(LONGEST).filter(swings).flatten() {
            let bin = (share(*v) * BINS as f32).max(0.0) as usize;
            count[bin.min(BINS - 1)] += 1;
        }
        let upper = &count[BINS * 3 / 5..];
        let tenths = upper.windows(BINS / 10).map(|w| w.iter().sum::<usize>());
        let most = tenths.max().unwrap_or(0);
        most as f64 > HELD * upper.iter().sum::<usize>() as f64
    }

    /// Index after a hill that begins with the step from sample `k` to the next.
    fn find_hill(&self, x: &[f32], k: usize) -> Option<usize> {
        let step = 0.45 * self.size();
        let above = self.top - 0.45 * self.size();
        // It rose, or stood high, before it fell.
        let rose = k == 0 || x[k] >= x[k - 1] || x[k] > self.top - 0.15 * self.size();
        if !(x[k] > above && x[k] - x[k + 1] > step && rose) {
            return None;
        }
        let back = (k + 1..(x.len() - 1).min(k + LONGEST)).find(|&j| x[j + 1] - x[j] > step)?;
        let falls_on = x
            .get(back + 2)
            .is_none_or(|v| *v <= x[back + 1] + 0.05 * self.size());
        let hill = &x[k + 1..=back];
        let summit = hill.iter().copied().fold(f32::NEG_INFINITY, f32::max);
        let ends = hill[0].max(hill[hill.len() - 1]);
        let bottom = hill.iter().copied().fold(f32::INFINITY, f32::min);
        let flat = summit - bottom < 0.02 * self.size();
        // No rounded top rises towards its sudden fall and falls away from the sudden rise after it.
        let slope = 0.005 * self.size();
        let rises = k >= 2 && x[k - 2] < x[k - 1] && x[k] - x[k - 2] > slope;
        let falls = x
            .get(back + 1..back + 4)
            .is_some_and(|w| w[1] > w[2] && w[0] - w[2] > slope);
        let is_hill = match hill.len() {
            _ if rises && falls => true,
            1 | 2 => summit > self.low + 0.02 * self.size(),
            _ if flat => bottom > self.low + 0.05 * self.size(),
            _ => {
                summit > ends - 0.02 * self.size()
                    && hill[hill.len() / 2] >= (hill[0] + hill[hill.len() - 1]) / 2.0
            }
        };
        (is_hill && falls_on && x[back + 1] > above).then_some(back + 1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Samples of a wave in a recorder from -1.5 to 7.5 whose input clamps at `clamp`.
    fn record(true_value: impl Fn(usize) -> f32, clamp: f32) -> Vec<f32> {
        let wrap = |v: f32| if v > 7.5 { v - 9.0 } else { v };
        (0..6000)
            .map(|i| wrap(true_value(i).clamp(-1.5, clamp)))
            .collect()
    }

    fn check(per_period: f32, clamp: f32) {
        let wave = |i: usize| 3.5 + 6.5 * (i as f32 * std::f32::consts::TAU / per_period).sin();
        let x = record(wave, clamp);
        let (y, wrapped) = unwrap_samples(Cow::Borrowed(&x));
        assert!(wrapped > 500, "{wrapped}");
        let above = y.iter().enumerate().filter(|(i, _)| wave(*i) > 7.6);
        let wrong = above.filter(|(_, v)| **v < 6.7).count();
        assert!(wrong < 12, "{wrong}");
    }

    #[test]
    fn a_wrapped_wave_is_unwrapped() {
        check(60.0, 20.0);
    }

    #[test]
    fn a_wave_clamped_above_the_wrap_is_unwrapped() {
        check(60.0, 8.9);
        check(24.0, 9.3);
    }

    #[test]
    fn a_plain_wave_is_left_alone() {
        for per_period in [5.0f32, 8.0, 40.0] {
            let x: Vec<f32> = (0..5000)
                .map(|i| (i as f32 * std::f32::consts::TAU / per_period).sin())
                .collect();
            assert_eq!(unwrap_samples(Cow::Borrowed(&x)).1, 0, "{per_period}");
        }
    }

    /// A coil clamped at both ends, with noise on the clamped levels: their low plateaus look like hills.
    #[test]
    fn a_clamped_wave_is_left_alone() {
        for sigma in [0.015, 0.1] {
            let x: Vec<f32> = (0..5000)
                .zip(crate::noise::noise(3))
                .map(|(i, noise)| {
                    let wave = 30.0 * (i as f32 * std::f32::consts::TAU / 14.3).sin();
                    wave.clamp(-0.7, 4.3) + sigma * noise as f32
                })
                .collect();
            assert_eq!(unwrap_samples(Cow::Borrowed(&x)).1, 0, "{sigma}");
        }
    }

    /// A coil clamped at both ends that speeds up: only where hardly any samples are left of a period do some low plateaus
    /// look like hills.
    #[test]
    fn a_clamped_wave_that_speeds_up_is_left_alone() {
        let mut phase = 0.0f32;
        let x: Vec<f32> = (0..40_000)
            .map(|i| {
                phase += std::f32::consts::TAU / (60.0 - 52.6 * i as f32 / 40_000.0);
                (0.9 * i as f32 / 1000.0 * phase.sin()).clamp(-1.5, 8.6)
            })
            .collect();
        assert_eq!(unwrap_samples(Cow::Borrowed(&x)).1, 0);
    }

    #[test]
    fn noise_is_left_alone() {
        let x: Vec<f32> = (0..5000)
            .zip(crate::noise::noise(5))
            .map(|(_, noise)| 12.0 + 0.1 * noise as f32)
            .collect();
        assert_eq!(unwrap_samples(Cow::Borrowed(&x)).1, 0);
    }

    /// Two waves with a valley between them, clamped at the bottom.
    #[test]
    fn a_valley_is_no_hill() {
        let x: Vec<f32> = (0..5000)
            .map(|i| if i % 10 < 4 { 8.0 } else { -1.0 })
            .collect();
        assert_eq!(unwrap_samples(Cow::Borrowed(&x)).1, 0);
    }
}
