//! A ring of teeth before a sensor: a magnetic circuit with a moving gap.
//!
//! The flux of a circuit with a magnet is its magnetomotive force over its reluctance, and the reluctance of a gap is
//! proportional to its length (Fitzgerald, Kingsley and Umans, Electric Machinery, chapter 1; from memory). A coil on it
//! gives the change of the flux with time (Faraday), a switch on it changes over at two fluxes (hysteresis).
#![allow(dead_code)]

use std::f64::consts::TAU;

/// Ring of teeth and its distance from the sensor.
#[derive(Clone)]
pub struct Ring {
    /// Positions per turn.
    pub positions: u32,
    /// Positions without a tooth.
    pub missing: Vec<u32>,
    /// Height of single teeth, 0 to 1.
    pub heights: Vec<(u32, f64)>,
    /// Positions whose tooth is notched in its middle.
    pub notched: Vec<u32>,
    /// Positions whose tooth stands off its place, and by how many pitches.
    pub bent: Vec<(u32, f64)>,
    /// Distance of the sensor from a tooth, in lengths of the magnet's own reluctance.
    pub gap: f64,
    /// Variation of that over a turn, share.
    pub wobble: f64,
}

/// Depth of the space between two teeth, in the same lengths.
const DEPTH: f64 = 4.0;

impl Ring {
    pub fn even(positions: u32) -> Ring {
        Ring {
            positions,
            missing: Vec::new(),
            heights: Vec::new(),
            notched: Vec::new(),
            bent: Vec::new(),
            gap: 1.0,
            wobble: 0.0,
        }
    }

    pub fn without(positions: u32, missing: &[u32]) -> Ring {
        Ring {
            missing: missing.to_vec(),
            ..Ring::even(positions)
        }
    }

    /// Height of the ring before the sensor at an angle in turns, 0 to 1.
    fn height(&self, turns: f64) -> f64 {
        let x = turns.rem_euclid(1.0) * f64::from(self.positions);
        let position = x as u32 % self.positions;
        if self.missing.contains(&position) {
            return 0.0;
        }
        let height = self
            .heights
            .iter()
            .find(|h| h.0 == position)
            .map_or(1.0, |h| h.1);
        let off = self.bent.iter().find(|b| b.0 == position);
        let at = x.fract() - off.map_or(0.0, |b| b.1);
        let edge = |place: f64, up: f64| 0.5 * (1.0 + up * ((at - place) / 0.07).tanh());
        let plain = edge(0.2, 1.0) * edge(0.75, -1.0);
        let notch = match self.notched.contains(&position) {
            true => 1.0 - edge(0.4, 1.0) * edge(0.55, -1.0),
            false => 1.0,
        };
        height * plain * notch
    }

    /// Flux, share of that without any gap.
    pub fn flux(&self, turns: f64) -> f64 {
        let gap = self.gap * (1.0 + self.wobble * (TAU * turns).cos());
        1.0 / (1.0 + gap + DEPTH * (1.0 - self.height(turns)))
    }
}

/// Angles in turns of a shaft at each sample, from its speed in rpm.
pub fn angles(rpm: impl Fn(f64) -> f64, seconds: f64, rate_hz: f64) -> Vec<f64> {
    let mut turns = 0.3;
    (0..(seconds * rate_hz) as usize)
        .map(|i| {
            turns += rpm((i as f64 + 0.5) / rate_hz) / 60.0 / rate_hz;
            turns
        })
        .collect()
}

/// Noise that repeats: a linear congruential generator (Numerical Recipes' constants), about normal by a sum of twelve.
pub struct Noise(u32);

impl Noise {
    pub fn new(seed: u32) -> Noise {
        Noise(seed)
    }

    pub fn normal(&mut self) -> f64 {
        let mut next = || {
            self.0 = self.0.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            f64::from(self.0) / f64::from(u32::MAX)
        };
        (0..12).map(|_| next()).sum::<f64>() - 6.0
    }
}

/// Voltage of a coil of `flux_linkage` (Vs at full flux), with noise of `sigma` V.
pub fn coil(ring: &Ring, turns: &[f64], rate_hz: f64, flux_linkage: f64, sigma: f64) -> Vec<f32> {
    let mut noise = Noise::new(1);
    let fluxes: Vec<f64> = turns.iter().map(|t| ring.flux(*t)).collect();
    let mut out: Vec<f32> = fluxes
        .windows(2)
        .map(|w| (flux_linkage * (w[1] - w[0]) * rate_hz + sigma * noise.normal()) as f32)
        .collect();
    out.push(0.0);
    out
}

/// Signal of a sensor that switches between two levels with the flux before it.
pub fn switch(ring: &Ring, turns: &[f64], (low, high): (f64, f64), sigma: f64) -> Vec<f32> {
    let mut noise = Noise::new(2);
    let (least, most) = (1.0 / (1.0 + ring.gap + DEPTH), 1.0 / (1.0 + ring.gap));
    let mut on = false;
    turns
        .iter()
        .map(|t| {
            let share = (ring.flux(*t) - least) / (most - least);
            on = share > if on { 0.4 } else { 0.6 };
            let level = if on { high } else { low };
            (level + sigma * noise.normal()) as f32
        })
        .collect()
}
