//! Waiting for jobs in an inbox.

mod listening;
mod watched;

use crate::gather::JobEntry;
use crate::grouping::{Listing, list};
use crate::hints::Hints;
use crate::ledger::{JobNote, Ledger};
use crate::outbox::identity;
use crate::{IntakeError, JobSource};
use std::collections::btree_map::Entry;
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
        std::fs::read_dir(inbox).map_err(|source| gone(inbox, source))?;
        Ok(Watch {
            inbox: inbox.to_path_buf(),
            identity: identity(inbox),
            options,
            jobs: BTreeMap::new(),
            settled: BTreeSet::new(),
            news: BTreeSet::new(),
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
        waiting.collect()
    }

    /// Takes a job back that could not be done: it is handed out again after a while, and after a longer one each
    /// time, without anything having to change.
    pub fn give_back(&mut self, name: &str) {
        if let Some(job) = self.jobs.get_mut(name) {
            job.postpone(self.options.settle);
        }
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
            Looked::Nothing => None,
            Looked::Trouble(message) => {
                job.postpone(self.options.settle);
                Some(Event::Notice(IntakeError::TroubleReading {
                    job: name.into(),
                    message,
                }))
            }
        })
    }

    fn scan(
        &mut self,
        ledger: &mut dyn Ledger,
        unfinished: Unfinished<'_>,
    ) -> Result<(), IntakeError> {
        // Before the scan, so that nothing written during it goes unreported.
        self.ask_for_hints();
        match list(&self.inbox) {
            Ok(listing) => {
                self.note_identity();
                let changed = self.take_in(listing, ledger, unfinished)?;
                self.judge_hints(changed);
            }
            Err(source) => self.lose_inbox(source),
        }
        Ok(())
    }

    /// Compares a scan with the one before, and notes which jobs have settled. Gives whether anything changed.
    fn take_in(
        &mut self,
        listing: Listing,
        ledger: &mut dyn Ledger,
        unfinished: Unfinished<'_>,
    ) -> Result<bool, IntakeError> {
        self.inbox_gone = false;
        self.note_refusals(listing.refused);
        let now = Instant::now();
        let known = self.jobs.len();
        self.jobs.retain(|name, _| listing.jobs.contains_key(name));
        let mut changed = self.jobs.len() != known;
        self.settled.clear();
        let mut next_scan = now + self.options.poll.unwrap_or(self.options.rescan);
        for (name, listed) in listing.jobs {
            let job = match self.jobs.entry(name.clone()) {
                Entry::Occupied(known) => known.into_mut(),
                Entry::Vacant(new) => new.insert(Watched::new(listed.source.clone(), now)),
            };
            if job.differs_from(&listed.snapshot) {
                changed = true;
                job.change(listed, now);
                if job.is_as_noted(&ledger.files(&name)?) {
                    job.leave();
                } else if !job.is_empty() {
                    self.news.insert(name.clone());
                }
            }
            let due = job.due(now, &self.options, unfinished);
            if let Some((path, reason)) = job.new_doubt() {
                let notice = IntakeError::Unfinished { path, reason };
                self.untold.push_back(notice);
            }
            match due {
                Some(due) if due <= now => {
                    self.settled.insert((job.arrived(), name));
                }
                Some(due) => next_scan = next_scan.min(due),
                None => {}
            }
        }
        self.next_scan = next_scan;
        Ok(changed)
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
        self.settled.clear();
        self.next_scan = Instant::now() + self.options.poll.unwrap_or(self.options.rescan);
    }

    /// Another folder under the inbox's name (another share, or none mounted): what was known of the files is void.
    fn note_identity(&mut self) {
        let present = identity(&self.inbox);
        if present != self.identity {
            self.untold
                .push_back(IntakeError::InboxReplaced(self.inbox.clone()));
            self.identity = present;
            self.jobs.clear();
            self.hints = None;
            self.next_scan = Instant::now();
        }
    }
}

fn gone(inbox: &Path, source: std::io::Error) -> IntakeError {
    IntakeError::InboxGone {
        path: inbox.to_path_buf(),
        source,
    }
}
