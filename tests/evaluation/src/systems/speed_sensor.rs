//! Wheels and the crankshaft.

use super::SystemCase;
use crate::params::Params;
use model::SensorKind;
use model::job_file::{EngineState, UnitSection};
use simulator::recorder::Recorded;
use simulator::sensor::{Coil, SpeedSensor};
use simulator::systems::invented::channel;
use simulator::traces::Rotation;
use simulator::wheel::Wheel;

/// A wheel that rolls away, holds its speed and slows down.
fn rolls(top: f64, rate: f64, seconds: f64) -> Rotation {
    let mut of = Rotation::default();
    let mut turns = 0.2;
    for i in 0..(seconds * rate) as usize {
        let t = i as f64 / rate;
        let smooth = |x: f64| x * x * (3.0 - 2.0 * x);
        let up = smooth(((t - 0.5) / 2.0).clamp(0.0, 1.0));
        let down = smooth(((seconds - 0.4 - t) / 1.5).clamp(0.0, 1.0));
        let rpm = top * up * down * (1.0 + 0.01 * (1.7 * t).sin());
        turns += rpm / 60.0 / rate;
        of.push(rpm, turns);
    }
    of
}

pub(super) fn wheels(p: &mut Params, fault: &str) -> SystemCase {
    let cause = match fault {
        "bent" => "tooth-ring-damaged",
        other => other,
    };
    let mut case = SystemCase::new("speed-sensor", cause);
    let teeth = p.pick("teeth", &[43u32, 44, 47, 48, 52]);
    let (rate, seconds) = (10_000.0, 7.0);
    let top = p.between("speed", 120.0, 260.0);
    let bad = p.index("which", 3);
    let noise = 0.003 * p.between("noise", 0.5, 2.0);
    let random = &mut p.noise("probes");
    let roles = ["wheel-speed-1", "wheel-speed-2", "wheel-speed-3"];
    let mut channels = Vec::new();
    for (k, role) in roles.into_iter().enumerate() {
        let of = rolls(top * (1.0 + 0.003 * k as f64), rate, seconds);
        let mut ring = Wheel::even(teeth, 0.5);
        let mut level = p.between("level", 1.6, 2.4);
        let mut run_out = 0.04;
        if k == bad {
            match fault {
                "bent" => ring.bend(p.index("tooth", 40) + 1, p.between("bent", 0.2, 0.3)),
                "ring-runout-high" => run_out = p.between("run-out", 0.35, 0.6),
                "tooth-ring-damaged" => ring.break_off(p.index("tooth", 40) + 1),
                "air-gap-large" => level *= p.between("gap", 0.15, 0.3),
                _ => {}
            }
        }
        let sensor = SpeedSensor {
            level,
            noise: 0.0,
            coil: Coil {
                run_out,
                ..Coil::default()
            },
            ..SpeedSensor::reluctance(teeth).with_wheel(ring)
        };
        let mut volts = sensor.signal(&of, rate, 0.0, random);
        if k == bad && fault == "sensor-dead" {
            volts.fill(0.0);
        }
        if k == bad && fault == "sensor-intermittent" {
            // A contact that opens for some teeth while the wheel turns.
            for opening in 0..5 {
                let from = ((2.6 + 0.55 * f64::from(opening)) * rate) as usize;
                let length = (p.between("open", 0.05, 0.2) * rate) as usize;
                volts[from..from + length].fill(0.0);
            }
        }
        let name = format!("Wheel {}", k + 1);
        let mut recorded = channel(&name, role, "V", &volts, (2.0, noise), random);
        recorded.section.sensor = Some(SensorKind::Vr);
        channels.push(recorded);
    }
    case.record("rolls away.csv", rate, channels, None, None);
    case.job.unit = UnitSection {
        teeth: Some(teeth),
        missing_teeth: Some(0),
        ..Default::default()
    };
    if fault == "tooth-ring-damaged" {
        case.measure("tooth-fault", "rolls away.csv", "count", 1.0, 0.1);
    }
    match fault {
        "bent" | "ring-runout-high" => case.tolerates_open(),
        _ => case,
    }
}

/// Wheels of a vehicle, one channel each, as coils before even rings see them.
fn even_wheels(p: &mut Params, rate: f64, rotations: [Rotation; 4]) -> Vec<Recorded> {
    const ROLES: [&str; 4] = [
        "wheel-speed-1",
        "wheel-speed-2",
        "wheel-speed-3",
        "wheel-speed-4",
    ];
    let teeth = p.pick("teeth", &[43u32, 44, 47, 48, 52]);
    let noise = 0.003 * p.between("noise", 0.5, 2.0);
    let random = &mut p.noise("probes");
    let one = |(of, role): (&Rotation, &'static str)| {
        let sensor = SpeedSensor {
            level: 2.0,
            noise: 0.0,
            ..SpeedSensor::reluctance(teeth)
        };
        let volts = sensor.signal(of, rate, 0.0, random);
        let mut recorded = channel(role, role, "V", &volts, (2.0, noise), random);
        recorded.section.sensor = Some(SensorKind::Vr);
        recorded.section.teeth = Some(teeth);
        recorded
    };
    rotations.iter().zip(ROLES).map(one).collect()
}

/// A vehicle on a lift in gear: the wheels of one axle turn and the others stand, and nobody can tell a dead sensor among them.
pub(super) fn lift(p: &mut Params) -> SystemCase {
    let mut case = SystemCase::undecided("speed-sensor");
    let (rate, seconds) = (10_000.0, 6.0);
    let top = p.between("speed", 90.0, 220.0);
    let driven = p.index("driven axle", 2);
    let differ = p.between("difference", 0.02, 0.1);
    let rotations = [0, 1, 2, 3].map(|k| match k / 2 == driven {
        true => rolls(top * (1.0 + differ * (k % 2) as f64), rate, seconds),
        false => rolls(0.0, rate, seconds),
    });
    let channels = even_wheels(p, rate, rotations);
    case.record("lift.csv", rate, channels, Some(EngineState::Running), None);
    case
}

/// A hard braking: one wheel locks for some tenths of a second and is freed again while the others go on.
pub(super) fn braked(p: &mut Params) -> SystemCase {
    let mut case = SystemCase::new("speed-sensor", "").tolerates_open();
    let (rate, seconds) = (10_000.0, 5.0);
    let top = p.between("speed", 180.0, 280.0);
    let wheel = p.index("wheel", 4);
    let (first, held) = (p.between("from", 1.6, 2.0), p.between("held", 0.35, 0.6));
    let rotations = [0, 1, 2, 3].map(|k| {
        let mut of = Rotation::default();
        let mut turns = 0.2;
        for i in 0..(seconds * rate) as usize {
            let t = i as f64 / rate;
            let locks = |from: f64| ((t - from) / 0.12).min((from + held - t) / 0.12);
            let locked = locks(first).max(locks(first + 1.2)).clamp(0.0, 1.0);
            let free = top * (1.0 - 0.1 * t);
            let rpm = if k == wheel {
                free * (1.0 - locked)
            } else {
                free
            };
            turns += rpm / 60.0 / rate;
            of.push(rpm, turns);
        }
        of
    });
    let channels = even_wheels(p, rate, rotations);
    case.record(
        "braking.csv",
        rate,
        channels,
        Some(EngineState::Running),
        None,
    );
    case
}

/// The coil of a crankshaft's ring with two teeth less.
pub(super) fn crank(p: &mut Params, reversed: bool) -> SystemCase {
    let cause = match reversed {
        true => "sensor-polarity-reversed",
        false => "",
    };
    let mut case = SystemCase::new("speed-sensor", cause);
    let (rate, seconds) = (20_000.0, 3.0);
    let idle = p.between("speed", 650.0, 950.0);
    let firing = p.pick("cylinders", &[3.0, 4.0, 6.0]) / 2.0;
    let mut of = Rotation::default();
    let mut turns = 0.1;
    for i in 0..(seconds * rate) as usize {
        let t = i as f64 / rate;
        // Each combustion hurries the shaft a little.
        let pulse = 0.012 * (std::f64::consts::TAU * firing * turns).cos();
        let rpm = idle * (1.0 + pulse + 0.01 * (2.3 * t).sin());
        turns += rpm / 60.0 / rate;
        of.push(rpm, turns);
    }
    let level = p.between("level", 2.0, 4.0);
    let sensor = SpeedSensor {
        level,
        noise: 0.0,
        coil: Coil {
            reversed,
            ..Coil::default()
        },
        ..SpeedSensor::reluctance(60).with_wheel(Wheel::missing(60, 2, 0.5))
    };
    let random = &mut p.noise("probes");
    let volts = sensor.signal(&of, rate, 0.0, random);
    let top = 1.2 * volts.iter().fold(0.0, |a: f64, v| a.max(v.abs()));
    let mut recorded = channel(
        "Crankshaft",
        "crank-sensor",
        "V",
        &volts,
        (top, 0.002 * top),
        random,
    );
    recorded.section.sensor = Some(SensorKind::Vr);
    let file = "idle.csv";
    case.record(file, rate, vec![recorded], Some(EngineState::Running), None);
    case.measure("tooth-pattern", file, "count", 60.0, 0.1);
    match reversed {
        true => case.tolerates_open(),
        false => case,
    }
}
