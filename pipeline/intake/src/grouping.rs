//! Which job a thing in the inbox belongs to.

use crate::names::is_ignored;
use crate::walk::{FileState, Found, loose_file, walk};
use crate::{IntakeError, JobSource};
use std::collections::BTreeMap;
use std::collections::btree_map::Entry;
use std::io::{self, ErrorKind};
use std::path::Path;

/// One job as it lies in the inbox.
#[derive(Debug)]
pub(crate) struct Listed {
    pub(crate) source: JobSource,
    pub(crate) snapshot: Snapshot,
}

/// The inbox: jobs by name, and what was refused.
#[derive(Debug, Default)]
pub(crate) struct Listing {
    pub(crate) jobs: BTreeMap<String, Listed>,
    pub(crate) refused: Vec<IntakeError>,
}

/// Lists the inbox. A folder is a job; loose files are one job for each [`job_name`].
pub(crate) fn list(inbox: &Path) -> io::Result<Listing> {
    let mut listing = Listing::default();
    let mut loose: BTreeMap<String, Vec<Found>> = BTreeMap::new();
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
            match walk(&path) {
                Ok(files) => listing.add(name, JobSource::Folder(path), &files),
                // Moved away between listing and looking.
                Err(IntakeError::Unreadable { why, .. }) if why.kind() == ErrorKind::NotFound => {}
                Err(e) => listing.refused.push(e),
            }
        } else if name == "job.toml" {
            listing.refused.push(IntakeError::HomelessJobFile(path));
        } else {
            let file = loose_file(path);
            loose.entry(job_name(&name).into()).or_default().push(file);
        }
    }
    for (name, mut files) in loose {
        files.sort_by(|a, b| a.path.cmp(&b.path));
        let source = JobSource::Files(files.iter().map(|f| f.location.clone()).collect());
        listing.add(name, source, &files);
    }
    Ok(listing)
}

impl Listing {
    /// Two jobs never share a name, because their outputs would.
    fn add(&mut self, job: String, source: JobSource, files: &[Found]) {
        let snapshot = snapshot(files);
        match self.jobs.entry(job) {
            Entry::Vacant(free) => {
                free.insert(Listed { source, snapshot });
            }
            Entry::Occupied(taken) => self.refused.push(IntakeError::NameTaken {
                path: source.first(),
                job: taken.key().clone(),
            }),
        }
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

/// The job of a loose file: the part of its name before the first `_`, or the name without its ending.
fn job_name(file: &str) -> &str {
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
    use super::job_name;

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
}
