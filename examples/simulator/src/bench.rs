//! The vehicle at a standstill: a relearn or a test in the workshop.

use crate::actuator::Actuator;
use crate::engine::{EngineRun, interpolate};
use crate::feed::{Command, Controller, Feed, steps_per_sample};
use crate::shaft::Shaft;
use crate::supply::Supply;
use crate::traces::{Mechanism, Traces};

/// A test at standstill.
#[derive(Debug, Clone)]
pub struct Bench {
    /// Samples per second of the recorder.
    pub rate_hz: f64,
    /// Time of the first sample, s.
    pub start_s: f64,
    /// Length, s.
    pub duration_s: f64,
    /// Course of the engine.
    pub engine: EngineRun,
    /// Supply of the controller.
    pub supply: Supply,
    /// The controller's own current.
    pub controller: Controller,
    /// Clutch 1, clutch 2, gear motor 1, gear motor 2.
    pub actuators: [Actuator; 4],
    /// Positions at the start: 0 released, 1 fully applied.
    pub position: [f64; 4],
    /// Orders of the controller.
    pub commands: Vec<Command>,
    /// The two input shafts.
    pub shafts: [Shaft; 2],
    /// Their speed at the start, rpm.
    pub spinning: [f64; 2],
    /// Course of a shaft that the wheels turn, as (s, rpm).
    pub driven: [Option<Vec<(f64, f64)>>; 2],
}

/// From where in its stroke a clutch carries torque.
pub const TOUCH_POINT: f64 = 0.55;
/// Torque capacity of a fully applied clutch at standstill tests, N m.
const FULL_TORQUE: f64 = 45.0;

/// Torque capacity of a clutch whose actuator stands at `position`, N m.
fn clutch_torque(position: f64) -> f64 {
    FULL_TORQUE * ((position - TOUCH_POINT) / (1.0 - TOUCH_POINT)).max(0.0)
}

impl Bench {
    /// A healthy gearbox, engine off, nothing ordered.
    pub fn new(rate_hz: f64, duration_s: f64) -> Self {
        let (clutch, gear) = (Actuator::clutch(), Actuator::gear());
        Bench {
            rate_hz,
            start_s: 0.0,
            duration_s,
            engine: EngineRun::off(),
            supply: Supply::default(),
            controller: Controller::default(),
            actuators: [clutch, clutch, gear, gear],
            position: [0.0; 4],
            commands: Vec::new(),
            shafts: [Shaft::default(); 2],
            spinning: [0.0; 2],
            driven: [None, None],
        }
    }

    /// Orders a mechanism to a position.
    pub fn order(&mut self, at_s: f64, mechanism: Mechanism, position: f64) {
        self.commands.push(Command::new(at_s, mechanism, position));
    }

    /// Lets it happen.
    pub fn run(&self) -> Traces {
        let samples = (self.duration_s * self.rate_hz).round() as usize;
        let per_sample = steps_per_sample(self.rate_hz);
        let step = 1.0 / (self.rate_hz * per_sample as f64);
        let mut traces = Traces {
            rate_hz: self.rate_hz,
            start_s: self.start_s,
            quiescent: self.controller.quiescent,
            ..Default::default()
        };
        let mut feed = Feed::new(
            &self.actuators,
            &self.position,
            &self.commands,
            self.supply,
            self.controller,
        );
        let rpm_to_rad = std::f64::consts::PI / 30.0;
        let mut speed = self.spinning.map(|n| n * rpm_to_rad);
        let (mut engine_turns, mut turns) = (0.0, [0.13, 0.71]);
        for sample in 0..samples {
            for sub in 0..per_sample {
                let t = self.start_s + (sample * per_sample + sub) as f64 * step;
                let engine_rpm = self.engine.rpm(t);
                let ripple = self.engine.ripple.factor(engine_rpm, engine_turns);
                feed.advance(t, step, &self.engine, engine_turns, &mut traces.attempts);
                engine_turns += engine_rpm * ripple / 60.0 * step;
                for k in 0..2 {
                    let before = speed[k];
                    speed[k] = match &self.driven[k] {
                        Some(course) => interpolate(course, t) * rpm_to_rad,
                        None => {
                            let clutch = [Mechanism::Clutch1, Mechanism::Clutch2][k];
                            let torque = clutch_torque(feed.position(clutch));
                            self.shafts[k].advance(before, engine_rpm * rpm_to_rad, torque, step)
                        }
                    };
                    turns[k] += (before + speed[k]) / 2.0 * step / std::f64::consts::TAU;
                }
            }
            feed.sample(&mut traces);
            let t = self.start_s + ((sample + 1) * per_sample) as f64 * step;
            let ripple = self.engine.ripple.factor(self.engine.rpm(t), engine_turns);
            traces
                .engine
                .push(self.engine.rpm(t) * ripple, engine_turns);
            for k in 0..2 {
                traces.input[k].push(speed[k] / rpm_to_rad, turns[k]);
            }
            traces.output.push(0.0, 0.0);
        }
        traces
    }
}
