//! Coherence: the share of one signal that is a linear copy of another, at one frequency.

use std::f64::consts::TAU;

/// Magnitude-squared coherence of two records sampled together, with how sure it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Coherence {
    /// 0 (nothing in common) to 1 (one is the other, filtered).
    pub value: f64,
    /// Standard error, `(1 - C) sqrt(2 C / K)` over K segments (Bendat & Piersol, from memory: handbook not at hand);
    /// overlapping segments make it a little larger than stated.
    pub stderr: f64,
    /// Segments that were averaged.
    pub segments: usize,
}

/// Fewest segments from which a coherence is told: with K segments unrelated records still show 1/K.
const LEAST_SEGMENTS: usize = 8;

/// Coherence at `cycles_per_sample` (0 to 0.5), averaged over half-overlapping segments of `segment` samples, each
/// without its mean and under a periodic Hann window (Welch 1967).
///
/// `None` with fewer than eight segments, for a frequency out of range, when a record holds still, or where a sample
/// is not finite.
pub fn measure_coherence(
    x: &[f32],
    y: &[f32],
    cycles_per_sample: f64,
    segment: usize,
) -> Option<Coherence> {
    if !(0.0..=0.5).contains(&cycles_per_sample) || segment < 4 {
        return None;
    }
    let n = x.len().min(y.len());
    let hop = segment / 2;
    let segments = n.checked_sub(segment)? / hop + 1;
    if segments < LEAST_SEGMENTS {
        return None;
    }
    let taps = Taps::new(cycles_per_sample, segment);
    let (mut pxx, mut pyy, mut re, mut im) = (0.0, 0.0, 0.0, 0.0);
    for k in 0..segments {
        let part = k * hop..k * hop + segment;
        let (a, b) = (taps.line(&x[part.clone()]), taps.line(&y[part]));
        pxx += a.0 * a.0 + a.1 * a.1;
        pyy += b.0 * b.0 + b.1 * b.1;
        re += a.0 * b.0 + a.1 * b.1;
        im += a.1 * b.0 - a.0 * b.1;
    }
    let value = (re * re + im * im) / (pxx * pyy);
    value.is_finite().then(|| Coherence {
        value,
        stderr: (1.0 - value) * (2.0 * value / segments as f64).sqrt(),
        segments,
    })
}

/// Factors that give a segment its spectral line: window and oscillation.
struct Taps {
    cos: Vec<f64>,
    sin: Vec<f64>,
    /// Line of a record that is 1 throughout.
    level: (f64, f64),
}

impl Taps {
    fn new(cycles_per_sample: f64, segment: usize) -> Taps {
        let (cos, sin): (Vec<f64>, Vec<f64>) = (0..segment)
            .map(|i| {
                let window = 0.5 - 0.5 * (TAU * i as f64 / segment as f64).cos();
                let (sin, cos) = (TAU * cycles_per_sample * i as f64).sin_cos();
                (window * cos, -window * sin)
            })
            .unzip();
        Taps {
            level: (cos.iter().sum(), sin.iter().sum()),
            cos,
            sin,
        }
    }

    /// The spectral line of one segment without its mean: real and imaginary part.
    fn line(&self, x: &[f32]) -> (f64, f64) {
        // Several sums at once, and the mean taken out of them afterwards: one pass. Counted from the first sample, so
        // that nothing at all is left of a record that holds still.
        const LANES: usize = 4;
        let base = x.first().map_or(0.0, |&v| f64::from(v));
        let (mut sum, mut re, mut im) = ([0.0; LANES], [0.0; LANES], [0.0; LANES]);
        let (xs, rest) = x.as_chunks::<LANES>();
        let (cs, ss) = (
            self.cos.as_chunks::<LANES>().0,
            self.sin.as_chunks::<LANES>().0,
        );
        for ((v, c), s) in xs.iter().zip(cs).zip(ss) {
            for k in 0..LANES {
                let v = f64::from(v[k]) - base;
                sum[k] += v;
                re[k] += v * c[k];
                im[k] += v * s[k];
            }
        }
        let done = x.len() - rest.len();
        for ((&v, c), s) in rest.iter().zip(&self.cos[done..]).zip(&self.sin[done..]) {
            let v = f64::from(v) - base;
            sum[0] += v;
            re[0] += v * c;
            im[0] += v * s;
        }
        let mean = sum.iter().sum::<f64>() / x.len() as f64;
        (
            re.iter().sum::<f64>() - mean * self.level.0,
            im.iter().sum::<f64>() - mean * self.level.1,
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::noise::noise;

    fn pair(share: f64) -> (Vec<f32>, Vec<f32>) {
        let [a, b] = [1, 2].map(|seed| noise(seed).take(4096).collect::<Vec<_>>());
        let tone = |i: usize| (TAU * 0.0625 * i as f64).sin();
        let x = (0..4096).map(|i| (tone(i) + a[i]) as f32).collect();
        let y = (0..4096)
            .map(|i| (share * tone(i + 61) + b[i]) as f32)
            .collect();
        (x, y)
    }

    /// SciPy 1.17.1: `scipy.signal.coherence(x, y, nperseg=256, noverlap=128)[1][16]` of the same records
    /// (window hann, detrend constant: its defaults).
    #[test]
    fn as_scipy_computes_it() {
        for (share, expected) in [(1.00, 0.9958040), (0.05, 0.6205809), (0.00, 0.1166498)] {
            let (x, y) = pair(share);
            let c = measure_coherence(&x, &y, 0.0625, 256).unwrap();
            assert!((c.value - expected).abs() < 1e-5, "{} {expected}", c.value);
            assert_eq!(c.segments, 31);
        }
    }

    #[test]
    fn too_little_to_tell() {
        let (x, y) = pair(1.0);
        assert_eq!(measure_coherence(&x[..512], &y[..512], 0.0625, 256), None);
        assert_eq!(measure_coherence(&x, &[0.0; 4096], 0.0625, 256), None);
        assert_eq!(measure_coherence(&x, &[4.8; 4096], 0.0625, 256), None);
        assert_eq!(measure_coherence(&x, &y, 0.7, 256), None);
    }
}
