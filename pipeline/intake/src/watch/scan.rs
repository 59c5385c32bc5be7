//! Scans of the inbox: what came, what changed, what went, and whether it is still the same inbox.
//!
//! A scan after an event looks into the jobs that the event was about and into those that are not done, so that its
//! cost does not grow with the jobs that are. The whole inbox is scanned at an interval.

use super::pending_job::PendingJob;
use super::{CheckFile, Watch, gone};
use crate::IntakeError;
use crate::grouping::{Listing, job_name, list};
use crate::ledger::Ledger;
use crate::write::identity;
use std::collections::BTreeSet;
use std::time::{Duration, Instant};

/// Scans take at most one part in so many of the time.
const SCAN_SHARE: u32 = 20;

impl Watch {
    pub(super) fn scan(
        &mut self,
        ledger: &mut dyn Ledger,
        check: CheckFile<'_>,
    ) -> Result<(), IntakeError> {
        // Before the scan, so that nothing written during it goes unreported.
        let is_listening = self.events.is_some();
        self.listen();
        self.note_changes();
        let begun = Instant::now();
        let is_full = begun >= self.next_full_scan || !is_listening;
        let wanted = (!is_full).then(|| self.wanted());
        match list(&self.inbox, wanted.as_ref()) {
            Ok(listing) => {
                self.note_identity();
                if is_full {
                    self.next_full_scan = Instant::now() + self.full_scan_pause(begun.elapsed());
                }
                let has_changed = self.take_in(listing, ledger, check)?;
                self.changed.clear();
                self.check_events(has_changed);
            }
            Err(why) => self.lose_inbox(why),
        }
        Ok(())
    }

    fn full_scan_pause(&self, duration: Duration) -> Duration {
        let interval = self.options.poll.unwrap_or(self.options.rescan);
        interval.max(duration * SCAN_SHARE)
    }

    /// Takes in the names that events were about.
    fn note_changes(&mut self) {
        let Some(events) = &self.events else { return };
        let changes = events.drain();
        if changes.is_partial {
            self.next_full_scan = Instant::now();
        }
        for name in changes.names {
            // A loose file changes the job that it belongs to.
            self.changed.insert(job_name(&name).into());
            self.changed.insert(name);
        }
    }

    /// Jobs that a partial scan looks into.
    fn wanted(&self) -> BTreeSet<String> {
        let open = self.jobs.iter().filter(|(_, job)| job.is_open());
        let open = open.map(|(name, _)| name.clone());
        self.changed.iter().cloned().chain(open).collect()
    }

    /// Compares a scan with the one before, and notes which jobs have settled. Returns whether anything changed.
    fn take_in(
        &mut self,
        listing: Listing,
        ledger: &mut dyn Ledger,
        check: CheckFile<'_>,
    ) -> Result<bool, IntakeError> {
        self.is_inbox_gone = false;
        self.note_refusals(listing.refused);
        let now = Instant::now();
        let differs = |name: &String, listed: &crate::grouping::Listed| {
            (self.jobs.get(name)).is_none_or(|job| job.differs_from(&listed.snapshot))
        };
        let changed: BTreeSet<String> = (listing.jobs.iter())
            .filter(|(name, listed)| differs(name, listed))
            .map(|(name, _)| name.clone())
            .collect();
        let names: Vec<&str> = changed.iter().map(String::as_str).collect();
        let mut noted = match names.is_empty() {
            true => Default::default(),
            false => ledger.files(&names)?,
        };
        let has_removed = self.forget(|name| !listing.names.contains(name));
        self.settled.clear();
        let mut next_scan = self.next_full_scan;
        for (name, listed) in listing.jobs {
            if changed.contains(&name) {
                let known = self.jobs.remove(&name);
                let job = PendingJob::changed(known, listed, now);
                let is_done =
                    job.is_empty() || job.is_as_noted(&noted.remove(&name).unwrap_or_default());
                let job = self.jobs.entry(name.clone()).insert_entry(job).into_mut();
                if is_done {
                    job.close();
                    self.remove(&name);
                    continue;
                }
                self.new.insert(name.clone());
            }
            let Some(job) = self.jobs.get_mut(&name) else {
                continue;
            };
            let due = job.due(now, &self.options, check);
            if let Some((path, reason)) = job.unreported_gap() {
                let notice = IntakeError::Incomplete { path, reason };
                self.unreported.push_back(notice);
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
        Ok(has_removed || !changed.is_empty())
    }

    /// Forgets jobs; returns whether there were any.
    fn forget(&mut self, is_gone: impl Fn(&str) -> bool) -> bool {
        let known = self.jobs.len();
        self.jobs.retain(|name, _| !is_gone(name));
        let (gone, staying) = std::mem::take(&mut self.announced)
            .into_iter()
            .partition(|name| is_gone(name));
        self.announced = staying;
        self.removed.extend::<BTreeSet<String>>(gone);
        self.jobs.len() != known
    }

    /// Nothing is to be done for a job of the inbox.
    pub(super) fn remove(&mut self, name: &str) {
        if self.announced.remove(name) {
            self.removed.insert(name.into());
        }
    }

    fn note_refusals(&mut self, refused: Vec<IntakeError>) {
        let texts: BTreeSet<String> = refused.iter().map(|e| e.to_string()).collect();
        let new = refused
            .into_iter()
            .filter(|e| !self.reported.contains(&e.to_string()));
        self.unreported.extend(new);
        self.reported = texts;
    }

    fn lose_inbox(&mut self, why: std::io::Error) {
        if !self.is_inbox_gone {
            self.unreported.push_back(gone(&self.inbox, why));
        }
        self.is_inbox_gone = true;
        self.events = None;
        self.settled.clear();
        self.next_scan = Instant::now() + self.options.poll.unwrap_or(self.options.rescan);
        self.next_full_scan = self.next_scan;
    }

    /// Another folder under the inbox's name (another share, or none mounted): what was known of the files is void.
    fn note_identity(&mut self) {
        let present = identity(&self.inbox);
        if present != self.identity {
            self.unreported
                .push_back(IntakeError::InboxReplaced(self.inbox.clone()));
            self.identity = present;
            self.forget(|_| true);
            self.events = None;
            self.next_full_scan = Instant::now();
        }
    }
}
