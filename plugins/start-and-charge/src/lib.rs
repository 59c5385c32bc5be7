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

use plugin_sdk::{Limits, LimitsSheet, Settings};

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

/// True where the engine is stated to be `off`, `cranking` or `running`.
fn engine_is(settings: &Settings, state: &str) -> bool {
    settings.engine.as_ref().is_some_and(|e| e.value == state)
}

/// True where the recording is stated to be one of the vehicle after key-off.
fn is_key_off(settings: &Settings) -> bool {
    settings.state.as_deref() == Some("key-off")
}
