//! Jobs of an inbox: which entry belongs to which.

use crate::names::{is_ignored, is_reserved};
use crate::walk::{FileState, Found, loose_file, walk};
use crate::{IntakeError, JobSource};
use std::collections::{BTreeMap, BTreeSet};
use std::fs::FileType;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// One job as it is in the inbox.
#[derive(Debug)]
pub(crate) struct Listed {
    pub(crate) source: JobSource,
    pub(crate) snapshot: Snapshot,
}

/// Jobs of the inbox by name, and refusals.
#[derive(Debug, Default)]
pub(crate) struct Listing {
    /// Names of all jobs that there are, those that cannot be looked into included.
    pub(crate) names: BTreeSet<String>,
    pub(crate) jobs: BTreeMap<String, Listed>,
    pub(crate) refused: Vec<IntakeError>,
}

/// Lists the whole inbox. A folder is a job; loose files are one job for each [`job_name`].
pub(crate) fn list(inbox: &Path) -> io::Result<Listing> {
    let mut entries = Vec::new();
    for entry in std::fs::read_dir(inbox)? {
        let entry = entry?;
        if let Ok(kind) = entry.file_type() {
            entries.push((entry.path(), kind));
        }
    }
    Ok(group(entries))
}

/// Lists entries of the inbox; those that are not there are left out.
pub(crate) fn list_entries(inbox: &Path, names: &BTreeSet<String>) -> io::Result<Listing> {
    // Whether it is there at all is asked of the inbox itself.
    inbox.metadata()?;
    let entries = names.iter().filter_map(|name| {
        let path = inbox.join(name);
        let kind = path.symlink_metadata().ok()?.file_type();
        Some((path, kind))
    });
    Ok(group(entries.collect()))
}

fn group(entries: Vec<(PathBuf, FileType)>) -> Listing {
    let mut listing = Listing::default();
    let mut folders: BTreeMap<String, PathBuf> = BTreeMap::new();
    let mut loose: BTreeMap<String, Vec<PathBuf>> = BTreeMap::new();
    for (path, kind) in entries {
        let name = entry_name(&path);
        if is_ignored(&name) {
            continue;
        }
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
        if !listing.claim(&name, &folder) {
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
        if listing.claim(&name, &first) {
            let files: Vec<Found> = paths.iter().cloned().map(loose_file).collect();
            listing.add(name, JobSource::Files(paths), &files);
        }
    }
    listing
}

/// Name of an entry as a person reads it.
pub(crate) fn entry_name(path: &Path) -> String {
    let name = path.file_name().unwrap_or_default();
    name.to_string_lossy().into_owned()
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
        let listing = list(inbox.path()).unwrap();
        assert_eq!(listing.names.iter().collect::<Vec<_>>(), ["R-1"]);
        assert_eq!(listing.refused.len(), 3, "{:?}", listing.refused);
    }

    #[test]
    fn entries_are_listed_by_name_and_what_is_not_there_is_left_out() {
        let inbox = tempfile::tempdir().unwrap();
        for name in ["R-1", "R-2"] {
            std::fs::create_dir(inbox.path().join(name)).unwrap();
        }
        std::fs::write(inbox.path().join("R-3_a.csv"), "1").unwrap();
        let names = ["R-2", "R-3_a.csv", "R-4"].map(String::from).into();
        let listing = list_entries(inbox.path(), &names).unwrap();
        assert_eq!(listing.names.iter().collect::<Vec<_>>(), ["R-2", "R-3"]);
        assert!(list_entries(&inbox.path().join("gone"), &names).is_err());
    }
}
