//! Output of an analyzer: observations as codes and arguments, never prose, and derived series.

use crate::{Observation, Series};
use serde::{Deserialize, Serialize};

/// Observations and series of one call.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize)]
pub struct Output {
    /// In the order in which they were added.
    pub observations: Vec<Observation>,
    /// Series for the analyzers that run later.
    pub series: Vec<Series>,
}

impl Output {
    /// Adds an observation.
    pub fn add(&mut self, o: Observation) {
        self.observations.push(o);
    }

    /// Hands a series on to the analyzers that run later on this recording and list its name in
    /// [`Declaration::inputs`](crate::Declaration::inputs).
    pub fn put(&mut self, series: Series) {
        self.series.push(series);
    }
}
