//! The analyzers of direct-current motors and of three-phase motors behind an inverter.

pub mod measure;
