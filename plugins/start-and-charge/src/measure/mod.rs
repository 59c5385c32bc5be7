//! Measurements on slices of samples. No I/O, no limits, no verdicts.

pub mod alternator;
pub mod battery;
pub mod charging;
pub mod compression;
pub mod cranking;
pub mod drain;
pub mod drop;
pub mod humps;
pub mod key_off;
pub mod probe;
