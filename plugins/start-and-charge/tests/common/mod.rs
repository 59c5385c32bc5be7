//! Input for the analyzers: facts of the unit, channels, the recording's state.

#![allow(dead_code)]

use plugin_sdk::settings::Stated;
use plugin_sdk::testing::{Bench, channel};
use plugin_sdk::{Analyzer, ChannelView, Input, Observation, Settings};

/// Settings with the engine's state and facts of the unit. Limits are the library's own.
pub fn settings(engine: &str, facts: &[(&str, f64)]) -> Settings {
    let unit = facts
        .iter()
        .map(|(name, v)| ((*name).to_owned(), (*v).into()));
    Settings {
        engine: Some(Stated {
            value: engine.to_owned(),
            source: "job.toml".to_owned(),
        }),
        state: (engine == "off").then(|| "key-off".to_owned()),
        unit: unit.collect(),
        ..Settings::default()
    }
}

/// An input of channels sampled together.
pub fn input<'a>(channels: &[(&'a str, &'a [f32])], rate_hz: f64, settings: Settings) -> Input<'a> {
    let channels: Vec<ChannelView<'a>> = channels
        .iter()
        .map(|(role, samples)| channel(role, samples, rate_hz))
        .map(|c| ChannelView {
            unit: if c.role.contains("current") { "A" } else { "V" },
            ..c
        })
        .collect();
    Input {
        file: "record.csv",
        channels,
        settings,
    }
}

/// Observations of an analyzer.
pub fn observe<A: Analyzer>(input: &Input<'_>) -> Vec<Observation> {
    Bench::of::<A>().run(input).expect("observations")
}

/// The first observation of a kind.
pub fn find<'a>(all: &'a [Observation], kind: &str) -> &'a Observation {
    all.iter()
        .find(|o| o.kind == kind)
        .unwrap_or_else(|| panic!("no {kind} among {all:#?}"))
}

/// Checks a value against an expected one.
pub fn near(o: &Observation, expected: f64, within: f64) {
    let value = o.value.expect("a value");
    assert!(
        (value - expected).abs() <= within,
        "{value} is not {expected}: {o:?}"
    );
}

/// Even numbers from -0.5 to 0.5 by a linear congruential generator (Knuth's MMIX constants, from memory).
pub fn noise(seed: u64) -> impl Iterator<Item = f64> {
    let mut state = seed;
    std::iter::repeat_with(move || {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) as f64 / f64::from(1u32 << 31) - 0.5
    })
}
