//! Waiting for jobs in an inbox.

mod events;
mod pending_job;
mod scan;

use crate::fs_events::FsEvents;
use crate::gather::JobEntry;
use crate::ledger::{FolderLedger, JobNote, JobState};
use crate::write::identity;
use crate::{IntakeError, JobSource};
use pending_job::{Inspection, PendingJob};
use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant, SystemTime};

/// Settings of a watch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WatchOptions {
    /// Time for which a job's files must keep size and time before the job counts as complete.
    pub settle: Duration,
    /// Time to wait for the end of a last line, in a file that keeps size and time and is complete but for it.
    pub last_line_timeout: Duration,
    /// Time to wait for the rest of a file that keeps size and time but whose reader says that it is incomplete.
    /// After that it is taken as it is.
    pub incomplete_timeout: Duration,
    /// Interval at which the whole inbox is scanned, whatever the operating system reports. A scan that takes long is
    /// repeated less often.
    pub rescan: Duration,
    /// For network shares, which report nothing: scan the inbox at this interval and ask the operating system for no
    /// events. `None`: ask for events, and poll only when it turns out that none arrive.
    pub poll: Option<Duration>,
}

impl Default for WatchOptions {
    fn default() -> Self {
        WatchOptions {
            settle: Duration::from_secs(3),
            last_line_timeout: Duration::from_secs(5),
            incomplete_timeout: Duration::from_secs(60),
            rescan: Duration::from_secs(10),
            poll: None,
        }
    }
}

/// A job that is complete and was not done with this content before.
#[derive(Debug)]
pub struct ReadyJob {
    /// Name of the folder, or the shared part of the loose files' names.
    pub name: String,
    /// Place of its files.
    pub source: JobSource,
    /// Time of its newest file.
    pub arrived: SystemTime,
    /// Files, hashed.
    pub entries: Vec<JobEntry>,
    /// [`fingerprint`](crate::fingerprint) of its files.
    pub fingerprint: String,
    /// Times in a row that the service ended by a fault of its own while it worked on the job. Where that is not zero
    /// the job is to be done alone, so that another end is not blamed on others.
    pub crashes: u32,
}

/// Outcome of a wait.
#[derive(Debug)]
pub enum Event {
    /// A job that may be done.
    Ready(ReadyJob),
    /// A job that ended the service twice; it is not handed out until its files change.
    Held(JobNote),
    /// Something that a person should know. The watch goes on.
    Notice(IntakeError),
    /// The time is up, or the watch shall stop.
    Nothing,
}

/// Statement of a reader about a file that does not change.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Completeness {
    /// Complete, or nothing speaks against it.
    Complete,
    /// Complete but for the end of its last line, for this reason.
    LastLine(String),
    /// Incomplete, for this reason.
    Incomplete(String),
}

/// Asks the readers about a file.
pub type CheckFile<'a> = &'a dyn Fn(&Path) -> Completeness;

/// Watches an inbox. Reads only.
#[derive(Debug)]
pub struct Watch {
    inbox: PathBuf,
    /// Folder whose folders add to the jobs of their names.
    additions: Option<PathBuf>,
    /// Identity of the folder, to notice that another has taken its place.
    identity: Option<(u64, u64)>,
    options: WatchOptions,
    jobs: BTreeMap<String, PendingJob>,
    /// Jobs that are settled and not inspected yet, oldest first.
    settled: BTreeSet<(i64, String)>,
    /// Jobs that have come or changed since they were last drained.
    new: BTreeSet<String>,
    /// Jobs that were drained as new, and those of them that were removed since they were last drained.
    announced: BTreeSet<String>,
    removed: BTreeSet<String>,
    /// Refusals that have been reported and still stand.
    reported: BTreeSet<String>,
    /// True where they have changed since they were last drained.
    refusals_changed: bool,
    unreported: VecDeque<IntakeError>,
    is_inbox_gone: bool,
    /// Entries of the inbox that changed since the last scan.
    changed: BTreeSet<String>,
    next_scan: Instant,
    next_full_scan: Instant,
    /// Time before which lost events bring on no scan of everything.
    earliest_full_scan: Instant,
    events: Option<FsEvents>,
    /// True where an event came since the last scan.
    is_announced: bool,
    /// Number of scans in a row that found something that no event had announced.
    unannounced: u32,
    has_scanned: bool,
}

impl Watch {
    /// Begins to watch an inbox.
    ///
    /// # Errors
    /// When the inbox cannot be read now. Later on it may come and go.
    pub fn new(inbox: &Path, options: WatchOptions) -> Result<Watch, IntakeError> {
        std::fs::read_dir(inbox).map_err(|why| gone(inbox, why))?;
        let now = Instant::now();
        Ok(Watch {
            inbox: inbox.to_path_buf(),
            additions: None,
            identity: identity(inbox),
            options,
            jobs: BTreeMap::new(),
            settled: BTreeSet::new(),
            new: BTreeSet::new(),
            announced: BTreeSet::new(),
            removed: BTreeSet::new(),
            reported: BTreeSet::new(),
            // What an earlier watch refused may stand no more.
            refusals_changed: true,
            unreported: VecDeque::new(),
            is_inbox_gone: false,
            changed: BTreeSet::new(),
            next_scan: now,
            next_full_scan: now,
            earliest_full_scan: now,
            events: None,
            is_announced: false,
            unannounced: 0,
            has_scanned: false,
        })
    }

    /// Watches a second folder, too: each folder in it adds its files to the job of its name. What is changed there is
    /// to be [announced](Watch::announce).
    #[must_use]
    pub fn with_additions(self, folder: &Path) -> Watch {
        Watch {
            additions: Some(folder.to_path_buf()),
            ..self
        }
    }

    /// Notes that files of a job were changed, and scans them soon.
    pub fn announce(&mut self, job: &str) {
        self.changed.insert(job.into());
        self.is_announced = true;
        self.next_scan = Instant::now();
    }

    /// Waits for the next job that is ready, or for something that a person should know, at most for so long. The
    /// job that came first is served first.
    ///
    /// A job is ready when nothing in it changed for the settle time, its readers take its files for complete, and
    /// the ledger does not know its content. A file that comes or changes later makes the job ready again.
    ///
    /// # Errors
    /// When the ledger cannot be read; call again.
    pub fn next(
        &mut self,
        ledger: &mut dyn FolderLedger,
        check: CheckFile<'_>,
        longest: Duration,
        stop: &AtomicBool,
    ) -> Result<Event, IntakeError> {
        let end = Instant::now() + longest;
        while !stop.load(Ordering::Relaxed) {
            if let Some(notice) = self.unreported.pop_front() {
                return Ok(Event::Notice(notice));
            }
            let now = Instant::now();
            if now >= self.next_scan {
                self.scan(ledger, check)?;
                continue;
            }
            if let Some((arrived, name)) = self.settled.pop_first() {
                match self.inspect(&name, ledger) {
                    Ok(Some(event)) => return Ok(event),
                    Ok(None) => continue,
                    Err(e) => {
                        self.settled.insert((arrived, name));
                        return Err(e);
                    }
                }
            }
            if now >= end {
                break;
            }
            self.wait((self.next_scan - now).min(end - now));
        }
        Ok(Event::Nothing)
    }

    /// Returns the jobs that have come or changed since the last call and wait to be done.
    pub fn drain_new(&mut self) -> Vec<JobNote> {
        let names = std::mem::take(&mut self.new);
        let waiting = names
            .into_iter()
            .filter_map(|name| self.jobs.get(&name).and_then(|job| job.note(&name)));
        let waiting: Vec<JobNote> = waiting.collect();
        self.announced
            .extend(waiting.iter().map(|note| note.name.clone()));
        waiting
    }

    /// Returns the jobs that were drained as new and for which nothing is to be done any more, since the last call:
    /// they went away, or are again as they were done.
    pub fn drain_removed(&mut self) -> Vec<String> {
        std::mem::take(&mut self.removed).into_iter().collect()
    }

    /// Returns what of the inbox belongs to no job, with what to do about it, if that has changed since the last call.
    pub fn drain_refusals(&mut self) -> Option<Vec<String>> {
        let has_changed = self.has_scanned && std::mem::take(&mut self.refusals_changed);
        has_changed.then(|| self.reported.iter().cloned().collect())
    }

    /// Takes a job back that could not be done: it is handed out again after a pause, and after a longer one each
    /// time, without anything having to change. Returns `false` when it is not in the inbox any more.
    pub fn requeue(&mut self, name: &str) -> bool {
        let Some(job) = self.jobs.get_mut(name) else {
            return false;
        };
        self.next_scan = self.next_scan.min(job.postpone(self.options.settle));
        self.announced.insert(name.into());
        true
    }

    /// Takes a job back that has its report and may turn out better another time: as [`Watch::requeue`], but only a few
    /// times for the same files. Returns `false` when it is not handed out again.
    pub fn requeue_few(&mut self, name: &str) -> bool {
        self.jobs.get(name).is_some_and(PendingJob::may_retry) && self.requeue(name)
    }

    /// Scans the inbox if it is time to, for a caller that can take no job at present; returns what a person should
    /// know.
    ///
    /// # Errors
    /// When the ledger cannot be read; call again.
    pub fn poll(
        &mut self,
        ledger: &mut dyn FolderLedger,
        check: CheckFile<'_>,
    ) -> Result<Option<IntakeError>, IntakeError> {
        self.wait(Duration::ZERO);
        if Instant::now() >= self.next_scan {
            self.scan(ledger, check)?;
        }
        Ok(self.unreported.pop_front())
    }

    fn inspect(
        &mut self,
        name: &str,
        ledger: &mut dyn FolderLedger,
    ) -> Result<Option<Event>, IntakeError> {
        let Some(job) = self.jobs.get_mut(name) else {
            return Ok(None);
        };
        Ok(match job.inspect(name, ledger)? {
            Inspection::Ready(ready) => Some(Event::Ready(*ready)),
            Inspection::Held { crashes } => {
                self.announced.insert(name.into());
                Some(Event::Held(JobNote {
                    state: JobState::Held(held(crashes)),
                    ..job.describe(name)
                }))
            }
            Inspection::Changing => {
                self.changed.insert(name.into());
                self.next_scan = self.next_scan.min(Instant::now() + self.options.settle / 4);
                None
            }
            Inspection::Done => {
                self.remove(name);
                None
            }
            Inspection::Transient(message) => {
                let due = job.postpone(self.options.settle);
                self.next_scan = self.next_scan.min(due);
                Some(Event::Notice(IntakeError::TransientRead {
                    job: name.into(),
                    message,
                }))
            }
        })
    }
}

fn held(crashes: u32) -> String {
    format!(
        "The program ended {crashes} times while it worked on this job. It is not tried again until its files change; \
         please report it with them."
    )
}

fn gone(inbox: &Path, why: std::io::Error) -> IntakeError {
    IntakeError::InboxGone {
        path: inbox.to_path_buf(),
        why,
    }
}
