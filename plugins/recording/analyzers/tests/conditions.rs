//! Conditions read from recordings. Levels are the trade's: a full battery at rest 12.65 V (BCI figures by a
//! third-party copy), charging 13.5 to 14.8 V (common practice, no source). Weights and their sums are judgement; what
//! is checked is which way they lean and where they do not carry an answer.

use baybrief_recording_analyzers::{ConditionsKnown, DerivedSeries};
use plugin_sdk::settings::Stated;
use plugin_sdk::testing::{Bench, channel, noise};
use plugin_sdk::{Input, Observation, Settings};

const RATE: f64 = 2_000.0;

/// Six seconds of supply voltage: `level` of time, with ripple of `ripple` V at 310 Hz and a recorder's noise.
fn volts(level: impl Fn(f64) -> f64, ripple: f64) -> Vec<f32> {
    (0..12_000)
        .zip(noise(11))
        .map(|(i, noise)| {
            let t = i as f64 / RATE;
            (level(t) + ripple * (std::f64::consts::TAU * 310.0 * t).sin() + 0.02 * noise) as f32
        })
        .collect()
}

fn observe(x: &[f32], stated: Option<&str>) -> Vec<Observation> {
    let bench = Bench::of::<ConditionsKnown>().after::<DerivedSeries>();
    let input = Input {
        file: "test",
        channels: vec![channel("supply-voltage", x, RATE)],
        settings: Settings {
            engine: stated.map(|value| Stated {
                value: value.into(),
                source: "job.toml".into(),
            }),
            ..Settings::default()
        },
    };
    bench.run(&input).unwrap()
}

fn engine(all: &[Observation]) -> Vec<&Observation> {
    all.iter()
        .filter(|o| o.kind == "condition-engine")
        .collect()
}

#[test]
fn a_start_in_the_recording() {
    let x = volts(
        |t| match t {
            t if t < 1.0 => 12.6,
            t if t < 1.8 => 9.9,
            t => 14.2 - 1.6 * (-(t - 1.8) / 0.3f64).exp(),
        },
        0.0,
    );
    let all = observe(&x, None);
    let states: Vec<&str> = engine(&all).iter().map(|o| o.message.as_str()).collect();
    assert_eq!(
        states,
        [
            "condition-engine-not-running",
            "condition-engine-cranking",
            "condition-engine-running"
        ]
    );
    let cranking = engine(&all)[1];
    assert!((cranking.start_s.unwrap() - 1.0).abs() < 0.08);
    assert!((cranking.end_s.unwrap() - 1.8).abs() < 0.2);
}

/// A battery charger holds the voltage up as an alternator does: that alone is no running engine.
#[test]
fn a_charged_supply_alone_does_not_tell() {
    let all = observe(&volts(|_| 13.9, 0.0), None);
    let e = engine(&all);
    assert_eq!(e.len(), 1);
    assert_eq!(e[0].message, "condition-engine-unknown");
    // 10 dB from even odds are 10/11.
    assert!((e[0].value.unwrap() - 10.0 / 11.0).abs() < 1e-6);
}

#[test]
fn rectifier_ripple_tells_an_alternator_from_a_charger() {
    let all = observe(&volts(|_| 13.9, 0.04), None);
    assert_eq!(engine(&all)[0].message, "condition-engine-running");
    assert_eq!(engine(&all)[0].args["agree"], 1);
}

#[test]
fn a_statement_is_held_against_the_recording() {
    let all = observe(&volts(|_| 12.5, 0.0), Some("running"));
    assert_eq!(engine(&all)[0].message, "condition-engine-unknown");
    assert!(all.iter().any(|o| o.message == "engine-contradicted"));
    let all = observe(&volts(|_| 14.1, 0.0), Some("running"));
    assert_eq!(engine(&all)[0].message, "condition-engine-running");
    assert_eq!(engine(&all)[0].args["basis"], "stated");
    assert!(!all.iter().any(|o| o.message == "engine-contradicted"));
}

#[test]
fn what_nobody_says_is_not_known() {
    let all = observe(&volts(|_| 13.1, 0.0), None);
    assert_eq!(engine(&all)[0].message, "condition-engine-unknown");
    assert_eq!(engine(&all)[0].value, Some(0.5));
}

/// Six seconds of an engine's own sensor: a Hall signal of 20 teeth at a speed that depends on time, rpm.
fn crank(rpm: impl Fn(f64) -> f64) -> Vec<f32> {
    let rate = 10_000.0;
    let mut turns = 0.0f64;
    (0..60_000)
        .map(|n| {
            let t = n as f64 / rate;
            turns += rpm(t) * (1.0 + 0.01 * (5.0 * t).sin()) / 60.0 / rate;
            let level = if (turns * 20.0).fract() < 0.5 {
                4.8
            } else {
                0.3
            };
            level + 0.01 * ((n * 7919 % 13) as f32 / 6.0 - 1.0)
        })
        .collect()
}

fn states(x: &[f32], teeth: Option<u32>) -> Vec<String> {
    let mut sensor = channel("engine-speed", x, 10_000.0);
    (sensor.facts.teeth, sensor.facts.sensor) = (teeth, Some("hall".into()));
    let input = Input {
        file: "test",
        channels: vec![sensor],
        settings: Settings::default(),
    };
    let bench = Bench::of::<ConditionsKnown>().after::<DerivedSeries>();
    let all = bench.run(&input).unwrap();
    engine(&all).iter().map(|o| o.message.clone()).collect()
}

#[test]
fn the_engines_own_sensor_tells_cranking_from_running() {
    let start = |t: f64| match t {
        t if t < 1.0 => 0.0,
        t if t < 3.0 => 220.0,
        _ => 850.0,
    };
    let mut told = states(&crank(start), Some(20));
    // On its way from the one to the other it is neither.
    told.retain(|state| state != "condition-engine-unknown");
    assert_eq!(
        told,
        [
            "condition-engine-not-running",
            "condition-engine-cranking",
            "condition-engine-running"
        ]
    );
    // Between a starter's speed and an idle it may be either.
    assert_eq!(
        states(&crank(|_| 400.0), Some(20)),
        ["condition-engine-unknown"]
    );
}

/// A flat channel and one that cannot be read say nothing of the engine; nor does a speed that is not known.
#[test]
fn a_sensor_that_proves_nothing_says_nothing() {
    let unknown = ["condition-engine-unknown"];
    assert_eq!(states(&[0.0; 60_000], Some(20)), unknown);
    assert_eq!(states(&[5.0; 60_000], Some(20)), unknown);
    let mut s = 5u64;
    let data: Vec<f32> = (0..60_000)
        .map(|_| {
            s = s
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            if s >> 63 == 1 { 4.8 } else { 0.3 }
        })
        .collect();
    assert_eq!(states(&data, Some(20)), unknown);
    assert_eq!(states(&crank(|_| 850.0), None), unknown);
}
