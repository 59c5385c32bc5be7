//! Ripple of a three-phase alternator against the closed form and against a model of its rectifier.
//!
//! An ideal six-diode bridge leaves at order n = 6 k the share 2 / (n^2 - 1) of its mean (Fourier series of the
//! six-pulse wave; Mohan, Undeland, Robbins: Power Electronics, from memory). The shares with a diode or a phase open
//! are those of a Fourier transform of the same wave without the conduction that is missing (NumPy 2.4.6).

use baybrief_plugin_start_and_charge::AlternatorRipple;
use baybrief_plugin_start_and_charge::measure::alternator::{Known, Phases, Ripple, phases};
use baybrief_recording_analyzers::DerivedSeries;
use plugin_sdk::signal::Measured;
use plugin_sdk::signal::orders::order;
use plugin_sdk::testing::{Bench, find, input, near, noise, observe, settings};
use plugin_sdk::{Grade, Observation};
use std::f64::consts::{PI, TAU};

#[derive(Clone, Copy, Debug, PartialEq)]
enum Fault {
    None,
    DiodeOpen,
    PhaseOpen,
    DiodeShorted,
}

/// Output of the bridge at an electrical angle, in units of the line voltage's peak.
fn bridge(angle: f64, fault: Fault) -> f64 {
    let phase = |k: f64| (angle - TAU * k / 3.0).cos() / 3f64.sqrt();
    let phases = [phase(0.0), phase(1.0), phase(2.0)];
    let from = |k: usize, open: bool| {
        if open && k == 0 {
            None
        } else {
            Some(phases[k])
        }
    };
    let top_open = matches!(fault, Fault::DiodeOpen | Fault::PhaseOpen);
    let top = (0..3)
        .filter_map(|k| from(k, top_open))
        .fold(f64::NEG_INFINITY, f64::max);
    let bottom = (0..3)
        .filter_map(|k| from(k, fault == Fault::PhaseOpen))
        .fold(f64::INFINITY, f64::min);
    let top = match fault {
        // The shorted diode ties its phase to the rail; another one that is higher shares with it through like windings.
        Fault::DiodeShorted if top > phases[0] => (top + phases[0]) / 2.0,
        Fault::DiodeShorted => phases[0],
        _ => top,
    };
    (top - bottom).max(0.0)
}

#[test]
fn orders_of_the_ideal_bridge() {
    let turns: Vec<f64> = (0..72_000).map(|i| f64::from(i) / 720.0).collect();
    let turns = &turns;
    let shares = |fault: Fault| {
        let x: Vec<f64> = turns.iter().map(|t| bridge(TAU * t, fault)).collect();
        let mean = x.iter().sum::<f64>() / x.len() as f64;
        move |n: f64| 100.0 * order(&x, turns, n).amplitude() / mean
    };
    let whole = shares(Fault::None);
    for n in [6.0f64, 12.0, 18.0] {
        assert!(
            (whole(n) - 200.0 / (n * n - 1.0)).abs() < 0.01,
            "order {n}: {}",
            whole(n)
        );
    }
    for n in [1.0, 2.0, 3.0, 4.0, 5.0] {
        assert!(whole(n) < 0.01);
    }
    let diode = shares(Fault::DiodeOpen);
    for (n, expected) in [
        (1.0, 36.28),
        (2.0, 26.67),
        (3.0, 15.0),
        (4.0, 5.33),
        (5.0, 0.0),
        (6.0, 5.71),
    ] {
        assert!(
            (diode(n) - expected).abs() < 0.02,
            "order {n}: {}",
            diode(n)
        );
    }
    let phase = shares(Fault::PhaseOpen);
    for (n, expected) in [
        (1.0, 0.0),
        (2.0, 66.67),
        (3.0, 0.0),
        (4.0, 13.33),
        (6.0, 5.714),
    ] {
        assert!(
            (phase(n) - expected).abs() < 0.02,
            "order {n}: {}",
            phase(n)
        );
    }
}

const RATE: f64 = 10_000.0;
const PAIRS: f64 = 6.0;
const PULLEY: f64 = 2.5;

/// Battery voltage with the engine at `rpm`, which wanders by half a percent and falters at its firing order; the
/// battery passes current only above a share of the peak, through its resistance and the inductance of its cable.
fn record(fault: Fault, rpm: f64, conducts: f64, seconds: f64) -> (Vec<f32>, Vec<f32>) {
    let (mut angle, mut engine, mut level) = (0.0, 0.0, 0.0);
    let inside = 20;
    let step = 1.0 / RATE / f64::from(inside);
    let keep = 1.0 - (-step * TAU * 2_000.0).exp();
    let mut noises = noise(11);
    let mut sensor = Vec::new();
    let volts = (0..(seconds * RATE) as usize)
        .map(|i| {
            let t = i as f64 / RATE;
            let wander = 1.0 + 0.005 * (TAU * 0.7 * t).sin() + 0.004 * (TAU * rpm / 30.0 * t).sin();
            for _ in 0..inside {
                let hz = rpm / 60.0 * wander;
                engine += hz * step;
                angle += TAU * hz * PULLEY * PAIRS * step;
                let current = 300.0 * (bridge(angle, fault) - conducts).max(0.0);
                level += keep * (0.004 * current - level);
            }
            sensor.push(if (engine * 60.0).fract() < 0.5 {
                4.8
            } else {
                0.2
            });
            (14.0 + level + 0.004 * noises.next().unwrap_or(0.0)) as f32
        })
        .collect();
    (volts, sensor)
}

fn judged(
    fault: Fault,
    rpm: f64,
    conducts: f64,
    facts: &[(&str, f64)],
    with_engine: bool,
) -> Observation {
    let (volts, sensor) = record(fault, rpm, conducts, 1.5);
    let mut channels = vec![("battery-voltage", &volts[..])];
    if with_engine {
        channels.push(("engine-speed", &sensor[..]));
    }
    let mut input = input(&channels, RATE, settings("running", facts));
    for c in input
        .channels
        .iter_mut()
        .filter(|c| c.role == "engine-speed")
    {
        c.facts.teeth = Some(60);
        c.facts.sensor = Some("hall".into());
    }
    let bench = Bench::of::<AlternatorRipple>().after::<DerivedSeries>();
    find(&bench.run(&input).expect("observations"), "ripple").clone()
}

const FACTS: [(&str, f64); 2] = [("alternator_poles", 2.0 * PAIRS), ("pulley_ratio", PULLEY)];

#[test]
fn at_idle_each_fault_is_told_from_whole_phases() {
    for conducts in [0.7, 0.8] {
        for (facts, with_engine) in [
            (&FACTS[..], true),
            (&FACTS[..], false),
            (&[][..], true),
            (&[][..], false),
        ] {
            for fault in [Fault::DiodeOpen, Fault::PhaseOpen, Fault::DiodeShorted] {
                let o = judged(fault, 780.0, conducts, facts, with_engine);
                assert_eq!(
                    o.grade,
                    Grade::Abnormal,
                    "{fault:?} {facts:?} {with_engine}: {o:?}"
                );
                assert_eq!(o.args["order_missing"], true);
            }
            let o = judged(Fault::None, 780.0, conducts, facts, with_engine);
            assert_ne!(o.grade, Grade::Abnormal, "{o:?}");
            if with_engine {
                assert_eq!(o.args["order_missing"], false, "{o:?}");
            }
        }
    }
}

#[test]
fn the_rate_of_the_ripple_is_six_times_the_electrical_one() {
    // 780 rpm: 13 turns a second, times 2.5 and 6 pairs, times 6.
    let o = judged(Fault::None, 780.0, 0.8, &FACTS, true);
    let hz = o.args["hz"].as_f64().expect("a rate");
    assert!((hz - 1_170.0).abs() < 12.0, "{hz}");
}

/// A shorted diode at 1005 rpm, 16 poles, 3.05 turns of the alternator: 408.7 Hz electrical. Its strongest line is the third of
/// that, and lines of a wandering speed between make the ripple seem to repeat at the half of it.
#[test]
fn lines_of_a_wandering_speed_do_not_hide_a_diode() {
    let seen = Ripple {
        hz: 205.0,
        strongest_hz: 1_230.0,
        peak_to_peak: Measured {
            value: 1.14,
            uncertainty: 0.03,
            from_s: 0.0,
            to_s: 1.0,
        },
        sub_harmonic: 0.9,
        overtones: 1.5,
        clear: 6,
        clockwork: false,
        sampled_hz: 50_000.0,
    };
    let known = Known {
        engine_hz: Some(1_005.0 / 60.0),
        pole_pairs: Some(8.0),
        pulley_ratio: Some(3.05),
        batteries: 1.0,
    };
    assert_eq!(phases(&seen, &known), Phases::Unequal);
}

#[test]
fn at_raised_speed_and_without_the_engine_a_lone_line_is_not_decided() {
    // 2 f at 2,000 rpm is where 6 f lies at 667 rpm.
    let o = judged(Fault::PhaseOpen, 2_000.0, 0.8, &[], false);
    assert_ne!(o.message, "ripple-even", "{o:?}");
    let o = judged(Fault::PhaseOpen, 1_500.0, 0.8, &FACTS, true);
    assert_ne!(o.message, "ripple-even", "{o:?}");
}

#[test]
fn height_of_a_known_ripple() {
    // A sine of 0.2 V that wanders: 0.4 V peak to peak (definition).
    let mut turn = 0.0;
    let volts: Vec<f32> = (0..20_000)
        .zip(noise(3))
        .map(|(i, n)| {
            let t = f64::from(i) / RATE;
            turn += 1_300.0 * (1.0 + 0.006 * (TAU * 0.9 * t).sin()) / RATE;
            (14.1 + 0.2 * (TAU * turn).sin() + 0.02 * n) as f32
        })
        .collect();
    let input = input(
        &[("battery-voltage", &volts)],
        RATE,
        settings("running", &[]),
    );
    near(
        find(&observe::<AlternatorRipple>(&input), "ripple"),
        0.4,
        0.02,
    );
}

#[test]
fn a_load_that_is_switched_electronically_is_no_alternator() {
    // 170 pulses a second with a soft edge beside a whole alternator's ripple: the pulses alone look like a fault.
    let (mut volts, _) = record(Fault::None, 800.0, 0.8, 1.5);
    for (i, v) in volts.iter_mut().enumerate() {
        let t = (i as f64 / RATE * 170.0).fract();
        let pulse = if t < 0.4 {
            1.0 - (-t / 0.05).exp()
        } else {
            (-(t - 0.4) / 0.05).exp()
        };
        *v -= 0.3 * pulse as f32;
    }
    let input = input(
        &[("battery-voltage", &volts)],
        RATE,
        settings("running", &FACTS),
    );
    let o = find(&observe::<AlternatorRipple>(&input), "ripple").clone();
    assert_ne!(o.grade, Grade::Abnormal, "{o:?}");
}

#[test]
fn what_carries_no_ripple_says_what_would_have_been_seen() {
    let volts: Vec<f32> = noise(5)
        .take(20_000)
        .map(|n| (12.5 + 0.01 * n) as f32)
        .collect();
    let record = |volts: &[f32]| {
        observe::<AlternatorRipple>(&input(
            &[("battery-voltage", volts)],
            RATE,
            settings("running", &[]),
        ))
    };
    let all = record(&volts);
    let o = find(&all, "ripple");
    assert_eq!(
        (o.message.as_str(), o.grade),
        ("ripple-none", Grade::Unusable)
    );
    let least = o.args["least_v"].as_f64().expect("a height");
    // A sine of this height is seen.
    assert!(least > 0.0 && least < 0.01, "{least}");
    let louder: Vec<f32> = volts
        .iter()
        .enumerate()
        .map(|(i, v)| v + (least / 2.0 * (2.0 * PI * 700.3 * i as f64 / RATE).sin()) as f32)
        .collect();
    assert_ne!(find(&record(&louder), "ripple").message, "ripple-none");
}

/// Two batteries in a row have twice the resistance, and the same alternator current leaves twice the ripple on them.
#[test]
fn ripple_of_two_batteries_is_judged_as_that_of_one() {
    let judged = |batteries: f32, fault: Fault| {
        let (volts, _) = record(fault, 780.0, 0.8, 1.5);
        let volts: Vec<f32> = volts.iter().map(|v| batteries * v).collect();
        let input = input(
            &[("battery-voltage", &volts[..])],
            RATE,
            settings("running", &FACTS),
        );
        let bench = Bench::of::<AlternatorRipple>().after::<DerivedSeries>();
        find(&bench.run(&input).expect("observations"), "ripple").clone()
    };
    for fault in [Fault::None, Fault::DiodeOpen, Fault::PhaseOpen] {
        let (one, two) = (judged(1.0, fault), judged(2.0, fault));
        assert_eq!(
            (one.message, one.grade),
            (two.message, two.grade),
            "{fault:?}"
        );
    }
}

/// A current that was named a voltage by mistake tells nothing of an alternator, whatever ripple it has.
#[test]
fn a_voltage_that_no_battery_has_is_not_judged() {
    for (factor, offset) in [(40.0, -560.0), (10.0, 0.0), (1.0, -14.0)] {
        let (volts, _) = record(Fault::DiodeOpen, 780.0, 0.8, 1.5);
        let odd: Vec<f32> = volts.iter().map(|v| factor * v + offset).collect();
        let input = input(
            &[("battery-voltage", &odd[..])],
            RATE,
            settings("running", &FACTS),
        );
        let bench = Bench::of::<AlternatorRipple>().after::<DerivedSeries>();
        assert_eq!(bench.run(&input).expect("observations"), []);
    }
}
