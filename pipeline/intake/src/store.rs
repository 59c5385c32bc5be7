//! Store of results with its ledger, wherever it lies.

use crate::ledger::{Ledger, PendingRow, Revision, RevisionCommit};
use crate::lock::Lock;
use crate::result_store::{Output, ResultStore};
use crate::{IntakeError, JobSource};
use std::io::ErrorKind;
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

    /// Names of the files of a published revision, in their order.
    fn results(&mut self, job: &str, number: u32) -> Result<Vec<String>, IntakeError>;

    /// Place on this machine of a file of a published revision, fetched where it lies elsewhere.
    fn result(&mut self, job: &str, number: u32, name: &str) -> Result<PathBuf, IntakeError>;

    /// Names of the files that are shown of a job: those of its newest results; in a folder also what else lies there, and
    /// earlier reports as `rev-NUMBER/report.pdf`.
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

fn revision_folder(store: &ResultStore, job: &str, number: u32) -> PathBuf {
    store.folder().join(job).join(format!("rev-{number}"))
}

/// Names in a folder, in their order; none where there is no such folder.
fn file_names(folder: &Path) -> Result<Vec<String>, IntakeError> {
    let entries = match std::fs::read_dir(folder) {
        Err(why) if why.kind() == ErrorKind::NotFound => return Ok(Vec::new()),
        entries => entries.map_err(|why| IntakeError::Unreadable {
            path: folder.to_path_buf(),
            why,
        })?,
    };
    let names = entries.flatten().map(|e| e.file_name());
    let mut names: Vec<_> = names.map(|n| n.to_string_lossy().into_owned()).collect();
    names.sort();
    Ok(names)
}

impl Store for ResultStore {
    fn ledger(&mut self) -> &mut dyn Ledger {
        ResultStore::ledger(self)
    }

    fn reopen(&self) -> Result<Box<dyn Store>, IntakeError> {
        self.check_place()?;
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

    fn results(&mut self, job: &str, number: u32) -> Result<Vec<String>, IntakeError> {
        file_names(&revision_folder(self, job, number))
    }

    fn result(&mut self, job: &str, number: u32, name: &str) -> Result<PathBuf, IntakeError> {
        Ok(revision_folder(self, job, number).join(name))
    }

    fn shown(&mut self, job: &str) -> Result<Vec<String>, IntakeError> {
        let folder = ResultStore::folder(self).join(job);
        let names = file_names(&folder)?.into_iter();
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
