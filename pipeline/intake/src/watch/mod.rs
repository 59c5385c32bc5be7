//! Waiting for jobs in an inbox.

mod listening;
mod scanning;
mod watched;

use crate::gather::JobEntry;
use crate::hints::Hints;
use crate::ledger::{JobNote, Ledger};
use crate::outbox::identity;
use crate::{IntakeError, JobSource};
use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant, SystemTime};
use watched::{Looked, Watched};

/// How an inbox is watched.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WatchOptions {
    /// How long a job's files must keep size and time before the job counts as complete.
    pub settle: Duration,
    /// How long to wait for the rest of a file that keeps size and time but whose reader says that it is not whole.
    /// After that it is taken as it is.
    pub patience: Duration,
    /// How often the whole inbox is looked through, whatever the operating system reports.
    pub rescan: Duration,
    /// For network shares, which report nothing: look through the inbox this often and ask the operating
    /// system for no events. `None`: ask for events, and poll only when it turns out that none arrive.
    pub poll: Option<Duration>,
}

impl Default for WatchOptions {
    fn default() -> Self {
        WatchOptions {
            settle: Duration::from_secs(3),
            patience: Duration::from_secs(60),
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
    /// When its newest file came.
    pub arrived: SystemTime,
    /// Its files, hashed.
    pub entries: Vec<JobEntry>,
    /// [`crate::fingerprint`] of its files.
    pub fingerprint: String,
}

/// What a wait came to.
#[derive(Debug)]
pub enum Event {
    /// A job may be done.
    Ready(ReadyJob),
    /// Something that a person should know. The watch goes on.
    Notice(IntakeError),
    /// The time is up, or the watch shall stop.
    Nothing,
}

/// What a reader says of a file that lies there: why it is not whole, `None` when it is or nothing speaks against it.
pub type Unfinished<'a> = &'a dyn Fn(&Path) -> Option<String>;

/// Watches an inbox. Reads only.
#[derive(Debug)]
pub struct Watch {
    inbox: PathBuf,
    /// Which folder it is, to notice that another has taken its place.
    identity: Option<(u64, u64)>,
    options: WatchOptions,
    jobs: BTreeMap<String, Watched>,
    /// Jobs that the last scan found settled and nobody has looked into yet, oldest first.
    settled: BTreeSet<(i64, String)>,
    /// Jobs that have come or changed since they were last asked for.
    news: BTreeSet<String>,
    /// Jobs that were told as news, and those of them that have left since they were last asked for.
    announced: BTreeSet<String>,
    left: BTreeSet<String>,
    /// Refusals that have been reported and still stand.
    told: BTreeSet<String>,
    untold: VecDeque<IntakeError>,
    inbox_gone: bool,
    next_scan: Instant,
    hints: Option<Hints>,
    /// Whether a hint came since the last scan.
    hinted: bool,
    /// How many scans in a row found something that no hint had announced.
    unannounced: u32,
    scanned_before: bool,
}

impl Watch {
    /// Begins to watch an inbox.
    ///
    /// # Errors
    /// When the inbox cannot be read now. Later on it may come and go.
    pub fn new(inbox: &Path, options: WatchOptions) -> Result<Watch, IntakeError> {
        std::fs::read_dir(inbox).map_err(|why| gone(inbox, why))?;
        Ok(Watch {
            inbox: inbox.to_path_buf(),
            identity: identity(inbox),
            options,
            jobs: BTreeMap::new(),
            settled: BTreeSet::new(),
            news: BTreeSet::new(),
            announced: BTreeSet::new(),
            left: BTreeSet::new(),
            told: BTreeSet::new(),
            untold: VecDeque::new(),
            inbox_gone: false,
            next_scan: Instant::now(),
            hints: None,
            hinted: false,
            unannounced: 0,
            scanned_before: false,
        })
    }

    /// Waits for the next job that is ready, or for something that a person should know, at most for so long. The
    /// job that came first is served first.
    ///
    /// A job is ready when nothing in it changed for the settle time, its readers take its files for whole, and
    /// the ledger does not know its content. A file that comes or changes later makes the job ready again.
    ///
    /// # Errors
    /// When the ledger cannot be read; call again.
    pub fn next(
        &mut self,
        ledger: &mut dyn Ledger,
        unfinished: Unfinished<'_>,
        longest: Duration,
        stop: &AtomicBool,
    ) -> Result<Event, IntakeError> {
        let end = Instant::now() + longest;
        while !stop.load(Ordering::Relaxed) {
            if let Some(notice) = self.untold.pop_front() {
                return Ok(Event::Notice(notice));
            }
            let now = Instant::now();
            if now >= self.next_scan {
                self.scan(ledger, unfinished)?;
                continue;
            }
            if let Some((arrived, name)) = self.settled.pop_first() {
                match self.look_into(&name, ledger) {
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

    /// Jobs that have come or changed since the last call and wait to be done.
    pub fn news(&mut self) -> Vec<JobNote> {
        let names = std::mem::take(&mut self.news);
        let waiting = names
            .into_iter()
            .filter_map(|name| self.jobs.get(&name).and_then(|job| job.note(&name)));
        let waiting: Vec<JobNote> = waiting.collect();
        self.announced
            .extend(waiting.iter().map(|note| note.name.clone()));
        waiting
    }

    /// Jobs that were told as news and for which nothing is to be done any more, since the last call: they went
    /// away, or are again as they were done.
    pub fn left(&mut self) -> Vec<String> {
        std::mem::take(&mut self.left).into_iter().collect()
    }

    /// Takes a job back that could not be done: it is handed out again after a while, and after a longer one each
    /// time, without anything having to change. `false` when it is not in the inbox any more.
    pub fn give_back(&mut self, name: &str) -> bool {
        let Some(job) = self.jobs.get_mut(name) else {
            return false;
        };
        job.postpone(self.options.settle);
        self.announced.insert(name.into());
        true
    }

    /// Looks through the inbox if it is time to, for a caller that can take no job at present; gives what a person
    /// should know.
    ///
    /// # Errors
    /// When the ledger cannot be read; call again.
    pub fn look(
        &mut self,
        ledger: &mut dyn Ledger,
        unfinished: Unfinished<'_>,
    ) -> Result<Option<IntakeError>, IntakeError> {
        self.wait(Duration::ZERO);
        if Instant::now() >= self.next_scan {
            self.scan(ledger, unfinished)?;
        }
        Ok(self.untold.pop_front())
    }

    fn look_into(
        &mut self,
        name: &str,
        ledger: &mut dyn Ledger,
    ) -> Result<Option<Event>, IntakeError> {
        let Some(job) = self.jobs.get_mut(name) else {
            return Ok(None);
        };
        Ok(match job.examine(name, ledger)? {
            Looked::Ready(ready) => Some(Event::Ready(*ready)),
            Looked::Changing => None,
            Looked::Done => {
                self.leave(name);
                None
            }
            Looked::Trouble(message) => {
                job.postpone(self.options.settle);
                Some(Event::Notice(IntakeError::TroubleReading {
                    job: name.into(),
                    message,
                }))
            }
        })
    }
}

fn gone(inbox: &Path, why: std::io::Error) -> IntakeError {
    IntakeError::InboxGone {
        path: inbox.to_path_buf(),
        why,
    }
}
