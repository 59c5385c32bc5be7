//! Measurement on samples and on logged frames. No I/O.

pub mod bit_rate;
pub mod clock;
pub mod crc;
pub mod decay;
pub mod decode;
pub mod edges;
pub mod frame;
pub mod levels;
pub mod lines;
pub mod log;
pub mod other_bus;
pub mod ringing;
pub mod senders;
pub mod termination;
pub mod waveform;
