//! Waiting for jobs in an inbox.

use crate::gather::{JobEntry, digest, fingerprint};
use crate::grouping::{Listing, Snapshot, list, snapshot};
use crate::hints::{Hint, Hints};
use crate::{IntakeError, Ledger};
use std::collections::btree_map::Entry;
use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

/// How an inbox is watched.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WatchOptions {
    /// How long a job's files must keep size and time before the job counts as complete.
    pub settle: Duration,
    /// How often the whole inbox is looked through, whatever the operating system reports.
    pub rescan: Duration,
    /// For network shares, which report nothing: look through the inbox this often and ask the operating
    /// system for no events.
    pub poll: Option<Duration>,
}

impl Default for WatchOptions {
    fn default() -> Self {
        WatchOptions {
            settle: Duration::from_secs(3),
            rescan: Duration::from_secs(10),
            poll: None,
        }
    }
}

/// A job that is complete and was not done with this content before.
#[derive(Debug)]
pub struct ReadyJob {
    /// The folder's name, or the shared part of the loose files' names.
    pub name: String,
    /// Where it lies.
    pub source: JobSource,
    /// Its files, hashed.
    pub entries: Vec<JobEntry>,
    /// What to give to [`Ledger::mark_done`] once the job is done.
    pub fingerprint: String,
}

/// Where a job of the inbox lies.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum JobSource {
    /// A folder.
    Folder(PathBuf),
    /// Loose files in the inbox itself.
    Files(Vec<PathBuf>),
}

/// Watches an inbox. Reads only.
#[derive(Debug)]
pub struct Watch {
    inbox: PathBuf,
    options: WatchOptions,
    jobs: BTreeMap<String, Watched>,
    /// Jobs that the last scan found settled and nobody has looked into yet.
    settled: VecDeque<String>,
    /// Refusals that have been reported and still stand.
    told: BTreeSet<String>,
    untold: VecDeque<IntakeError>,
    inbox_gone: bool,
    next_scan: Instant,
    hints: Option<Hints>,
}

/// One job of the inbox between two scans.
#[derive(Debug)]
struct Watched {
    source: JobSource,
    snapshot: Snapshot,
    unchanged_since: Instant,
    /// Whether this snapshot has been looked into.
    examined: bool,
    /// The content that was last handed out; so a job that failed is not tried again and again.
    handed_out: Option<String>,
}

/// How soon a call notices that it shall stop.
const STOP_CHECK: Duration = Duration::from_millis(50);
impl Watch {
    /// Begins to watch an inbox.
    ///
    /// # Errors
    /// When the inbox cannot be read now. Later on it may come and go.
    pub fn new(inbox: &Path, options: WatchOptions) -> Result<Watch, IntakeError> {
        std::fs::read_dir(inbox).map_err(|source| gone(inbox, source))?;
        Ok(Watch {
            inbox: inbox.to_path_buf(),
            options,
            jobs: BTreeMap::new(),
            settled: VecDeque::new(),
            told: BTreeSet::new(),
            untold: VecDeque::new(),
            inbox_gone: false,
            next_scan: Instant::now(),
            hints: None,
        })
    }

    /// Waits for the next job that is ready, or for something that a person should know; `None` once
    /// `stop` is set. An error does not end the watch: call again.
    ///
    /// A job is ready when nothing in it changed for the settle time and the ledger does not know its
    /// content. A file that comes or changes later makes the job ready again.
    pub fn next(
        &mut self,
        ledger: &dyn Ledger,
        stop: &AtomicBool,
    ) -> Option<Result<ReadyJob, IntakeError>> {
        while !stop.load(Ordering::Relaxed) {
            if let Some(error) = self.untold.pop_front() {
                return Some(Err(error));
            }
            if let Some(name) = self.settled.pop_front() {
                let job = self.jobs.get_mut(&name);
                if let Some(ready) = job.and_then(|job| job.examine(&name, ledger)) {
                    return Some(Ok(ready));
                }
                continue;
            }
            let now = Instant::now();
            if now < self.next_scan {
                self.wait(self.next_scan - now);
                continue;
            }
            // Before the scan, so that nothing written during it goes unreported.
            self.ask_for_hints();
            match list(&self.inbox) {
                Ok(listing) => self.take_in(listing),
                Err(source) => self.lose_inbox(source),
            }
        }
        None
    }

    /// Compares a scan with the one before, and notes which jobs have settled.
    fn take_in(&mut self, listing: Listing) {
        self.inbox_gone = false;
        self.note_refusals(listing.refused);
        let now = Instant::now();
        self.jobs.retain(|name, _| listing.jobs.contains_key(name));
        self.next_scan = now + self.options.poll.unwrap_or(self.options.rescan);
        for (name, listed) in listing.jobs {
            let job = match self.jobs.entry(name.clone()) {
                Entry::Occupied(known) => known.into_mut(),
                Entry::Vacant(new) => new.insert(Watched::new(listed.source.clone(), now)),
            };
            if job.snapshot != listed.snapshot {
                job.source = listed.source;
                job.snapshot = listed.snapshot;
                job.unchanged_since = now;
                job.examined = false;
            }
            let due = job.unchanged_since + self.options.settle;
            if job.examined || job.snapshot.is_empty() {
                continue;
            } else if due <= now {
                self.settled.push_back(name);
            } else {
                self.next_scan = self.next_scan.min(due);
            }
        }
    }

    fn note_refusals(&mut self, refused: Vec<IntakeError>) {
        let texts: BTreeSet<String> = refused.iter().map(|e| e.to_string()).collect();
        let news = refused
            .into_iter()
            .filter(|e| !self.told.contains(&e.to_string()));
        self.untold.extend(news);
        self.told = texts;
    }

    fn lose_inbox(&mut self, source: std::io::Error) {
        if !self.inbox_gone {
            self.untold.push_back(gone(&self.inbox, source));
        }
        self.inbox_gone = true;
        self.hints = None;
        self.next_scan = Instant::now() + self.options.poll.unwrap_or(self.options.rescan);
    }

    /// Without hints (none wanted, none to be had) the rescan alone finds everything, only later.
    fn ask_for_hints(&mut self) {
        if self.hints.is_none() && self.options.poll.is_none() {
            self.hints = Hints::of(&self.inbox).ok();
        }
    }

    /// Waits at most so long; a hint brings the next scan forward.
    fn wait(&mut self, longest: Duration) {
        let slice = longest.min(STOP_CHECK);
        let Some(hints) = &self.hints else {
            return std::thread::sleep(slice);
        };
        match hints.wait(slice) {
            Hint::Changed => {
                let soon = Instant::now() + self.options.settle / 4;
                self.next_scan = self.next_scan.min(soon);
            }
            Hint::Nothing => {}
            Hint::Ended => self.hints = None,
        }
    }
}

impl Watched {
    fn new(source: JobSource, now: Instant) -> Watched {
        Watched {
            source,
            snapshot: Snapshot::new(),
            unchanged_since: now,
            examined: false,
            handed_out: None,
        }
    }

    /// Reads the contents; `None` when they were done before, or have changed since the scan or while
    /// they were read: the next scan then sees the change and lets it settle again.
    fn examine(&mut self, name: &str, ledger: &dyn Ledger) -> Option<ReadyJob> {
        let files = self
            .source
            .files()
            .filter(|f| snapshot(f) == self.snapshot)?;
        let entries: Vec<JobEntry> = files.into_iter().map(digest).collect();
        let after = self.source.files();
        if after.is_none_or(|f| snapshot(&f) != self.snapshot) {
            return None;
        }
        self.examined = true;
        let fingerprint = fingerprint(&entries);
        if self.handed_out.as_ref() == Some(&fingerprint) || ledger.done(name, &fingerprint) {
            return None;
        }
        self.handed_out = Some(fingerprint.clone());
        Some(ReadyJob {
            name: name.to_string(),
            source: self.source.clone(),
            entries,
            fingerprint,
        })
    }
}

fn gone(inbox: &Path, source: std::io::Error) -> IntakeError {
    IntakeError::InboxGone {
        path: inbox.to_path_buf(),
        source,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_job_that_changed_since_the_scan_is_not_handed_out() {
        let inbox = tempfile::tempdir().unwrap();
        let file = inbox.path().join("R-1_relearn.csv");
        std::fs::write(&file, "1").unwrap();
        let mut listing = list(inbox.path()).unwrap();
        let listed = listing.jobs.remove("R-1").unwrap();
        let mut job = Watched::new(listed.source, Instant::now());
        job.snapshot = listed.snapshot;
        std::fs::write(&file, "12").unwrap();
        assert!(
            job.examine("R-1", &crate::MemoryLedger::default())
                .is_none()
        );
        assert!(!job.examined && job.handed_out.is_none());
    }
}
