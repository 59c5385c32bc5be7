//! Sensors before a toothed wheel.
//!
//! Coil: Faraday's law on a magnetic circuit whose gap moves: the flux is a sum of one bump per tooth (a bell of a
//! quarter of a pitch), the voltage its change with time, so that it is proportional to the speed; run-out of the wheel
//! modulates the flux once a turn. Hall and current-loop sensors switch at fixed angles (duty 50 %, within the 43 to 63 %
//! of a data sheet, Allegro ATS645LSH).

use baybrief_signal::Time;
use baybrief_signal::teeth::{Options, SensorKind, ToothTrain, read_train};
use std::f64::consts::TAU;

/// Wheel: angles of its teeth, turns.
pub struct Wheel {
    pub angles: Vec<f64>,
    pub positions: u32,
}

impl Wheel {
    /// Equal pitches without the given positions.
    pub fn gapped(positions: u32, missing: &[u32]) -> Wheel {
        let there = (0..positions).filter(|p| !missing.contains(p));
        Wheel {
            angles: there.map(|p| f64::from(p) / f64::from(positions)).collect(),
            positions,
        }
    }

    /// Angle since the last tooth and to the next, turns.
    pub fn around(&self, turn: f64) -> (f64, f64) {
        let f = turn.rem_euclid(1.0);
        let k = self.angles.partition_point(|a| *a <= f);
        let last = if k == 0 {
            self.angles[self.angles.len() - 1] - 1.0
        } else {
            self.angles[k - 1]
        };
        let next = self.angles.get(k).copied().unwrap_or(self.angles[0] + 1.0);
        (f - last, next - f)
    }
}

/// Even noise of standard deviation 1, the same on every run.
pub struct Noise(pub u64);

impl Noise {
    pub fn next(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) as f64 / f64::from(1u32 << 31) - 0.5) * 12f64.sqrt()
    }
}

/// Angles of a shaft over time, turns, one per sample. `rpm` is followed with a wander of half a percent, as an engine's
/// is.
pub fn turn(seconds: f64, rate: f64, rpm: impl Fn(f64) -> f64) -> Vec<f64> {
    let mut angle = 0.137;
    (0..(seconds * rate) as usize)
        .map(|k| {
            let t = k as f64 / rate;
            angle += rpm(t) * (1.0 + 0.005 * (TAU * 0.7 * t).sin()) / 60.0 / rate;
            angle
        })
        .collect()
}

/// Voltage of a coil: `volts` peak at 1,000 rpm, run-out as a share of it.
pub fn coil(wheel: &Wheel, angles: &[f64], rate: f64, volts: f64, runout: f64) -> Vec<f64> {
    let s = 0.25 / f64::from(wheel.positions);
    // Steepest slope of a bell is exp(-1/2) / s.
    let scale = volts * s / (-0.5f64).exp() / (1000.0 / 60.0);
    let slope = |d: f64| -d / (s * s) * (-d * d / (2.0 * s * s)).exp();
    let speed = |k: usize| (angles[k] - angles[k.saturating_sub(1)]) * rate;
    (0..angles.len())
        .map(|k| {
            let (since, until) = wheel.around(angles[k]);
            let flux = slope(since) + slope(-until);
            scale * flux * speed(k) * (1.0 + runout * (TAU * angles[k]).cos())
        })
        .collect()
}

/// True where a switching sensor is high.
pub fn is_high(wheel: &Wheel, angle: f64) -> bool {
    wheel.around(angle).0 < 0.5 / f64::from(wheel.positions)
}

/// A switching sensor between two levels.
pub fn switching(wheel: &Wheel, angles: &[f64], (low, high): (f64, f64)) -> Vec<f64> {
    angles
        .iter()
        .map(|a| if is_high(wheel, *a) { high } else { low })
        .collect()
}

/// Adds noise and gives samples.
pub fn record(volts: &[f64], noise: f64) -> Vec<f32> {
    let mut source = Noise(7);
    volts
        .iter()
        .map(|v| (v + noise * source.next()) as f32)
        .collect()
}

/// Level changes only, as a logic analyser lists them: time and level.
pub fn level_changes(wheel: &Wheel, angles: &[f64], rate: f64) -> (Vec<f64>, Vec<f32>) {
    let mut last = None;
    let mut out = (Vec::new(), Vec::new());
    for (k, angle) in angles.iter().enumerate() {
        let high = is_high(wheel, *angle);
        if last.replace(high) != Some(high) {
            out.0.push(k as f64 / rate);
            out.1.push(f32::from(u8::from(high)));
        }
    }
    out.0.push((angles.len() - 1) as f64 / rate);
    out.1.push(f32::from(u8::from(last == Some(true))));
    out
}

pub fn options(sensor: SensorKind, teeth: u32, missing: u32) -> Options {
    Options {
        sensor: Some(sensor),
        teeth: Some(teeth),
        missing_teeth: Some(missing),
        max_acceleration: 120_000.0,
        ..Options::default()
    }
}

pub fn read(x: &[f32], rate: f64, options: &Options) -> ToothTrain {
    let time = Time::Even {
        start_s: 0.0,
        step_s: 1.0 / rate,
    };
    read_train(x, time, options).unwrap()
}
