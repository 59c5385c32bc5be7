//! The folder of results: every revision whole, once, and found again after a crash.
//!
//! A revision is published in steps, each of which may be the last before a crash:
//!
//! 1. its results are written into a folder of their own below `OUT/.baybrief`, and synced;
//! 2. the ledger takes in the revision, its files, its signature and its labour rows: one transaction, and the point
//!    from which on the revision exists;
//! 3. the folder is renamed to `OUT/JOB/rev-NUMBER`;
//! 4. each of its files is copied into `OUT/JOB` under a temporary name, synced and renamed;
//! 5. the ledger notes that the results are in place.
//!
//! What a crash leaves before 2 is thrown away and made anew; what it leaves after 2 is finished by
//! [`Outbox::recover`], without looking at the job again.

mod place;

use crate::ledger::{Ledger, Made, SqliteLedger};
use crate::lock::{Lock, hold};
use crate::write::{create_synced, sync_folder};
use crate::{IntakeError, Unwritten};
use std::collections::BTreeSet;
use std::fmt;
use std::fs;
use std::path::{Path, PathBuf};

/// One file of a revision's results.
#[derive(Debug, Clone, PartialEq)]
pub struct Output {
    /// Its name: `report.pdf`.
    pub name: String,
    /// Its content.
    pub bytes: Vec<u8>,
}

impl Output {
    /// A file.
    pub fn new(name: &str, bytes: Vec<u8>) -> Output {
        Output {
            name: name.into(),
            bytes,
        }
    }
}

/// Is told of each step; an error ends the work there.
type OnStep = Box<dyn FnMut(&str) -> Result<(), IntakeError> + Send>;

/// A folder of results with its ledger.
pub struct Outbox {
    out: PathBuf,
    ledger: Box<dyn Ledger>,
    /// Which ledger was opened, to notice that another folder has taken this one's place.
    identity: Option<(u64, u64)>,
    on_step: OnStep,
}

impl fmt::Debug for Outbox {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Outbox")
            .field("out", &self.out)
            .finish_non_exhaustive()
    }
}

/// The folder below OUT that belongs to the program alone.
const OWN: &str = ".baybrief";

impl Outbox {
    /// Opens a folder of results. `create`: it and its ledger are made where they are missing.
    ///
    /// # Errors
    /// When the folder cannot be made or written, or its ledger cannot be used.
    pub fn open(out: &Path, create: bool) -> Result<Outbox, IntakeError> {
        let own = out.join(OWN);
        let path = own.join("ledger.db");
        if create {
            fs::create_dir_all(&own).map_err(|why| IntakeError::Unwritable {
                path: own.clone(),
                why,
            })?;
        } else if !path.exists() {
            return Err(IntakeError::NoLedger(out.to_path_buf()));
        }
        let ledger = Box::new(SqliteLedger::open(&path, create)?);
        Ok(Outbox {
            identity: identity(&path),
            out: out.to_path_buf(),
            ledger,
            on_step: Box::new(|_| Ok(())),
        })
    }

    /// Calls `f` after each step of a publication. An error that it returns ends the publication there, as a crash
    /// would: this is how the tests stop it at every step.
    pub fn on_step(&mut self, f: impl FnMut(&str) -> Result<(), IntakeError> + Send + 'static) {
        self.on_step = Box::new(f);
    }

    /// The folder.
    pub fn folder(&self) -> &Path {
        &self.out
    }

    /// Its ledger.
    pub fn ledger(&mut self) -> &mut dyn Ledger {
        &mut *self.ledger
    }

    /// Waits until no other process publishes into this folder, and keeps others from it as long as the lock lives.
    ///
    /// # Errors
    /// When the folder is not there any more (a share that was disconnected), or is another one.
    pub fn lock(&self) -> Result<Lock, IntakeError> {
        if identity(&self.out.join(OWN).join("ledger.db")) != self.identity {
            return Err(IntakeError::OutGone(self.out.clone()));
        }
        hold(&self.out.join(OWN).join("publish.lock"))
    }

    /// Finishes what was begun before a crash, and throws away what was not kept. Call it with the lock held.
    ///
    /// Gives the jobs that something of their own stands in the way of (a file where their folder should be), and
    /// what: their results are kept until it is gone, and the other jobs go on.
    ///
    /// # Errors
    /// When something cannot be read or written; it can be called again.
    pub fn recover(&mut self, _lock: &Lock) -> Result<Vec<(String, IntakeError)>, IntakeError> {
        let (mut stuck, mut kept) = (Vec::new(), BTreeSet::new());
        for (job, number) in self.ledger.unplaced()? {
            match self.place(&job, number) {
                Err(e) if e.is_of_one_job() => {
                    kept.insert(self.staged(&job, number));
                    stuck.push((job, e));
                }
                placed => placed?,
            }
        }
        place::remove_staged_but(&self.staging(), &kept)?;
        place::remove_temporaries(&self.out)?;
        Ok(stuck)
    }

    /// Publishes a revision. Call it with the lock held, after [`Outbox::recover`].
    ///
    /// # Errors
    /// When something cannot be read or written; then the revision either exists, and [`Outbox::recover`] finishes
    /// it, or it does not exist and can be published again.
    pub fn publish(
        &mut self,
        _lock: &Lock,
        made: &Made<'_>,
        outputs: &[Output],
    ) -> Result<(), IntakeError> {
        let (job, number) = (made.revision.job.as_str(), made.revision.number);
        if job == "index.html" || job == OWN {
            return Err(IntakeError::ReservedName(job.into()));
        }
        // What stands in the place of its folder is found before the revision exists.
        place::make_folder(&self.out.join(job))?;
        (self.on_step)("has a folder")?;
        self.stage(job, number, outputs)?;
        self.ledger.commit(made)?;
        (self.on_step)("committed")?;
        self.place(job, number)
    }

    /// Labour rows that are not in their batch file yet; `write` puts them there, leaving out those that the file
    /// has already. Call it with the lock held.
    ///
    /// # Errors
    /// What `write` or the ledger returns; it can be called again.
    pub fn hand_over(
        &mut self,
        _lock: &Lock,
        write: impl FnOnce(&Path, &[Unwritten]) -> Result<(), IntakeError>,
    ) -> Result<(), IntakeError> {
        let rows = self.ledger.unwritten()?;
        if rows.is_empty() {
            return Ok(());
        }
        write(&self.out, &rows)?;
        (self.on_step)("batch written")?;
        self.ledger.written(&rows)?;
        (self.on_step)("batch noted")
    }

    fn stage(&mut self, job: &str, number: u32, outputs: &[Output]) -> Result<(), IntakeError> {
        let staged = self.staged(job, number);
        remove(&staged)?;
        let unwritable = |why| IntakeError::Unwritable {
            path: staged.clone(),
            why,
        };
        fs::create_dir_all(&staged).map_err(unwritable)?;
        for output in outputs {
            create_synced(&staged.join(&output.name), &output.bytes).map_err(unwritable)?;
            (self.on_step)("staged a file")?;
        }
        sync_folder(&staged).map_err(unwritable)?;
        (self.on_step)("staged")
    }

    /// Where results lie before they are in place. Not named by the job, whose name may be as long as names can be.
    fn staged(&self, job: &str, number: u32) -> PathBuf {
        let digest = blake3::hash(job.as_bytes()).to_hex();
        let name = format!("{}-{number}", digest.get(..32).unwrap_or_default());
        self.staging().join(name)
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

/// Which file it is, whatever its name; `None` when there is none, or where the system does not say.
pub(crate) fn identity(path: &Path) -> Option<(u64, u64)> {
    let meta = fs::metadata(path).ok()?;
    #[cfg(unix)]
    {
        use std::os::unix::fs::MetadataExt;
        Some((meta.dev(), meta.ino()))
    }
    #[cfg(not(unix))]
    {
        let _ = meta;
        Some((0, 0))
    }
}
