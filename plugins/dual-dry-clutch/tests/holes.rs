//! Holes in a steady tooth train. How many make a fault is common practice, no source.

use baybrief_plugin_dual_dry_clutch::SensorHealth;
use baybrief_recording_analyzers::{ConditionsKnown, DerivedSeries};
use plugin_sdk::settings::Stated;
use plugin_sdk::testing::{Bench, channel};
use plugin_sdk::{Grade, Input, Observation, Settings};
use std::f64::consts::TAU;

/// The analyzer behind those that derive what it reads.
fn bench() -> Bench {
    Bench::of::<SensorHealth>()
        .after::<DerivedSeries>()
        .after::<ConditionsKnown>()
}

const RATE: f64 = 10_000.0;

/// Six seconds of a Hall signal of 24 positions at 900 rpm with an engine's wander; `tooth` gives the level at a place
/// on the wheel, in pitches.
fn train(tooth: impl Fn(f64) -> bool) -> Vec<f32> {
    let mut turns = 0.0f64;
    (0..60_000)
        .map(|n| {
            turns += 900.0 * (1.0 + 0.01 * (TAU * n as f64 / RATE).sin()) / 60.0 / RATE;
            if tooth(turns.fract() * 24.0) {
                4.8
            } else {
                0.3
            }
        })
        .collect()
}

fn even(place: f64) -> bool {
    place.fract() < 0.5
}

fn seen(x: &[f32], missing_teeth: Option<u32>) -> Vec<Observation> {
    let mut c = channel("input-shaft-1", x, RATE);
    (c.facts.teeth, c.facts.sensor) = (Some(24), Some("hall".into()));
    c.facts.missing_teeth = missing_teeth;
    bench()
        .run(&Input {
            file: "test",
            channels: vec![c],
            settings: Settings::default(),
        })
        .unwrap()
}

fn observe(holes: &[(usize, usize)]) -> Vec<Observation> {
    let mut x = train(even);
    for &(from, to) in holes {
        x[from..to].fill(0.3);
    }
    seen(&x, None)
}

#[test]
fn holes_are_counted_and_measured() {
    let o = observe(&[(10_000, 12_000), (30_000, 31_000), (45_000, 46_500)]);
    assert_eq!(o.len(), 1, "{o:?}");
    assert_eq!(
        (o[0].message.as_str(), o[0].value),
        ("sensor-dropouts", Some(3.0))
    );
    // 0.2 + 0.1 + 0.15 s, each up to a tooth (2.8 ms) longer at either end.
    assert!((o[0].args["lost_s"].as_f64().unwrap() - 0.45).abs() < 0.02);
}

#[test]
fn one_hole_or_none_is_no_fault() {
    assert!(observe(&[]).is_empty());
    assert!(observe(&[(10_000, 12_000)]).is_empty());
}

/// A line that stands above both of its levels in the holes has lost its load or its ground.
#[test]
fn a_contact_that_opens() {
    let mut x = train(even);
    for (from, to) in [(10_000, 12_000), (30_000, 31_000), (45_000, 46_500)] {
        x[from..to].fill(8.1);
    }
    // A recorder's noise.
    for (n, v) in x.iter_mut().enumerate() {
        *v += 0.02 * ((n * 7919 % 13) as f32 / 6.0 - 1.0);
    }
    let o = seen(&x, None);
    assert_eq!(o[0].message, "sensor-contact", "{o:?}");
}

#[test]
fn a_broken_tooth_on_a_wheel_that_is_said_to_be_whole() {
    let x = train(|p| even(p) && p as u32 != 7);
    let o = seen(&x, Some(0));
    assert_eq!(
        (o[0].message.as_str(), o[0].value, o[0].grade),
        ("sensor-missing-teeth", Some(1.0), Grade::Abnormal)
    );
    // Where nobody says whether the wheel has a gap of its own, it is only told.
    let o = seen(&x, None);
    assert_eq!(
        (o[0].message.as_str(), o[0].grade),
        ("tooth-wheel-gap", Grade::Normal)
    );
    assert!(seen(&x, Some(1)).is_empty());
}

/// One edge more a turn, at the same place: a notch, or a wheel that is made so (12 plus 1). Nothing in the train tells
/// the two apart, so it is told and no fault.
#[test]
fn a_tooth_that_counts_twice_is_told() {
    let x = train(|p| even(p) && !(p as u32 == 7 && (0.15..0.35).contains(&p.fract())));
    let o = seen(&x, Some(0));
    let told: Vec<_> = o.iter().map(|o| (o.message.as_str(), o.grade)).collect();
    assert_eq!(told, [("tooth-wheel-extra", Grade::Normal)], "{o:?}");
}

/// A healthy coil that fades as its shaft slows down, 24 teeth, amplitude proportional to speed (Faraday): no fault.
#[test]
fn a_coil_that_fades_is_no_fault() {
    let mut turns = 0.0f64;
    let x: Vec<f32> = (0..60_000)
        .map(|n| {
            let t = n as f64 / RATE;
            let rpm = 900.0 * (-t / 1.2).exp();
            turns += rpm / 60.0 / RATE;
            let noise = 0.03 * ((n * 7919 % 13) as f64 / 6.0 - 1.0);
            (0.004 * rpm * (TAU * 24.0 * turns).sin() + noise) as f32
        })
        .collect();
    let mut c = channel("input-shaft-1", &x, RATE);
    (c.facts.teeth, c.facts.sensor) = (Some(24), Some("vr".into()));
    let o = bench()
        .run(&Input {
            file: "test",
            channels: vec![c],
            settings: Settings::default(),
        })
        .unwrap();
    assert!(o.iter().all(|o| o.kind != "sensor-fault"), "{o:?}");
}

/// One twelfth of the neighbour's signal on the wire of a coil at rest.
#[test]
fn pick_up_between_the_wires() {
    let big = train(even);
    let small: Vec<f32> = big
        .iter()
        .enumerate()
        .map(|(n, v)| (v - 2.55) / 12.0 + 0.3 * ((n * 7919 % 13) as f32 / 6.0 - 1.0))
        .collect();
    let (mut one, mut two) = (
        channel("input-shaft-1", &small, RATE),
        channel("input-shaft-2", &big, RATE),
    );
    (one.facts.teeth, one.facts.sensor) = (Some(24), Some("hall".into()));
    (two.facts.teeth, two.facts.sensor) = (Some(24), Some("hall".into()));
    let o = bench()
        .run(&Input {
            file: "test",
            channels: vec![one, two],
            settings: Settings::default(),
        })
        .unwrap();
    let x = o.iter().find(|o| o.kind == "crosstalk").expect("pick-up");
    assert_eq!(x.subject.as_deref(), Some("input-shaft-1"));
    assert_eq!(x.args["from"], "input-shaft-2");
    assert!(x.value.unwrap() > 0.85);
}

/// Pauses of pulses that may be picked up from engine or alternator are none of the sensor.
#[test]
fn pauses_of_a_pick_up_are_no_holes() {
    let wave = |n: usize| {
        let t = n as f64 / RATE;
        let hum = (TAU * (360.0 * t + 0.5 * (TAU * t).sin())).sin();
        (hum + 0.01 * ((n * 7919 % 13) as f64 / 6.0 - 1.0)) as f32
    };
    let mut x: Vec<f32> = (0..60_000).map(wave).collect();
    for from in [10_000, 30_000, 45_000] {
        x[from..from + 500].fill(0.0);
    }
    let stated = |value: &str| {
        Some(Stated {
            value: value.into(),
            source: "test".into(),
        })
    };
    let faults = |selector: &str| {
        let mut c = channel("input-shaft-1", &x, RATE);
        (c.facts.teeth, c.facts.sensor) = (Some(24), Some("vr".into()));
        let settings = Settings {
            selector: stated(selector),
            engine: stated("running"),
            ..Settings::default()
        };
        let observations = bench().run(&Input {
            file: "test",
            channels: vec![c],
            settings,
        });
        let all = observations.unwrap();
        all.iter().filter(|o| o.kind == "sensor-fault").count()
    };
    assert_eq!((faults("P"), faults("D")), (0, 1));
}
