//! Segments of a record: turning, at rest, silent, unreadable, too short.

use super::motion::Motion;
use super::reject::RejectReason;

/// State of a segment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SegmentKind {
    /// The shaft turns.
    Turning,
    /// The shaft is at rest: no pulse, on a channel that is proven alive, for long enough.
    AtRest,
    /// No pulse, and nothing proves that the channel would have shown one.
    Silent,
    /// Pulses that are no readable train, or noise that would hide one.
    Unreadable(RejectReason),
    /// Too little to tell, of pulses or of time without any.
    TooShort,
}

/// Smallest signal that a segment without pulses would have shown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Capability {
    /// Smallest amplitude from peak to peak that would have been seen, in the signal's unit.
    pub amplitude: f64,
    /// Rate below which the shaft may have turned unseen, pitch positions per second.
    pub below_hz: f64,
    /// The same, rpm; `None` where the positions per turn are not known.
    pub below_rpm: Option<f64>,
}

/// Segment of a record.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Segment {
    /// Start, s.
    pub start_s: f64,
    /// End, s.
    pub end_s: f64,
    /// State.
    pub kind: SegmentKind,
    /// Index of the first edge within the train's edges; equals `last` where there is none.
    pub first: usize,
    /// Index after the last edge.
    pub last: usize,
    /// Motion over the pulses, readable or not; `None` without enough of them.
    pub motion: Option<Motion>,
    /// Capability of detection of a segment without pulses.
    pub capability: Option<Capability>,
}

impl Segment {
    /// Duration, s.
    pub fn duration_s(&self) -> f64 {
        self.end_s - self.start_s
    }

    /// Returns true for a segment of turning.
    pub fn is_turning(&self) -> bool {
        self.kind == SegmentKind::Turning
    }
}

/// Proof that a channel would have shown pulses.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ProofOfLife {
    /// It carried a readable train.
    Pulsed,
    /// It changed its level without a readable train.
    Toggled,
    /// It stands at this level, which its kind of sensor must carry, in the signal's unit.
    Quiescent(f64),
    /// Nothing: a flat channel proves nothing.
    None,
}
