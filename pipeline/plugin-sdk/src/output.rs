//! What a plugin gives: observations as codes and arguments, never prose.

use crate::{Observation, Track};
use serde::{Deserialize, Serialize};

/// The observations of one call.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize)]
pub struct Output {
    /// In the order in which they were added.
    pub observations: Vec<Observation>,
    /// Tracks for the plugins that run later.
    #[serde(skip)]
    pub tracks: Vec<Track>,
}

impl Output {
    /// Adds an observation.
    pub fn add(&mut self, o: Observation) {
        self.observations.push(o);
    }

    /// Hands a track on to the plugins that run later on this recording and take it. Its name must be one of
    /// [`Analyzer::GIVES`](crate::Analyzer::GIVES). A host that does not know tracks drops it.
    pub fn give(&mut self, track: Track) {
        self.tracks.push(track);
    }
}
