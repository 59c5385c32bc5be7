//! Series that analyzers derived from one recording.

use plugin_abi::{LibraryDeclaration, Series};
use std::sync::Arc;

/// Series of one recording, each of one name and channel once. One series may hold a million edges: all who hand it on
/// share it.
#[derive(Debug, Default)]
pub(crate) struct SeriesCache(Vec<Arc<Series>>);

impl SeriesCache {
    /// Keeps series. Of two of one name and channel the first counts.
    pub(crate) fn keep(&mut self, series: &[Arc<Series>]) {
        for one in series {
            let same = |s: &Arc<Series>| s.name == one.name && s.channel == one.channel;
            if !self.0.iter().any(same) {
                self.0.push(Arc::clone(one));
            }
        }
    }

    /// Series that the analyzers of a library can use.
    pub(crate) fn inputs_of(&self, library: &LibraryDeclaration) -> Vec<Arc<Series>> {
        let is_input =
            |s: &&Arc<Series>| (library.analyzers.iter()).any(|a| a.inputs.contains(&s.name));
        self.0.iter().filter(is_input).cloned().collect()
    }

    /// All of them.
    pub(crate) fn into_series(self) -> Vec<Series> {
        self.0.into_iter().map(Arc::unwrap_or_clone).collect()
    }
}

/// Shared series as they pass between processes: like any others.
pub(crate) mod shared {
    use super::{Arc, Series};
    use serde::{Deserialize, Deserializer, Serializer};

    pub(crate) fn serialize<S: Serializer>(all: &[Arc<Series>], s: S) -> Result<S::Ok, S::Error> {
        s.collect_seq(all.iter().map(|one| &**one))
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(
        d: D,
    ) -> Result<Vec<Arc<Series>>, D::Error> {
        let all = Vec::<Series>::deserialize(d)?;
        Ok(all.into_iter().map(Arc::new).collect())
    }
}
