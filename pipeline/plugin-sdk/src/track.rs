//! Series over time that one plugin derives and later ones use.

/// A series on an even grid of time: a shaft's speed in rpm, a gear ratio.
#[derive(Debug, Default, Clone, PartialEq)]
pub struct Track {
    /// Machine name, listed in the giver's [`Analyzer::GIVES`](crate::Analyzer::GIVES): `input-shaft-1-rpm`.
    pub name: String,
    /// Unit of the values: `rpm`.
    pub unit: String,
    /// Time of the first value, s of the recording's own time.
    pub start_s: f64,
    /// Time from one value to the next, s; greater than 0.
    pub step_s: f64,
    /// The values; NaN where there is none. No infinities.
    pub values: Vec<f64>,
}

impl Track {
    /// Whether it lies on the grid that begins at `start_s` and has `points` values, `step_s` apart.
    pub fn is_on(&self, start_s: f64, step_s: f64, points: usize) -> bool {
        self.start_s == start_s && self.step_s == step_s && self.values.len() == points
    }
}
