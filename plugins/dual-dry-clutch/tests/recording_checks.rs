//! Recordings of the gearbox that are unfit. The limits are common practice without a source, except the sampling
//! theorem.

use baybrief_plugin_dual_dry_clutch::RecordingChecks;
use baybrief_recording_analyzers::{ConditionsKnown, DerivedSeries};
use plugin_sdk::testing::{Bench, channel, noise};
use plugin_sdk::{Input, Observation, Settings};
use std::f64::consts::TAU;

/// The analyzer behind those that derive what it reads.
fn bench() -> Bench {
    Bench::of::<RecordingChecks>()
        .after::<DerivedSeries>()
        .after::<ConditionsKnown>()
}

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
    bench()
        .run(&input)
        .unwrap()
        .into_iter()
        .map(|o: Observation| o.message)
        .collect()
}

#[test]
fn a_clamp_put_on_wrongly_is_named() {
    let x = feed(4.0);
    assert!(messages(&x).is_empty(), "{:?}", messages(&x));
    let reversed: Vec<f32> = x.iter().map(|v| -v).collect();
    let offset: Vec<f32> = x.iter().map(|v| v + 4.0).collect();
    assert_eq!(messages(&reversed), ["quality-reversed"]);
    assert_eq!(messages(&offset), ["quality-offset"]);
}

/// A coil's voltage on the feed's channel alternates; a supply's current does not, and a braked motor returns some once.
#[test]
fn a_coil_in_the_place_of_the_feed_is_named() {
    let swings = |backwards: &dyn Fn(f64) -> f64| -> Vec<f32> {
        let event = |t: f64| match (2.0..2.8).contains(&t) {
            true => 30.0 * backwards(t),
            false => 0.0,
        };
        let quiet = feed(4.0);
        (0..quiet.len())
            .map(|n| 1.0 + event(n as f64 / RATE) as f32 + (quiet[n] - 1.0) / 50.0)
            .collect()
    };
    for hz in [60.0, 200.0, 333.0] {
        // Clipped below by the sensor's input, as inputs do.
        let coil = swings(&|t| (1.5 * (TAU * hz * t).sin()).max(-0.4));
        assert!(
            messages(&coil).contains(&"attribution-feed-swings".into()),
            "{hz} Hz: {:?}",
            messages(&coil)
        );
    }
    let braked = swings(&|t| if t < 2.6 { 1.0 } else { -0.5 });
    assert!(
        !messages(&braked).contains(&"attribution-feed-swings".into()),
        "{:?}",
        messages(&braked)
    );
}

/// Sampling theorem (Shannon 1949): 55 teeth at 1100 rpm make 1008 Hz; 500 samples a second cannot show them, and
/// what they show could be any slower speed.
#[test]
fn too_few_samples_a_tooth() {
    let x: Vec<f32> = (0..4_000)
        .map(|n| {
            if (n as f64 * 21.3 / 500.0).fract() < 0.5 {
                4.8
            } else {
                0.3
            }
        })
        .collect();
    let mut c = channel("input-shaft-1", &x, 500.0);
    (c.facts.teeth, c.facts.sensor) = (Some(55), Some("hall".into()));
    let selector = plugin_sdk::settings::Stated {
        value: "P".into(),
        source: "test".into(),
    };
    let settings = Settings {
        selector: Some(selector),
        ..Settings::default()
    };
    let o = bench()
        .run(&Input {
            file: "test",
            channels: vec![c],
            settings,
        })
        .unwrap();
    assert!(
        o.iter().any(|o| o.message == "quality-could-alias"),
        "{o:?}"
    );
}

/// A current and two coils at rest in noise that passes the threshold now and then: nothing says that leads are
/// interchanged. A shaft's line that steps three times as an actuator's current does says it.
#[test]
fn noise_does_not_interchange_leads() {
    // Sums of twelve even numbers are nearly normal.
    let mut even = noise(1);
    let mut normal = || even.by_ref().take(12).sum::<f64>() as f32;
    let mut quiet: Vec<Vec<f32>> = (0..3)
        .map(|_| (0..40_000).map(|_| 0.02 * normal()).collect())
        .collect();
    let count = |channels: &[Vec<f32>], sensor: &str| {
        let roles = ["supply-current", "input-shaft-1", "input-shaft-2"];
        let channels = roles.iter().zip(channels).map(|(role, x)| {
            let mut c = channel(role, x, RATE);
            c.facts.sensor = (*role != "supply-current").then(|| sensor.into());
            c
        });
        let input = Input {
            file: "test",
            channels: channels.collect(),
            settings: Settings::default(),
        };
        let found = bench().run(&input).unwrap();
        found
            .into_iter()
            .filter(|o| o.kind == "attribution-contradicted")
            .count()
    };
    let said = |channels: &[Vec<f32>]| count(channels, "vr");
    assert_eq!(said(&quiet), 0);
    // Two attempts that rise over a twentieth of a second, as a motor does that is driven against a stop, on the line of
    // a sensor that switches within microseconds.
    let mut stalls = quiet.clone();
    for start in [8_000, 24_000] {
        for (n, v) in stalls[1][start..start + 4_000].iter_mut().enumerate() {
            *v += 30.0 * (n as f32 / 200.0).min(1.0);
        }
    }
    assert_eq!(count(&stalls, "hall"), 1);
    let mut switched = quiet.clone();
    for v in &mut switched[1][8_000..12_000] {
        *v += 5.0;
    }
    assert_eq!(count(&switched, "hall"), 0);
    // One sample each far out, as a recorder's interference is.
    quiet[1][9_000] = 0.3;
    quiet[2][21_000] = 0.3;
    assert_eq!(said(&quiet), 0);
    for start in [8_000, 16_000, 24_000, 32_000] {
        for v in &mut quiet[1][start..start + 1_600] {
            *v += 1.0;
        }
    }
    assert_eq!(said(&quiet), 1);
}

/// A switching sensor's line taken for the feed's, beside a motor's current whose winding takes a millisecond (L/R of
/// 0.3 mH and 0.3 ohm; first-order step response).
#[test]
fn a_current_that_steps_is_a_sensor() {
    let pulses = |tau_s: f64| -> Vec<f32> {
        let mut i = 0.0;
        (0..40_000)
            .map(|n| {
                let t = n as f64 / RATE;
                let target = if t > 1.0 && t.fract() < 0.2 {
                    12.0
                } else {
                    0.5
                };
                let share = if tau_s > 0.0 {
                    1.0 - (-1.0 / (RATE * tau_s)).exp()
                } else {
                    1.0
                };
                i += share * (target - i);
                i as f32 + 0.02 * ((n * 7919 % 13) as f32 / 6.0 - 1.0)
            })
            .collect()
    };
    assert!(!messages(&pulses(0.001)).contains(&"attribution-feed-steps".to_string()));
    assert!(messages(&pulses(0.0)).contains(&"attribution-feed-steps".to_string()));
}
