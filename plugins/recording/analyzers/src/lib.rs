//! Analyzers for every system: series derived once, conditions, signal quality, trouble codes.
//!
//! A crate of its own, so that the tests of other systems can run these analyzers before theirs: two libraries that
//! export the plugin interface cannot be linked into one executable.

pub mod codes;
pub mod conditions;
pub mod derive;
pub mod plausibility;
pub mod signal_quality;

pub use codes::Codes;
pub use conditions::ConditionsKnown;
pub use derive::DerivedSeries;
pub use plausibility::Plausibility;
pub use signal_quality::SignalQuality;

use plugin_sdk::LimitsSheet;

/// The sheet's text.
pub const LIMITS_TOML: &str = include_str!("../../limits.toml");

/// Values that recordings are read by.
pub static LIMITS: LimitsSheet = LimitsSheet::embedded(&[LIMITS_TOML]);
