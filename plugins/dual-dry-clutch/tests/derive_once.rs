//! Pulses and tooth trains are computed once from each channel, however many analyzers read them.

use baybrief_plugin_dual_dry_clutch::{
    ActuatorCurrent, DriveConditions, GearTrain, RecordingChecks, SensorHealth, ShaftMotion, Supply,
};
use baybrief_recording_analyzers::{ConditionsKnown, DerivedSeries, SignalQuality, derive};
use plugin_sdk::testing::{Bench, channel};
use plugin_sdk::{Input, Series, Settings};

#[test]
fn each_channel_is_computed_from_once() {
    let wander = |i: usize| (i as f64 / 25.0 + 0.01 * (i as f64 / 300.0).sin()).fract();
    let tooth: Vec<f32> = (0..20_000)
        .map(|i| if wander(i) < 0.5 { 4.8 } else { 0.3 })
        .collect();
    let level: Vec<f32> = (0..20_000).map(|i| 1.0 + (i % 7) as f32 * 0.01).collect();
    let channels = vec![
        channel("supply-current", &level, 5_000.0),
        channel("supply-voltage", &level, 5_000.0),
        channel("input-shaft-1", &tooth, 5_000.0),
        channel("input-shaft-2", &tooth, 5_000.0),
        channel("output-shaft", &tooth, 5_000.0),
        channel("engine-speed", &tooth, 5_000.0),
    ];
    let input = Input {
        file: "once.csv",
        channels,
        settings: Settings::default(),
    };
    let before = derive::computed();
    let mut series: Vec<Series> = Vec::new();
    for bench in [
        Bench::of::<DerivedSeries>(),
        Bench::of::<ConditionsKnown>(),
        Bench::of::<SignalQuality>(),
        Bench::of::<DriveConditions>(),
        Bench::of::<RecordingChecks>(),
        Bench::of::<ShaftMotion>(),
        Bench::of::<ActuatorCurrent>(),
        Bench::of::<Supply>(),
        Bench::of::<GearTrain>(),
        Bench::of::<SensorHealth>(),
    ] {
        let out = bench.run_with(&input, &series).expect("run");
        series.extend(out.series);
    }
    assert_eq!(derive::computed() - before, input.channels.len());
    assert!(series.iter().any(|s| s.name == "tooth-segments"));
}
