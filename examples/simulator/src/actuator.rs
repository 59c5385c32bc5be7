//! A motor that moves a mechanism to and fro, with the controller's drive stage in front of it.

use crate::motor::{Motor, MotorState};

/// A mechanism, its motor and how it is driven.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Actuator {
    /// The motor.
    pub motor: Motor,
    /// Full stroke, rad at the motor.
    pub stroke: f64,
    /// Load of the mechanism at full stroke, N m at the motor; grows evenly from none at no stroke.
    pub spring: f64,
    /// The drive's duty cycle grows from nothing to one within this time, s.
    pub soft_start: f64,
    /// The controller gives up an attempt that has not arrived after this time, s.
    pub give_up: f64,
    /// Its fault.
    pub fault: ActuatorFault,
}

/// Fault of an actuator.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum ActuatorFault {
    /// Nothing.
    #[default]
    None,
    /// The mechanism cannot move at all.
    Jammed,
    /// The mechanism moves from its first place by this many radians at the motor and no further.
    JammedAfter(f64),
    /// No current can flow.
    OpenCircuit,
}

impl Actuator {
    /// A clutch actuator: heavy, spring-loaded, 12 to 18 A in a healthy actuation, about 37 A when it cannot move.
    /// Invented numbers within the ranges that the trade calls common; no source.
    pub fn clutch() -> Self {
        Actuator {
            motor: Motor {
                resistance: 0.37,
                inductance: 0.55e-3,
                constant: 0.0182,
                inertia: 3.9e-5,
                friction: 0.026,
                copper: 0.045,
            },
            stroke: 84.0,
            spring: 0.085,
            soft_start: 0.105,
            give_up: 1.3,
            fault: ActuatorFault::None,
        }
    }

    /// A gear motor: light, 4 to 7 A in a healthy actuation, about 14 A when it cannot move. Invented numbers.
    pub fn gear() -> Self {
        Actuator {
            motor: Motor {
                resistance: 0.95,
                inductance: 0.9e-3,
                constant: 0.0165,
                inertia: 5.5e-6,
                friction: 0.012,
                copper: 0.02,
            },
            stroke: 42.0,
            spring: 0.02,
            soft_start: 0.05,
            give_up: 1.1,
            fault: ActuatorFault::None,
        }
    }
}

/// An actuator at work.
#[derive(Debug, Clone)]
pub struct Driven {
    actuator: Actuator,
    state: MotorState,
    job: Option<Job>,
    start: f64,
}

/// Current task of an actuator.
#[derive(Debug, Clone, Copy)]
struct Job {
    since: f64,
    target: f64,
    direction: f64,
}

/// End of one attempt.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ended {
    /// When the drive was switched on, s.
    pub start_s: f64,
    /// When it was switched off, s.
    pub end_s: f64,
    /// True where the mechanism arrived.
    pub arrived: bool,
}

impl Driven {
    /// An actuator that stands at `position` (0 released, 1 fully applied).
    pub fn new(actuator: Actuator, position: f64) -> Self {
        let angle = position * actuator.stroke;
        let state = MotorState {
            angle,
            ..Default::default()
        };
        Driven {
            actuator,
            state,
            job: None,
            start: angle,
        }
    }

    /// Position of the mechanism: 0 released, 1 fully applied.
    pub fn position(&self) -> f64 {
        self.state.angle / self.actuator.stroke
    }

    /// Switches the drive on towards `position` (0 to 1).
    pub fn command(&mut self, now: f64, position: f64) {
        let target = position * self.actuator.stroke;
        self.job = Some(Job {
            since: now,
            target,
            direction: if target >= self.state.angle {
                1.0
            } else {
                -1.0
            },
        });
    }

    /// Goes on by `step` seconds at the given supply voltage. Gives the current that the drive stage takes
    /// from the supply, A, and how the attempt ended when it ends now.
    pub fn advance(&mut self, now: f64, supply: f64, step: f64) -> (f64, Option<Ended>) {
        let a = &self.actuator;
        let Some(job) = self.job else {
            // Braked by the drive stage, held by its self-locking gear, until the current has died away.
            self.state.speed = 0.0;
            if self.state.current.abs() < 1e-6 {
                self.state.current = 0.0;
                return (0.0, None);
            }
            self.state = a.motor.advance(self.state, 0.0, true, step, |_| 0.0);
            return (0.0, None);
        };
        let duty = job.direction * ((now - job.since) / a.soft_start).clamp(0.0, 1.0);
        let ended = |arrived| Ended {
            start_s: job.since,
            end_s: now + step,
            arrived,
        };
        if a.fault == ActuatorFault::OpenCircuit {
            let over = now - job.since >= a.give_up;
            self.job = self.job.filter(|_| !over);
            return (0.0, over.then(|| ended(false)));
        }
        let blocked = match a.fault {
            ActuatorFault::Jammed => true,
            ActuatorFault::JammedAfter(way) => (self.state.angle - self.start).abs() >= way,
            _ => false,
        };
        let (spring, stroke) = (a.spring, a.stroke);
        self.state = a
            .motor
            .advance(self.state, duty * supply, blocked, step, |x| {
                spring * x / stroke
            });
        let feed = (duty * self.state.current).max(0.0);
        let arrived = (self.state.angle - job.target) * job.direction >= 0.0;
        if arrived || now - job.since >= a.give_up {
            self.job = None;
            return (feed, Some(ended(arrived)));
        }
        (feed, None)
    }
}
