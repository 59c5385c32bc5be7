//! Starts, charging and parked vehicles.

use super::SystemCase;
use crate::params::Params;
use model::job_file::{CaptureState, EngineState, UnitSection};
use simulator::systems::invented::channel;
use simulator::systems::start_and_charge::{Alternator, Start, key_off};

pub(super) fn start(p: &mut Params, cause: &str) -> SystemCase {
    let mut case = SystemCase::new("start-and-charge", cause);
    let cylinders = p.pick("cylinders", &[4usize, 6]);
    let rating = p.between("rating", 480.0, 850.0);
    let size = rating / 720.0;
    let mut s = Start {
        emf: p.between("emf", 12.4, 12.8),
        battery: p.between("battery", 0.5, 0.8) * 4.6 / rating,
        feed: p.between("feed", 0.4e-3, 1.2e-3),
        ground: p.between("ground", 0.3e-3, 1.0e-3),
        starter: 7.5e-3 / size,
        constant: p.between("constant", 0.38, 0.46),
        friction: p.between("friction", 32.0, 50.0) * size,
        cylinders: vec![1.0; cylinders],
        ..Start::default()
    };
    for share in &mut s.cylinders {
        *share = p.between("compression", 0.95, 1.0);
    }
    match cause {
        "battery-weak" => s.battery = p.between("weak", 1.7, 2.8) * 5.45 / rating,
        "ground-resistance-high" => s.ground = p.between("bad ground", 4e-3, 14e-3),
        "feed-resistance-high" => s.feed = p.between("bad feed", 4e-3, 14e-3),
        "cylinder-low-compression" => s.cylinders[1] = p.between("weak cylinder", 0.1, 0.55),
        "starter-drag" => {
            let stall = s.constant * s.emf / (s.battery + s.feed + s.ground + s.starter);
            s.friction = p.between("held", 0.6, 0.8) * stall;
        }
        _ => {}
    }
    let rate = p.pick("rate", &[2_000.0, 5_000.0]);
    let traces = s.attempt(rate, 5.0, (0.8, 4.7));
    let noise = p.between("noise", 0.5, 2.0);
    let channels = traces.channels(noise, &mut p.noise("probes"));
    let file = "start.csv";
    case.record(file, rate, channels, Some(EngineState::Cranking), None);
    case.job.unit = UnitSection {
        battery_cca_a: Some(rating),
        cylinders: Some(cylinders as u32),
        ..Default::default()
    };
    case.measure(
        "ground-resistance",
        file,
        "ohm",
        s.ground,
        0.06 * s.ground + 1e-4,
    );
    case.measure(
        "battery-resistance",
        file,
        "ohm",
        s.battery,
        0.1 * s.battery + 2e-4,
    );
    match cause {
        "starter-drag" | "cylinder-low-compression" => case.tolerates_open(),
        _ => case,
    }
}

pub(super) fn charging(p: &mut Params, cause: &str) -> SystemCase {
    let mut case = SystemCase::new("start-and-charge", cause);
    let (poles, pulley) = (12, p.between("pulley ratio", 2.3, 3.0));
    let rpm = p.between("engine speed", 680.0, 1_100.0);
    let alternator = Alternator {
        held_v: match cause {
            "undercharging" => p.between("low", 11.7, 12.1),
            "overcharging" => p.between("high", 15.7, 17.0),
            _ => p.between("held", 13.8, 14.6),
        },
        electrical_hz: rpm / 60.0 * pulley * f64::from(poles) / 2.0,
        ripple_share: match cause {
            "undercharging" => 0.0,
            _ => p.between("ripple", 0.03, 0.08),
        },
        open_diode: cause == "alternator-phase-fault",
    };
    let rate = 20_000.0;
    let volts = alternator.voltage(rate, 2.0);
    let noise = 0.004 * p.between("noise", 0.5, 2.0);
    let random = &mut p.noise("probes");
    let volts = channel(
        "Battery voltage",
        "battery-voltage",
        "V",
        &volts,
        (20.0, noise),
        random,
    );
    let file = "charging.csv";
    case.record(file, rate, vec![volts], Some(EngineState::Running), None);
    case.job.unit = UnitSection {
        alternator_poles: Some(poles),
        pulley_ratio: Some((100.0 * pulley).round() / 100.0),
        ..Default::default()
    };
    case
}

pub(super) fn parked(p: &mut Params, drains: bool) -> SystemCase {
    let mut case = SystemCase::new(
        "start-and-charge",
        if drains { "key-off-drain" } else { "" },
    );
    let remains = match drains {
        true => p.between("drain", 0.12, 1.5),
        false => p.between("asleep", 0.01, 0.035),
    };
    let until = p.between("last stage", 300.0, 900.0);
    let stages = [
        (0.05 * until, remains + 9.0),
        (0.4 * until, remains + 3.0),
        (until, remains + 0.9),
    ];
    let amps = key_off(2.0, 3_000.0, &stages, remains);
    let random = &mut p.noise("probes");
    let amps = channel(
        "Battery current",
        "battery-current",
        "A",
        &amps,
        // What is awake hunts by more than a step of the recorder.
        (20.0, 0.012),
        random,
    );
    let file = "parked.csv";
    case.record(
        file,
        2.0,
        vec![amps],
        Some(EngineState::Off),
        Some(CaptureState::KeyOff),
    );
    // Steps of the recorder, 20 A over 2048.
    case.measure("key-off-current", file, "A", remains, 0.01 + 0.05 * remains);
    case
}
