//! The feed: the controller, its four mechanisms and the supply that they share.

use crate::actuator::{Actuator, Driven};
use crate::engine::EngineRun;
use crate::supply::Supply;
use crate::traces::{Attempt, Mechanism, Traces};

/// The controller's own appetite.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Controller {
    /// Current on average, A.
    pub quiescent: f64,
    /// Rise and fall with its activity, A peak.
    pub activity: f64,
    /// Frequency of the activity, Hz.
    pub activity_hz: f64,
    /// Wander of its rhythm within some seconds, cycles; 0 for a clock.
    pub wander: f64,
}

impl Default for Controller {
    fn default() -> Self {
        Controller {
            quiescent: 0.62,
            activity: 0.09,
            activity_hz: 41.0,
            wander: 0.0,
        }
    }
}

/// An order of the controller.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Command {
    /// When, s.
    pub at_s: f64,
    /// To which mechanism.
    pub mechanism: Mechanism,
    /// Position to reach: 0 released, 1 fully applied.
    pub position: f64,
}

impl Command {
    /// An order.
    pub fn new(at_s: f64, mechanism: Mechanism, position: f64) -> Self {
        Command {
            at_s,
            mechanism,
            position,
        }
    }
}

const MECHANISMS: [Mechanism; 4] = [
    Mechanism::Clutch1,
    Mechanism::Clutch2,
    Mechanism::Gear1,
    Mechanism::Gear2,
];

/// The feed at work.
pub(crate) struct Feed {
    driven: [Driven; 4],
    commands: Vec<Command>,
    next: usize,
    flowed: [bool; 4],
    supply: Supply,
    controller: Controller,
    currents: [f64; 4],
    voltage: f64,
    total: f64,
}

impl Feed {
    pub fn new(
        actuators: &[Actuator; 4],
        position: &[f64; 4],
        commands: &[Command],
        supply: Supply,
        controller: Controller,
    ) -> Self {
        let mut commands = commands.to_vec();
        commands.sort_by(|a, b| a.at_s.total_cmp(&b.at_s));
        Feed {
            driven: std::array::from_fn(|k| Driven::new(actuators[k], position[k])),
            commands,
            next: 0,
            flowed: [false; 4],
            supply,
            controller,
            currents: [0.0; 4],
            voltage: supply.battery,
            total: 0.0,
        }
    }

    /// Position of a mechanism, 0 to 1.
    pub fn position(&self, m: Mechanism) -> f64 {
        self.driven[m.index()].position()
    }

    /// Adds an order that is to be carried out at its time.
    pub fn order(&mut self, command: Command) {
        let later = self.commands.partition_point(|c| c.at_s <= command.at_s);
        self.commands.insert(later.max(self.next), command);
    }

    /// Goes on by `step` seconds; `turns` is the engine's angle.
    pub fn advance(
        &mut self,
        t: f64,
        step: f64,
        engine: &EngineRun,
        turns: f64,
        log: &mut Vec<Attempt>,
    ) {
        while let Some(c) = self.commands.get(self.next).filter(|c| c.at_s <= t) {
            self.driven[c.mechanism.index()].command(t, c.position);
            self.flowed[c.mechanism.index()] = false;
            self.next += 1;
        }
        let drop = self.total * (self.supply.source_resistance + self.supply.ground_resistance);
        let at_controller = self.supply.unloaded(engine, t, turns) - drop;
        for (k, driven) in self.driven.iter_mut().enumerate() {
            let (current, ended) = driven.advance(t, at_controller, step);
            self.currents[k] = current;
            self.flowed[k] |= current > 0.05;
            if let Some(ended) = ended {
                let current_flowed = self.flowed[k];
                log.push(Attempt {
                    mechanism: MECHANISMS[k],
                    ended,
                    current_flowed,
                });
            }
        }
        let wander = self.controller.wander * (std::f64::consts::TAU * 0.4 * t).sin();
        let phase = (t * self.controller.activity_hz + wander).rem_euclid(1.0);
        let activity = if phase < 0.35 { 0.65 } else { -0.35 } * self.controller.activity;
        self.total = self.controller.quiescent + activity + self.currents.iter().sum::<f64>();
        self.voltage =
            self.supply.unloaded(engine, t, turns) - self.total * self.supply.source_resistance;
    }

    /// Notes the present state as a sample.
    pub fn sample(&self, traces: &mut Traces) {
        traces.feed.push(self.total);
        traces.load.push(self.currents.iter().sum());
        for (to, &i) in traces.mechanism.iter_mut().zip(&self.currents) {
            to.push(i);
        }
        traces.supply.push(self.voltage);
        traces
            .ground
            .push(self.total * self.supply.ground_resistance);
    }
}

/// Integration steps between two samples, as many that a step is 50 microseconds at most.
pub(crate) fn steps_per_sample(rate_hz: f64) -> usize {
    (1.0 / (rate_hz * 50e-6)).ceil().max(1.0) as usize
}
