//! Tooth trains of speed sensors: edges, pattern of the wheel, speed per revolution, segments of turning and rest.
//!
//! [`read_train`] computes a [`ToothTrain`] once per channel. What it means for a machine is not decided here.

mod amplitude;
mod dropouts;
mod gap_shape;
mod glitches;
mod local;
mod motion;
mod options;
mod pattern;
mod pauses;
mod positions;
mod prepare;
mod read;
mod reference;
mod reject;
mod ring;
mod runout;
mod runs;
mod segments;
mod swings;
mod train;
mod wheel;
mod wrapped;

pub use amplitude::AmplitudeLaw;
pub use dropouts::Dropout;
pub use gap_shape::{GapCrossings, Stub, gap_crossings, stubs};
pub use motion::{Ending, Motion, Plateau, Trend, Turn};
pub use options::{Options, SensorKind};
pub use pattern::{Pattern, PatternKind, find_pattern};
pub use prepare::{SignalQuality, Waveform};
pub use read::read_train;
pub use reference::{Comparison, Relation, compare_trains, phase_lock};
pub use reject::RejectReason;
pub use ring::{Place, Ring, average_ring};
pub use runout::{Runout, amplitude_runout, pitch_runout};
pub use segments::{Capability, ProofOfLife, Segment, SegmentKind};
pub use train::{Edge, EdgeChoice, ToothTrain};
pub use wheel::{TurnBasis, Wheel};

/// Speed in rpm of a tooth rate: 60 f / N with N pitch positions per turn.
pub fn rpm(tooth_rate_hz: f64, teeth: u32) -> f64 {
    60.0 * tooth_rate_hz / f64::from(teeth)
}
