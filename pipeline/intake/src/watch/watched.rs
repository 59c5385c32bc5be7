//! One job of the inbox between two scans.

use super::{ReadyJob, Unfinished, WatchOptions};
use crate::gather::{JobEntry, digest, fingerprint};
use crate::grouping::{Listed, Snapshot, snapshot};
use crate::ledger::{FileFact, JobNote, JobState, Ledger, moment};
use crate::walk::FileState;
use crate::{IntakeError, JobSource};
use std::path::PathBuf;
use std::time::{Duration, Instant};

/// One job of the inbox between two scans.
#[derive(Debug)]
pub(super) struct Watched {
    source: JobSource,
    snapshot: Snapshot,
    unchanged_since: Instant,
    /// Whether this snapshot has been looked into.
    examined: bool,
    /// The content that was last handed out; so nothing is done twice while the ledger does not know it yet.
    handed_out: Option<String>,
    /// How often this snapshot could not be done, and until when it is left alone therefore.
    tries: u32,
    not_before: Option<Instant>,
    /// What the readers said of this snapshot, once they were asked.
    doubt: Option<Doubt>,
}

#[derive(Debug)]
enum Doubt {
    Whole,
    Unfinished {
        path: PathBuf,
        reason: String,
        told: bool,
    },
}

/// What looking into a job came to.
#[derive(Debug)]
pub(super) enum Looked {
    Ready(Box<ReadyJob>),
    /// Done with this content before, or being done.
    Done,
    /// Changed meanwhile: the next scan sees the change and lets it settle again.
    Changing,
    /// A file could not be read for a reason that may pass.
    Trouble(String),
}

/// So often a file is tried that cannot be read for a reason that may pass; then it is set aside.
const MOST_TRIES: u32 = 5;
const LONGEST_PAUSE: Duration = Duration::from_secs(600);

impl Watched {
    pub(super) fn new(source: JobSource, now: Instant) -> Watched {
        Watched {
            source,
            snapshot: Snapshot::new(),
            unchanged_since: now,
            examined: false,
            handed_out: None,
            tries: 0,
            not_before: None,
            doubt: None,
        }
    }

    pub(super) fn is_empty(&self) -> bool {
        self.snapshot.is_empty()
    }

    pub(super) fn differs_from(&self, snapshot: &Snapshot) -> bool {
        self.snapshot != *snapshot
    }

    pub(super) fn change(&mut self, listed: Listed, now: Instant) {
        *self = Watched {
            snapshot: listed.snapshot,
            handed_out: self.handed_out.take(),
            ..Watched::new(listed.source, now)
        };
    }

    /// Whether the ledger knows just these files, by size and times alone. A file that could not be read then is
    /// worth another look.
    pub(super) fn is_as_noted(&self, noted: &[FileFact]) -> bool {
        self.snapshot.len() == noted.len()
            && noted.iter().all(|f| match self.snapshot.get(&f.path) {
                Some(FileState::Present(stamp)) => {
                    f.content.is_ok()
                        && (stamp.size, stamp.modified, stamp.changed)
                            == (f.size, f.modified, f.changed)
                }
                Some(FileState::Refused(why)) => f.content.as_ref().is_err_and(|w| w == why),
                _ => false,
            })
    }

    /// Nothing is to be done for this snapshot.
    pub(super) fn leave(&mut self) {
        self.examined = true;
    }

    /// When the job may be looked into; `None` when there is no need to.
    pub(super) fn due(
        &mut self,
        now: Instant,
        options: &WatchOptions,
        unfinished: Unfinished<'_>,
    ) -> Option<Instant> {
        if self.examined || self.snapshot.is_empty() {
            return None;
        }
        let settled = self.unchanged_since + options.settle;
        if settled > now {
            return Some(settled);
        }
        if let Some(later) = self.not_before.filter(|t| *t > now) {
            return Some(later);
        }
        if self.doubt.is_none() {
            self.doubt = Some(self.ask(unfinished));
        }
        match self.doubt {
            Some(Doubt::Unfinished { .. }) => {
                Some(settled.max(self.unchanged_since + options.patience))
            }
            _ => Some(settled),
        }
    }

    fn ask(&self, unfinished: Unfinished<'_>) -> Doubt {
        for file in self.source.files().unwrap_or_default() {
            if let FileState::Present(_) = file.state
                && let Some(reason) = unfinished(&file.location)
            {
                return Doubt::Unfinished {
                    path: file.location,
                    reason,
                    told: false,
                };
            }
        }
        Doubt::Whole
    }

    /// A file that its reader does not take for whole, if that has not been told.
    pub(super) fn new_doubt(&mut self) -> Option<(PathBuf, String)> {
        match &mut self.doubt {
            Some(Doubt::Unfinished { path, reason, told }) if !*told => {
                *told = true;
                Some((path.clone(), reason.clone()))
            }
            _ => None,
        }
    }

    /// Hands the job out again, later; the longer the more often it failed.
    pub(super) fn postpone(&mut self, pause: Duration) {
        let pause = pause.saturating_mul(1 << self.tries.min(16));
        self.not_before = Some(Instant::now() + pause.min(LONGEST_PAUSE));
        self.tries += 1;
        self.examined = false;
        self.handed_out = None;
    }

    /// When the newest file came, nanoseconds since 1970.
    pub(super) fn arrived(&self) -> i64 {
        let times = self.snapshot.values().filter_map(|state| match state {
            FileState::Present(stamp) => stamp.arrived(),
            _ => None,
        });
        times.max().unwrap_or(0)
    }

    /// The job as one that waits; `None` when nothing is to be done for it.
    pub(super) fn note(&self, name: &str) -> Option<JobNote> {
        (!self.examined && !self.snapshot.is_empty()).then(|| JobNote {
            name: name.into(),
            source: self.source.clone(),
            arrived: moment(self.arrived()),
            state: JobState::Waiting,
        })
    }

    /// Reads the contents.
    pub(super) fn examine(
        &mut self,
        name: &str,
        ledger: &mut dyn Ledger,
    ) -> Result<Looked, IntakeError> {
        let Some(files) = self.source.files().filter(|f| snapshot(f) == self.snapshot) else {
            return Ok(Looked::Changing);
        };
        let entries: Vec<JobEntry> = files.into_iter().map(digest).collect();
        let after = self.source.files();
        if after.is_none_or(|f| snapshot(&f) != self.snapshot) {
            return Ok(Looked::Changing);
        }
        let passing = entries.iter().find(|e| e.may_pass);
        if let Some(Err(problem)) = passing.map(|e| &e.content)
            && self.tries < MOST_TRIES
        {
            return Ok(Looked::Trouble(format!(
                "{}: {}",
                problem.file, problem.message
            )));
        }
        let fingerprint = fingerprint(&entries);
        let done = ledger
            .latest(name)?
            .is_some_and(|r| r.fingerprint == fingerprint);
        self.examined = true;
        if done || self.handed_out.as_ref() == Some(&fingerprint) {
            return Ok(Looked::Done);
        }
        self.handed_out = Some(fingerprint.clone());
        Ok(Looked::Ready(Box::new(ReadyJob {
            name: name.to_string(),
            source: self.source.clone(),
            arrived: moment(self.arrived()),
            entries,
            fingerprint,
        })))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::SqliteLedger;
    use crate::grouping::list;

    #[test]
    fn a_job_that_changed_since_the_scan_is_not_handed_out() {
        let dir = tempfile::tempdir().unwrap();
        let inbox = dir.path().join("inbox");
        std::fs::create_dir(&inbox).unwrap();
        let mut ledger = SqliteLedger::open(&dir.path().join("ledger.db"), true).unwrap();
        let file = inbox.join("R-1_relearn.csv");
        std::fs::write(&file, "1").unwrap();
        let mut listing = list(&inbox).unwrap();
        let listed = listing.jobs.remove("R-1").unwrap();
        let mut job = Watched::new(listed.source.clone(), Instant::now());
        job.change(listed, Instant::now());
        std::fs::write(&file, "12").unwrap();
        let looked = job.examine("R-1", &mut ledger).unwrap();
        assert!(matches!(looked, Looked::Changing));
        assert!(!job.examined && job.handed_out.is_none());
    }
}
