//! The analyzers of the CAN bus.

pub mod measure;
