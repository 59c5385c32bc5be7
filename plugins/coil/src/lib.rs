//! The analyzers of coils: injectors, valves, relays, ignition primaries.

pub mod measure;
