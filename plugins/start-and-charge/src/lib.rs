//! The analyzers of battery, starter and alternator.

pub mod alternator_ripple;
pub mod charging;
pub mod cranking_compression;
pub mod key_off;
pub mod measure;
pub mod outputs;
pub mod path_resistance;
pub mod start_attempt;

pub use alternator_ripple::AlternatorRipple;
pub use charging::Charging;
pub use cranking_compression::CrankingCompression;
pub use key_off::KeyOffCurrent;
pub use path_resistance::PathResistance;
pub use start_attempt::StartAttempt;

use measure::probe::attached;
use plugin_sdk::{Input, Limit, Limits, LimitsSheet, Record, Settings};

/// Normal values of the system.
pub static LIMITS: LimitsSheet = LimitsSheet::embedded(&[
    include_str!("../limits.toml"),
    include_str!("../../recording/limits.toml"),
]);

plugin_sdk::export! {
    system: "start-and-charge",
    name: "Battery, starter and alternator",
    vendor: "baybrief",
    assets: [
        "system.toml" => include_str!("../system.toml"),
        "limits.toml" => include_str!("../limits.toml"),
        "causes.toml" => include_str!("../causes.toml"),
        "lang/en.ftl" => include_str!("../lang/en.ftl"),
        "lang/de.ftl" => include_str!("../lang/de.ftl"),
        "lang/es.ftl" => include_str!("../lang/es.ftl"),
    ],
    analyzers: [StartAttempt, PathResistance, CrankingCompression, Charging, AlternatorRipple, KeyOffCurrent],
}

/// Values of the limits sheets.
fn limits(settings: &Settings) -> Limits<'_> {
    LIMITS.with(settings)
}

/// The battery's voltage from the instant on at which the probe is on the battery.
fn battery_voltage(input: &Input<'_>) -> Option<Record> {
    let mut volts = Record::of(input, &["battery-voltage"])?;
    let on = attached(&volts.values, volts.step_s);
    volts.start_s = volts.at(on);
    volts.values.drain(..on);
    Some(volts)
}

/// Batteries of 12 V in a row that a voltage tells of, to scale limits that are those of one. `None` for another supply,
/// such as the 6 V of an old motorcycle, which no limit of this system is made for.
fn batteries(volts: f64) -> Option<f64> {
    match volts {
        9.0..18.0 => Some(1.0),
        18.0..36.0 => Some(2.0),
        _ => None,
    }
}

/// A limit of one battery for so many in a row; none where their number is not known.
fn limit_of(settings: &Settings, name: &str, batteries: Option<f64>) -> Limit {
    let limit = limits(settings).limit(name);
    batteries.map_or_else(Limit::default, |n| Limit {
        low: limit.low.map(|v| v * n),
        high: limit.high.map(|v| v * n),
        ..limit
    })
}

/// True where the engine is stated to be `off`, `cranking` or `running`.
fn engine_is(settings: &Settings, state: &str) -> bool {
    settings.engine.as_ref().is_some_and(|e| e.value == state)
}

/// True where the recording is stated to be one of the vehicle after key-off.
fn is_key_off(settings: &Settings) -> bool {
    settings.state.as_deref() == Some("key-off")
}
