//! Events of the operating system: they may be late, doubled or lost, so they only wake the watch.

use notify::event::{AccessKind, AccessMode};
use notify::{EventKind, RecommendedWatcher, RecursiveMode, Watcher};
use std::path::Path;
use std::sync::mpsc::{Receiver, RecvTimeoutError, sync_channel};
use std::time::Duration;

/// Hints about one folder and everything below it.
#[derive(Debug)]
pub(crate) struct Hints {
    events: Receiver<()>,
    _watcher: RecommendedWatcher,
}

/// What a wait came to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Hint {
    Changed,
    Nothing,
    /// No hint will ever come again.
    Ended,
}

/// The one kind of access that says something: a file was closed after writing.
const WRITTEN: AccessKind = AccessKind::Close(AccessMode::Write);

impl Hints {
    pub(crate) fn of(folder: &Path) -> notify::Result<Hints> {
        // One waiting event says as much as a thousand.
        let (sender, events) = sync_channel(1);
        let mut watcher =
            notify::recommended_watcher(move |event: notify::Result<notify::Event>| {
                if !event.is_ok_and(|e| is_mere_reading(e.kind)) {
                    let _ = sender.try_send(());
                }
            })?;
        watcher.watch(folder, RecursiveMode::Recursive)?;
        Ok(Hints {
            events,
            _watcher: watcher,
        })
    }

    /// As on a network share: nothing is ever reported.
    #[cfg(test)]
    pub(crate) fn deaf() -> Hints {
        let (sender, events) = sync_channel(1);
        let watcher = notify::recommended_watcher(move |_| _ = &sender).unwrap();
        Hints {
            events,
            _watcher: watcher,
        }
    }

    pub(crate) fn wait(&self, longest: Duration) -> Hint {
        match self.events.recv_timeout(longest) {
            Ok(()) => Hint::Changed,
            Err(RecvTimeoutError::Timeout) => Hint::Nothing,
            Err(RecvTimeoutError::Disconnected) => Hint::Ended,
        }
    }
}

/// Scans open folders and files themselves; taken for news, each scan would bring on the next.
fn is_mere_reading(kind: EventKind) -> bool {
    matches!(kind, EventKind::Access(access) if access != WRITTEN)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn writing_is_news_and_reading_is_not() {
        let dir = tempfile::tempdir().unwrap();
        let file = dir.path().join("relearn.csv");
        std::fs::write(&file, "1").unwrap();
        let hints = Hints::of(dir.path()).unwrap();
        std::fs::read(&file).unwrap();
        std::fs::read_dir(dir.path()).unwrap().count();
        assert_eq!(hints.wait(Duration::from_millis(500)), Hint::Nothing);
        std::fs::write(&file, "2").unwrap();
        assert_eq!(hints.wait(Duration::from_secs(10)), Hint::Changed);
    }
}
