//! Speeds against worked examples (60 f / N): the 36-1 wheel and the 60-2 wheel at 750 rpm, where the mean edge rate
//! of 437.5 Hz (725 Hz) taken for even teeth would read 2.8 % (3.3 %) low; and the conditions under which turning is
//! taken for a dragging clutch.

use baybrief_plugin_dual_dry_clutch::ShaftMotion;
use baybrief_recording_analyzers::{ConditionsKnown, DerivedSeries};
use plugin_sdk::settings::Stated;
use plugin_sdk::testing::{Bench, channel};
use plugin_sdk::{Grade, Input, Observation, Settings};
use std::f64::consts::TAU;

/// The analyzer behind those that derive what it reads.
fn bench() -> Bench {
    Bench::of::<ShaftMotion>()
        .after::<DerivedSeries>()
        .after::<ConditionsKnown>()
}

const RATE: f64 = 20_000.0;

/// A Hall signal of a wheel that turns at `rpm` with an idling engine's wander of 1 %.
fn hall(seconds: f64, positions: u32, missing: u32, rpm: f64) -> Vec<f32> {
    let mut turns = 0.0f64;
    (0..(seconds * RATE) as usize)
        .map(|n| {
            turns += rpm * (1.0 + 0.01 * (TAU * n as f64 / RATE).sin()) / 60.0 / RATE;
            let pitch = turns.fract() * f64::from(positions);
            let tooth = pitch.fract() < 0.5 && (pitch as u32) < positions - missing;
            (if tooth { 4.8 } else { 0.3 }) + 0.02 * ((n * 7919 % 13) as f32 / 6.0 - 1.0)
        })
        .collect()
}

fn quiet(n: usize) -> Vec<f32> {
    (0..n)
        .map(|n| 1.0 + 0.02 * ((n * 7919 % 13) as f32 / 6.0 - 1.0))
        .collect()
}

/// Settings of a recording with the engine running and the selector in P.
fn parked() -> Settings {
    let stated = |value: &str| {
        Some(Stated {
            value: value.into(),
            source: "test".into(),
        })
    };
    Settings {
        selector: stated("P"),
        engine: stated("running"),
        ..Settings::default()
    }
}

fn observe(
    shaft: &[f32],
    teeth: u32,
    selector: &str,
    engine: &str,
    with_feed: bool,
) -> Vec<Observation> {
    let feed = quiet(shaft.len());
    let mut turning = channel("input-shaft-1", shaft, RATE);
    turning.facts.sensor = Some("hall".into());
    turning.facts.teeth = Some(teeth);
    let mut channels = vec![turning];
    if with_feed {
        channels.push(channel("supply-current", &feed, RATE));
    }
    let stated = |value: &str| {
        (!value.is_empty()).then(|| Stated {
            value: value.into(),
            source: "test".into(),
        })
    };
    let settings = Settings {
        selector: stated(selector),
        engine: stated(engine),
        ..Settings::default()
    };
    bench()
        .run(&Input {
            file: "test",
            channels,
            settings,
        })
        .unwrap()
}

fn message(o: &[Observation]) -> &str {
    &o.iter()
        .find(|o| o.kind.starts_with("shaft-turning"))
        .expect("a turning shaft")
        .message
}

#[test]
fn missing_teeth_do_not_bend_the_speed() {
    for (positions, missing) in [(36, 1), (60, 2)] {
        let o = observe(
            &hall(4.0, positions, missing, 750.0),
            positions,
            "D",
            "running",
            true,
        );
        let speed = o.iter().find(|o| o.kind == "shaft-speed").unwrap();
        // Half a percent: one sample over a stretch of 200.
        assert!(
            (speed.value.unwrap() - 750.0).abs() < 3.75,
            "{positions}: {:?}",
            speed.value
        );
    }
}

#[test]
fn turning_is_drag_only_under_the_guarded_conditions() {
    let x = hall(5.0, 24, 0, 400.0);
    let o = observe(&x, 24, "P", "running", true);
    assert_eq!(message(&o), "turning-at-rest");
    assert!(
        o.iter()
            .any(|o| o.kind == "shaft-turning-at-rest" && o.grade == Grade::Abnormal)
    );
    assert_eq!(
        message(&observe(&x, 24, "N", "running", true)),
        "turning-at-rest"
    );
    assert_eq!(
        message(&observe(&x, 24, "D", "running", true)),
        "turning-drives"
    );
    assert_eq!(
        message(&observe(&x, 24, "P", "off", true)),
        "turning-engine-off"
    );
    assert_eq!(
        message(&observe(&x, 24, "P", "", true)),
        "turning-conditions-unknown"
    );
    assert_eq!(
        message(&observe(&x, 24, "", "running", true)),
        "turning-conditions-unknown"
    );
    assert_eq!(
        message(&observe(&x, 24, "P", "running", false)),
        "turning-command-unknown"
    );
}

#[test]
fn a_short_turn_coasts_and_a_slow_one_creeps() {
    let mut x = hall(1.2, 24, 0, 400.0);
    x.extend(std::iter::repeat_n(0.3, (4.0 * RATE) as usize));
    // It stops from speed: that is no coasting.
    assert_eq!(
        message(&observe(&x, 24, "P", "running", true)),
        "turning-briefly"
    );
    // Without the feed nobody knows what turned it for more than a second.
    assert_eq!(
        message(&observe(&x, 24, "P", "running", false)),
        "turning-command-unknown"
    );
    let mut turns = 0.0f64;
    let coasts: Vec<f32> = (0..(5.0 * RATE) as usize)
        .map(|n| {
            let t = n as f64 / RATE;
            turns += 400.0 * (1.0 - t / 1.6).max(0.0) / 60.0 / RATE;
            if (turns * 24.0).fract() < 0.5 {
                4.8
            } else {
                0.3
            }
        })
        .collect();
    assert_eq!(
        message(&observe(&coasts, 24, "P", "running", true)),
        "turning-coasting"
    );
    assert_eq!(
        message(&observe(&hall(8.0, 60, 0, 25.0), 60, "P", "running", true)),
        "turning-slow"
    );
    let o = observe(&hall(8.0, 24, 0, 8.0), 24, "P", "running", true);
    assert_eq!(message(&o), "turning-slow");
}

/// A flat channel proves nothing; one that pulsed before proves rest, and says what it would have seen.
#[test]
fn rest_needs_proof_of_life() {
    let rest = |o: &[Observation]| -> Vec<(String, Grade)> {
        let rests = o.iter().filter(|o| o.kind == "shaft-at-rest");
        rests.map(|o| (o.message.clone(), o.grade)).collect()
    };
    let silent = [("shaft-silent".to_string(), Grade::NotTested)];
    for level in [0.0, 0.3, 5.0] {
        let flat = vec![level; (6.0 * RATE) as usize];
        assert_eq!(rest(&observe(&flat, 24, "P", "running", true)), silent);
    }
    let mut x = hall(1.0, 24, 0, 400.0);
    x.extend(std::iter::repeat_n(0.3, (4.0 * RATE) as usize));
    let o = observe(&x, 24, "P", "running", true);
    assert_eq!(rest(&o), [("shaft-at-rest".to_string(), Grade::Normal)]);
    let o = o.iter().find(|o| o.kind == "shaft-at-rest").unwrap();
    assert_eq!(o.args["alive"], "pulsed");
    // One pitch of 24 in 4 s is 0.6 rpm (by hand).
    assert!((o.args["unseen"].as_f64().unwrap() - 0.625).abs() < 0.05);
}

/// A coil's even pulses at a steady engine speed may be pick-up; an amplitude that follows the speed is a wheel's, and so
/// is one that changes once a turn of the stated wheel.
#[test]
fn a_coil_at_a_steady_engine_speed_is_unreadable() {
    // The modulation comes every so many pulses.
    let modulated =
        |rpm: &dyn Fn(f64) -> f64, follows: bool, runout: f64, pulses: f64| -> Vec<f32> {
            let mut turns = 0.0f64;
            (0..(8.0 * RATE) as usize)
                .map(|n| {
                    let t = n as f64 / RATE;
                    turns += rpm(t) / 60.0 / RATE;
                    let size = if follows { rpm(t) / 225.0 } else { 1.0 };
                    let amplitude = size * (1.0 + runout * (TAU * turns * 24.0 / pulses).cos());
                    let noise = 0.01 * ((n * 7919 % 13) as f64 / 6.0 - 1.0);
                    (amplitude * (TAU * 24.0 * turns).sin() + noise) as f32
                })
                .collect()
        };
    let coil = |rpm: &dyn Fn(f64) -> f64, follows: bool, runout: f64| {
        modulated(rpm, follows, runout, 24.0)
    };
    let judged = |x: &[f32]| {
        let feed = quiet(x.len());
        let mut shaft = channel("input-shaft-1", x, RATE);
        (shaft.facts.teeth, shaft.facts.sensor) = (Some(24), Some("vr".into()));
        let settings = parked();
        let channels = vec![shaft, channel("supply-current", &feed, RATE)];
        bench()
            .run(&Input {
                file: "test",
                channels,
                settings,
            })
            .unwrap()
    };
    let first = |x: &[f32]| judged(x)[0].message.clone();
    let wander = |t: f64| 225.0 * (1.0 + 0.01 * (TAU * 0.7 * t).sin());
    let steady = |_: f64| 225.0;
    assert_eq!(first(&coil(&steady, false, 0.05)), "turning-at-rest");
    assert_eq!(
        first(&modulated(&steady, false, 0.05, 25.0)),
        "rotation-refused-steady"
    );
    // Its amplitude stays while its rate wanders: no coil's.
    let o = judged(&coil(&wander, false, 0.05));
    assert_eq!(
        (o[0].message.as_str(), o[0].grade),
        ("rotation-refused-steady", Grade::Unreadable)
    );
    // What was measured is told all the same: the speed, if it is one.
    assert_eq!(o.len(), 2, "{o:?}");
    assert_eq!(o[1].message, "shaft-speed-if-turning");
    assert!((o[1].value.unwrap() - 225.0).abs() < 4.5, "{o:?}");
    let spins_up = |t: f64| 225.0 * (t / 1.5).min(1.0) * (1.0 + 0.01 * (TAU * 0.7 * t).sin());
    assert_eq!(first(&coil(&spins_up, true, 0.05)), "turning-at-rest");
    // An inductive coupling grows with its rate, too, but no turn of a wheel shows in it.
    assert_eq!(
        first(&coil(&spins_up, true, 0.0)),
        "rotation-refused-steady"
    );
    // Another machine's rate may rise by itself; its amplitude stays.
    let speeds_up = |t: f64| 225.0 * (1.0 + 0.8 * (t / 8.0)) * (1.0 + 0.01 * (TAU * 0.7 * t).sin());
    assert_eq!(
        first(&coil(&speeds_up, false, 0.05)),
        "rotation-refused-steady"
    );
}

/// A shaft that turns for longer than it could coast, now faster and now slower, is driven by something: neither brief nor
/// coasting. What turns it is left open.
#[test]
fn unsteady_turning_is_no_coasting() {
    let mut turns = 0.0f64;
    let x: Vec<f32> = (0..(8.0 * RATE) as usize)
        .map(|n| {
            let rpm = 200.0 - 150.0 * (TAU * 1.5 * n as f64 / RATE).cos();
            turns += rpm / 60.0 / RATE;
            let noise = 0.02 * ((n * 7919 % 13) as f32 / 6.0 - 1.0);
            noise
                + if (24.0 * turns).fract() < 0.5 {
                    4.8
                } else {
                    0.3
                }
        })
        .collect();
    assert_eq!(
        message(&observe(&x, 24, "P", "running", true)),
        "turning-unsteady"
    );
}

/// A clutch that is applied in small steps turns its shaft on purpose; the feed shows the steps just before. Currents that
/// came long before are none of its.
#[test]
fn a_clutch_may_be_applied_in_small_steps() {
    let mut shaft = hall(1.0, 24, 0, 400.0);
    shaft.extend(std::iter::repeat_n(0.3, (4.0 * RATE) as usize));
    shaft.extend(hall(4.0, 24, 0, 270.0));
    let judged = |first_s: f64| {
        let mut feed = quiet(shaft.len());
        for step in 0..4 {
            let from = ((first_s + 0.45 * f64::from(step)) * RATE) as usize;
            let length = (0.17 * RATE) as usize;
            for (k, x) in feed[from..from + length].iter_mut().enumerate() {
                *x += 6.0 * (TAU / 2.0 * k as f64 / length as f64).sin() as f32;
            }
        }
        let mut turning = channel("input-shaft-1", &shaft, RATE);
        turning.facts.sensor = Some("hall".into());
        turning.facts.teeth = Some(24);
        let channels = vec![turning, channel("supply-current", &feed, RATE)];
        let settings = parked();
        let observations = bench().run(&Input {
            file: "test",
            channels,
            settings,
        });
        let last = |o: &Observation| o.start_s.is_some_and(|t| t > 4.0);
        let mut observations = observations.unwrap().into_iter();
        let turns = observations.find(|o| o.kind.starts_with("shaft-turning") && last(o));
        turns.expect("the shaft turns").message
    };
    assert_eq!(judged(3.3), "turning-command-possible");
    assert_eq!(judged(1.4), "turning-at-rest");
}

/// Injection pulses twice a turn of the engine on a Hall sensor's line keep their number while the engine is revved up, which
/// a shaft that is dragged along does not; a turn of the shaft's wheel takes twenty of the engine's meanwhile.
#[test]
fn pulses_of_a_revved_engine_are_no_rotation() {
    let engine = |t: f64| 14.0 + 14.0 * (1.0 - (t - 4.0).abs()).max(0.0);
    let pulses = |per_second: &dyn Fn(f64) -> f64, high: f64| -> Vec<f32> {
        let mut count = 0.0f64;
        let at = |n: usize| {
            count += per_second(n as f64 / RATE) / RATE;
            let noise = 0.02 * ((n * 7919 % 13) as f64 / 6.0 - 1.0);
            (noise + if count.fract() < high { 4.8 } else { 0.3 }) as f32
        };
        (0..(9.0 * RATE) as usize).map(at).collect()
    };
    let judged = |line: &[f32]| {
        let crank = pulses(&|t| 36.0 * engine(t), 0.5);
        let feed = quiet(line.len());
        let mut channels = vec![
            channel("input-shaft-1", line, RATE),
            channel("engine-speed", &crank, RATE),
            channel("supply-current", &feed, RATE),
        ];
        for (channel, teeth) in channels.iter_mut().zip([42, 36]) {
            channel.facts.sensor = Some("hall".into());
            channel.facts.teeth = Some(teeth);
        }
        let settings = parked();
        let input = Input {
            file: "test",
            channels,
            settings,
        };
        let kinds = ["rotation-refused", "shaft-turning-at-rest"];
        let observations = bench().run(&input).unwrap();
        let first = observations
            .iter()
            .find(|o| kinds.contains(&o.kind.as_str()));
        first.expect("pulses are judged").message.clone()
    };
    assert_eq!(
        judged(&pulses(&|t| 2.0 * engine(t), 0.12)),
        "rotation-refused-steady"
    );
    let own = |t: f64| 28.0 * (1.0 + 0.01 * (TAU * 0.7 * t).sin());
    assert_eq!(judged(&pulses(&own, 0.5)), "turning-at-rest");
}

#[test]
fn a_small_copy_of_the_neighbour_is_no_rotation() {
    let big = hall(5.0, 24, 0, 400.0);
    let small: Vec<f32> = big.iter().map(|v| 0.05 * (v - 2.5)).collect();
    let feed = quiet(big.len());
    let mut one = channel("input-shaft-1", &big, RATE);
    let mut two = channel("input-shaft-2", &small, RATE);
    (one.facts.teeth, two.facts.teeth) = (Some(24), Some(24));
    let settings = parked();
    let channels = vec![one, two, channel("supply-current", &feed, RATE)];
    let o = bench()
        .run(&Input {
            file: "test",
            channels,
            settings,
        })
        .unwrap();
    let of = |kind: &str, shaft: &str| {
        o.iter()
            .any(|o| o.kind == kind && o.subject.as_deref() == Some(shaft))
    };
    assert!(
        of("rotation-refused", "input-shaft-2") && !of("shaft-turning-at-rest", "input-shaft-2")
    );
    assert!(of("shaft-turning-at-rest", "input-shaft-1"));
}

/// A load's pulse-width modulation seen on the sensor's wire and in the feed: it wanders, so it is no clock, but the
/// current alternates with it. Two independent trains of the same mean rate do not.
#[test]
fn what_follows_a_current_is_no_rotation() {
    let pwm = |seed: f64| -> Vec<bool> {
        let mut phase = 0.0f64;
        (0..(5.0 * RATE) as usize)
            .map(|n| {
                let t = n as f64 / RATE;
                phase += 160.0 * (1.0 + 0.01 * (TAU * 0.7 * t + seed).sin()) / RATE;
                phase.fract() < 0.5
            })
            .collect()
    };
    let (load, other) = (pwm(0.0), pwm(1.9));
    let wire: Vec<f32> = load.iter().map(|&on| if on { 4.6 } else { 0.4 }).collect();
    let feed = |load: &[bool]| -> Vec<f32> {
        let on = load.iter().zip(quiet(load.len()));
        on.map(|(&on, q)| q + if on { 0.5 } else { 0.0 }).collect()
    };
    let refused = |current: &[f32]| {
        let mut shaft = channel("input-shaft-1", &wire, RATE);
        (shaft.facts.teeth, shaft.facts.sensor) = (Some(24), Some("hall".into()));
        let o = bench()
            .run(&Input {
                file: "test",
                channels: vec![shaft, channel("supply-current", current, RATE)],
                settings: Settings::default(),
            })
            .unwrap();
        o.iter().any(|o| o.message == "rotation-refused-current")
    };
    assert!(refused(&feed(&load)));
    assert!(!refused(&feed(&other)));
}
