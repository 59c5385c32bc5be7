//! Labelled cases with known truth, made from the simulator's physics; their evaluation; and a search for cases that
//! defeat the program.
//!
//! `cargo run --release -p baybrief-evaluation -- evaluate --bin target/release/baybrief`

pub mod calibrate;
pub mod case;
pub mod classes;
pub mod decoys;
pub mod dialect;
pub mod draft;
pub mod drives;
pub mod evaluate;
pub mod evidence;
pub mod jams;
pub mod learning;
pub mod measures;
pub mod mixtures;
pub mod params;
pub mod program;
pub mod reliability;
pub mod render;
pub mod risk;
pub mod said;
pub mod scenario;
pub mod score;
pub mod search;
pub mod sentinels;
pub mod standstill;
pub mod stats;
pub mod summary;
pub mod systems;
pub mod table;
pub mod truth;
pub mod wheels;
