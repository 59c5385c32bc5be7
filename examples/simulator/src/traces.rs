//! True course of events, sampled at the recorder's rate, before any sensor or probe has touched it.

use crate::actuator::Ended;

/// The four mechanisms of the gearbox, in the order of every `[_; 4]` here.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mechanism {
    /// Clutch 1, of the odd gears.
    Clutch1,
    /// Clutch 2, of the even gears and reverse.
    Clutch2,
    /// Gear motor of shaft 1.
    Gear1,
    /// Gear motor of shaft 2.
    Gear2,
}

impl Mechanism {
    /// Its place in every `[_; 4]`.
    pub fn index(self) -> usize {
        self as usize
    }
}

/// A rotation: its speed and the angle it has covered.
#[derive(Debug, Clone, Default)]
pub struct Rotation {
    /// rpm at each sample.
    pub rpm: Vec<f64>,
    /// Turns since the start at each sample.
    pub turns: Vec<f64>,
}

impl Rotation {
    /// Adds a sample.
    pub fn push(&mut self, rpm: f64, turns: f64) {
        self.rpm.push(rpm);
        self.turns.push(turns);
    }
}

/// One attempt of the controller to move a mechanism.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Attempt {
    /// Which mechanism.
    pub mechanism: Mechanism,
    /// When, and whether it arrived.
    pub ended: Ended,
    /// True where any current flowed.
    pub current_flowed: bool,
}

/// Everything that truly happened.
#[derive(Debug, Clone, Default)]
pub struct Traces {
    /// Samples per second.
    pub rate_hz: f64,
    /// Time of the first sample, s.
    pub start_s: f64,
    /// Current through the gearbox's fuse, A.
    pub feed: Vec<f64>,
    /// That part of it that the mechanisms take, A.
    pub load: Vec<f64>,
    /// Current that each mechanism takes from the supply, A.
    pub mechanism: [Vec<f64>; 4],
    /// Supply voltage at the controller, against battery negative, V.
    pub supply: Vec<f64>,
    /// Voltage of the controller's ground against battery negative, V.
    pub ground: Vec<f64>,
    /// The engine.
    pub engine: Rotation,
    /// The two input shafts.
    pub input: [Rotation; 2],
    /// The output shaft.
    pub output: Rotation,
    /// Current that the controller takes on its own, A, on average.
    pub quiescent: f64,
    /// Attempts of the controller, in order of their ends.
    pub attempts: Vec<Attempt>,
}

impl Traces {
    /// Time of sample `i`, s.
    pub fn time(&self, i: usize) -> f64 {
        self.start_s + i as f64 / self.rate_hz
    }

    /// Number of samples.
    pub fn len(&self) -> usize {
        self.feed.len()
    }

    /// True where there is no sample.
    pub fn is_empty(&self) -> bool {
        self.feed.is_empty()
    }

    /// Time of the last sample, s.
    pub fn end_s(&self) -> f64 {
        self.time(self.len().saturating_sub(1))
    }

    /// The sample nearest to a time, inside the record.
    pub fn index(&self, t: f64) -> usize {
        let i = ((t - self.start_s) * self.rate_hz).round().max(0.0) as usize;
        i.min(self.len().saturating_sub(1))
    }
}
