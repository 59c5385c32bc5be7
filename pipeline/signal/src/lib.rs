//! Pure computation on slices of samples: levels, edges, events, fits. No I/O, nothing of a vehicle's faults.

pub mod time;

pub use time::Time;
