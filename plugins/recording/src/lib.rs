//! The analyzers that every system needs: signal quality, conditions, trouble codes.

pub mod codes;
pub mod conditions;
pub mod signal_quality;

pub use codes::Codes;
pub use conditions::ConditionsKnown;
pub use signal_quality::SignalQuality;

plugin_sdk::export!(SignalQuality, ConditionsKnown, Codes);
