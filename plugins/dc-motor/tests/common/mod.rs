//! Input for the analyzers: the system's own limits sheet, facts of the unit, channels.

#![allow(dead_code)]

use plugin_sdk::settings::{SpecNumber, Stated};
use plugin_sdk::testing::{channel, run};
use plugin_sdk::{Analyzer, ChannelView, Input, Observation, Settings};
use std::collections::BTreeMap;

/// Values of limits.toml.
pub fn limits() -> BTreeMap<String, SpecNumber> {
    let sheet: toml::Table = include_str!("../../limits.toml").parse().expect("a sheet");
    let number = |v: &toml::Value, key: &str| v.get(key).and_then(toml::Value::as_float);
    let values = sheet["value"].as_table().expect("values");
    values
        .iter()
        .map(|(name, v)| {
            let text = |key: &str| v[key].as_str().expect("a text").to_owned();
            let value = SpecNumber {
                nominal: number(v, "nominal"),
                low: number(v, "low"),
                high: number(v, "high"),
                unit: text("unit"),
                source: text("source"),
            };
            (name.clone(), value)
        })
        .collect()
}

/// Settings with the engine's state and facts of the unit.
pub fn settings(engine: &str, facts: &[(&str, f64)]) -> Settings {
    let mut spec = limits();
    for (name, value) in facts {
        let fact = SpecNumber {
            nominal: Some(*value),
            ..SpecNumber::default()
        };
        spec.insert((*name).to_owned(), fact);
    }
    Settings {
        engine: Some(Stated {
            value: engine.to_owned(),
            source: "job.toml".to_owned(),
        }),
        spec,
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
    run::<A>(input).expect("observations")
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
