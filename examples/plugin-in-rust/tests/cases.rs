//! The cases in cases/, and what must not change a finding.

use plugin_sdk::testing::{Bench, channel};
use plugin_sdk::{Input, Settings};
use resting_current::RestingCurrent;
use std::path::Path;

#[test]
fn every_case_comes_out_as_expected() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("cases");
    assert_eq!(Bench::of::<RestingCurrent>().run_cases(&folder), Ok(2));
}

#[test]
fn clock_counts_and_noise_change_nothing() {
    let samples: Vec<f32> = (0..2000).map(|i| if i % 400 < 80 { 15.0 } else { 0.8 }).collect();
    let input = Input {
        file: "test.csv",
        channels: vec![channel("supply-current", &samples, 1000.0)],
        settings: Settings::default(),
    };
    let bench = Bench::of::<RestingCurrent>();
    bench.time_shift(&input, 60.0).unwrap();
    bench.gain(&input, 0.01).unwrap();
    bench.noise(&input, 0.01, 1).unwrap();
}
