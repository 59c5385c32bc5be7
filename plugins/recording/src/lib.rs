//! The library of what every system needs of a recording.

pub use baybrief_recording_analyzers::*;

plugin_sdk::export! {
    system: "recording",
    name: "Recordings in general",
    vendor: "baybrief",
    assets: [
        "system.toml" => include_str!("../system.toml"),
        "limits.toml" => LIMITS_TOML,
    ],
    analyzers: [DerivedSeries, ConditionsKnown, SignalQuality, Codes],
}
