//! Moving averages and running medians.

use crate::Time;

/// Points of an [`Average`] to the width of its window.
const POINTS: usize = 17;

/// A centred moving average at no more points than its window makes worth keeping: between two of them it moves by
/// a seventeenth of what it can. A window of fewer than 26 samples keeps a point for each of them.
#[derive(Debug, Clone)]
pub struct Average {
    /// The averages.
    pub values: Vec<f32>,
    instants: Instants,
}

/// When the points of an average lie.
#[derive(Debug, Clone)]
enum Instants {
    Even { start_s: f64, step_s: f64 },
    Listed(Vec<f64>),
}

impl Average {
    /// Averages over about `n` samples. Values that are not finite are left out; where a window has none, the result
    /// is NaN.
    pub fn compute(x: &[f32], time: Time<'_>, n: usize) -> Average {
        Average::compute_with(x, time, n, (n / 2 * 2 + 1 + POINTS / 2) / POINTS, |v| v)
    }

    /// Averages `value` of the samples over about `n` of them, at a point for every `stride` samples.
    pub fn compute_with(
        x: &[f32],
        time: Time<'_>,
        n: usize,
        stride: usize,
        value: impl Fn(f32) -> f32,
    ) -> Average {
        let stride = stride.max(1);
        let sums: Vec<(f64, usize)> = x.chunks(stride).map(|c| sum(c, &value)).collect();
        // So many pieces on either side of a point's own that they are nearest to n samples.
        let half = ((n / 2 * 2 + 1) as f64 / stride as f64 / 2.0 - 0.5).round() as usize;
        // A point for every whole piece: one of a part of a piece would lie beyond the record's end.
        let points = x.len() / stride;
        let middle = (stride - 1) as f64 / 2.0;
        let instants = match time {
            Time::Even { start_s, step_s } => Instants::Even {
                start_s: start_s + middle * step_s,
                step_s: step_s * stride as f64,
            },
            Time::Listed(_) => Instants::Listed(
                (0..points)
                    .map(|k| time.between((k * stride) as f64 + middle))
                    .collect(),
            ),
        };
        Average {
            values: over_pieces(&sums, points, half),
            instants,
        }
    }

    /// When the points lie: each in the middle of its window.
    pub fn time(&self) -> Time<'_> {
        match &self.instants {
            Instants::Even { start_s, step_s } => Time::Even {
                start_s: *start_s,
                step_s: *step_s,
            },
            Instants::Listed(t) => Time::Listed(t),
        }
    }

    /// The averages between two instants, s.
    pub fn part(&self, from_s: f64, to_s: f64) -> &[f32] {
        let at = |t| self.time().index_at(t, self.values.len());
        self.values.get(at(from_s)..at(to_s)).unwrap_or_default()
    }
}

/// Sum and number of the finite values.
#[inline]
fn sum(x: &[f32], value: &impl Fn(f32) -> f32) -> (f64, usize) {
    // Several sums at once; one that is not finite shows that a sample was not.
    let mut lanes = [0.0f64; 4];
    let (fours, rest) = x.as_chunks::<4>();
    for four in fours {
        for (lane, &v) in lanes.iter_mut().zip(four) {
            *lane += f64::from(value(v));
        }
    }
    let last: f64 = rest.iter().map(|&v| f64::from(value(v))).sum();
    let all = lanes.iter().sum::<f64>() + last;
    if all.is_finite() {
        return (all, x.len());
    }
    let finite = x.iter().map(|&v| value(v)).filter(|v| v.is_finite());
    finite.fold((0.0, 0), |(sum, n), v| (sum + f64::from(v), n + 1))
}

/// Averages over each of the first `points` pieces with `half` on either side.
fn over_pieces(sums: &[(f64, usize)], points: usize, half: usize) -> Vec<f32> {
    let (mut sum, mut count) = (0.0f64, 0usize);
    for piece in sums.iter().take(half) {
        (sum, count) = (sum + piece.0, count + piece.1);
    }
    let mut out = Vec::with_capacity(points);
    for k in 0..points {
        if let Some(piece) = sums.get(k + half) {
            (sum, count) = (sum + piece.0, count + piece.1);
        }
        if let Some(piece) = k.checked_sub(half + 1).and_then(|j| sums.get(j)) {
            (sum, count) = (sum - piece.0, count - piece.1);
        }
        if count == 0 {
            sum = 0.0;
        }
        // Nothing over nothing is NaN.
        out.push((sum / count as f64) as f32);
    }
    out
}

/// Centred moving average over `n` samples (made odd), at every sample; the ends average what there is. Values that
/// are not finite are left out; where a window has none, the result is NaN.
pub fn moving_average(x: &[f32], n: usize) -> Vec<f32> {
    if n < 2 {
        return x.to_vec();
    }
    let time = Time::Even {
        start_s: 0.0,
        step_s: 1.0,
    };
    Average::compute_with(x, time, n, 1, |v| v).values
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
    use crate::noise::noise;

    #[test]
    fn average_at_the_ends_takes_what_there_is() {
        let a = moving_average(&[1.0, 2.0, 3.0, 4.0, 100.0], 3);
        assert_eq!(a[0], 1.5);
        assert_eq!(a[1], 2.0);
        assert!((a[3] - 107.0 / 3.0).abs() < 1e-4);
        assert_eq!(a[4], 52.0);
    }

    /// A record that wanders and is noisy.
    fn record(n: usize) -> Vec<f32> {
        (0..n)
            .zip(noise(1))
            .map(|(i, noise)| ((i as f64 / 500.0).sin() + noise) as f32)
            .collect()
    }

    /// By definition: each point is the mean of the samples around its own instant.
    #[test]
    fn fewer_points_are_means_of_the_same_samples() {
        let mut x = record(10_007);
        x[5_000] = f32::NAN;
        x[7_000..7_400].fill(f32::NAN);
        let time = Time::Even {
            start_s: 0.0,
            step_s: 1.0,
        };
        let a = Average::compute(&x, time, 300);
        // 301 samples in 17 pieces of 18; 10,007 samples have 555 whole pieces.
        assert_eq!(a.values.len(), 555);
        for (k, &v) in a.values.iter().enumerate() {
            let middle = a.time().at(k);
            assert_eq!(middle, 18.0 * k as f64 + 8.5);
            let near = (0..x.len()).filter(|&i| (i as f64 - middle).abs() < 153.0);
            let finite: Vec<f64> = near
                .map(|i| f64::from(x[i]))
                .filter(|v| v.is_finite())
                .collect();
            let mean = finite.iter().sum::<f64>() / finite.len() as f64;
            assert!((f64::from(v) - mean).abs() < 1e-6 || finite.is_empty() && v.is_nan());
        }
        assert!(a.values[7_200 / 18].is_nan());
        let instants: Vec<f64> = (0..x.len()).map(|i| i as f64).collect();
        let listed = Average::compute(&x, Time::Listed(&instants), 300);
        assert_eq!(listed.time().at(554), a.time().at(554));
        assert_eq!(listed.part(100.0, 200.0), a.part(100.0, 200.0));
    }

    #[test]
    fn a_narrow_window_keeps_every_point() {
        let x = record(1_000);
        let time = Time::Even {
            start_s: 2.0,
            step_s: 0.5,
        };
        for n in [1, 2, 15, 24] {
            let a = Average::compute(&x, time, n);
            assert_eq!((a.values.len(), a.time().at(7)), (1_000, 5.5));
            assert_eq!(a.values, moving_average(&x, n));
        }
    }

    #[test]
    fn a_hole_is_left_out() {
        let a = moving_average(&[1.0, f32::NAN, 3.0], 3);
        assert_eq!(a, [1.0, 2.0, 3.0]);
    }
}
