//! Amplitude spectrum and its lines.

use crate::stats;
use std::f64::consts::{PI, TAU};

/// Amplitudes of the sines that a record is made of.
#[derive(Debug, Clone, PartialEq)]
pub struct Spectrum {
    /// Distance of two values, Hz.
    pub step_hz: f64,
    /// Amplitude of a sine at each multiple of it, in the record's unit, root mean square over the segments.
    pub amplitude: Vec<f64>,
}

/// A line of a spectrum.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// Frequency, Hz.
    pub hz: f64,
    /// Amplitude of the sine, in the record's unit.
    pub amplitude: f64,
    /// Amplitude over that of the noise around it.
    pub over_noise: f64,
}

/// Spectrum over half-overlapping segments of `segment` samples (made a power of two, downwards), each without its
/// straight line, under a periodic Hann window (Welch 1967).
///
/// `None` with fewer than 16 samples a segment.
pub fn spectrum(x: &[f64], step_s: f64, segment: usize) -> Option<Spectrum> {
    let wanted = segment.min(x.len());
    if wanted < 16 || step_s <= 0.0 {
        return None;
    }
    let n = 1usize << wanted.ilog2();
    let hop = n / 2;
    let window: Vec<f64> = (0..n)
        .map(|i| 0.5 - 0.5 * (TAU * i as f64 / n as f64).cos())
        .collect();
    let mut power = vec![0.0; n / 2 + 1];
    let segments = (x.len() - n) / hop + 1;
    for k in 0..segments {
        let part = detrended(&x[k * hop..k * hop + n]);
        let mut re: Vec<f64> = part.iter().zip(&window).map(|(v, w)| v * w).collect();
        let mut im = vec![0.0; n];
        transform(&mut re, &mut im);
        for (p, (re, im)) in power.iter_mut().zip(re.iter().zip(&im)) {
            *p += re * re + im * im;
        }
    }
    // The window's mean is one half, and a sine shares its amplitude with its mirror image.
    let scale = 4.0 / n as f64;
    Some(Spectrum {
        step_hz: 1.0 / (n as f64 * step_s),
        amplitude: power
            .iter()
            .map(|p| (p / segments as f64).sqrt() * scale)
            .collect(),
    })
}

impl Spectrum {
    /// Amplitude of the noise around a frequency: the median over `half_hz` on either side.
    pub fn noise(&self, hz: f64, half_hz: f64) -> f64 {
        let at =
            |hz: f64| ((hz / self.step_hz).round().max(1.0) as usize).min(self.amplitude.len());
        let (from, to) = (at(hz - half_hz), at(hz + half_hz));
        stats::median(&self.amplitude[from.min(to)..to]).unwrap_or(0.0)
    }

    /// Local maxima between two frequencies that stand at least `over_noise` times above the noise around them
    /// (median over `half_hz` on either side), strongest first. The frequency is interpolated by a parabola
    /// through the logarithms of three values.
    pub fn lines(&self, from_hz: f64, to_hz: f64, half_hz: f64, over_noise: f64) -> Vec<Line> {
        let a = &self.amplitude;
        let first = ((from_hz / self.step_hz).ceil() as usize).max(2);
        let last = ((to_hz / self.step_hz) as usize).min(a.len().saturating_sub(2));
        let mut lines: Vec<Line> = (first..=last.max(first))
            .filter(|&k| k <= last && a[k] > a[k - 1] && a[k] >= a[k + 1])
            .filter_map(|k| {
                let hz = k as f64 * self.step_hz;
                let noise = self.noise(hz, half_hz);
                let ratio = a[k] / noise.max(f64::MIN_POSITIVE);
                (ratio >= over_noise).then(|| {
                    let (shift, height) = parabola(a[k - 1], a[k], a[k + 1]);
                    Line {
                        hz: hz + shift * self.step_hz,
                        amplitude: height,
                        over_noise: ratio,
                    }
                })
            })
            .collect();
        lines.sort_by(|a, b| b.amplitude.total_cmp(&a.amplitude));
        lines
    }
}

/// Peak of the parabola through the logarithms of three values: its place from the middle one, and its height.
fn parabola(a: f64, b: f64, c: f64) -> (f64, f64) {
    let (a, b, c) = (a.max(1e-300).ln(), b.max(1e-300).ln(), c.max(1e-300).ln());
    let bend = a - 2.0 * b + c;
    if bend >= 0.0 {
        return (0.0, b.exp());
    }
    let shift = (0.5 * (a - c) / bend).clamp(-0.5, 0.5);
    (shift, (b - 0.25 * (a - c) * shift).exp())
}

fn detrended(x: &[f64]) -> Vec<f64> {
    let n = x.len() as f64;
    let middle = (n - 1.0) / 2.0;
    let mean = x.iter().sum::<f64>() / n;
    let (mut sxy, mut sxx) = (0.0, 0.0);
    for (i, v) in x.iter().enumerate() {
        let d = i as f64 - middle;
        sxy += d * (v - mean);
        sxx += d * d;
    }
    let slope = sxy / sxx;
    x.iter()
        .enumerate()
        .map(|(i, v)| v - mean - slope * (i as f64 - middle))
        .collect()
}

/// Discrete Fourier transform in place; the length is a power of two (Cooley and Tukey 1965, decimation in time).
fn transform(re: &mut [f64], im: &mut [f64]) {
    let n = re.len();
    let bits = n.trailing_zeros();
    for i in 0..n {
        let j = i.reverse_bits() >> (usize::BITS - bits);
        if j > i {
            re.swap(i, j);
            im.swap(i, j);
        }
    }
    let mut half = 1;
    while half < n {
        let (turn_im, turn_re) = (-PI / half as f64).sin_cos();
        for start in (0..n).step_by(2 * half) {
            let (mut wr, mut wi) = (1.0, 0.0);
            for k in start..start + half {
                let (br, bi) = (
                    re[k + half] * wr - im[k + half] * wi,
                    re[k + half] * wi + im[k + half] * wr,
                );
                re[k + half] = re[k] - br;
                im[k + half] = im[k] - bi;
                re[k] += br;
                im[k] += bi;
                (wr, wi) = (wr * turn_re - wi * turn_im, wr * turn_im + wi * turn_re);
            }
        }
        half *= 2;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::noise::noise;

    /// By definition of the discrete Fourier transform.
    #[test]
    fn transform_as_the_sum_that_defines_it() {
        let x: Vec<f64> = noise(9).take(64).collect();
        let (mut re, mut im) = (x.clone(), vec![0.0; 64]);
        transform(&mut re, &mut im);
        for k in 0..64 {
            let sum = |f: fn(f64) -> f64| {
                (0..64)
                    .map(|i| x[i] * f(TAU * (i * k) as f64 / 64.0))
                    .sum::<f64>()
            };
            assert!((re[k] - sum(f64::cos)).abs() < 1e-9);
            assert!((im[k] + sum(f64::sin)).abs() < 1e-9);
        }
    }

    #[test]
    fn frequency_and_amplitude_of_two_sines_in_noise() {
        let x: Vec<f64> = (0..10_000)
            .zip(noise(4))
            .map(|(i, n)| {
                let t = f64::from(i) * 1e-4;
                5.0 + 0.3 * t
                    + 0.5 * (TAU * 123.4 * t).sin()
                    + 0.05 * (TAU * 1_410.0 * t).sin()
                    + 0.1 * n
            })
            .collect();
        let lines = spectrum(&x, 1e-4, 8_192)
            .unwrap()
            .lines(50.0, 5_000.0, 100.0, 6.0);
        assert_eq!(lines.len(), 2, "{lines:?}");
        // A parabola on the logarithm of a Hann window's main lobe is off by at most 0.05 of a step.
        assert!((lines[0].hz - 123.4).abs() < 0.1 && (lines[0].amplitude - 0.5).abs() < 0.02);
        assert!((lines[1].hz - 1_410.0).abs() < 0.3 && (lines[1].amplitude - 0.05).abs() < 0.005);
    }

    #[test]
    fn noise_alone_has_no_lines() {
        let x: Vec<f64> = noise(5).take(20_000).collect();
        let s = spectrum(&x, 1e-4, 2_048).unwrap();
        assert_eq!(s.lines(50.0, 5_000.0, 200.0, 4.0), []);
    }
}
