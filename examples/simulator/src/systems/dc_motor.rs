//! A brushed motor with its commutator: the heater blower of a library bus that stops at random although its relay was
//! replaced. One bar of the commutator is open.
//!
//! Model: L di/dt = u - R(x) i - k(x) w, J dw/dt = k(x) i - T(w) (Fitzgerald, Kingsley & Umans, "Electric Machinery",
//! direct-current machines; named from memory). The voltage between two brushes is the sum of the coils of one path, each
//! a part of a turn behind the other, so that k(x) is the upper envelope of sines, one for each ripple of a turn. The two
//! paths through the armature are parallel: where an open bar's coils belong to one, the other carries alone with twice
//! the resistance; as it passes a brush the current breaks down.

use super::invented::{Visit, channel, recording, with_job_file};
use crate::csv::CsvDialect;
use crate::folder::JobFolder;
use crate::noise::Noise;
use crate::ode::rk4;
use crate::recorder::Recording;
use model::job_file::{EngineState, UnitSection};
use std::f64::consts::{PI, TAU};

const VISIT: Visit = Visit {
    number: "D-0109",
    customer: "Example County Library (invented)",
    vin: "EXAMPLE00K0BUS063",
    model: "Library bus 12",
    year: 2016,
    odometer_km: 61_900.0,
    system: "dc-motor",
    concern: "The heater blower stops for a moment on bumps and some mornings does not start until the box is \
              knocked. Relay and switch were replaced; the fault remains.",
};

/// Commutator and armature winding.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Commutator {
    /// Every bar carries.
    Whole,
    /// One bar is open, and the brush is narrower than a bar.
    OpenBar,
    /// One coil is open, and the brush is wider than a bar: one of the two paths carries nothing but while a brush bridges the
    /// coil.
    OpenCoil,
}

/// A motor with two brushes.
#[derive(Debug, Clone)]
pub struct Motor {
    /// Resistance of winding and brushes, ohm.
    pub resistance: f64,
    /// Inductance, H.
    pub inductance: f64,
    /// Voltage constant, V s/rad; also N m/A.
    pub constant: f64,
    /// Inertia with what it turns, kg m2.
    pub inertia: f64,
    /// Torque of friction, N m.
    pub friction: f64,
    /// Torque of a fan or pump over the square of the speed, N m s2.
    pub fan: f64,
    /// Bars of the commutator.
    pub bars: u32,
    /// Condition of commutator and winding.
    pub commutator: Commutator,
    /// Share of the friction by which it rises and falls once a turn: a tight spot.
    pub uneven: f64,
    /// Resistance of the feed and of the source, ohm.
    pub feed: f64,
}

/// Share of a bar's pitch over which an open one breaks the current of a brush.
const BROKEN: f64 = 0.6;
/// Resistance of the path while it does, as a multiple.
const BROKEN_TIMES: f64 = 5.0;
/// Pitches of a bar over which a wide brush bridges an open coil, and the resistance while it does not, as a multiple: brushes and
/// leads carry as before, the winding has one path instead of two.
const BRIDGED: f64 = 1.5;
const ONE_PATH: f64 = 1.7;

impl Motor {
    /// Ripples of a turn: the least common multiple of two brushes and the bars.
    pub fn ripples(&self) -> u32 {
        match self.bars % 2 {
            0 => self.bars,
            _ => 2 * self.bars,
        }
    }

    /// Voltage constant at an angle: the envelope of its sines.
    fn constant_at(&self, turn: f64) -> f64 {
        let n = f64::from(self.ripples());
        let within = (turn * n).rem_euclid(1.0) - 0.5;
        self.constant * (TAU * within / n).cos()
    }

    /// Resistance at an angle.
    fn resistance_at(&self, turn: f64) -> f64 {
        // A bar passes a brush twice a turn.
        let bars = f64::from(self.bars);
        let at_brush = (turn * bars).rem_euclid(bars / 2.0);
        match self.commutator {
            // One of the two brushes bridges it with its neighbour.
            Commutator::OpenBar if (turn * bars).rem_euclid(bars) < BROKEN => {
                self.resistance * BROKEN_TIMES
            }
            Commutator::OpenCoil if at_brush >= BRIDGED => self.resistance * ONE_PATH,
            _ => self.resistance,
        }
    }

    /// Current, A, voltage at the motor, V, and turns made of one that is switched to a source of `emf` V from `from_s` to
    /// `to_s`.
    pub fn run(
        &self,
        rate_hz: f64,
        seconds: f64,
        emf: f64,
        (from_s, to_s): (f64, f64),
    ) -> MotorTraces {
        let substeps = 5;
        let step = 1.0 / rate_hz / f64::from(substeps);
        // Current, speed, turns.
        let mut state = [0.0, 0.0, 0.1];
        let mut traces = MotorTraces::default();
        for i in 0..(seconds * rate_hz) as usize {
            let t = i as f64 / rate_hz;
            let on = (from_s..to_s).contains(&t);
            if !on {
                state[0] = 0.0;
            }
            traces.amps.push(state[0]);
            traces.volts.push(match on {
                true => emf - self.feed * state[0],
                false => self.constant_at(state[2]) * state[1],
            });
            traces.turns.push(state[2]);
            for _ in 0..substeps {
                state = rk4(state, step, |&[current, speed, turn]| {
                    let k = self.constant_at(turn);
                    let r = self.resistance_at(turn) + self.feed;
                    let di = match on {
                        true => (emf - r * current - k * speed) / self.inductance,
                        false => 0.0,
                    };
                    let friction = self.friction * (1.0 + self.uneven * (TAU * turn).cos());
                    let held = friction * (speed / 3.0).tanh() + self.fan * speed * speed;
                    [di, (k * current - held) / self.inertia, speed / (2.0 * PI)]
                });
            }
        }
        traces
    }
}

/// Course of a motor, one value a sample.
#[derive(Debug, Clone, Default)]
pub struct MotorTraces {
    /// Current, A.
    pub amps: Vec<f64>,
    /// Voltage at the motor, V.
    pub volts: Vec<f64>,
    /// Turns made.
    pub turns: Vec<f64>,
}

fn blower() -> Recording {
    let motor = Motor {
        resistance: 0.46,
        inductance: 180e-6,
        constant: 0.031,
        inertia: 1.9e-4,
        friction: 0.02,
        fan: 1.9e-6,
        bars: 10,
        commutator: Commutator::OpenBar,
        uneven: 0.0,
        feed: 0.045,
    };
    let rate = 20_000.0;
    let MotorTraces { amps, volts, .. } = motor.run(rate, 2.6, 12.7, (0.2, 2.4));
    let random = &mut Noise::new(20_260_204);
    recording(
        rate,
        vec![
            channel(
                "Blower current",
                "motor-current",
                "A",
                &amps,
                (50.0, 0.03),
                random,
            ),
            channel(
                "Blower voltage",
                "motor-voltage",
                "V",
                &volts,
                (20.0, 0.01),
                random,
            ),
        ],
    )
}

/// The demo job's files.
pub fn folder() -> JobFolder {
    let mut folder = JobFolder::default();
    let mut run = folder.add_csv("blower.csv", &blower(), &CsvDialect::default());
    run.engine = Some(EngineState::Off);
    let mut job = VISIT.job_file(UnitSection {
        motor_bars: Some(10),
        ..Default::default()
    });
    job.captures = vec![run];
    with_job_file(folder, &job)
}
