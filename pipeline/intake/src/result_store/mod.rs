//! Folder of results: every revision whole, once, and found again after a crash.
//!
//! A revision is published in steps, each of which may be the last before a crash:
//!
//! 1. its results are written into a folder of their own below `OUT/.baybrief`, and synced;
//! 2. the ledger takes in the revision, its files, its signature, events and labour rows: one transaction, and the
//!    point from which on the revision exists;
//! 3. the folder is renamed to `OUT/JOB/rev-NUMBER`;
//! 4. each of its files gets a second name in `OUT/JOB`: a link under a temporary name, which is renamed;
//! 5. the ledger notes that the results are published.
//!
//! What a crash leaves before 2 is thrown away and made anew; what it leaves after 2 is finished by
//! [`ResultStore::recover`], without looking at the job again. Results are kept once; they are read-only, so that
//! nobody changes what was reported by editing what is shown. The one file that a person fills in, job.toml, is a copy.

mod publish;

use crate::IntakeError;
use crate::ledger::{FolderLedger, PendingRow, RevisionCommit, SqliteLedger};
use crate::lock::{Lock, hold};
use crate::names::is_reserved;
use crate::write::{create_synced, identity, make_folder, sync_folder};
use sha2::{Digest, Sha256};
use std::collections::BTreeSet;
use std::fmt;
use std::fs;
use std::path::{Path, PathBuf};

/// One file of a revision's results.
#[derive(Debug, Clone, PartialEq)]
pub struct Output {
    /// Name: `report.pdf`.
    pub name: String,
    /// Content.
    pub bytes: Vec<u8>,
}

impl Output {
    /// Returns a file of that name and content.
    pub fn new(name: &str, bytes: Vec<u8>) -> Output {
        Output {
            name: name.into(),
            bytes,
        }
    }
}

/// Is told of each step; an error ends the work there.
type OnStep = Box<dyn FnMut(&str) -> Result<(), IntakeError> + Send>;

/// Folder of results with its ledger.
pub struct ResultStore {
    out: PathBuf,
    ledger: Box<dyn FolderLedger>,
    /// Identity of the ledger that was opened, to notice that another folder has taken this one's place.
    identity: Option<(u64, u64)>,
    /// True once what an earlier process left has been swept up.
    is_swept: bool,
    on_step: OnStep,
}

impl fmt::Debug for ResultStore {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("ResultStore")
            .field("out", &self.out)
            .finish_non_exhaustive()
    }
}

/// Folder below OUT that belongs to the program alone.
pub(crate) const OWN: &str = ".baybrief";

impl ResultStore {
    /// Opens a folder of results. `create`: it and its ledger are made where they are missing.
    ///
    /// # Errors
    /// When the folder cannot be made or written, or its ledger cannot be used.
    pub fn open(out: &Path, create: bool) -> Result<ResultStore, IntakeError> {
        let own = out.join(OWN);
        let path = own.join("ledger.db");
        if create {
            make_folder(&own).map_err(|why| IntakeError::Unwritable {
                path: own.clone(),
                why,
            })?;
        } else if !path.exists() {
            return Err(IntakeError::NoLedger(out.to_path_buf()));
        }
        let ledger = Box::new(SqliteLedger::open(&path, create)?);
        if create {
            // SQLite syncs the folder of its log; the ledger's own name is ours to keep.
            sync_folder(&own).map_err(|why| IntakeError::Unwritable {
                path: own.clone(),
                why,
            })?;
        }
        Ok(ResultStore {
            identity: identity(&path),
            out: out.to_path_buf(),
            ledger,
            is_swept: false,
            on_step: Box::new(|_| Ok(())),
        })
    }

    /// Calls `f` after each step of a publication. An error that it returns ends the publication there, as a crash
    /// would: this is how the tests stop it at every step.
    pub fn on_step(&mut self, f: impl FnMut(&str) -> Result<(), IntakeError> + Send + 'static) {
        self.on_step = Box::new(f);
    }

    /// Returns the folder.
    pub fn folder(&self) -> &Path {
        &self.out
    }

    /// Returns its ledger.
    pub fn ledger(&mut self) -> &mut dyn FolderLedger {
        &mut *self.ledger
    }

    /// Returns an error when the folder is not there any more, or another one is in its place.
    pub(crate) fn check_place(&self) -> Result<(), IntakeError> {
        match identity(&self.out.join(OWN).join("ledger.db")) == self.identity {
            true => Ok(()),
            false => Err(IntakeError::OutGone(self.out.clone())),
        }
    }

    /// Waits until no other process publishes into this folder, and keeps others from it as long as the lock lives.
    ///
    /// # Errors
    /// When the folder is not there any more (a share that was disconnected), or is another one.
    pub fn lock(&self) -> Result<Lock, IntakeError> {
        self.check_place()?;
        hold(&self.out.join(OWN).join("publish.lock"))
    }

    /// Finishes what was begun before a crash, and throws away what was not kept. Call it with the lock held.
    ///
    /// Returns the jobs whose results cannot be put in place for a reason of their own (a file where their folder
    /// should be; results that somebody removed), with the reason: the other jobs go on.
    ///
    /// # Errors
    /// When something cannot be read or written; it can be called again.
    pub fn recover(&mut self, _lock: &Lock) -> Result<Vec<(String, IntakeError)>, IntakeError> {
        let (mut stuck, mut kept) = (Vec::new(), BTreeSet::new());
        for (job, number) in self.ledger.pending_revisions()? {
            match self.publish_pending(&job, number) {
                Err(e @ IntakeError::ResultsLost { .. }) => stuck.push((job, e)),
                Err(e) if e.is_of_one_job() => {
                    kept.insert(self.staged(&job, number));
                    stuck.push((job, e));
                }
                published => published?,
            }
        }
        publish::remove_staged_but(&self.staging(), &kept)?;
        // Looking through all results is for the start: it costs more the more jobs there are.
        if !self.is_swept {
            publish::remove_temporaries(&self.out)?;
            self.is_swept = true;
        }
        Ok(stuck)
    }

    /// Publishes a revision. Call it with the lock held, after [`ResultStore::recover`].
    ///
    /// Returns `false`, and publishes nothing, when the job has changed since the commit was made: another process
    /// published or recorded something, or another job took the number. Then the job is to be done again on top of
    /// that. What this very publication has committed before is finished and gives `true`.
    ///
    /// # Errors
    /// When something cannot be read or written; then the revision either exists, and [`ResultStore::recover`]
    /// finishes it, or it does not exist and can be published again.
    pub fn publish(
        &mut self,
        _lock: &Lock,
        commit: &RevisionCommit<'_>,
        outputs: &[Output],
    ) -> Result<bool, IntakeError> {
        let revision = commit.revision;
        let (job, number) = (revision.job.as_str(), revision.number);
        if is_reserved(job) {
            return Err(IntakeError::ReservedName(job.into()));
        }
        let latest = self.ledger.latest(job)?;
        if latest.is_some_and(|r| r.token == revision.token) {
            return Ok(true);
        }
        if !commit.rows.is_empty() && !self.number_conflicts(&revision.job_number, job)?.is_empty()
        {
            return Ok(false);
        }
        // What stands in the place of its folder is found before the revision exists.
        publish::make_job_folder(&self.out.join(job))?;
        (self.on_step)("has a folder")?;
        self.stage(job, number, outputs)?;
        if !self.ledger.commit(commit)? {
            remove(&self.staged(job, number))?;
            return Ok(false);
        }
        (self.on_step)("committed")?;
        self.publish_pending(job, number)?;
        Ok(true)
    }

    /// Other jobs that claim the shop's number, by name. One whose files are gone and of which nothing was handed
    /// over, signed, authorised or done claims nothing any more: its folder was renamed.
    ///
    /// # Errors
    /// When the ledger cannot be read.
    pub fn number_conflicts(
        &mut self,
        number: &str,
        job: &str,
    ) -> Result<Vec<String>, IntakeError> {
        let claims = self.ledger.number_claims(number, job)?;
        let binding = claims
            .into_iter()
            .filter(|c| c.is_binding || c.source.exists());
        Ok(binding.map(|c| c.job).collect())
    }

    /// Labour rows that are not in their batch file yet; `write` puts them there, leaving out those that the file
    /// has already. Call it with the lock held.
    ///
    /// # Errors
    /// Errors of `write` or of the ledger; it can be called again.
    pub fn hand_over(
        &mut self,
        _lock: &Lock,
        write: impl FnOnce(&Path, &[PendingRow]) -> Result<(), IntakeError>,
    ) -> Result<(), IntakeError> {
        let rows = self.ledger.pending_rows()?;
        if rows.is_empty() {
            return Ok(());
        }
        write(&self.out, &rows)?;
        (self.on_step)("batch written")?;
        self.ledger.mark_written(&rows)?;
        (self.on_step)("batch noted")
    }

    fn stage(&mut self, job: &str, number: u32, outputs: &[Output]) -> Result<(), IntakeError> {
        let staged = self.staged(job, number);
        remove(&staged)?;
        let unwritable = |why| IntakeError::Unwritable {
            path: staged.clone(),
            why,
        };
        make_folder(&staged).map_err(unwritable)?;
        for output in outputs {
            create_synced(&staged.join(&output.name), &output.bytes).map_err(unwritable)?;
            (self.on_step)("staged a file")?;
        }
        sync_folder(&staged).map_err(unwritable)?;
        (self.on_step)("staged")
    }

    /// Place of results before they are published. Not named by the job, whose name may be as long as names can be.
    fn staged(&self, job: &str, number: u32) -> PathBuf {
        let digest = Sha256::digest(job);
        let name: String = digest.iter().take(16).map(|b| format!("{b:02x}")).collect();
        self.staging().join(format!("{name}-{number}"))
    }

    fn staging(&self) -> PathBuf {
        self.out.join(OWN).join("staging")
    }
}

/// Removes a folder with all that is in it, if it is there.
fn remove(folder: &Path) -> Result<(), IntakeError> {
    match fs::remove_dir_all(folder) {
        Err(why) if why.kind() != std::io::ErrorKind::NotFound => Err(IntakeError::Unwritable {
            path: folder.to_path_buf(),
            why,
        }),
        _ => Ok(()),
    }
}
