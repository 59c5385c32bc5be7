//! From a job's files to published results: what every verb that makes reports does.

use crate::batch;
use crate::context::AppContext;
use crate::job::{self, Early, LedgerFacts, Results};
use anyhow::{Context, Result};
use chrono::Local;
use intake::{
    FileFact, IntakeError, JobEntry, JobSource, Lock, Made, Outbox, Revision, Signature,
    fingerprint,
};
use model::case::FileStatus;
use model::labour::HandedRow;
use model::{Case, ShopFile};
use std::time::{Duration, SystemTime, UNIX_EPOCH};

/// A job to be done.
pub struct Task {
    /// Its name, and that of the folder of its results.
    pub name: String,
    source: JobSource,
    entries: Vec<JobEntry>,
    /// [`fingerprint`] of the entries.
    content: String,
    /// What the ledger knew of the job when the task was made.
    latest: Option<Revision>,
    handed: Vec<HandedRow>,
}

/// A job's results, ready to be published.
pub struct Finished {
    /// True where nothing was set aside: every file, every name in job.toml and every check counts.
    pub clean: bool,
    revision: Revision,
    files: Vec<FileFact>,
    results: Results,
    latest: Option<Revision>,
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
        outbox: &mut Outbox,
    ) -> Result<Task, IntakeError> {
        let ledger = outbox.ledger();
        Ok(Task {
            latest: ledger.latest(name)?,
            handed: ledger.handed(name)?,
            name: name.into(),
            source,
            content: fingerprint(&entries),
            entries,
        })
    }

    /// Reads, measures, judges and makes the results. A job whose files and outcome have not changed keeps its
    /// revision, and its signature with it.
    ///
    /// # Errors
    /// When the results cannot be made.
    pub fn make(&self, context: &mut AppContext) -> Result<Finished> {
        self.make_of(Early::new(), context)
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

    /// The same for a person's signature under what was published.
    ///
    /// # Errors
    /// When the files, the settings or the program have changed since: the person has not seen what would be signed.
    pub fn sign(&self, signature: Signature, context: &mut AppContext) -> Result<Finished> {
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
        self.finish(examined, Some(signature), context)
    }

    fn examine(&self, early: Early, context: &mut AppContext) -> Result<job::Examined> {
        let examined = job::examine(&self.name, &self.source, &self.entries, early, context)?;
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
        let ledger = LedgerFacts {
            handed: &self.handed,
            events: &[],
            now: Local::now().naive_local(),
        };
        let results = examined.results(number, signature.as_ref(), ledger, context)?;
        let case = &results.case;
        let aside = case
            .files
            .iter()
            .filter(|f| f.status == FileStatus::SetAside);
        let set_aside = aside.count();
        let verdict = serde_json::to_value(case.verdict.state).context("the verdict")?;
        Ok(Finished {
            revision: Revision {
                job: self.name.clone(),
                number,
                fingerprint: self.content.clone(),
                outcome,
                verdict: verdict.as_str().unwrap_or_default().into(),
                sentence: context.sentence(case),
                asks: case.verdict.next.iter().map(|n| n.text.clone()).collect(),
                set_aside,
                source: self.source.clone(),
                shop: context.settings.file.clone(),
                made: now(),
                signature,
            },
            clean: set_aside == 0 && complete,
            files: self.entries.iter().map(FileFact::from).collect(),
            results,
            latest: self.latest.clone(),
        })
    }

    /// How many files it has.
    pub fn files(&self) -> usize {
        self.entries.len()
    }

    /// Memory that the job may need, bytes: its recordings as numbers, about twice their files.
    pub fn weight(&self) -> u64 {
        let size: u64 = self.entries.iter().map(|e| e.stamp.size).sum();
        size.saturating_mul(2)
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

    /// Publishes the results. `Ok(false)` when somebody else published the same job meanwhile: then it has to be made
    /// anew. Labour rows are handed over by [`hand_over`] afterwards.
    ///
    /// # Errors
    /// When the folder of results cannot be written; nothing is lost, and it can be called again.
    pub fn publish(&self, outbox: &mut Outbox) -> Result<bool, IntakeError> {
        let lock = outbox.lock()?;
        recover_all(outbox, &lock)?;
        let latest = outbox.ledger().latest(&self.revision.job)?.map(|r| r.made);
        if latest == Some(self.revision.made) {
            return Ok(true);
        }
        if latest != self.latest.as_ref().map(|r| r.made) {
            return Ok(false);
        }
        let made = Made {
            revision: &self.revision,
            files: &self.files,
            rows: &self.results.rows,
            day: Local::now().date_naive(),
        };
        outbox.publish(&lock, &made, &self.results.outputs)?;
        Ok(true)
    }
}

/// Finishes whatever a crash left half done.
///
/// # Errors
/// When the folder of results cannot be written; it can be called again.
pub fn recover(outbox: &mut Outbox) -> Result<(), IntakeError> {
    let lock = outbox.lock()?;
    recover_all(outbox, &lock)
}

fn recover_all(outbox: &mut Outbox, lock: &Lock) -> Result<(), IntakeError> {
    for (job, e) in outbox.recover(lock)? {
        tracing::error!(job, "its results cannot be put in place: {e}");
    }
    Ok(())
}

/// Adds labour rows to the batch files of their days, where shop.toml wants such files. What cannot be handed over now
/// waits in the ledger for the next call.
///
/// # Errors
/// When a batch file cannot be written; it can be called again.
pub fn hand_over(outbox: &mut Outbox, shop: &ShopFile) -> Result<(), IntakeError> {
    let lock = outbox.lock()?;
    outbox.hand_over(&lock, |out, rows| batch::write(out, rows, shop))
}

/// The time, as exact as the ledger keeps it: a revision is known again by it.
fn now() -> SystemTime {
    let since = SystemTime::now()
        .duration_since(UNIX_EPOCH)
        .unwrap_or_default();
    UNIX_EPOCH + Duration::from_millis(u64::try_from(since.as_millis()).unwrap_or(0))
}
