//! No time axis and no sample makes an analyzer panic: what cannot be computed on gives no finding or a reason.

use baybrief_plugin_dual_dry_clutch::{
    ActuatorCurrent, DriveConditions, GearTrain, RecordingChecks, SensorHealth, ShaftMotion, Supply,
};
use baybrief_recording_analyzers::{ConditionsKnown, DerivedSeries, SignalQuality};
use plugin_sdk::signal::Time;
use plugin_sdk::testing::{Bench, channel};
use plugin_sdk::{Input, Observation, Settings, settings::Stated};
use proptest::prelude::*;

const ROLES: [&str; 7] = [
    "supply-current",
    "supply-voltage",
    "ground-voltage",
    "input-shaft-1",
    "input-shaft-2",
    "output-shaft",
    "engine-speed",
];

fn every_analyzer() -> [Bench; 10] {
    macro_rules! behind {
        ($analyzer:ty) => {
            Bench::of::<$analyzer>()
                .after::<DerivedSeries>()
                .after::<ConditionsKnown>()
        };
    }
    [
        Bench::of::<DerivedSeries>(),
        Bench::of::<ConditionsKnown>().after::<DerivedSeries>(),
        behind!(SignalQuality),
        behind!(DriveConditions),
        behind!(RecordingChecks),
        behind!(ShaftMotion),
        behind!(ActuatorCurrent),
        behind!(Supply),
        behind!(GearTrain),
        behind!(SensorHealth),
    ]
}

fn run(samples: &[f32], time: Time<'_>) -> Vec<Result<Vec<Observation>, String>> {
    let channels = ROLES.iter().map(|role| {
        let mut c = channel(role, samples, 1.0);
        c.time = time;
        c.facts.teeth = Some(30);
        c.facts.sensor = Some("hall".into());
        c
    });
    let stated = |value: &str| Stated {
        value: value.into(),
        source: "test".into(),
    };
    let input = Input {
        file: "axis.csv",
        channels: channels.collect(),
        settings: Settings {
            selector: Some(stated("P")),
            engine: Some(stated("running")),
            ..Settings::default()
        },
    };
    every_analyzer().iter().map(|b| b.run(&input)).collect()
}

fn square(period: usize, len: usize) -> Vec<f32> {
    let high = |i: usize| (i / period.max(1)).is_multiple_of(2);
    (0..len).map(|i| if high(i) { 5.0 } else { 0.2 }).collect()
}

fn must_not_panic(samples: &[f32], time: Time<'_>) {
    for result in run(samples, time) {
        if let Err(e) = result {
            assert!(!e.contains("panicked"), "{time:?}: {e}");
        }
    }
}

#[test]
fn axes_that_no_recorder_makes() {
    let samples = square(7, 400);
    for step_s in [
        1e-300,
        5e-324,
        1e-15,
        f64::NAN,
        0.0,
        -1.0,
        1e9,
        1e300,
        f64::INFINITY,
    ] {
        for start_s in [0.0, -1e300, 1e300, f64::NAN] {
            must_not_panic(&samples, Time::Even { start_s, step_s });
        }
    }
    let listed = |f: &dyn Fn(usize) -> f64| (0..400).map(f).collect::<Vec<f64>>();
    for instants in [
        listed(&|_| 1.0),
        listed(&|i| i as f64 * 1e-300),
        listed(&|i| (i / 100) as f64),
        listed(&|i| -(i as f64)),
        listed(&|i| if i < 399 { i as f64 * 1e-3 } else { 1e300 }),
        listed(&|_| f64::NAN),
    ] {
        must_not_panic(&samples, Time::Listed(&instants));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn axes_at_random(
        exponent in -14.0f64..8.0,
        start in -1e6f64..1e6,
        period in 1usize..60,
        len in 0usize..600,
        odd in proptest::collection::vec((0usize..600, 0usize..3), 0..12),
        listed in proptest::option::of(proptest::collection::vec(0.0f64..3.0, 600)),
    ) {
        let mut samples = square(period, len);
        for (at, what) in odd {
            if let Some(v) = samples.get_mut(at) {
                *v = [f32::NAN, f32::INFINITY, f32::NEG_INFINITY][what];
            }
        }
        let step_s = 10f64.powf(exponent);
        match listed {
            None => must_not_panic(&samples, Time::Even { start_s: start, step_s }),
            Some(gaps) => {
                let mut t = start;
                // A third of the instants repeat.
                let next = |gap: &f64| { t += step_s * (gap - 1.0).max(0.0); t };
                let instants: Vec<f64> = gaps.iter().map(next).take(len).collect();
                must_not_panic(&samples, Time::Listed(&instants));
            }
        }
    }
}
