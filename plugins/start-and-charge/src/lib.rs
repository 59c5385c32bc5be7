//! The analyzers of battery, starter and alternator.

pub mod compression;

pub use compression::CrankingCompression;

use plugin_sdk::LimitsSheet;

/// Normal values of a starting and charging system.
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
    analyzers: [CrankingCompression],
}
