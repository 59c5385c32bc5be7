//! Scans of the inbox: what came, what changed, what went, and whether it is still the same inbox.
//!
//! A scan after an event looks at the entries that the event was about and at the jobs that are not done, so that its
//! cost does not grow with the jobs that are. The whole inbox is scanned at an interval.

use super::pending_job::PendingJob;
use super::{CheckFile, Watch, gone};
use crate::IntakeError;
use crate::grouping::{Listed, Listing, job_name, list, list_entries};
use crate::ledger::FolderLedger;
use crate::write::identity;
use std::collections::BTreeSet;
use std::time::Instant;

/// Scans take at most one part in so many of the time.
const SCAN_SHARE: u32 = 20;

impl Watch {
    pub(super) fn scan(
        &mut self,
        ledger: &mut dyn FolderLedger,
        check: CheckFile<'_>,
    ) -> Result<(), IntakeError> {
        // Before the scan, so that nothing written during it goes unreported.
        let is_listening = self.events.is_some();
        self.listen();
        self.note_changes();
        let begun = Instant::now();
        let is_full = begun >= self.next_full_scan || !is_listening;
        let entries = (!is_full).then(|| self.changed_entries());
        let listed = match &entries {
            None => list(&self.inbox, self.additions.as_deref()),
            Some(entries) => list_entries(&self.inbox, self.additions.as_deref(), entries),
        };
        match listed {
            Ok(listing) => {
                self.note_identity();
                if is_full {
                    let (now, took) = (Instant::now(), begun.elapsed() * SCAN_SHARE);
                    let interval = self.options.poll.unwrap_or(self.options.rescan);
                    self.next_full_scan = now + interval.max(took);
                    self.earliest_full_scan = now + took;
                }
                let has_changed = self.take_in(listing, entries.as_ref(), ledger, check)?;
                self.changed.clear();
                self.check_events(has_changed);
            }
            Err(why) => self.lose_inbox(why),
        }
        Ok(())
    }

    /// Takes in the names that events were about.
    fn note_changes(&mut self) {
        let Some(events) = &self.events else { return };
        let changes = events.drain();
        if changes.is_partial {
            // Events were lost. A scan opens folders, and so many that this alone may cost events: no reason for
            // another one at once.
            self.next_full_scan = self.next_full_scan.min(self.earliest_full_scan);
        }
        self.changed.extend(changes.names);
    }

    /// Entries that a partial scan looks at: those that changed, with all others of their jobs, and those of jobs that
    /// are not done.
    fn changed_entries(&self) -> BTreeSet<String> {
        let mut entries = self.changed.clone();
        for name in &self.changed {
            for job in jobs_of(name) {
                // A folder of the name that loose files share would be the same job.
                entries.insert(job.into());
                entries.extend(
                    self.jobs
                        .get(job)
                        .into_iter()
                        .flat_map(PendingJob::entry_names),
                );
            }
        }
        let open = self.jobs.values().filter(|job| job.is_open());
        entries.extend(open.flat_map(PendingJob::entry_names));
        entries
    }

    /// Compares a scan with the one before, and notes which jobs have settled. `entries` are those that were looked at,
    /// `None` for all. Returns whether anything changed.
    fn take_in(
        &mut self,
        listing: Listing,
        entries: Option<&BTreeSet<String>>,
        ledger: &mut dyn FolderLedger,
        check: CheckFile<'_>,
    ) -> Result<bool, IntakeError> {
        self.is_inbox_gone = false;
        self.note_refusals(listing.refused, entries.is_none());
        let now = Instant::now();
        let differs = |name: &String, listed: &Listed| {
            (self.jobs.get(name)).is_none_or(|job| job.differs_from(&listed.snapshot))
        };
        let changed: BTreeSet<String> = (listing.jobs.iter())
            .filter(|(name, listed)| differs(name, listed))
            .map(|(name, _)| name.clone())
            .collect();
        let names: Vec<&str> = changed.iter().map(String::as_str).collect();
        let noted = match names.is_empty() {
            true => Default::default(),
            false => ledger.stamps(&names)?,
        };
        let has_removed = match entries {
            None => self.forget(|name| !listing.names.contains(name)),
            Some(entries) => {
                let looked_at = entries.iter().flat_map(|e| jobs_of(e));
                let gone: BTreeSet<&str> = looked_at
                    .filter(|job| self.jobs.contains_key(*job) && !listing.names.contains(*job))
                    .collect();
                !gone.is_empty() && self.forget(|name| gone.contains(name))
            }
        };
        self.settled.clear();
        let mut next_scan = self.next_full_scan;
        for (name, listed) in listing.jobs {
            if changed.contains(&name) {
                let known = self.jobs.remove(&name);
                let job = PendingJob::changed(known, listed, now);
                let is_done = job.is_empty() || job.is_as_noted(noted.get(&name));
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

    /// Reports each refusal once. `are_all`: those that were reported before and are not among them stand no more.
    fn note_refusals(&mut self, refused: Vec<IntakeError>, are_all: bool) {
        let texts: BTreeSet<String> = refused.iter().map(|e| e.to_string()).collect();
        let new = refused
            .into_iter()
            .filter(|e| !self.reported.contains(&e.to_string()));
        self.unreported.extend(new);
        let standing = match are_all {
            true => texts,
            false => &self.reported | &texts,
        };
        self.refusals_changed |= standing != self.reported;
        self.reported = standing;
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

/// Names of the jobs that an entry of the inbox may belong to: as a folder, as a loose file.
fn jobs_of(entry: &str) -> [&str; 2] {
    [entry, job_name(entry)]
}
