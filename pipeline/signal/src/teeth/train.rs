//! Tooth train of one channel: plain data, computed once and handed on.

use super::amplitude::AmplitudeLaw;
use super::dropouts::Dropout;
use super::motion::Turn;
use super::prepare::SignalQuality;
use super::segments::{ProofOfLife, Segment};
use super::wheel::Wheel;

/// One edge of a train.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edge {
    /// Time, s.
    pub at_s: f64,
    /// Pitch positions since the edge before; 0 for the first of a run.
    pub step: u32,
    /// Amplitude from peak to peak of the transition, in the signal's unit.
    pub amplitude: f32,
}

/// Choice between the rising and the falling edges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EdgeChoice {
    /// The rising edges are used.
    pub rising: bool,
    /// Distance of the pitches of the rising edges from their pattern, mean of |ln|; `None` without a run.
    pub rising_scatter: Option<f64>,
    /// The same over the falling edges.
    pub falling_scatter: Option<f64>,
}

/// Fewest positions over which a rate is averaged.
const LEAST_POSITIONS: u32 = 4;

/// Tooth train of one channel.
#[derive(Debug, Clone)]
pub struct ToothTrain {
    /// Quality of the signal.
    pub signal: SignalQuality,
    /// Direction of the edges used, the steadier one.
    pub choice: EdgeChoice,
    /// Edges in order of time, doubled ones and spikes left out.
    pub edges: Vec<Edge>,
    /// Wheel that the train is read with.
    pub wheel: Wheel,
    /// Revolutions within the segments of turning; empty where the positions per turn are not known.
    pub turns: Vec<Turn>,
    /// Segments in order of time; they cover the record.
    pub segments: Vec<Segment>,
    /// Interruptions within the segments of turning.
    pub dropouts: Vec<Dropout>,
    /// Pulses left out because they are far shorter than their neighbours.
    pub glitches: usize,
    /// Edges left out because two of them share one pitch, within the segments of turning.
    pub doubled: usize,
    /// Amplitude against rate; `None` with too little turning.
    pub amplitude_law: Option<AmplitudeLaw>,
    /// Proof that the channel would have shown pulses.
    pub alive: ProofOfLife,
}

impl ToothTrain {
    /// Segments of turning.
    pub fn turning(&self) -> impl Iterator<Item = &Segment> {
        self.segments.iter().filter(|s| s.is_turning())
    }

    /// Edges of a segment.
    pub fn edges_of(&self, segment: &Segment) -> &[Edge] {
        &self.edges[segment.first..segment.last]
    }

    /// Time, s, and number of pitch positions so far at each edge of the longest unbroken run within the time of a segment,
    /// which may be another train's.
    pub fn counted(&self, segment: &Segment) -> Vec<(f64, f64)> {
        let from = self.edges.partition_point(|e| e.at_s < segment.start_s);
        let within = self.edges[from..]
            .iter()
            .take_while(|e| e.at_s <= segment.end_s);
        let within = &self.edges[from..from + within.count()];
        let runs = within.chunk_by(|_, after| after.step > 0);
        let longest = runs.max_by_key(|run| run.len()).unwrap_or_default();
        let mut count = 0.0;
        let count_edge = |edge: &Edge| {
            count += f64::from(edge.step);
            (edge.at_s, count)
        };
        longest.iter().map(count_edge).collect()
    }

    /// Rate around time `t`, pitch positions per second, over a revolution, or over `half_s` on either side where that
    /// is longer. Near the ends of a segment, where the speed changes most, over what lies evenly about `t`, four positions
    /// at least. `None` outside the segments of turning and across an interruption.
    pub fn rate_at(&self, t: f64, half_s: f64) -> Option<f64> {
        let segment = self.turning().find(|s| s.start_s <= t && t <= s.end_s)?;
        let own = self.edges_of(segment);
        let turn = self.wheel.positions_per_turn().unwrap_or(8).max(2);
        let near = own.partition_point(|e| e.at_s <= t).clamp(1, own.len() - 1);
        if own[near].step > self.wheel.widest_pitch().round() as u32 + 4 {
            return None;
        }
        let least = turn
            .min(LEAST_POSITIONS)
            .max(self.wheel.uneven_cycle().unwrap_or(1));
        let (mut from, mut to) = (near - 1, near);
        let mut positions = own[near].step;
        // As far on either side until both a turn and the time are covered.
        loop {
            let before = (t - own[from].at_s, from > 0);
            let after = (own[to].at_s - t, to + 1 < own.len());
            let short = |length: f64| positions < turn || length < half_s;
            // What lies on one side of the time only bends the rate of a speed that changes.
            let forced = positions < least;
            let back = before.1 && short(before.0) && (before.0 <= after.0 || !after.1 && forced);
            let on = after.1 && short(after.0) && (after.0 < before.0 || !before.1 && forced);
            if back {
                positions += own[from].step;
                from -= 1;
            } else if on {
                to += 1;
                positions += own[to].step;
            } else {
                break;
            }
        }
        Some(f64::from(positions) / (own[to].at_s - own[from].at_s))
    }

    /// Speed around time `t`, rpm, see [`ToothTrain::rate_at`]; `None` also where the positions per turn are not known.
    pub fn rpm_at(&self, t: f64, half_s: f64) -> Option<f64> {
        Some(super::rpm(
            self.rate_at(t, half_s)?,
            self.wheel.positions_per_turn()?,
        ))
    }
}
