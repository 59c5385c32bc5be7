//! Measurements on slices of samples. No I/O, no limits, no verdicts.

pub mod comb;
pub mod commutation;
pub mod gaps;
pub mod lines;
pub mod phases;
pub mod run;
pub mod stall;
pub mod start_up;
pub mod switching;
pub mod wiring;
