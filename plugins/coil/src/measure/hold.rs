//! The chopper that holds a current.

use std::f64::consts::TAU;

/// A chopped current.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chopper {
    /// Cycles a sample.
    pub frequency: f64,
    /// Standard uncertainty (k = 1), cycles a sample.
    pub uncertainty: f64,
    /// Peak to peak of the ripple, A.
    pub ripple: f64,
}

/// Range of a frequency against ripple and slope of the freewheeling current: the current falls by its ripple in most of
/// a cycle.
const PLAUSIBLE: (f64, f64) = (0.35, 1.3);

impl Chopper {
    /// True where the frequency fits how fast the current falls when the driver lets it, `fall` in A a sample. A
    /// frequency above half the sampling rate looks like a lower one, and no spectrum tells them apart.
    pub fn fits(&self, fall: f64) -> bool {
        let share = self.frequency * self.ripple / fall;
        share >= PLAUSIBLE.0 && share <= PLAUSIBLE.1
    }
}

/// Highest frequency that is believed, cycles a sample: near half the sampling rate a faster one looks slower.
const HIGHEST: f64 = 0.4;
/// Fewest cycles.
const LEAST_CYCLES: f64 = 4.0;
/// Share of the ripple's power that one frequency must hold.
const LEAST_SHARE: f64 = 0.3;
/// Samples that are looked at, at most.
const MOST: usize = 4_000;

/// Finds the frequency of a held current's ripple: the highest line of its periodogram, refined by a parabola. `None`
/// where no ripple stands out of the noise.
pub fn chopper(held: &[f32], noise: f64) -> Option<Chopper> {
    let x: Vec<f64> = held.iter().take(MOST).map(|&v| f64::from(v)).collect();
    let n = x.len();
    if (n as f64) < 4.0 * LEAST_CYCLES {
        return None;
    }
    // Without mean and slope.
    let middle = (n - 1) as f64 / 2.0;
    let mean = x.iter().sum::<f64>() / n as f64;
    let (mut ty, mut tt) = (0.0, 0.0);
    for (k, v) in x.iter().enumerate() {
        let t = k as f64 - middle;
        ty += t * (v - mean);
        tt += t * t;
    }
    let x: Vec<f64> = x
        .iter()
        .enumerate()
        .map(|(k, v)| v - mean - ty / tt * (k as f64 - middle))
        .collect();
    let power: f64 = x.iter().map(|v| v * v).sum();
    let step = 0.25 / n as f64;
    let lowest = LEAST_CYCLES / n as f64;
    let count = ((HIGHEST - lowest) / step) as usize;
    let line = |k: usize| {
        let f = lowest + k as f64 * step;
        let (s, c) = x.iter().enumerate().fold((0.0, 0.0), |(s, c), (i, v)| {
            let (sin, cos) = (TAU * f * i as f64).sin_cos();
            (s + v * sin, c + v * cos)
        });
        2.0 * (s * s + c * c) / n as f64
    };
    let lines: Vec<f64> = (0..count).map(line).collect();
    let best = (0..count).max_by(|&a, &b| lines[a].total_cmp(&lines[b]))?;
    let amplitude = (2.0 * lines[best] / n as f64).sqrt();
    let significant =
        lines[best] > LEAST_SHARE * power && amplitude > 4.0 * noise / (n as f64 / 2.0).sqrt();
    if !significant || best == 0 || best + 1 >= count {
        return None;
    }
    let (a, b, c) = (lines[best - 1], lines[best], lines[best + 1]);
    let offset = 0.5 * (a - c) / (a - 2.0 * b + c);
    Some(Chopper {
        frequency: lowest + (best as f64 + offset) * step,
        // Cramer-Rao bound of a frequency, at least a tenth of the resolution.
        uncertainty: (6f64.sqrt() * noise
            / (std::f64::consts::PI * amplitude * (n as f64).powf(1.5)))
        .max(0.1 / n as f64),
        ripple: ripple(held, noise),
    })
}

fn ripple(held: &[f32], noise: f64) -> f64 {
    let q = |q| plugin_sdk::signal::stats::sampled_quantile(held, q, MOST).unwrap_or(0.0);
    (q(0.97) - q(0.03) - 2.0 * noise).max(noise)
}
