//! Pure computation on slices of samples: levels, tooth trains, current pulses, fits. No I/O, nothing of a machine's faults.

pub mod coherence;
pub mod current;
pub mod detection;
pub mod envelope;
pub mod levels;
#[cfg(test)]
mod noise;
pub mod ripple;
pub mod smooth;
pub mod stats;
pub mod steady;
pub mod teeth;
pub mod time;

pub use time::Time;
