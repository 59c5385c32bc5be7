//! Injectors and ignition coils.

use super::SystemCase;
use crate::params::Params;
use model::job_file::{EngineState, UnitSection};
use simulator::systems::coil::{Injector, supply};
use simulator::systems::invented::channel;

const ROLES: [&str; 4] = [
    "coil-current-1",
    "coil-current-2",
    "coil-current-3",
    "coil-current-4",
];

/// Coils of four cylinders that are switched on in turn.
struct Coils {
    name: &'static str,
    /// A sound one. Each has its own resistance, and an inductance of the same time constant.
    sound: Injector,
    /// Time constant of the winding, s.
    time: f64,
    volts: f64,
    rate: f64,
    seconds: f64,
    /// Time from one actuation of a coil to the next, and its length, s.
    cycle: (f64, f64),
    /// Range and noise of the clamps, A.
    clamps: (f64, f64),
    /// Further resistance of bad wiring, as a share of the coil's: least and most.
    wiring: (f64, f64),
    /// Values of one ohm to which the resistance in job.toml is rounded.
    steps: f64,
}

impl Coils {
    fn case(&self, p: &mut Params, cause: &str) -> SystemCase {
        let mut case = SystemCase::new("coil", cause);
        let ohm = self.sound.resistance;
        let bad = p.index("which", 4);
        let (cycle, length) = self.cycle;
        let samples = (self.seconds * self.rate) as usize;
        let random = &mut p.noise("probes");
        let mut channels = Vec::new();
        for (k, role) in ROLES.into_iter().enumerate() {
            let own = ohm * p.between("spread", 0.985, 1.015);
            let mut coil = Injector {
                resistance: own,
                inductance: self.time * own,
                ..self.sound
            };
            match cause {
                _ if k != bad => {}
                "armature-sticking" => coil.sticks = true,
                "coil-shorted-turns" => {
                    let left = p.between("turns left", 0.45, 0.7);
                    coil.resistance *= left;
                    coil.inductance *= left * left;
                }
                "coil-wiring-resistance" => {
                    coil.resistance += ohm * p.between("more", self.wiring.0, self.wiring.1);
                }
                _ => {}
            }
            let from = 0.02 + k as f64 * cycle / 4.0;
            let on = |t: f64| t >= from && (t - from).rem_euclid(cycle) < length;
            let amps = coil.run(self.rate, samples, self.volts - 0.2, on);
            let name = format!("{} {}", self.name, k + 1);
            channels.push(channel(&name, role, "A", &amps, self.clamps, random));
        }
        channels.push(supply(self.volts, samples, random));
        let engine = Some(EngineState::Running);
        case.record("idle.csv", self.rate, channels, engine, None);
        case.job.unit = UnitSection {
            coil_ohm: Some((self.steps * ohm).round() / self.steps),
            ..Default::default()
        };
        case
    }
}

pub(super) fn injectors(p: &mut Params, cause: &str) -> SystemCase {
    let volts = p.between("supply", 12.8, 14.4);
    let ohm = p.between("resistance", 11.5, 15.5);
    let time = p.between("time constant", 0.7e-3, 1.0e-3);
    let coils = Coils {
        name: "Injector",
        sound: Injector {
            resistance: ohm,
            inductance: time * ohm,
            ratio: 1.5,
            pull_in: 0.45 * volts / ohm,
            stroke_time: 0.4e-3,
            sticks: false,
            clamp: 60.0,
            limit: f64::INFINITY,
        },
        time,
        volts,
        rate: 50_000.0,
        seconds: 0.5,
        cycle: (0.12, 6.0e-3),
        clamps: (3.0, 0.003 * p.between("noise", 0.5, 2.0)),
        wiring: (0.5, 1.2),
        steps: 10.0,
    };
    coils.case(p, cause)
}

/// Ignition coils whose driver stops the current.
pub(super) fn primaries(p: &mut Params, cause: &str) -> SystemCase {
    let volts = p.between("supply", 12.6, 14.4);
    let ohm = p.between("resistance", 0.4, 0.9);
    let time = p.between("time constant", 5.0e-3, 9.0e-3);
    let coils = Coils {
        name: "Ignition coil",
        sound: Injector {
            resistance: ohm,
            inductance: time * ohm,
            ratio: 1.0,
            pull_in: f64::INFINITY,
            stroke_time: 1.0,
            sticks: true,
            clamp: 380.0,
            limit: p.between("limit", 0.3, 0.4) * volts / ohm,
        },
        time,
        volts,
        rate: p.pick("rate", &[10_000.0, 20_000.0, 50_000.0]),
        seconds: 0.45,
        cycle: (0.1, p.between("dwell", 3.2e-3, 4.5e-3)),
        clamps: (20.0, 0.02 * p.between("noise", 0.5, 2.0)),
        wiring: (1.0, 2.0),
        steps: 100.0,
    };
    let case = coils.case(p, cause);
    match cause {
        // Stopped early, a rise shows little of the wiring.
        "coil-wiring-resistance" => case.tolerates_open(),
        _ => case,
    }
}
