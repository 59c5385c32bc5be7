//! A coil with a moving armature, for tests; nothing of it comes from the code under test.
//!
//! Flux linkage L(x) i with L(x) = Lc / (1 + (stroke - x) / g), force half i^2 dL/dx against a preloaded spring (H. H.
//! Woodson and J. R. Melcher, "Electromechanical Dynamics", part I, chapters 3 and 5), v = R i + d(L i)/dt, integrated with
//! small steps. Drivers: a switch to ground with a clamp or a freewheeling diode; peak and hold with a chopper; a current
//! limit as ignition drivers have it.
#![allow(dead_code)]

use plugin_sdk::testing::Random;

/// Random numbers of this model.
pub fn seeded(seed: u64) -> Random {
    Random::new(seed, 0x55AA)
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Control {
    /// On for the whole dwell.
    Saturated,
    /// Peak current, A, then a held one, A, chopped between plus and minus the share.
    PeakAndHold(f64, f64, f64),
    /// A limit, A.
    Limit(f64),
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Release {
    /// The driven side rises to this voltage, V.
    Clamp(f64),
    /// A diode across the coil.
    Diode,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Motion {
    /// Free to move.
    Free,
    /// Held at its open or closed end.
    Stuck { closed: bool },
}

#[derive(Debug, Clone, Copy)]
pub struct Coil {
    pub ohm: f64,
    /// Of wiring and driver, ohm.
    pub wiring: f64,
    /// Inductance with the armature open, H.
    pub henry: f64,
    /// Inductance closed over open; 1 for no armature.
    pub ratio: f64,
    /// Current at which the armature leaves its seat, A.
    pub pull: f64,
    /// Time that the movement takes, about, s.
    pub moves: f64,
    pub motion: Motion,
    pub control: Control,
    pub release: Release,
    pub supply: f64,
    pub dwell: f64,
    pub pause: f64,
}

pub struct Recording {
    pub current: Vec<f32>,
    pub driven: Vec<f32>,
    pub supply: Vec<f32>,
    /// Time from switch-on to the end of the stroke, s, of the last actuation; NaN where none.
    pub moved: f64,
    pub step_s: f64,
}

const STROKE: f64 = 1e-4;

impl Coil {
    /// An injector or valve of usual size.
    pub fn valve(random: &mut Random) -> Coil {
        let ohm = random.between(8.0, 30.0);
        let supply = random.between(11.5, 14.5);
        let level = supply / ohm;
        let tau = random.between(0.6e-3, 1.6e-3);
        Coil {
            ohm,
            wiring: random.between(0.1, 0.5),
            henry: tau * ohm,
            ratio: random.between(1.25, 1.7),
            pull: level * random.between(0.35, 0.6),
            moves: random.between(0.25e-3, 0.7e-3),
            motion: Motion::Free,
            control: Control::Saturated,
            release: Release::Clamp(random.between(33.0, 70.0)),
            supply,
            dwell: random.between(6.0, 14.0) * tau,
            pause: random.between(10.0, 30.0) * tau,
        }
    }

    /// A low-resistance injector with peak and hold.
    pub fn peak_and_hold(random: &mut Random) -> Coil {
        let mut coil = Coil::valve(random);
        coil.ohm = random.between(0.8, 2.0);
        coil.henry = random.between(1.0e-3, 3.5e-3);
        coil.pull = random.between(1.2, 2.2);
        let peak = random.between(3.2, 4.2);
        coil.control = Control::PeakAndHold(peak, peak / 4.0, 0.08);
        coil.moves = random.between(0.2e-3, 0.5e-3);
        coil.dwell = random.between(6e-3, 12e-3);
        coil.pause = 3.0 * coil.dwell;
        coil
    }

    /// An ignition primary.
    pub fn ignition(random: &mut Random) -> Coil {
        let mut coil = Coil::valve(random);
        coil.ohm = random.between(0.4, 0.8);
        coil.henry = random.between(3.0e-3, 7.0e-3);
        coil.ratio = 1.0;
        coil.motion = Motion::Stuck { closed: false };
        coil.control = Control::Limit(random.between(6.0, 9.0));
        coil.release = Release::Clamp(random.between(320.0, 400.0));
        coil.dwell = random.between(3e-3, 6e-3);
        coil.pause = 5.0 * coil.dwell;
        coil
    }

    /// Runs `actuations` actuations and records them.
    pub fn record(
        &self,
        actuations: usize,
        rate_hz: f64,
        noise: f64,
        random: &mut Random,
    ) -> Recording {
        let h = (0.02 * self.henry / (self.ohm + self.wiring))
            .min(0.2 / rate_hz)
            .min(4e-6);
        let per_sample = (1.0 / rate_hz / h).round().max(1.0) as usize;
        let h = 1.0 / rate_hz / per_sample as f64;
        let (mut i, mut x, mut v) = (0.0f64, 0.0f64, 0.0f64);
        let gap = if self.ratio > 1.0 {
            STROKE / (self.ratio - 1.0)
        } else {
            f64::INFINITY
        };
        let closed = self.henry * self.ratio;
        let henry = |x: f64| {
            if gap.is_finite() {
                closed / (1.0 + (STROKE - x) / gap)
            } else {
                closed
            }
        };
        let slope = |x: f64| {
            if gap.is_finite() {
                closed / gap / (1.0 + (STROKE - x) / gap).powi(2)
            } else {
                0.0
            }
        };
        let preload = 0.5 * self.pull * self.pull * slope(0.0);
        let spring = 0.15 * preload / STROKE;
        let mass = 0.7 * preload * self.moves * self.moves / (2.0 * STROKE);
        match self.motion {
            Motion::Stuck { closed: true } => x = STROKE,
            Motion::Stuck { closed: false } => x = 0.0,
            Motion::Free => {}
        }
        let cycle = self.dwell + self.pause;
        let begin = 0.4 * self.pause * random.between(0.7, 1.3);
        let samples = ((begin + cycle * actuations as f64) * rate_hz) as usize;
        let mut recording = Recording {
            current: Vec::with_capacity(samples),
            driven: Vec::with_capacity(samples),
            supply: Vec::with_capacity(samples),
            moved: f64::NAN,
            step_s: 1.0 / rate_hz,
        };
        let (mut peaked, mut chop_on, mut hold_on) = (false, true, true);
        for k in 0..samples * per_sample {
            let t = k as f64 * h;
            let phase = (t - begin).rem_euclid(cycle);
            let on = t >= begin && phase < self.dwell;
            if !on {
                (peaked, chop_on, hold_on) = (false, true, true);
            }
            // Voltage across coil and wiring, and of the driven side.
            let loop_ohm = self.ohm + self.wiring;
            let mut across = self.supply;
            if on {
                match self.control {
                    Control::Saturated => {}
                    Control::PeakAndHold(peak, hold, share) => {
                        peaked |= i >= peak;
                        if peaked {
                            if i > hold * (1.0 + share) {
                                chop_on = false;
                            } else if i < hold * (1.0 - share) {
                                chop_on = true;
                            }
                            across = if chop_on { self.supply } else { -0.7 };
                        }
                    }
                    Control::Limit(limit) => {
                        if i >= limit || !hold_on {
                            hold_on = false;
                            across = across.min(limit * loop_ohm);
                            i = i.min(limit);
                        }
                    }
                }
            } else {
                across = match self.release {
                    Release::Clamp(volts) => self.supply - volts,
                    Release::Diode => -0.7,
                };
            }
            let l = henry(x);
            let back = slope(x) * v;
            if on || i > 0.0 {
                // Backward Euler in the current.
                i = (i + h / l * across) / (1.0 + h / l * (loop_ohm + back));
                i = i.max(0.0);
            }
            if self.motion == Motion::Free && gap.is_finite() {
                let force = 0.5 * i * i * slope(x) - preload - spring * x;
                let before = x;
                v += h * force / mass;
                x += h * v;
                if x <= 0.0 {
                    (x, v) = (0.0, v.max(0.0));
                }
                if x >= STROKE {
                    if before < STROKE && on {
                        recording.moved = phase;
                    }
                    (x, v) = (STROKE, v.min(0.0));
                }
            }
            if k % per_sample == per_sample - 1 {
                let driven = if on {
                    self.supply - across + i * self.wiring.min(0.3)
                } else if i > 0.0 {
                    self.supply - across
                } else {
                    self.supply
                };
                recording.current.push((i + noise * random.normal()) as f32);
                recording
                    .driven
                    .push((driven + 0.05 * random.normal()) as f32);
                recording
                    .supply
                    .push((self.supply + 0.03 * random.normal()) as f32);
            }
        }
        recording
    }
}
