//! Unfit recordings. The limits are common practice without a source.

use baybrief_recording_analyzers::{DerivedSeries, Plausibility, SignalQuality};
use plugin_sdk::testing::{Bench, channel};
use plugin_sdk::{Input, Observation, Settings};

const RATE: f64 = 4_000.0;

/// A feed current with one triangular pulse of 15 A at 2 s.
fn feed(seconds: f64) -> Vec<f32> {
    (0..(seconds * RATE) as usize)
        .map(|n| {
            let t = n as f64 / RATE;
            let pulse = (15.0 * (1.0 - (t - 2.0).abs() / 0.1)).max(0.0);
            (1.0 + pulse) as f32 + 0.05 * ((n * 7919 % 13) as f32 / 6.0 - 1.0)
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
    // A valve on a quiet recorder: no current, a rise to what its winding lets through, switched off at once.
    let settled: Vec<f32> = (0..x.len())
        .map(|n| match n % 2_000 {
            k @ 500..1_500 => {
                (4.0 * (1.0 - (-(k as f32 - 500.0) / 60.0).exp()) * 100.0).round() / 100.0
            }
            _ => 0.0,
        })
        .collect();
    assert_eq!(messages(&settled), Vec::<String>::new());
    assert_eq!(messages(&over), ["quality-clipped"]);
    assert_eq!(messages(&holes), ["quality-missing"]);
    assert_eq!(messages(&x[..1500]), ["quality-too-short"]);
}

/// A clamp factor of a hundredth leaves pulses of 0.15 A on 0.01 A: the scale is doubted. An idle feed without a pulse is
/// not.
#[test]
fn pulses_that_a_scale_makes_too_small_speak_against_it() {
    let doubted = |x: &[f32]| {
        let mut settings = Settings::default();
        let limit = plugin_sdk::settings::LimitValue {
            nominal: None,
            low: Some(3.0),
            high: Some(70.0),
            unit: "A".into(),
            source: "test".into(),
        };
        settings
            .limits
            .insert("plausible-pulse-supply-current".into(), limit);
        let mut c = channel("supply-current", x, RATE);
        c.facts.calibrated = true;
        let input = Input {
            file: "test",
            channels: vec![c],
            settings,
        };
        let found = Bench::of::<Plausibility>()
            .after::<DerivedSeries>()
            .run(&input);
        found.unwrap().len()
    };
    let twice: Vec<f32> = [feed(4.0), feed(4.0)].concat();
    let small: Vec<f32> = twice.iter().map(|v| v / 100.0).collect();
    let idle: Vec<f32> = (0..16_000)
        .map(|n| 0.01 + 0.0005 * ((n * 7919 % 13) as f32 / 6.0 - 1.0))
        .collect();
    assert_eq!(
        (doubted(&twice), doubted(&small), doubted(&idle)),
        (0, 1, 0)
    );
}
