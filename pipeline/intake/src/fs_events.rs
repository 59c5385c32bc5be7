//! Events of the operating system: they may be late, doubled or lost, so they only bring a scan forward.

use notify::event::{AccessKind, AccessMode};
use notify::{EventKind, RecommendedWatcher, RecursiveMode, Watcher};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, RecvTimeoutError, SyncSender, sync_channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

/// Events about one folder and everything below it.
#[derive(Debug)]
pub(crate) struct FsEvents {
    signals: Receiver<()>,
    changes: Arc<Mutex<Changes>>,
    _watcher: RecommendedWatcher,
}

/// Entries of the folder that changed since they were last asked for.
#[derive(Debug, Default, PartialEq, Eq)]
pub(crate) struct Changes {
    /// Names of entries of the folder itself.
    pub(crate) names: BTreeSet<String>,
    /// True where others may have changed as well.
    pub(crate) is_partial: bool,
}

/// Outcome of a wait.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Wakeup {
    Changed,
    TimedOut,
    /// No event will ever come again.
    Ended,
}

/// Names that are told apart; more changes than these are a reason to scan everything.
const MAX_NAMES: usize = 4096;

/// The one kind of access that says something: a file was closed after writing.
const WRITTEN: AccessKind = AccessKind::Close(AccessMode::Write);

impl FsEvents {
    /// Begins to listen.
    pub(crate) fn listen(folder: &Path) -> notify::Result<FsEvents> {
        let (sender, signals) = sync_channel(1);
        let changes: Arc<Mutex<Changes>> = Arc::default();
        let (noted, root) = (changes.clone(), folder.to_path_buf());
        let mut watcher =
            notify::recommended_watcher(move |event: notify::Result<notify::Event>| {
                take(&event, &root, &noted, &sender);
            })?;
        watcher.watch(folder, RecursiveMode::Recursive)?;
        Ok(FsEvents {
            signals,
            changes,
            _watcher: watcher,
        })
    }

    /// Returns events that never come, as on a network share.
    #[cfg(test)]
    pub(crate) fn silent() -> FsEvents {
        let (sender, signals) = sync_channel(1);
        let watcher = notify::recommended_watcher(move |_| _ = &sender).unwrap();
        FsEvents {
            signals,
            changes: Arc::default(),
            _watcher: watcher,
        }
    }

    /// Waits for an event, at most so long.
    pub(crate) fn wait(&self, longest: Duration) -> Wakeup {
        match self.signals.recv_timeout(longest) {
            Ok(()) => Wakeup::Changed,
            Err(RecvTimeoutError::Timeout) => Wakeup::TimedOut,
            Err(RecvTimeoutError::Disconnected) => Wakeup::Ended,
        }
    }

    /// Returns what changed since the last call.
    pub(crate) fn drain(&self) -> Changes {
        let mut changes = self.changes.lock().unwrap_or_else(PoisonError::into_inner);
        std::mem::take(&mut changes)
    }
}

fn take(
    event: &notify::Result<notify::Event>,
    root: &Path,
    changes: &Mutex<Changes>,
    signal: &SyncSender<()>,
) {
    let names = match event {
        Ok(e) if is_mere_reading(e.kind) => return,
        Ok(e) if !e.need_rescan() && !e.paths.is_empty() => entry_names(&e.paths, root),
        _ => None,
    };
    {
        let mut changes = changes.lock().unwrap_or_else(PoisonError::into_inner);
        match names {
            Some(names) if changes.names.len() < MAX_NAMES => changes.names.extend(names),
            _ => changes.is_partial = true,
        }
    }
    // One waiting signal says as much as a thousand.
    let _ = signal.try_send(());
}

/// Names of the entries of the root that the paths are in; `None` where one is the root itself or outside of it.
fn entry_names(paths: &[PathBuf], root: &Path) -> Option<Vec<String>> {
    let name = |path: &PathBuf| {
        let inner = path.strip_prefix(root).ok()?;
        let first = inner.components().next()?;
        Some(first.as_os_str().to_string_lossy().into_owned())
    };
    paths.iter().map(name).collect()
}

/// Scans open folders and files themselves; taken for changes, each scan would bring on the next.
fn is_mere_reading(kind: EventKind) -> bool {
    matches!(kind, EventKind::Access(access) if access != WRITTEN)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn writing_is_reported_with_its_job_and_reading_is_not() {
        let dir = tempfile::tempdir().unwrap();
        let job = dir.path().join("R-1");
        std::fs::create_dir(&job).unwrap();
        let file = job.join("relearn.csv");
        std::fs::write(&file, "1").unwrap();
        let events = FsEvents::listen(dir.path()).unwrap();
        std::fs::read(&file).unwrap();
        std::fs::read_dir(dir.path()).unwrap().count();
        assert_eq!(events.wait(Duration::from_millis(500)), Wakeup::TimedOut);
        assert_eq!(events.drain(), Changes::default());
        std::fs::write(&file, "2").unwrap();
        assert_eq!(events.wait(Duration::from_secs(10)), Wakeup::Changed);
        let changes = events.drain();
        assert_eq!(changes.names, BTreeSet::from(["R-1".to_string()]));
        assert!(!changes.is_partial);
    }

    #[test]
    fn what_is_not_below_the_folder_means_everything() {
        let root = Path::new("/inbox");
        let names = |path: &str| entry_names(&[path.into()], root);
        assert_eq!(names("/inbox/R-1/a.csv"), Some(vec!["R-1".into()]));
        assert_eq!(names("/inbox"), None);
        assert_eq!(names("/elsewhere/a.csv"), None);
    }
}
