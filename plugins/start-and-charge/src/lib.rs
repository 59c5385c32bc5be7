//! The analyzers of battery, starter and alternator.

pub mod measure;
