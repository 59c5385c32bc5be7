//! One job of the inbox between two scans.

use super::{CheckFile, Completeness, ReadyJob, WatchOptions};
use crate::backoff::Backoff;
use crate::gather::{JobEntry, digest, fingerprint};
use crate::grouping::{Listed, Snapshot, snapshot};
use crate::ledger::{FolderLedger, JobNote, JobState};
use crate::stamps::of_snapshot;
use crate::time::from_nanos;
use crate::walk::FileState;
use crate::{IntakeError, JobSource};
use std::path::PathBuf;
use std::time::{Duration, Instant};

/// One job of the inbox between two scans.
#[derive(Debug)]
pub(super) struct PendingJob {
    source: JobSource,
    snapshot: Snapshot,
    unchanged_since: Instant,
    /// True once this snapshot has been inspected.
    is_inspected: bool,
    /// Fingerprint that was last handed out; so nothing is done twice while the ledger does not know it yet.
    handed_out: Option<String>,
    /// Attempts at this snapshot that failed.
    retry: Option<Retry>,
    /// Statement of the readers about this snapshot, once they were asked.
    gap: Option<Gap>,
}

#[derive(Debug)]
struct Retry {
    count: u32,
    backoff: Backoff,
    not_before: Instant,
}

#[derive(Debug)]
enum Gap {
    None,
    Open {
        path: PathBuf,
        reason: String,
        is_last_line: bool,
        is_reported: bool,
    },
}

/// Outcome of an inspection.
#[derive(Debug)]
pub(super) enum Inspection {
    Ready(Box<ReadyJob>),
    /// Ended the service too often.
    Held {
        crashes: u32,
    },
    /// Done with this content before, or being done.
    Done,
    /// Changed meanwhile: the next scan sees the change and lets it settle again.
    Changing,
    /// A file could not be read for a reason that may pass.
    Transient(String),
}

/// Attempts where the reason of a failure may pass: at a file that cannot be read, which is then rejected, and at
/// checks that did not run.
const MAX_ATTEMPTS: u32 = 5;
const MAX_PAUSE: Duration = Duration::from_secs(600);
/// A job that ended the service so often in a row is held.
const MAX_CRASHES: u32 = 2;

impl PendingJob {
    /// Job with a new snapshot; of a known one it keeps what was handed out.
    pub(super) fn changed(known: Option<PendingJob>, listed: Listed, now: Instant) -> PendingJob {
        PendingJob {
            source: listed.source,
            snapshot: listed.snapshot,
            unchanged_since: now,
            is_inspected: false,
            handed_out: known.and_then(|job| job.handed_out),
            retry: None,
            gap: None,
        }
    }

    pub(super) fn is_empty(&self) -> bool {
        self.snapshot.is_empty()
    }

    /// Names of its entries in the inbox.
    pub(super) fn entry_names(&self) -> Vec<String> {
        self.source.entry_names()
    }

    /// Returns whether something is to be done for it.
    pub(super) fn is_open(&self) -> bool {
        !self.is_inspected && !self.is_empty()
    }

    pub(super) fn differs_from(&self, snapshot: &Snapshot) -> bool {
        self.snapshot != *snapshot
    }

    /// Returns whether the ledger knows just these files, by size and times alone.
    pub(super) fn is_as_noted(&self, noted: Option<&String>) -> bool {
        noted.is_some() && of_snapshot(&self.snapshot).as_ref() == noted
    }

    /// Notes that nothing is to be done for this snapshot.
    pub(super) fn close(&mut self) {
        self.is_inspected = true;
    }

    /// Time from which the job may be inspected; `None` when there is no need to.
    pub(super) fn due(
        &mut self,
        now: Instant,
        options: &WatchOptions,
        check: CheckFile<'_>,
    ) -> Option<Instant> {
        if !self.is_open() {
            return None;
        }
        let settled = self.unchanged_since + options.settle;
        if settled > now {
            return Some(settled);
        }
        if let Some(retry) = self.retry.as_ref().filter(|r| r.not_before > now) {
            return Some(retry.not_before);
        }
        if self.gap.is_none() {
            self.gap = Some(self.ask(check));
        }
        let timeout = match self.gap {
            Some(Gap::Open {
                is_last_line: true, ..
            }) => options.last_line_timeout,
            Some(Gap::Open { .. }) => options.incomplete_timeout,
            _ => Duration::ZERO,
        };
        Some(settled.max(self.unchanged_since + timeout))
    }

    /// Asks the readers: the first file that is incomplete, else the first whose last line is.
    fn ask(&self, check: CheckFile<'_>) -> Gap {
        let mut gap = Gap::None;
        for file in self.source.files().unwrap_or_default() {
            let FileState::Present(_) = file.state else {
                continue;
            };
            let (reason, is_last_line) = match check(&file.location) {
                Completeness::Complete => continue,
                Completeness::LastLine(reason) => (reason, true),
                Completeness::Incomplete(reason) => (reason, false),
            };
            if is_last_line && !matches!(gap, Gap::None) {
                continue;
            }
            gap = Gap::Open {
                path: file.location,
                reason,
                is_last_line,
                is_reported: false,
            };
            if !is_last_line {
                break;
            }
        }
        gap
    }

    /// File that its reader does not take for complete, if that has not been reported. The end of a last line is not
    /// worth a word: it comes in seconds, or is not missed.
    pub(super) fn unreported_gap(&mut self) -> Option<(PathBuf, String)> {
        match &mut self.gap {
            Some(Gap::Open {
                path,
                reason,
                is_last_line: false,
                is_reported,
            }) if !*is_reported => {
                *is_reported = true;
                Some((path.clone(), reason.clone()))
            }
            _ => None,
        }
    }

    /// Hands the job out again later, at the time that it returns; the later the more often it failed.
    pub(super) fn postpone(&mut self, pause: Duration) -> Instant {
        let now = Instant::now();
        let retry = self.retry.get_or_insert_with(|| Retry {
            count: 0,
            backoff: Backoff::new(pause, MAX_PAUSE),
            not_before: now,
        });
        retry.count += 1;
        retry.not_before = now + retry.backoff.next_pause();
        self.is_inspected = false;
        self.handed_out = None;
        retry.not_before
    }

    /// Returns whether this snapshot may be tried once more for a reason that may pass.
    pub(super) fn may_retry(&self) -> bool {
        self.retry.as_ref().map_or(0, |r| r.count) < MAX_ATTEMPTS
    }

    /// Time of the newest file, nanoseconds since 1970-01-01 UTC.
    pub(super) fn arrived(&self) -> i64 {
        let times = self.snapshot.values().filter_map(|state| match state {
            FileState::Present(stamp) => stamp.arrived(),
            _ => None,
        });
        times.max().unwrap_or(0)
    }

    /// Note of the job as one that waits; `None` when nothing is to be done for it.
    pub(super) fn note(&self, name: &str) -> Option<JobNote> {
        self.is_open().then(|| self.describe(name))
    }

    pub(super) fn describe(&self, name: &str) -> JobNote {
        JobNote {
            name: name.into(),
            source: self.source.clone(),
            arrived: from_nanos(self.arrived()),
            state: JobState::Waiting,
            fingerprint: None,
        }
    }

    /// Reads the contents.
    pub(super) fn inspect(
        &mut self,
        name: &str,
        ledger: &mut dyn FolderLedger,
    ) -> Result<Inspection, IntakeError> {
        let Some(files) = self.source.files().filter(|f| snapshot(f) == self.snapshot) else {
            return Ok(Inspection::Changing);
        };
        let entries: Vec<JobEntry> = files.into_iter().map(digest).collect();
        let after = self.source.files();
        if after.is_none_or(|f| snapshot(&f) != self.snapshot) {
            return Ok(Inspection::Changing);
        }
        let transient = entries.iter().find(|e| e.is_transient);
        if let Some(Err(problem)) = transient.map(|e| &e.content)
            && self.may_retry()
        {
            return Ok(Inspection::Transient(format!(
                "{}: {}",
                problem.file, problem.message
            )));
        }
        let fingerprint = fingerprint(&entries);
        let latest = ledger.latest(name)?;
        let crashes = ledger.crashes(name, &fingerprint)?;
        let is_made = match latest {
            Some(r) if r.fingerprint == fingerprint => !ledger.is_due_again(name, r.number)?,
            _ => false,
        };
        self.is_inspected = true;
        if is_made || self.handed_out.as_ref() == Some(&fingerprint) {
            return Ok(Inspection::Done);
        }
        if crashes >= MAX_CRASHES {
            return Ok(Inspection::Held { crashes });
        }
        self.handed_out = Some(fingerprint.clone());
        Ok(Inspection::Ready(Box::new(ReadyJob {
            name: name.to_string(),
            source: self.source.clone(),
            arrived: from_nanos(self.arrived()),
            entries,
            fingerprint,
            crashes,
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
        let mut listing = list(&inbox, None).unwrap();
        let listed = listing.jobs.remove("R-1").unwrap();
        let mut job = PendingJob::changed(None, listed, Instant::now());
        std::fs::write(&file, "12").unwrap();
        let inspection = job.inspect("R-1", &mut ledger).unwrap();
        assert!(matches!(inspection, Inspection::Changing));
        assert!(!job.is_inspected && job.handed_out.is_none());
    }
}
