//! Putting the results of a committed revision in place.

use super::{ResultStore, remove};
use crate::write::{TEMPORARY_BEGINNING, TEMPORARY_ENDING, link_atomic, make_folder, sync_folder};
use crate::{IntakeError, write_atomic};
use std::collections::BTreeSet;
use std::fs;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// Results that not every revision has. One of an earlier revision would be taken for the present one's.
const OCCASIONAL: [&str; 5] = [
    "job.toml",
    "report.pdf",
    "problems.txt",
    "invoice_draft.xml",
    "technician.pdf",
];

/// The one result that a person may have edited in place.
const EDITED: &str = "job.toml";

impl ResultStore {
    /// Puts committed results in place; each step may be done again.
    pub(super) fn publish_pending(&mut self, job: &str, number: u32) -> Result<(), IntakeError> {
        let folder = self.out.join(job);
        let kept = folder.join(format!("rev-{number}"));
        let staged = self.staged(job, number);
        let old = staged.with_extension("old");
        let unwritable = |path: &Path| {
            let path = path.to_path_buf();
            move |why| IntakeError::Unwritable { path, why }
        };
        make_job_folder(&folder)?;
        if staged.is_dir() {
            if kept.exists() {
                remove(&old)?;
                fs::rename(&kept, &old).map_err(unwritable(&kept))?;
                (self.on_step)("old results taken away")?;
            }
            fs::rename(&staged, &kept).map_err(unwritable(&kept))?;
            sync_folder(&folder).map_err(unwritable(&folder))?;
            sync_folder(&self.staging()).map_err(unwritable(&staged))?;
            (self.on_step)("kept")?;
        } else if !kept.is_dir() {
            // Somebody removed them before they were in place; the job is done again.
            self.ledger.mark_lost(job, number)?;
            return Err(IntakeError::ResultsLost {
                job: job.into(),
                number,
            });
        }
        let names = files(&kept).map_err(|why| IntakeError::Unreadable {
            path: kept.clone(),
            why,
        })?;
        for name in &names {
            self.show(&kept, &folder, name)?;
            (self.on_step)("shown a file")?;
        }
        for name in OCCASIONAL.iter().filter(|n| !names.iter().any(|o| o == *n)) {
            let shown = folder.join(name);
            if *name == EDITED && is_edited(&folder, &shown) {
                continue;
            }
            match fs::remove_file(&shown) {
                Err(e) if e.kind() != ErrorKind::NotFound => return Err(unwritable(&shown)(e)),
                _ => (self.on_step)("withdrew a file")?,
            }
        }
        remove_temporaries(&folder)?;
        sync_folder(&folder).map_err(unwritable(&folder))?;
        self.ledger.mark_published(job, number)?;
        (self.on_step)("published")?;
        remove(&old)
    }

    fn show(&self, kept: &Path, folder: &Path, name: &str) -> Result<(), IntakeError> {
        let (from, to) = (kept.join(name), folder.join(name));
        if name != EDITED {
            return link_atomic(&from, &to);
        }
        if is_edited(folder, &to) {
            return Ok(());
        }
        match fs::read(&from) {
            Ok(bytes) => write_atomic(&to, &bytes),
            Err(why) => Err(IntakeError::Unreadable { path: from, why }),
        }
    }
}

/// Makes the folder of a job's results.
pub(super) fn make_job_folder(folder: &Path) -> Result<(), IntakeError> {
    let path = folder.to_path_buf();
    make_folder(folder).map_err(|why| match why.kind() {
        ErrorKind::AlreadyExists => IntakeError::InTheWay(path),
        _ => IntakeError::Unwritable { path, why },
    })
}

/// Removes everything that is staged but for some.
pub(super) fn remove_staged_but(
    staging: &Path,
    kept: &BTreeSet<PathBuf>,
) -> Result<(), IntakeError> {
    let entries = match fs::read_dir(staging) {
        Err(e) if e.kind() == ErrorKind::NotFound => return Ok(()),
        entries => entries,
    };
    let paths = entries.and_then(|all| all.map(|e| Ok(e?.path())).collect::<io::Result<Vec<_>>>());
    let paths = paths.map_err(|why| IntakeError::Unreadable {
        path: staging.to_path_buf(),
        why,
    })?;
    paths
        .iter()
        .filter(|path| !kept.contains(*path))
        .try_for_each(|path| remove(path))
}

/// Names of the files in a folder, in the order in which they are shown.
fn files(folder: &Path) -> io::Result<Vec<String>> {
    let mut names = Vec::new();
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        if entry.file_type()?.is_file() {
            names.push(entry.file_name().to_string_lossy().into_owned());
        }
    }
    // case.json comes last: once it is there, the others are complete.
    names.sort_by_key(|name| (name == "case.json", name.clone()));
    Ok(names)
}

/// Returns whether a person has changed what some revision wrote: then it is theirs.
fn is_edited(folder: &Path, shown: &Path) -> bool {
    let (Ok(present), Some(name)) = (fs::read(shown), shown.file_name()) else {
        return false;
    };
    let revisions: Vec<PathBuf> = fs::read_dir(folder)
        .map(|entries| entries.flatten().map(|e| e.path()).collect())
        .unwrap_or_default();
    !revisions
        .iter()
        .any(|revision| fs::read(revision.join(name)).is_ok_and(|written| written == present))
}

/// Removes what a crash left of files that were being written in a folder.
pub(super) fn remove_temporaries(folder: &Path) -> Result<(), IntakeError> {
    let names = files(folder).map_err(|why| IntakeError::Unreadable {
        path: folder.to_path_buf(),
        why,
    })?;
    for name in names {
        if name.starts_with(TEMPORARY_BEGINNING) && name.ends_with(TEMPORARY_ENDING) {
            // Another writer may have renamed it meanwhile.
            let _ = fs::remove_file(folder.join(name));
        }
    }
    Ok(())
}
