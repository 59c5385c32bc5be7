//! Where a job of the inbox lies.

use crate::IntakeError;
use crate::gather::{JobEntry, digest};
use crate::walk::{Found, loose_file, walk};
use serde::{Deserialize, Serialize, Serializer};
use std::path::{Path, PathBuf};

/// Where a job of the inbox lies.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum JobSource {
    /// A folder.
    Folder(#[serde(serialize_with = "readable")] PathBuf),
    /// Loose files in the inbox itself.
    Files(#[serde(serialize_with = "all_readable")] Vec<PathBuf>),
}

impl JobSource {
    /// The job's files, hashed; see [`gather`](crate::gather()).
    ///
    /// # Errors
    /// When the folder cannot be listed.
    pub fn gather(&self) -> Result<Vec<JobEntry>, IntakeError> {
        Ok(self.list()?.into_iter().map(digest).collect())
    }

    /// The same while `meanwhile` looks at the files that can be read: path inside the job, and where it lies. Hashing
    /// a long recording takes as long as reading it.
    ///
    /// # Errors
    /// When the folder cannot be listed.
    pub fn gather_while<T>(
        &self,
        meanwhile: impl FnOnce(&[(String, PathBuf)]) -> T,
    ) -> Result<(Vec<JobEntry>, T), IntakeError> {
        let found = self.list()?;
        let readable: Vec<(String, PathBuf)> = found
            .iter()
            .filter(|f| f.is_readable())
            .map(|f| (f.path.clone(), f.location.clone()))
            .collect();
        std::thread::scope(|scope| {
            let hashing = scope.spawn(|| found.into_iter().map(digest).collect());
            let seen = meanwhile(&readable);
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
        }
    }

    /// The job's files as they lie there now; `None` when they are gone.
    pub(crate) fn files(&self) -> Option<Vec<Found>> {
        match self {
            JobSource::Folder(folder) => walk(folder).ok(),
            JobSource::Files(files) => Some(files.iter().cloned().map(loose_file).collect()),
        }
    }

    pub(crate) fn first(&self) -> PathBuf {
        match self {
            JobSource::Folder(folder) => folder.clone(),
            JobSource::Files(files) => files.first().cloned().unwrap_or_default(),
        }
    }
}

/// A name that is no Unicode is kept as it can be read; its job is found again by watching, not by this.
fn readable<S: Serializer>(path: &Path, s: S) -> Result<S::Ok, S::Error> {
    s.serialize_str(&path.to_string_lossy())
}

fn all_readable<S: Serializer>(paths: &[PathBuf], s: S) -> Result<S::Ok, S::Error> {
    s.collect_seq(paths.iter().map(|p| p.to_string_lossy()))
}
