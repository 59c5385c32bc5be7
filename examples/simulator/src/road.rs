//! A drive: the vehicle moves off in first gear and shifts up.
//!
//! Engine: J dw/dt = T - T1 - T2; each clutch carries its capacity towards the faster side; an engaged gear ties
//! its input shaft to the output shaft; the vehicle's inertia hangs on the output shaft. A shift has a torque
//! phase (the load passes from one clutch to the other at unchanged speed) and an inertia phase (the engine is
//! pulled to the new gear's speed).

use crate::actuator::Actuator;
use crate::engine::EngineRun;
use crate::feed::{Controller, Feed, steps_per_sample};
use crate::ode::rk4;
use crate::road_control::Control;
use crate::supply::Supply;
use crate::traces::Traces;

/// A drive.
#[derive(Debug, Clone)]
pub struct Road {
    /// Samples per second of the recorder.
    pub rate_hz: f64,
    /// Time of the first sample, s.
    pub start_s: f64,
    /// Length, s.
    pub duration_s: f64,
    /// Input shaft turns per output shaft turn of first, second, ... gear; odd gears sit on shaft 1.
    pub ratios: Vec<f64>,
    /// When the driver moves off, s.
    pub launch_s: f64,
    /// Torque that the driver asks for, N m.
    pub demand: f64,
    /// Time in each gear before the next shift, s.
    pub in_gear_s: f64,
    /// Length of the torque phase, s.
    pub torque_phase_s: f64,
    /// Length of the inertia phase that the controller aims for, s.
    pub inertia_phase_s: f64,
    /// Idle speed, rpm.
    pub idle_rpm: f64,
    /// Greatest torque that each clutch can carry, N m.
    pub clutch_limit: [f64; 2],
    /// In which shift (0 for the first) the offgoing clutch stays closed, and how long, s.
    pub tie_up: Option<(usize, f64)>,
    /// Clutch 1, clutch 2, gear motor 1, gear motor 2.
    pub actuators: [Actuator; 4],
    /// Supply of the controller.
    pub supply: Supply,
    /// The controller's own current.
    pub controller: Controller,
}

/// True record of the controller's work.
#[derive(Debug, Clone, Default)]
pub struct RoadLog {
    /// Spans in which one gear drives.
    pub gears: Vec<GearSpan>,
    /// Speed changes of the shifts: when the engine begins to leave the old gear's speed and when it has come to
    /// the new gear's, s.
    pub shifts: Vec<(f64, f64)>,
    /// When both clutches carried against each other, s.
    pub tied_up: Option<(f64, f64)>,
}

/// A span in which one gear drives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GearSpan {
    /// 0 for first gear.
    pub gear: usize,
    /// s.
    pub from_s: f64,
    /// s.
    pub to_s: f64,
}

/// Inertia of the engine with its flywheel, kg m2.
pub const ENGINE_INERTIA: f64 = 0.17;
/// Inertia of the vehicle seen at the output shaft, kg m2.
const VEHICLE_INERTIA: f64 = 10.0;
/// Rolling resistance at the output shaft, N m.
const ROLLING: f64 = 14.0;
/// Speed difference over which a clutch comes to its full torque, rad/s.
const CLUTCH_SLIP: f64 = 0.8;
/// Time in which a synchroniser brings a shaft to its gear's speed, s.
const SYNCHRONISER: f64 = 0.035;
/// rad/s per rpm.
pub(crate) const RAD: f64 = std::f64::consts::PI / 30.0;

impl Road {
    /// A healthy drive through three gears in which the vehicle moves off after 0.8 s.
    pub fn new(rate_hz: f64, duration_s: f64) -> Self {
        let (clutch, gear) = (Actuator::clutch(), Actuator::gear());
        Road {
            rate_hz,
            start_s: 0.0,
            duration_s,
            ratios: vec![3.58, 2.16, 1.49],
            launch_s: 0.8,
            demand: 78.0,
            in_gear_s: 1.7,
            torque_phase_s: 0.12,
            inertia_phase_s: 0.32,
            idle_rpm: 790.0,
            clutch_limit: [400.0; 2],
            tie_up: None,
            actuators: [clutch, clutch, gear, gear],
            supply: Supply::default(),
            controller: Controller::default(),
        }
    }

    /// Lets it happen.
    pub fn run(&self) -> (Traces, RoadLog) {
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
            &[0.0; 4],
            &[],
            self.supply,
            self.controller,
        );
        let alternator = EngineRun::idle(self.idle_rpm);
        let mut control = Control::new(self);
        let [mut engine, mut output] = [self.idle_rpm * RAD, 0.0];
        let (mut input, mut turns) = ([0.0; 2], [0.31, 0.13, 0.71, 0.44]);
        for sample in 0..samples {
            for sub in 0..per_sample {
                let t = self.start_s + (sample * per_sample + sub) as f64 * step;
                control.advance(self, t, engine, &input, &mut feed);
                feed.advance(t, step, &alternator, turns[0], &mut traces.attempts);
                let torque = control.engine_torque(self, engine, &input);
                let capacity = control.capacity();
                let ratio = control.engaged().map(|g| g.map(|gear| self.ratios[gear]));
                let before = [engine, input[0], input[1], output];
                [engine, output] = rk4([engine, output], step, |&[e, o]| {
                    let mut sum = [torque, -ROLLING * (o / 0.3).tanh()];
                    for k in 0..2 {
                        let shaft = ratio[k].map_or(input[k], |i| i * o);
                        let carried = capacity[k] * ((e - shaft) / CLUTCH_SLIP).tanh();
                        sum[0] -= carried;
                        sum[1] += carried * ratio[k].unwrap_or(0.0);
                    }
                    [sum[0] / ENGINE_INERTIA, sum[1] / VEHICLE_INERTIA]
                });
                for k in 0..2 {
                    let target = ratio[k].map(|i| i * output);
                    let sought = control
                        .synchronising(k)
                        .map(|gear| self.ratios[gear] * output);
                    input[k] = match (target, sought) {
                        (Some(w), _) => w,
                        (None, Some(w)) => input[k] + (w - input[k]) * step / SYNCHRONISER,
                        (None, None) => input[k],
                    };
                }
                let after = [engine, input[0], input[1], output];
                for (x, (a, b)) in turns.iter_mut().zip(before.iter().zip(&after)) {
                    *x += (a + b) / 2.0 * step / std::f64::consts::TAU;
                }
            }
            feed.sample(&mut traces);
            traces.engine.push(engine / RAD, turns[0]);
            traces.input[0].push(input[0] / RAD, turns[1]);
            traces.input[1].push(input[1] / RAD, turns[2]);
            traces.output.push(output / RAD, turns[3]);
        }
        let end = traces.end_s();
        let mut log = control.into_log();
        if let Some(last) = log.gears.last_mut().filter(|g| g.to_s < g.from_s) {
            last.to_s = end;
        }
        (traces, log)
    }
}
