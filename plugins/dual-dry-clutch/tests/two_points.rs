//! Feed resistance against the worked example of two operating points: 12.55 V at 2 A and 11.75 V at 34 A are
//! 25.0 milliohm (dV/dI, by hand).

use baybrief_plugin_dual_dry_clutch::Supply;
use baybrief_recording_analyzers::{ConditionsKnown, DerivedSeries};
use plugin_sdk::testing::{Bench, channel};
use plugin_sdk::{Grade, Input, Observation, Settings};

/// The analyzer behind those that derive what it reads.
fn bench() -> Bench {
    Bench::of::<Supply>()
        .after::<DerivedSeries>()
        .after::<ConditionsKnown>()
}

const RATE: f64 = 2_000.0;

/// Current steps from 2 A to 34 A for 0.2 s, twice; voltage from a straight line through both points, or another.
fn observe(ohm: f64) -> Vec<Observation> {
    let noise = |n: usize| ((n * 7919 % 13) as f64 / 6.0 - 1.0) * 0.01;
    let amps = |n: usize| {
        let t = n as f64 / RATE;
        if (1.0..1.2).contains(&t) || (2.0..2.2).contains(&t) {
            34.0
        } else {
            2.0
        }
    };
    let i: Vec<f32> = (0..8_000).map(|n| (amps(n) + noise(n)) as f32).collect();
    let v: Vec<f32> = (0..8_000)
        .map(|n| (12.55 - ohm * (amps(n) - 2.0) + noise(n + 5)) as f32)
        .collect();
    let input = Input {
        file: "test",
        channels: vec![
            channel("supply-current", &i, RATE),
            channel("supply-voltage", &v, RATE),
        ],
        settings: Settings::default(),
    };
    bench().run(&input).unwrap()
}

#[test]
fn two_points_give_25_milliohm() {
    let o = observe(0.025);
    let r = o.iter().find(|o| o.kind == "feed-resistance").unwrap();
    let (value, u) = (r.value.unwrap(), r.uncertainty.unwrap());
    // Noise of 10 mV over 32 A and the fit's own error stay below 0.3 milliohm.
    assert!((value - 25.0).abs() < 0.3, "{value}");
    // The clamp's 1.5 % is in the uncertainty.
    assert!(u > 0.3 && u < 1.0, "{u}");
    assert_eq!(r.grade, Grade::Normal);
    let sag = o.iter().find(|o| o.kind == "supply-sag").unwrap();
    assert!((sag.value.unwrap() - 0.8).abs() < 0.02);
}

#[test]
fn a_weak_feed_is_abnormal() {
    let o = observe(0.1);
    assert!(
        o.iter()
            .any(|o| o.kind == "feed-resistance" && o.grade == Grade::Abnormal)
    );
    assert!(
        o.iter()
            .any(|o| o.kind == "supply-sag" && o.grade == Grade::Abnormal)
    );
}
