//! Pure computation on slices of samples: levels, edges, events, fits. No I/O, nothing of a vehicle's faults.

pub mod stats;
pub mod levels;
pub mod edges;
pub mod envelope;
pub mod current;
pub mod rotation;
pub mod smooth;
pub mod engine;
pub mod time;

pub use time::Time;
