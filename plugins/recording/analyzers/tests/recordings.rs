//! Unfit recordings. The limits are common practice without a source.

use baybrief_recording_analyzers::{DerivedSeries, SignalQuality};
use plugin_sdk::testing::{Bench, channel};
use plugin_sdk::{Input, Observation, Settings};

const RATE: f64 = 4_000.0;

/// A feed current with one triangular hit of 15 A at 2 s.
fn feed(seconds: f64) -> Vec<f32> {
    (0..(seconds * RATE) as usize)
        .map(|n| {
            let t = n as f64 / RATE;
            let hit = (15.0 * (1.0 - (t - 2.0).abs() / 0.1)).max(0.0);
            (1.0 + hit) as f32 + 0.05 * ((n * 7919 % 13) as f32 / 6.0 - 1.0)
        })
        .collect()
}

fn messages(x: &[f32]) -> Vec<String> {
    let input = Input {
        file: "test",
        channels: vec![channel("supply-current", x, RATE)],
        settings: Settings::default(),
    };
    Bench::of::<SignalQuality>()
        .after::<DerivedSeries>()
        .run(&input)
        .unwrap()
        .into_iter()
        .map(|o: Observation| o.message)
        .collect()
}

#[test]
fn a_good_recording_has_no_complaint() {
    assert!(
        messages(&feed(4.0)).is_empty(),
        "{:?}",
        messages(&feed(4.0))
    );
}

#[test]
fn each_flaw_is_named() {
    let x = feed(4.0);
    let clipped: Vec<f32> = x.iter().map(|v| v.min(10.0)).collect();
    let over: Vec<f32> = x
        .iter()
        .map(|v| if *v > 10.0 { f32::INFINITY } else { *v })
        .collect();
    let holes: Vec<f32> = x
        .iter()
        .enumerate()
        .map(|(n, v)| if n % 20 == 0 { f32::NAN } else { *v })
        .collect();
    assert_eq!(messages(&clipped), ["quality-clipped"]);
    assert_eq!(messages(&over), ["quality-clipped"]);
    assert_eq!(messages(&holes), ["quality-missing"]);
    assert_eq!(messages(&x[..1500]), ["quality-too-short"]);
}
