//! Recordings for an analyzer under test, and what it observes in them.

use super::{Bench, channel};
use crate::settings::Stated;
use crate::{Analyzer, Input, Observation, Settings};

/// Settings with a stated engine and facts of the unit; `off` is stated as a vehicle that is closed, too. Limits are the
/// library's own.
pub fn settings(engine: &str, facts: &[(&str, f64)]) -> Settings {
    let unit = facts
        .iter()
        .map(|(name, value)| ((*name).to_owned(), (*value).into()));
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

/// An input of channels that were sampled together, by their roles; see [`channel`].
pub fn input<'a>(channels: &[(&'a str, &'a [f32])], rate_hz: f64, settings: Settings) -> Input<'a> {
    let channels = channels
        .iter()
        .map(|(role, samples)| channel(role, samples, rate_hz));
    Input {
        file: "record.csv",
        channels: channels.collect(),
        settings,
    }
}

/// Observations of an analyzer that needs no other before it.
///
/// # Panics
/// When its findings would not count.
pub fn observe<A: Analyzer>(input: &Input<'_>) -> Vec<Observation> {
    Bench::of::<A>().run(input).expect("observations")
}

/// The first observation of a kind.
///
/// # Panics
/// When there is none.
pub fn find<'o>(all: &'o [Observation], kind: &str) -> &'o Observation {
    all.iter()
        .find(|o| o.kind == kind)
        .unwrap_or_else(|| panic!("no {kind} among {all:#?}"))
}

/// Checks that a value is as expected.
///
/// # Panics
/// When it is not, or there is no value.
#[track_caller]
pub fn near(o: &Observation, expected: f64, within: f64) {
    let value = o.value.expect("a value");
    assert!(
        (value - expected).abs() <= within,
        "{value} is not {expected}: {o:?}"
    );
}
