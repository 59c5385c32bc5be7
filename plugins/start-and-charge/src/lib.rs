//! The analyzers of battery, starter and alternator.

pub mod compression;

pub use compression::CrankingCompression;

plugin_sdk::export!(CrankingCompression);
