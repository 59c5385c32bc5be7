//! Series that analyzers derived from one recording.

use plugin_abi::{LibraryDeclaration, Series};

/// Series of one recording, each of one name and channel once.
#[derive(Debug, Default)]
pub(crate) struct SeriesCache(Vec<Series>);

impl SeriesCache {
    /// Keeps series. Of two of one name and channel the first counts.
    pub(crate) fn keep(&mut self, series: Vec<Series>) {
        for one in series {
            let same = |s: &Series| s.name == one.name && s.channel == one.channel;
            if !self.0.iter().any(same) {
                self.0.push(one);
            }
        }
    }

    /// Series that the analyzers of a library can use.
    pub(crate) fn inputs_of(&self, library: &LibraryDeclaration) -> Vec<Series> {
        let is_input = |s: &&Series| (library.analyzers.iter()).any(|a| a.inputs.contains(&s.name));
        self.0.iter().filter(is_input).cloned().collect()
    }

    /// All of them.
    pub(crate) fn into_series(self) -> Vec<Series> {
        self.0
    }
}
