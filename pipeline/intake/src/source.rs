//! Place of a job's files.

use crate::IntakeError;
use crate::gather::{JobEntry, digest};
use crate::grouping::entry_name;
use crate::names::is_job_file;
use crate::open::open_within;
use crate::walk::{Found, loose_file, walk};
use serde::{Deserialize, Serialize, Serializer};
use std::fs::File;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Place of a job's files.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum JobSource {
    /// A folder.
    Folder(#[serde(serialize_with = "readable")] PathBuf),
    /// Loose files in the inbox itself.
    Files(#[serde(serialize_with = "all_readable")] Vec<PathBuf>),
    /// Files of the inbox, and a folder of files that were added to them. An added file takes the place of one with the
    /// same path.
    Layered {
        /// Place of the files in the inbox.
        base: Box<JobSource>,
        /// Folder of the added files.
        #[serde(serialize_with = "readable")]
        added: PathBuf,
    },
}

impl JobSource {
    /// Lists and hashes the job's files; see [`gather`](crate::gather()).
    ///
    /// # Errors
    /// When the folder cannot be listed.
    pub fn gather(&self) -> Result<Vec<JobEntry>, IntakeError> {
        Ok(self.list()?.into_iter().map(digest).collect())
    }

    /// Does the same while `meanwhile` reads the files that can be read, opened as [`JobEntry::open`] opens them, each
    /// with its path inside the job. Hashing a long recording takes as long as reading it.
    ///
    /// # Errors
    /// When the folder cannot be listed.
    pub fn gather_while<T>(
        &self,
        meanwhile: impl FnOnce(&mut dyn Iterator<Item = (String, io::Result<File>)>) -> T,
    ) -> Result<(Vec<JobEntry>, T), IntakeError> {
        let found = self.list()?;
        let readable = found.iter().filter(|f| f.is_readable());
        let places: Vec<(String, Arc<Path>, PathBuf)> = readable
            .map(|f| (f.path.clone(), f.folder.clone(), f.location.clone()))
            .collect();
        let mut opened = places.into_iter().map(|(path, folder, location)| {
            let file = open_within(&folder, &location);
            (path, file)
        });
        std::thread::scope(|scope| {
            let hashing = scope.spawn(|| found.into_iter().map(digest).collect());
            let seen = meanwhile(&mut opened);
            match hashing.join() {
                Ok(entries) => Ok((entries, seen)),
                Err(panic) => std::panic::resume_unwind(panic),
            }
        })
    }

    fn list(&self) -> Result<Vec<Found>, IntakeError> {
        match self {
            JobSource::Folder(folder) => walk(folder),
            JobSource::Files(files) => Ok(files.iter().cloned().map(loose_file).collect()),
            JobSource::Layered { base, added } => Ok(lay_over(base.list()?, walk(added)?)),
        }
    }

    /// Files as they are now; `None` when they are gone.
    pub(crate) fn files(&self) -> Option<Vec<Found>> {
        self.list().ok()
    }

    /// Place of the file with that path inside the job; `None` where there is none that may be read.
    pub fn locate(&self, path: &str) -> Option<PathBuf> {
        let files = self.files()?;
        let file = files.into_iter().find(|f| f.path == path)?;
        file.is_readable().then_some(file.location)
    }

    /// Returns whether its folder, or any of its files, is there.
    pub fn exists(&self) -> bool {
        match self {
            JobSource::Folder(folder) => folder.is_dir(),
            JobSource::Files(files) => files.iter().any(|f| f.exists()),
            JobSource::Layered { base, added } => base.exists() || added.is_dir(),
        }
    }
}

impl JobSource {
    /// Names of its entries in the inbox.
    pub(crate) fn entry_names(&self) -> Vec<String> {
        match self {
            JobSource::Folder(folder) => vec![entry_name(folder)],
            JobSource::Files(files) => files.iter().map(|f| entry_name(f)).collect(),
            JobSource::Layered { base, added } => {
                let mut names = base.entry_names();
                names.push(entry_name(added));
                names
            }
        }
    }
}

/// Files of a job with those that were added to it, in the order of their paths. Of the answers only the added ones
/// count, whatever a loose job.toml is called.
pub(crate) fn lay_over(base: Vec<Found>, added: Vec<Found>) -> Vec<Found> {
    let has_answers = added.iter().any(|f| is_job_file(&f.path));
    let is_replaced =
        |f: &Found| (has_answers && is_job_file(&f.path)) || added.iter().any(|a| a.path == f.path);
    let mut files: Vec<Found> = base.into_iter().filter(|f| !is_replaced(f)).collect();
    files.extend(added);
    files.sort_by(|a, b| a.path.cmp(&b.path));
    files
}

/// A name that is no Unicode is kept as it can be read; its job is found again by watching, not by this.
fn readable<S: Serializer>(path: &Path, s: S) -> Result<S::Ok, S::Error> {
    s.serialize_str(&path.to_string_lossy())
}

fn all_readable<S: Serializer>(paths: &[PathBuf], s: S) -> Result<S::Ok, S::Error> {
    s.collect_seq(paths.iter().map(|p| p.to_string_lossy()))
}
