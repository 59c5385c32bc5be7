//! Store of results with its ledger, wherever it lies.

use crate::ledger::{Ledger, PendingRow, Revision, RevisionCommit};
use crate::lock::Lock;
use crate::result_store::{Output, ResultStore};
use crate::{IntakeError, JobSource};
use std::path::{Path, PathBuf};

/// Writes labour rows into the batch files of a folder of results.
pub type WriteRows<'w> = &'w mut dyn FnMut(&Path, &[PendingRow]) -> Result<(), IntakeError>;

/// Store of results with its ledger: a folder of this machine, or servers that many machines share.
///
/// # Errors
/// Every call fails when the store cannot be reached, read or written.
#[expect(clippy::missing_errors_doc, reason = "the same for every call")]
pub trait Store: Send {
    /// Its ledger.
    fn ledger(&mut self) -> &mut dyn Ledger;

    /// Opens the same store once more, for another thread.
    fn reopen(&self) -> Result<Box<dyn Store>, IntakeError>;

    /// Folder that shows the newest results to persons; `None` where they are fetched one by one.
    fn folder(&self) -> Option<&Path>;

    /// Keeps other processes from publishing into a folder for as long as the lock lives. A shared store decides in its
    /// transactions and has nothing to lock.
    fn lock(&self) -> Result<Option<Lock>, IntakeError>;

    /// Folder of this machine with the files of a published revision, fetched where they lie elsewhere.
    fn results(&mut self, job: &str, number: u32) -> Result<PathBuf, IntakeError>;

    /// Names of the files of a job's newest results; in a folder also of earlier reports, `rev-NUMBER/report.pdf`.
    fn shown(&mut self, job: &str) -> Result<Vec<String>, IntakeError>;

    /// Place at which a person finds a file of the newest results of a job; `None` where they have none of that name.
    fn place_of(&mut self, job: &str, name: &str) -> Result<Option<String>, IntakeError>;

    /// Place on this machine of the files of a revision's job as they are now, fetched where they lie elsewhere.
    fn source(&mut self, revision: &Revision) -> Result<JobSource, IntakeError>;

    /// The shop's settings on this machine: those that a revision was made with, or the shop's present ones; `None` where
    /// there are none.
    fn settings(&mut self, revision: Option<&Revision>) -> Result<Option<PathBuf>, IntakeError>;

    /// Other jobs that claim the shop's number, by name. One whose files are gone and of which nothing was handed over,
    /// signed, authorised or done claims nothing any more.
    fn number_conflicts(&mut self, number: &str, job: &str) -> Result<Vec<String>, IntakeError>;

    /// Finishes what was begun before a crash. Returns the jobs whose results cannot be put in place for a reason of
    /// their own, with the reason.
    fn finish_begun(&mut self) -> Result<Vec<(String, IntakeError)>, IntakeError>;

    /// Publishes a revision: all of it or nothing. Returns `false`, and publishes nothing, when the job has changed since
    /// the commit was made: somebody published or recorded something, or another job took the number.
    fn publish_revision(
        &mut self,
        commit: &RevisionCommit<'_>,
        outputs: &[Output],
    ) -> Result<bool, IntakeError>;

    /// Hands over the labour rows that wait in a folder's ledger. Those of a shared store are handed over by its workers.
    fn hand_over_rows(&mut self, write: WriteRows<'_>) -> Result<(), IntakeError>;
}

impl Store for ResultStore {
    fn ledger(&mut self) -> &mut dyn Ledger {
        ResultStore::ledger(self)
    }

    fn reopen(&self) -> Result<Box<dyn Store>, IntakeError> {
        Ok(Box::new(ResultStore::open(
            ResultStore::folder(self),
            false,
        )?))
    }

    fn folder(&self) -> Option<&Path> {
        Some(ResultStore::folder(self))
    }

    fn lock(&self) -> Result<Option<Lock>, IntakeError> {
        ResultStore::lock(self).map(Some)
    }

    fn results(&mut self, job: &str, number: u32) -> Result<PathBuf, IntakeError> {
        let folder = ResultStore::folder(self).join(job);
        Ok(folder.join(format!("rev-{number}")))
    }

    fn shown(&mut self, job: &str) -> Result<Vec<String>, IntakeError> {
        let folder = ResultStore::folder(self).join(job);
        let entries = match std::fs::read_dir(&folder) {
            Err(why) if why.kind() != std::io::ErrorKind::NotFound => {
                return Err(IntakeError::Unreadable { path: folder, why });
            }
            entries => entries.into_iter().flatten().flatten(),
        };
        let names = entries.map(|e| e.file_name().to_string_lossy().into_owned());
        let names = names.map(|name| match name.starts_with("rev-") {
            true => format!("{name}/report.pdf"),
            false => name,
        });
        Ok(names.filter(|name| folder.join(name).is_file()).collect())
    }

    fn place_of(&mut self, job: &str, name: &str) -> Result<Option<String>, IntakeError> {
        let path = ResultStore::folder(self).join(job).join(name);
        Ok(path.is_file().then(|| path.display().to_string()))
    }

    fn source(&mut self, revision: &Revision) -> Result<JobSource, IntakeError> {
        Ok(revision.source.clone())
    }

    fn settings(&mut self, revision: Option<&Revision>) -> Result<Option<PathBuf>, IntakeError> {
        Ok(revision.and_then(|r| r.shop.clone()))
    }

    fn number_conflicts(&mut self, number: &str, job: &str) -> Result<Vec<String>, IntakeError> {
        ResultStore::number_conflicts(self, number, job)
    }

    fn finish_begun(&mut self) -> Result<Vec<(String, IntakeError)>, IntakeError> {
        let lock = ResultStore::lock(self)?;
        self.recover(&lock)
    }

    fn publish_revision(
        &mut self,
        commit: &RevisionCommit<'_>,
        outputs: &[Output],
    ) -> Result<bool, IntakeError> {
        let lock = ResultStore::lock(self)?;
        self.recover(&lock)?;
        self.publish(&lock, commit, outputs)
    }

    fn hand_over_rows(&mut self, write: WriteRows<'_>) -> Result<(), IntakeError> {
        let lock = ResultStore::lock(self)?;
        self.hand_over(&lock, write)
    }
}
