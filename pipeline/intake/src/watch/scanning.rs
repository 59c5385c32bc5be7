//! Looking through the inbox: what came, what changed, what went, and whether it is still the same inbox.

use super::watched::Watched;
use super::{Unfinished, Watch, gone};
use crate::IntakeError;
use crate::grouping::{Listing, list};
use crate::ledger::Ledger;
use crate::outbox::identity;
use std::collections::BTreeSet;
use std::collections::btree_map::Entry;
use std::time::Instant;

impl Watch {
    pub(super) fn scan(
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
            Err(why) => self.lose_inbox(why),
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
        let mut changed = self.forget(|name| !listing.jobs.contains_key(name));
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
                if job.is_empty() || job.is_as_noted(&ledger.files(&name)?) {
                    job.leave();
                    self.leave(&name);
                    continue;
                }
                self.news.insert(name.clone());
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

    /// Forgets jobs; gives whether there were any.
    fn forget(&mut self, gone: impl Fn(&str) -> bool) -> bool {
        let known = self.jobs.len();
        self.jobs.retain(|name, _| !gone(name));
        let (gone, staying) = std::mem::take(&mut self.announced)
            .into_iter()
            .partition(|name| gone(name));
        self.announced = staying;
        self.left.extend::<BTreeSet<String>>(gone);
        self.jobs.len() != known
    }

    /// Nothing is to be done for a job of the inbox.
    pub(super) fn leave(&mut self, name: &str) {
        if self.announced.remove(name) {
            self.left.insert(name.into());
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

    fn lose_inbox(&mut self, why: std::io::Error) {
        if !self.inbox_gone {
            self.untold.push_back(gone(&self.inbox, why));
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
            self.forget(|_| true);
            self.hints = None;
            self.next_scan = Instant::now();
        }
    }
}
