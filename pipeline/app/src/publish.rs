//! From a job's files to published results: what every verb that makes reports does.

use crate::batch;
use crate::context::AppContext;
use crate::job::{self, Early, LedgerFacts, Results};
use crate::memory::Memory;
use crate::status_page;
use anyhow::{Context, Result};
use chrono::Local;
use intake::{
    FileFact, IntakeError, JobEntry, JobSource, Revision, RevisionCommit, Signature, Store,
    fingerprint,
};
use model::case::{FileRecord, FileStatus};
use model::labour::{HandedRow, WorkEvent};
use model::{Case, JobFile, ShopFile};
use serde::Serialize;
use std::sync::{Mutex, PoisonError};
use std::time::SystemTime;

/// A job to be done.
pub struct Task {
    /// Its name, and that of the folder of its results.
    pub name: String,
    /// True if it is done while nothing else is.
    pub is_alone: bool,
    source: JobSource,
    entries: Vec<JobEntry>,
    /// [`fingerprint`] of the entries.
    content: String,
    /// The store once more: a job is done on a thread of its own.
    store: Mutex<Box<dyn Store>>,
    /// State of the job in the ledger when the task was made.
    latest: Option<Revision>,
    handed: Vec<HandedRow>,
    events: Vec<WorkEvent>,
    /// job.toml as it was last right.
    answers: Option<JobFile>,
    /// Signature that its results are to bear.
    signature: Option<Signature>,
}

/// A job's results, ready to be published.
pub struct Finished {
    /// True where nothing was set aside: every file, every name in job.toml and every check counts.
    pub clean: bool,
    /// True where a check did not run that may run another time.
    pub is_due_again: bool,
    revision: Revision,
    files: Vec<FileFact>,
    results: Results,
    base: Option<String>,
    events_known: usize,
}

/// Summary of a report for lists of jobs.
#[derive(Serialize)]
pub struct Summary {
    verdict: String,
    sentence: String,
    asks: Vec<String>,
    set_aside: usize,
}

impl Summary {
    /// Summary of results, in the shop's language.
    ///
    /// # Errors
    /// When the verdict has no name.
    pub fn of(results: &Results, context: &AppContext) -> Result<Summary> {
        let case = &results.case;
        let aside = |f: &&FileRecord| f.status == FileStatus::SetAside;
        let verdict = serde_json::to_value(case.verdict.state).context("the verdict")?;
        let has = |name: &str| results.outputs.iter().any(|o| o.name == name);
        let mut asks = results.asks.clone();
        if has("job.toml") {
            asks.insert(0, context.localizer().message("console-asks-answers"));
        }
        Ok(Summary {
            verdict: verdict.as_str().unwrap_or_default().into(),
            sentence: match has("report.pdf") {
                true => context.sentence(case),
                false => context.localizer().message("console-verdict-no-report"),
            },
            asks,
            set_aside: case.files.iter().filter(aside).count(),
        })
    }
}

impl Task {
    /// A task with what the ledger knows of its job.
    ///
    /// # Errors
    /// When the ledger cannot be read.
    pub fn new(
        name: &str,
        source: JobSource,
        entries: Vec<JobEntry>,
        store: &mut dyn Store,
    ) -> Result<Task, IntakeError> {
        let again = store.reopen()?;
        let ledger = store.ledger();
        let answers = ledger.answers(name)?;
        Ok(Task {
            answers: answers.and_then(|text| toml::from_str(&text).ok()),
            store: Mutex::new(again),
            latest: ledger.latest(name)?,
            handed: ledger.handed_rows(name)?,
            events: ledger.work_events(name)?,
            name: name.into(),
            is_alone: false,
            signature: None,
            source,
            content: fingerprint(&entries),
            entries,
        })
    }

    /// The same task, to be signed.
    #[must_use]
    pub fn signed(self, signature: Signature) -> Task {
        Task {
            signature: Some(signature),
            ..self
        }
    }

    /// Reads, measures, judges and makes the results. A job whose files and outcome have not changed keeps its
    /// revision, and its signature with it.
    ///
    /// # Errors
    /// When the results cannot be made; of a task to be signed also when the files, the settings or the program have
    /// changed since: the person has not seen what would be signed.
    pub fn make(&self, context: &mut AppContext) -> Result<Finished> {
        match &self.signature {
            Some(signature) => self.sign(signature.clone(), context),
            None => self.make_of(Early::new(), context),
        }
    }

    /// The same of a job of which something was read already.
    ///
    /// # Errors
    /// When the results cannot be made.
    pub fn make_of(&self, early: Early, context: &mut AppContext) -> Result<Finished> {
        let examined = self.examine(early, context)?;
        let signature = match &self.latest {
            Some(latest) if self.is_same(latest, &examined.outcome) => latest.signature.clone(),
            _ => None,
        };
        self.finish(examined, signature, context)
    }

    fn sign(&self, signature: Signature, context: &mut AppContext) -> Result<Finished> {
        let examined = self.examine(Early::new(), context)?;
        match &self.latest {
            Some(latest) if self.is_same(latest, &examined.outcome) => {}
            Some(latest) if latest.fingerprint != self.content => anyhow::bail!(
                "{}: its files have changed since report {} was made; let it be done again, look at the new report, \
                 and sign that",
                self.name,
                latest.number
            ),
            _ => anyhow::bail!(
                "{}: with today's settings and program the report would say something else than the one that was \
                 looked at; do the job again with `run`, look at the new report, and sign that",
                self.name
            ),
        }
        let others = self.number_conflicts(&examined.case.job.number)?;
        if !others.is_empty() {
            anyhow::bail!(
                "{:?} is the number of the jobs {} and {}: neither can be signed; give one of them a number of its own \
                 in its job.toml ([job] number)",
                examined.case.job.number,
                self.name,
                others.join(", ")
            );
        }
        self.finish(examined, Some(signature), context)
    }

    /// Asks the store.
    fn ask<T>(
        &self,
        ask: impl FnOnce(&mut dyn Store) -> Result<T, IntakeError>,
    ) -> Result<T, IntakeError> {
        let mut store = self.store.lock().unwrap_or_else(PoisonError::into_inner);
        ask(&mut **store)
    }

    /// Other jobs that claim the number.
    fn number_conflicts(&self, number: &str) -> Result<Vec<String>, IntakeError> {
        self.ask(|store| store.number_conflicts(number, &self.name))
    }

    fn examine(&self, early: Early, context: &mut AppContext) -> Result<job::Examined> {
        let examined = job::examine(
            &self.name,
            &self.source,
            &self.entries,
            early,
            self.answers.as_ref(),
            context,
        )?;
        // A share that vanished meanwhile must not pass for files that cannot be read.
        match self.entries.iter().find(|entry| !entry.is_unchanged()) {
            Some(entry) => anyhow::bail!(
                "{}: changed or went away while it was read; the job is done again once it keeps still",
                entry.path
            ),
            None => Ok(examined),
        }
    }

    fn is_same(&self, latest: &Revision, outcome: &str) -> bool {
        latest.outcome == outcome && latest.fingerprint == self.content
    }

    fn finish(
        &self,
        examined: job::Examined,
        signature: Option<Signature>,
        context: &AppContext,
    ) -> Result<Finished> {
        let number = match &self.latest {
            Some(latest) if self.is_same(latest, &examined.outcome) => latest.number,
            Some(latest) => latest.number + 1,
            None => 1,
        };
        let (outcome, complete) = (examined.outcome.clone(), examined.complete);
        let is_due_again = examined.is_due_again;
        let others = self.number_conflicts(&examined.case.job.number)?;
        let ledger = LedgerFacts {
            handed: &self.handed,
            events: &self.events,
            number_taken_by: &others,
            now: Local::now().naive_local(),
        };
        let last = || self.ask(|store| store.ledger().last_signature(&self.name));
        let earlier = match &signature {
            Some(_) => None,
            None => last()?,
        };
        let review = job::Review {
            signature: signature.as_ref(),
            earlier: earlier.as_ref(),
        };
        let results = examined.results(number, review, ledger, context)?;
        let summary = Summary::of(&results, context)?;
        Ok(Finished {
            revision: Revision {
                job: self.name.clone(),
                number,
                token: Revision::new_token(),
                job_number: results.case.job.number.clone(),
                fingerprint: self.content.clone(),
                outcome,
                verdict: summary.verdict,
                sentence: summary.sentence,
                asks: summary.asks,
                set_aside: summary.set_aside,
                source: self.source.clone(),
                shop: context.settings.file.clone(),
                made: SystemTime::now(),
                signature,
            },
            clean: summary.set_aside == 0 && complete && others.is_empty(),
            is_due_again,
            files: self.entries.iter().map(FileFact::from).collect(),
            results,
            base: self.latest.as_ref().map(|r| r.token.clone()),
            events_known: self.events.len(),
        })
    }

    /// Returns the task, to be done alone where that is wanted.
    #[must_use]
    pub fn alone_if(self, is_alone: bool) -> Task {
        Task { is_alone, ..self }
    }

    /// Number of its files.
    pub fn files(&self) -> usize {
        self.entries.len()
    }

    /// Memory that the job may need, bytes.
    pub fn weight(&self) -> u64 {
        Memory::of_job(self.entries.iter().map(|e| e.stamp.size).sum())
    }
}

impl Finished {
    /// The revision.
    pub fn revision(&self) -> &Revision {
        &self.revision
    }

    /// Everything that case.json holds.
    pub fn case(&self) -> &Case {
        &self.results.case
    }

    /// Publishes the results. `Ok(false)` when the job has changed meanwhile (somebody published it, recorded an event
    /// of its lines, or took its number): then it has to be made anew. Labour rows are handed over by [`hand_over`]
    /// afterwards.
    ///
    /// # Errors
    /// When the folder of results cannot be written; nothing is lost, and it can be called again.
    pub fn publish(&self, store: &mut dyn Store) -> Result<bool, IntakeError> {
        recover(store)?;
        let bill = &self.results.bill;
        let commit = RevisionCommit {
            revision: &self.revision,
            files: &self.files,
            rows: &bill.rows,
            texts: self.results.case.order.as_ref(),
            events: bill.offer.as_slice(),
            answers: self.results.answers.as_deref(),
            base: self.base.as_deref(),
            events_known: self.events_known,
            is_due_again: self.is_due_again,
        };
        store.publish_revision(&commit, &self.results.outputs)
    }

    /// Publishes the results, hands labour rows over and shows the new state of the jobs. `Ok(false)` as for
    /// [`Finished::publish`].
    ///
    /// # Errors
    /// As for [`Finished::publish`]; when a batch file or the status page cannot be written.
    pub fn publish_and_show(&self, store: &mut dyn Store, context: &AppContext) -> Result<bool> {
        let is_published = self.publish(store)?;
        if is_published {
            hand_over(store, &context.settings.shop)?;
            status_page::write(store, context.localizer())?;
        }
        Ok(is_published)
    }
}

/// Finishes whatever a crash left half done.
///
/// # Errors
/// When the store cannot be written; it can be called again.
pub fn recover(store: &mut dyn Store) -> Result<(), IntakeError> {
    for (job, e) in store.finish_begun()? {
        tracing::error!(job, "its results cannot be put in place: {e}");
    }
    Ok(())
}

/// Adds labour rows to a folder's batch files of their days, where shop.toml wants such files. What cannot be handed over now
/// waits in the ledger for the next call.
///
/// # Errors
/// When a batch file cannot be written; it can be called again.
pub fn hand_over(store: &mut dyn Store, shop: &ShopFile) -> Result<(), IntakeError> {
    store.hand_over_rows(&mut |out, rows| batch::write(out, rows, shop))
}
