//! Measurement on samples of one coil. No I/O.

pub mod actuation;
pub mod armature;
pub mod driver;
pub mod fall;
pub mod hold;
pub mod parabola;
pub mod profile;
pub mod record;
pub mod steady;
