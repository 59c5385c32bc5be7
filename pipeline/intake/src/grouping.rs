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

/// Lists the whole inbox. A folder is a job; loose files are one job for each [`job_name`]. Each folder of `additions`
/// adds to the job of its name.
pub(crate) fn list(inbox: &Path, additions: Option<&Path>) -> io::Result<Listing> {
    let mut listing = group(entries(inbox)?);
    let added = additions.map(|a| entries(a).unwrap_or_default());
    for (path, kind) in added.into_iter().flatten() {
        if kind.is_dir() && !is_ignored(&entry_name(&path)) {
            listing.lay_over(&path);
        }
    }
    Ok(listing)
}

fn entries(folder: &Path) -> io::Result<Vec<(PathBuf, FileType)>> {
    let mut entries = Vec::new();
    for entry in std::fs::read_dir(folder)? {
        let entry = entry?;
        if let Ok(kind) = entry.file_type() {
            entries.push((entry.path(), kind));
        }
    }
    Ok(entries)
}

/// Lists entries of the inbox; those that are not there are left out.
pub(crate) fn list_entries(
    inbox: &Path,
    additions: Option<&Path>,
    names: &BTreeSet<String>,
) -> io::Result<Listing> {
    // Whether it is there at all is asked of the inbox itself.
    inbox.metadata()?;
    let entries = names.iter().filter_map(|name| {
        let path = inbox.join(name);
        let kind = path.symlink_metadata().ok()?.file_type();
        Some((path, kind))
    });
    let mut listing = group(entries.collect());
    if let Some(additions) = additions {
        let jobs: BTreeSet<&str> = names
            .iter()
            .flat_map(|n| [n.as_str(), job_name(n)])
            .collect();
        for job in jobs {
            let path = additions.join(job);
            if path.is_dir() {
                listing.lay_over(&path);
            }
        }
    }
    Ok(listing)
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

    /// Adds the files of a folder to the job of its name, or makes a job of them.
    fn lay_over(&mut self, folder: &Path) {
        let name = entry_name(folder);
        let Some(known) = self.jobs.remove(&name) else {
            if self.claim(&name, folder)
                && let Ok(files) = walk(folder)
            {
                self.add(name, JobSource::Folder(folder.to_path_buf()), &files);
            }
            return;
        };
        let source = JobSource::Layered {
            base: Box::new(known.source.clone()),
            added: folder.to_path_buf(),
        };
        match source.files() {
            Some(files) => self.add(name, source, &files),
            None => _ = self.jobs.insert(name, known),
        }
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
    fn added_files_join_the_job_of_their_name_and_take_the_place_of_its_answers() {
        let root = tempfile::tempdir().unwrap();
        let (inbox, added) = (root.path().join("inbox"), root.path().join("added"));
        for (folder, file) in [
            ("inbox/R-1", "a.csv"),
            ("inbox/R-1", "job.toml"),
            ("added/R-1", "job.toml"),
            ("added/R-1", "b.csv"),
            ("added/R-3", "c.csv"),
        ] {
            std::fs::create_dir_all(root.path().join(folder)).unwrap();
            std::fs::write(root.path().join(folder).join(file), file).unwrap();
        }
        std::fs::write(inbox.join("R-2_x.csv"), "1").unwrap();
        std::fs::write(inbox.join("R-2_job.toml"), "1").unwrap();
        std::fs::create_dir(added.join("R-2")).unwrap();
        std::fs::write(added.join("R-2/job.toml"), "2").unwrap();
        let whole = list(&inbox, Some(&added)).unwrap();
        let names = whole.names.iter().cloned().collect();
        for listing in [whole, list_entries(&inbox, Some(&added), &names).unwrap()] {
            let paths = |job: &str| -> Vec<String> {
                let files = listing.jobs[job].source.files().unwrap();
                let name = |f: &Found| {
                    let part = if f.location.starts_with(&added) {
                        "+"
                    } else {
                        ""
                    };
                    format!("{part}{}", f.path)
                };
                files.iter().map(name).collect()
            };
            assert_eq!(paths("R-1"), ["a.csv", "+b.csv", "+job.toml"]);
            assert_eq!(paths("R-3"), ["+c.csv"]);
        }
    }

    #[test]
    fn entries_are_listed_by_name_and_what_is_not_there_is_left_out() {
        let inbox = tempfile::tempdir().unwrap();
        for name in ["R-1", "R-2"] {
            std::fs::create_dir(inbox.path().join(name)).unwrap();
        }
        std::fs::write(inbox.path().join("R-3_a.csv"), "1").unwrap();
        let names = ["R-2", "R-3_a.csv", "R-4"].map(String::from).into();
        let listing = list_entries(inbox.path(), None, &names).unwrap();
        assert_eq!(listing.names.iter().collect::<Vec<_>>(), ["R-2", "R-3"]);
        assert!(list_entries(&inbox.path().join("gone"), None, &names).is_err());
    }
}
