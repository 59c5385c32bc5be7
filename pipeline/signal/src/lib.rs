//! Pure computation on slices of samples: levels, tooth trains, current pulses, fits. No I/O, nothing of a machine's faults.

pub mod coherence;
pub mod current;
pub mod detection;
pub mod envelope;
pub mod exponential;
pub mod gaps;
pub mod least_squares;
pub mod levels;
pub mod measured;
#[cfg(test)]
mod noise;
pub mod orders;
pub mod plateaus;
pub mod ripple;
pub mod rise;
pub mod smooth;
pub mod spectrum;
pub mod stats;
pub mod steady;
pub mod teeth;
pub mod time;
pub mod windows;

pub use measured::Measured;
pub use time::Time;
