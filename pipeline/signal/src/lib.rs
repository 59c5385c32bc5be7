//! Pure computation on slices of samples: levels, edges, events, fits. No I/O, nothing of a vehicle's faults.

pub mod coherence;
pub mod current;
pub mod edges;
pub mod engine;
pub mod envelope;
pub mod exponential;
pub mod levels;
#[cfg(test)]
mod noise;
pub mod ripple;
pub mod rotation;
pub mod smooth;
pub mod stats;
pub mod time;

pub use time::Time;
