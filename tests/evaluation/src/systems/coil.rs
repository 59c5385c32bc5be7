//! Injectors and ignition coils.

use super::SystemCase;
use crate::params::Params;
use model::job_file::{EngineState, UnitSection};
use simulator::systems::coil::Injector;
use simulator::systems::invented::channel;

const ROLES: [&str; 4] = [
    "coil-current-1",
    "coil-current-2",
    "coil-current-3",
    "coil-current-4",
];

pub(super) fn injectors(p: &mut Params, cause: &str) -> SystemCase {
    let mut case = SystemCase::new("coil", cause);
    let volts = p.between("supply", 12.8, 14.4);
    let ohm = p.between("resistance", 11.5, 15.5);
    let time = p.between("time constant", 0.7e-3, 1.0e-3);
    let bad = p.index("which", 4);
    let (rate, cycle, length) = (50_000.0, 0.12, 6.0e-3);
    let samples = (0.5 * rate) as usize;
    let noise = 0.003 * p.between("noise", 0.5, 2.0);
    let random = &mut p.noise("probes");
    let mut channels = Vec::new();
    for (k, role) in ROLES.into_iter().enumerate() {
        let own = ohm * p.between("spread", 0.985, 1.015);
        let mut valve = Injector {
            resistance: own,
            inductance: time * own,
            ratio: 1.5,
            pull_in: 0.45 * volts / ohm,
            stroke_time: 0.4e-3,
            sticks: false,
            clamp: 60.0,
            limit: f64::INFINITY,
        };
        if k == bad {
            match cause {
                "armature-sticking" => valve.sticks = true,
                "coil-shorted-turns" => {
                    let left = p.between("turns left", 0.45, 0.7);
                    valve.resistance *= left;
                    valve.inductance *= left * left;
                }
                "coil-wiring-resistance" => {
                    valve.resistance += ohm * p.between("more", 0.5, 1.2);
                }
                _ => {}
            }
        }
        let from = 0.02 + k as f64 * cycle / 4.0;
        let on = |t: f64| t >= from && (t - from).rem_euclid(cycle) < length;
        let amps = valve.run(rate, samples, volts - 0.2, on);
        let name = format!("Injector {}", k + 1);
        channels.push(channel(&name, role, "A", &amps, (3.0, noise), random));
    }
    let supply = vec![volts; samples];
    channels.push(channel(
        "Supply",
        "supply-voltage",
        "V",
        &supply,
        (20.0, 0.02),
        random,
    ));
    case.record("idle.csv", rate, channels, Some(EngineState::Running), None);
    case.job.unit = UnitSection {
        coil_ohm: Some((10.0 * ohm).round() / 10.0),
        ..Default::default()
    };
    case
}

/// Ignition coils whose driver stops the current.
pub(super) fn primaries(p: &mut Params, cause: &str) -> SystemCase {
    let mut case = SystemCase::new("coil", cause);
    let volts = p.between("supply", 12.6, 14.4);
    let ohm = p.between("resistance", 0.4, 0.9);
    let time = p.between("time constant", 5.0e-3, 9.0e-3);
    let limit = p.between("limit", 0.3, 0.4) * volts / ohm;
    let rate = p.pick("rate", &[10_000.0, 20_000.0, 50_000.0]);
    let bad = p.index("which", 4);
    let (cycle, length) = (0.1, p.between("dwell", 3.2e-3, 4.5e-3));
    let samples = (0.45 * rate) as usize;
    let noise = 0.02 * p.between("noise", 0.5, 2.0);
    let random = &mut p.noise("probes");
    let mut channels = Vec::new();
    for (k, role) in ROLES.into_iter().enumerate() {
        let own = ohm * p.between("spread", 0.985, 1.015);
        let mut coil = Injector {
            resistance: own,
            inductance: time * own,
            ratio: 1.0,
            pull_in: f64::INFINITY,
            stroke_time: 1.0,
            sticks: true,
            clamp: 380.0,
            limit,
        };
        if k == bad {
            match cause {
                "coil-shorted-turns" => {
                    let left = p.between("turns left", 0.45, 0.7);
                    coil.resistance *= left;
                    coil.inductance *= left * left;
                }
                "coil-wiring-resistance" => coil.resistance += ohm * p.between("more", 1.0, 2.0),
                _ => {}
            }
        }
        let from = 0.02 + k as f64 * cycle / 4.0;
        let on = |t: f64| t >= from && (t - from).rem_euclid(cycle) < length;
        let amps = coil.run(rate, samples, volts - 0.2, on);
        let name = format!("Ignition coil {}", k + 1);
        channels.push(channel(&name, role, "A", &amps, (20.0, noise), random));
    }
    let supply = vec![volts; samples];
    channels.push(channel(
        "Supply",
        "supply-voltage",
        "V",
        &supply,
        (20.0, 0.02),
        random,
    ));
    case.record("idle.csv", rate, channels, Some(EngineState::Running), None);
    case.job.unit = UnitSection {
        coil_ohm: Some((100.0 * ohm).round() / 100.0),
        ..Default::default()
    };
    match cause {
        // Stopped early, a rise shows little of the wiring.
        "coil-wiring-resistance" => case.tolerates_open(),
        _ => case,
    }
}
