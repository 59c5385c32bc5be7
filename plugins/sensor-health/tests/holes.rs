//! Holes in a steady tooth train. How many make a fault is common practice, no source.

use baybrief_plugin_sensor_health::SensorHealth;
use plugin_sdk::testing::{channel, run};
use plugin_sdk::{Input, Observation, Settings};
use std::f64::consts::TAU;

const RATE: f64 = 10_000.0;

fn observe(holes: &[(usize, usize)]) -> Vec<Observation> {
    let mut turns = 0.0f64;
    let mut x: Vec<f32> = (0..60_000)
        .map(|n| {
            turns += 900.0 * (1.0 + 0.01 * (TAU * n as f64 / RATE).sin()) / 60.0 / RATE;
            if (turns * 24.0).fract() < 0.5 {
                4.8
            } else {
                0.3
            }
        })
        .collect();
    for &(from, to) in holes {
        x[from..to].fill(0.3);
    }
    let mut c = channel("input-shaft-1", &x, RATE);
    (c.facts.teeth, c.facts.sensor) = (Some(24), Some("hall".into()));
    run::<SensorHealth>(&Input {
        file: "test",
        channels: vec![c],
        settings: Settings::default(),
    })
    .unwrap()
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
