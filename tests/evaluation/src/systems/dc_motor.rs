//! Motors with brushes.

use super::SystemCase;
use crate::params::Params;
use model::job_file::{EngineState, UnitSection};
use simulator::systems::dc_motor::{Commutator, Motor, MotorTraces};
use simulator::systems::invented::channel;

/// Condition of a motor.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Condition {
    Sound,
    /// Sound, with little to turn: the ripple is deep beside what it draws.
    Light,
    OpenBar,
    OpenCoil,
    Tight,
    /// Tight at one place of the turn.
    Spot,
    Jammed,
    Wiring,
}

impl Condition {
    fn cause(self) -> &'static str {
        match self {
            Condition::Sound | Condition::Light => "",
            Condition::OpenBar | Condition::OpenCoil => "commutator-fault",
            Condition::Tight | Condition::Spot => "motor-tight",
            Condition::Jammed => "motor-jammed",
            Condition::Wiring => "motor-wiring-resistance",
        }
    }
}

pub(super) fn motor(p: &mut Params, condition: Condition) -> SystemCase {
    let cause = condition.cause();
    let mut case = SystemCase::new("dc-motor", cause);
    let emf = p.between("source", 12.0, 14.2);
    let bars = p.pick("bars", &[8, 10, 11, 12, 14]);
    let resistance = p.between("resistance", 0.3, 1.2);
    let speed = p.between("speed", 2_500.0, 4_500.0) * std::f64::consts::TAU / 60.0;
    let (low, high) = match condition {
        Condition::Light => (0.04, 0.1),
        Condition::Tight => (0.55, 0.72),
        _ => (0.12, 0.25),
    };
    let share = p.between("load", low, high);
    let constant = emf * (1.0 - share) / speed;
    let torque = constant * share * emf / resistance;
    let mut m = Motor {
        resistance,
        inductance: 4e-4 * resistance,
        constant,
        inertia: p.between("start", 0.03, 0.08) * constant * constant / resistance,
        friction: 0.4 * torque,
        fan: 0.6 * torque / speed / speed,
        bars,
        commutator: match condition {
            Condition::OpenBar => Commutator::OpenBar,
            Condition::OpenCoil => Commutator::OpenCoil,
            _ => Commutator::Whole,
        },
        uneven: 0.0,
        feed: p.between("feed", 0.01, 0.03) * resistance,
    };
    match condition {
        Condition::Jammed => m.inertia = 1e6,
        Condition::Spot => {
            m.friction = torque;
            m.fan = 0.0;
            m.uneven = p.between("spot", 0.35, 0.7);
        }
        Condition::Wiring => m.feed = p.between("bad feed", 0.35, 0.8) * resistance,
        _ => {}
    }
    let rate = 20_000.0;
    let MotorTraces { amps, volts, turns } = m.run(rate, 2.0, emf, (0.2, 1.8));
    let noise = p.between("noise", 0.5, 2.0);
    let random = &mut p.noise("probes");
    let top = 1.15 * emf / resistance;
    let source = vec![emf; amps.len()];
    let channels = vec![
        channel(
            "Motor current",
            "motor-current",
            "A",
            &amps,
            (top, 5e-4 * noise * top),
            random,
        ),
        channel(
            "Motor voltage",
            "motor-voltage",
            "V",
            &volts,
            (20.0, 0.008 * noise),
            random,
        ),
        channel(
            "Source",
            "supply-voltage",
            "V",
            &source,
            (20.0, 0.008 * noise),
            random,
        ),
    ];
    let file = "motor.csv";
    case.record(file, rate, channels, Some(EngineState::Off), None);
    case.job.unit = UnitSection {
        motor_bars: Some(bars),
        ..Default::default()
    };
    if matches!(
        condition,
        Condition::Sound | Condition::Light | Condition::OpenCoil
    ) {
        let at = |t: f64| turns[(t * rate) as usize];
        let rpm = 60.0 * (at(1.75) - at(1.5)) / 0.25;
        case.measure("motor-speed", file, "rpm", rpm, 0.01 * rpm);
    }
    match condition {
        // Under a wide brush an open coil repeats as a ripple of its own would: it may be left open, and never called sound.
        Condition::Spot | Condition::Tight | Condition::OpenCoil => case.tolerates_open(),
        _ => case,
    }
}
