//! Channels of a recording: what each measures and what its numbers mean, as job.toml and its presets say, else as names,
//! units and shapes tell by what the systems declare.

mod assign;
mod calibrate;
mod guess;
mod preset;
mod time;
mod unit_facts;

pub use assign::assign;
pub use guess::{RoleGuess, SAFE, guess};
pub use preset::apply_presets;
pub use time::apply_to_bus_log;
pub use unit_facts::apply_unit;
