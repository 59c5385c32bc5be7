//! Jobs of an inbox: which entry belongs to which.

use crate::names::{is_ignored, is_reserved};
use crate::walk::{FileState, Found, loose_file, walk};
use crate::{IntakeError, JobSource};
use std::collections::{BTreeMap, BTreeSet};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// One job as it is in the inbox.
#[derive(Debug)]
pub(crate) struct Listed {
    pub(crate) source: JobSource,
    pub(crate) snapshot: Snapshot,
}

/// The inbox: jobs by name, and refusals.
#[derive(Debug, Default)]
pub(crate) struct Listing {
    /// Names of all jobs.
    pub(crate) names: BTreeSet<String>,
    /// Jobs that were looked into.
    pub(crate) jobs: BTreeMap<String, Listed>,
    pub(crate) refused: Vec<IntakeError>,
}

/// Lists the inbox, and looks into all jobs, or into those of `only`. A folder is a job; loose files are one job for
/// each [`job_name`].
pub(crate) fn list(inbox: &Path, only: Option<&BTreeSet<String>>) -> io::Result<Listing> {
    let is_wanted = |name: &str| only.is_none_or(|only| only.contains(name));
    let mut listing = Listing::default();
    let mut folders: BTreeMap<String, PathBuf> = BTreeMap::new();
    let mut loose: BTreeMap<String, Vec<PathBuf>> = BTreeMap::new();
    for entry in std::fs::read_dir(inbox)? {
        let entry = entry?;
        let name = entry.file_name().to_string_lossy().into_owned();
        let Ok(kind) = entry.file_type() else {
            continue;
        };
        if is_ignored(&name) {
            continue;
        }
        let path = entry.path();
        if kind.is_symlink() {
            listing.refused.push(IntakeError::LinkInInbox(path));
        } else if kind.is_dir() {
            folders.insert(name, path);
        } else if name == "job.toml" {
            listing.refused.push(IntakeError::UnmatchedJobFile(path));
        } else {
            loose.entry(job_name(&name).into()).or_default().push(path);
        }
    }
    for (name, folder) in folders {
        if !listing.claim(&name, &folder) || !is_wanted(&name) {
            continue;
        }
        match walk(&folder) {
            Ok(files) => listing.add(name, JobSource::Folder(folder), &files),
            // Moved away between listing and looking.
            Err(IntakeError::Unreadable { why, .. }) if why.kind() == ErrorKind::NotFound => {}
            Err(e) => listing.refused.push(e),
        }
    }
    for (name, mut paths) in loose {
        paths.sort();
        let first = paths.first().cloned().unwrap_or_default();
        if !listing.claim(&name, &first) || !is_wanted(&name) {
            continue;
        }
        let files: Vec<Found> = paths.iter().cloned().map(loose_file).collect();
        listing.add(name, JobSource::Files(paths), &files);
    }
    Ok(listing)
}

impl Listing {
    /// Takes a name for a job, if it can have it: two jobs never share one, because their outputs would.
    fn claim(&mut self, job: &str, path: &Path) -> bool {
        if is_reserved(job) {
            let path = path.display().to_string();
            self.refused.push(IntakeError::ReservedName(path));
            return false;
        }
        if !self.names.insert(job.into()) {
            self.refused.push(IntakeError::NameTaken {
                path: path.to_path_buf(),
                job: job.into(),
            });
            return false;
        }
        true
    }

    fn add(&mut self, job: String, source: JobSource, files: &[Found]) {
        let snapshot = snapshot(files);
        self.jobs.insert(job, Listed { source, snapshot });
    }
}

/// Sizes and times of everything in a job, by path.
pub(crate) type Snapshot = BTreeMap<String, FileState>;

pub(crate) fn snapshot(files: &[Found]) -> Snapshot {
    files
        .iter()
        .map(|f| (f.path.clone(), f.state.clone()))
        .collect()
}

/// Name of the job of a loose file: the part of its name before the first `_`, or the name without its ending.
pub(crate) fn job_name(file: &str) -> &str {
    match file.split_once('_') {
        Some((job, _)) if !job.trim().is_empty() => job.trim(),
        _ => match file.rsplit_once('.') {
            Some((stem, _)) if !stem.trim().is_empty() => stem.trim(),
            _ => file,
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn loose_files_of_one_job_share_the_part_before_the_first_underscore() {
        for (file, job) in [
            ("R-2041_relearn.csv", "R-2041"),
            ("R-2041_scan_2.txt", "R-2041"),
            ("R-2041.csv", "R-2041"),
            ("R-2041 _scan.txt", "R-2041"),
            ("R-2041", "R-2041"),
            ("_relearn.csv", "_relearn"),
            ("a.b.csv", "a.b"),
        ] {
            assert_eq!(job_name(file), job);
        }
    }

    #[test]
    fn names_of_the_program_s_own_files_are_refused_and_the_rest_is_listed() {
        let inbox = tempfile::tempdir().unwrap();
        for name in ["index.html", "labour-2026-03-02.csv", "R-1"] {
            std::fs::create_dir(inbox.path().join(name)).unwrap();
        }
        std::fs::write(inbox.path().join("labour-2026-03-02.csv_scan.txt"), "1").unwrap();
        let listing = list(inbox.path(), None).unwrap();
        assert_eq!(listing.names.iter().collect::<Vec<_>>(), ["R-1"]);
        assert_eq!(listing.refused.len(), 3, "{:?}", listing.refused);
    }

    #[test]
    fn only_the_jobs_that_are_wanted_are_looked_into() {
        let inbox = tempfile::tempdir().unwrap();
        for name in ["R-1", "R-2"] {
            std::fs::create_dir(inbox.path().join(name)).unwrap();
        }
        let only = BTreeSet::from(["R-2".to_string()]);
        let listing = list(inbox.path(), Some(&only)).unwrap();
        assert_eq!(listing.names.len(), 2);
        assert_eq!(listing.jobs.into_keys().collect::<Vec<_>>(), ["R-2"]);
    }
}
