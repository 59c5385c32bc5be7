//! The library of what every system needs of a recording.

pub use baybrief_recording_analyzers::*;

plugin_sdk::export! {
    system: "recording",
    name: "Recordings in general",
    vendor: "baybrief",
    assets: [
        "system.toml" => include_str!("../system.toml"),
        "limits.toml" => LIMITS_TOML,
        "causes.toml" => include_str!("../causes.toml"),
        "lang/en.ftl" => include_str!("../lang/en.ftl"),
        "lang/de.ftl" => include_str!("../lang/de.ftl"),
        "lang/es.ftl" => include_str!("../lang/es.ftl"),
    ],
    analyzers: [DerivedSeries, ConditionsKnown, SignalQuality, Plausibility, Codes],
}
