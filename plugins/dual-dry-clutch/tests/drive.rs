//! Ratios and slip against textbook arithmetic: 2000/500 rpm is a ratio of 4.000; an engine at 2000 rpm over a shaft
//! at 1500 rpm slips by 500 rpm, 25 % of the engine's speed.

use baybrief_plugin_dual_dry_clutch::GearTrain;
use baybrief_recording_analyzers::{ConditionsKnown, DerivedSeries};
use plugin_sdk::testing::{Bench, channel};
use plugin_sdk::{ChannelView, Grade, Input, Observation, Settings};
use serde_json::json;

/// The analyzer behind those that derive what it reads.
fn bench() -> Bench {
    Bench::of::<GearTrain>()
        .after::<DerivedSeries>()
        .after::<ConditionsKnown>()
}

const RATE: f64 = 10_000.0;
const TEETH: u32 = 20;

/// A Hall signal of 20 teeth at a speed that depends on time, rpm.
fn hall(seconds: f64, rpm: impl Fn(f64) -> f64) -> Vec<f32> {
    let mut turns = 0.0f64;
    (0..(seconds * RATE) as usize)
        .map(|n| {
            turns += rpm(n as f64 / RATE) / 60.0 / RATE;
            if (turns * f64::from(TEETH)).fract() < 0.5 {
                4.8
            } else {
                0.3
            }
        })
        .collect()
}

fn shaft<'a>(role: &'a str, x: &'a [f32]) -> ChannelView<'a> {
    let mut c = channel(role, x, RATE);
    (c.facts.teeth, c.facts.sensor) = (Some(TEETH), Some("hall".into()));
    c
}

/// Output 300 to 700 rpm in 8 s; first input shaft 4 times, second 2.5 times as fast. The engine goes from the first to
/// the second between 3.9 and 4.2 s, and stays `slip` above it.
fn drive(slip: f64) -> Vec<Observation> {
    drive_with(slip, Settings::default())
}

fn drive_with(slip: f64, settings: Settings) -> Vec<Observation> {
    let out = |t: f64| 300.0 + 50.0 * t;
    let engine = move |t: f64| match t {
        t if t < 3.9 => 4.0 * out(t),
        t if t < 4.2 => 4.0 * out(t) + (t - 3.9) / 0.3 * (2.5 * out(t) - 4.0 * out(t)),
        t => 2.5 * out(t) + slip * ((t - 4.2) / 0.4).min(1.0),
    };
    let (a, b) = (hall(8.0, |t| 4.0 * out(t)), hall(8.0, |t| 2.5 * out(t)));
    let (o, e) = (hall(8.0, out), hall(8.0, engine));
    let channels = vec![
        shaft("input-shaft-1", &a),
        shaft("input-shaft-2", &b),
        shaft("output-shaft", &o),
        shaft("engine-speed", &e),
    ];
    bench()
        .run(&Input {
            file: "test",
            channels,
            settings,
        })
        .unwrap()
}

#[test]
fn ratios_and_the_shift() {
    let o = drive(0.0);
    let ratio = |role: &str| {
        o.iter()
            .find(|o| o.kind == "gear-ratio" && o.subject.as_deref() == Some(role))
            .and_then(|o| o.value)
            .unwrap()
    };
    assert!((ratio("input-shaft-1") - 4.0).abs() < 0.01);
    assert!((ratio("input-shaft-2") - 2.5).abs() < 0.01);
    let shifts: Vec<_> = o.iter().filter(|o| o.kind == "shift").collect();
    assert_eq!(shifts.len(), 1, "{o:?}");
    // The grid is 20 ms, speeds are counted over 80 ms, the end lies 5 % before the other shaft's speed.
    assert!((shifts[0].start_s.unwrap() - 3.9).abs() < 0.1);
    assert!((shifts[0].end_s.unwrap() - 4.2).abs() < 0.1);
    let slip = o.iter().find(|o| o.kind == "slip").unwrap();
    assert!(slip.grade == Grade::Normal && slip.value.unwrap().abs() < 10.0);
}

#[test]
fn slip_is_engine_less_shaft() {
    let o = drive(300.0);
    let slip = o
        .iter()
        .find(|o| o.kind == "slip" && o.subject.as_deref() == Some("input-shaft-2"))
        .unwrap();
    assert_eq!(slip.grade, Grade::Abnormal);
    assert!(
        (slip.value.unwrap() - 300.0).abs() < 10.0,
        "{:?}",
        slip.value
    );
}

/// While both clutches carry, the output slows from the one's application to the other's release: by 0.4 of its speed from
/// 4.0 to 4.5 s, well over the least share of 0.12, which it reaches early on. An even drive has no such fall.
#[test]
fn both_clutches_at_once() {
    let share = |t: f64| match t {
        t if (4.0..4.5).contains(&t) => 0.8 * (t - 4.0),
        t if (4.5..5.1).contains(&t) => 0.4 * (5.1 - t) / 0.6,
        _ => 0.0,
    };
    let found = |braked: f64| {
        let out = |t: f64| 500.0 * (1.0 - braked * share(t));
        let (shaft_speed, output_speed) = (hall(8.0, |t| 4.0 * out(t)), hall(8.0, out));
        let noise = |k: usize| 0.02 * ((k * 7919 % 13) as f32 / 6.0 - 1.0);
        let mut feed: Vec<f32> = (0..output_speed.len()).map(|k| 1.0 + noise(k)).collect();
        for from_s in [3.85, 4.45] {
            let from = (from_s * RATE) as usize;
            let length = (0.17 * RATE) as usize;
            for (k, x) in feed[from..from + length].iter_mut().enumerate() {
                let angle = std::f64::consts::PI * k as f64 / length as f64;
                *x += (16.0 * angle.sin()) as f32;
            }
        }
        let channels = vec![
            shaft("input-shaft-1", &shaft_speed),
            shaft("output-shaft", &output_speed),
            channel("supply-current", &feed, RATE),
        ];
        let settings = Settings::default();
        let observations = bench().run(&Input {
            file: "test",
            channels,
            settings,
        });
        let observations = observations.unwrap();
        let mut ties = observations.iter();
        ties.find(|o| o.kind == "double-engagement").cloned()
    };
    let tie = found(1.0).expect("the output is braked");
    assert_eq!(tie.grade, Grade::Abnormal);
    assert!((tie.value.unwrap() - 40.0).abs() < 4.0, "{:?}", tie.value);
    assert!((tie.end_s.unwrap() - 4.5).abs() < 0.1, "{:?}", tie.end_s);
    assert!(found(0.0).is_none());
}

/// A limits sheet whose second shaft carries 3.10 and 1.80: the ratio of 2.5 that it turns at is neither.
#[test]
fn a_ratio_that_no_gear_has() {
    let gear = |shaft: u8, ratio: f64| json!({"shaft": shaft, "ratio": ratio, "source": "test"});
    let gears = [
        ("1", gear(1, 4.02)),
        ("2", gear(2, 3.10)),
        ("4", gear(2, 1.80)),
    ];
    let settings = Settings {
        tables: [(
            "gear".to_string(),
            gears.map(|(n, g)| (n.to_string(), g)).into(),
        )]
        .into(),
        ..Settings::default()
    };
    let o = drive_with(0.0, settings);
    let named = o.iter().find(|o| o.message == "gear-ratio-named").unwrap();
    assert_eq!(named.args["gear"], "1");
    let wrong: Vec<_> = o.iter().filter(|o| o.kind == "wrong-gear").collect();
    assert_eq!(wrong.len(), 1, "{wrong:?}");
    assert_eq!(wrong[0].subject.as_deref(), Some("input-shaft-2"));
    assert!((wrong[0].value.unwrap() - 2.5).abs() < 0.025);
    assert_eq!(wrong[0].args["nearest"], "2");
}
