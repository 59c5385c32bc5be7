//! Where a job of the inbox lies.

use crate::gather::{JobEntry, digest};
use crate::walk::{Found, loose_file, walk};
use crate::{IntakeError, gather};
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
    /// The job's files, hashed; see [`gather`].
    ///
    /// # Errors
    /// When the folder cannot be listed.
    pub fn gather(&self) -> Result<Vec<JobEntry>, IntakeError> {
        match self {
            JobSource::Folder(folder) => gather(folder),
            JobSource::Files(files) => Ok(files
                .iter()
                .map(|f| digest(loose_file(f.clone())))
                .collect()),
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
