//! Files of a job folder, as they are on disk.

use crate::IntakeError;
use crate::names::is_ignored;
use crate::time::to_nanos;
use std::fs::Metadata;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use walkdir::{DirEntry, WalkDir};

/// One entry of a job folder.
#[derive(Debug)]
pub(crate) struct Found {
    /// Path inside the job folder, with forward slashes.
    pub(crate) path: String,
    /// Folder beneath which it is opened: the job's, or the inbox of a loose file.
    pub(crate) folder: Arc<Path>,
    /// Path of the file itself; of a link inside the job, that of its target.
    pub(crate) location: PathBuf,
    pub(crate) state: FileState,
}

/// Size of the largest file that is read, bytes: one recording must not take all memory.
pub(crate) const MAX_SIZE: u64 = 4_000_000_000;

impl Found {
    /// Returns whether it is a file whose content is read.
    pub(crate) fn is_readable(&self) -> bool {
        matches!(&self.state, FileState::Present(stamp) if stamp.size <= MAX_SIZE)
    }
}

/// Facts of a file without opening it. Two equal states: nobody wrote in between.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum FileState {
    Present(Stamp),
    /// Must not be read, for this reason.
    Refused(String),
    /// Cannot be read now, for this reason.
    Failing(String),
}

/// Size and times of a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Stamp {
    /// Size, bytes.
    pub size: u64,
    /// Time of the last write, nanoseconds since 1970-01-01 UTC, where the file system says so.
    pub modified: Option<i64>,
    /// Time of the last change of the file's entry (Unix), nanoseconds since 1970-01-01 UTC: catches copies that set
    /// the old times again.
    pub changed: Option<i64>,
}

impl From<&Metadata> for Stamp {
    fn from(meta: &Metadata) -> Self {
        #[cfg(unix)]
        let changed = {
            use std::os::unix::fs::MetadataExt;
            let seconds = meta.ctime().checked_mul(1_000_000_000);
            seconds.and_then(|s| s.checked_add(meta.ctime_nsec()))
        };
        #[cfg(not(unix))]
        let changed = None;
        Stamp {
            size: meta.len(),
            modified: meta.modified().ok().map(to_nanos),
            changed,
        }
    }
}

impl Stamp {
    /// Time at which the file came into its folder, as far as the file system tells.
    pub(crate) fn arrived(&self) -> Option<i64> {
        self.changed.or(self.modified)
    }
}

/// Everything in a job folder and its sub-folders that is not ignored, in the order of the paths.
pub(crate) fn walk(folder: &Path) -> Result<Vec<Found>, IntakeError> {
    let unreadable = |why| IntakeError::Unreadable {
        path: folder.to_path_buf(),
        why,
    };
    if !folder.metadata().map_err(unreadable)?.is_dir() {
        return Err(IntakeError::NotAFolder(folder.to_path_buf()));
    }
    let root: Arc<Path> = folder.into();
    let entries = WalkDir::new(&root)
        .min_depth(1)
        .into_iter()
        .filter_entry(|e| !is_ignored(&e.file_name().to_string_lossy()));
    let mut found = Vec::new();
    for entry in entries {
        match entry {
            Ok(entry) if entry.file_type().is_dir() => {}
            Ok(entry) => found.push(look_at(&root, entry)),
            // The folder itself cannot be listed.
            Err(e) if e.depth() == 0 => return Err(unreadable(e.into())),
            Err(e) => {
                let location = e.path().unwrap_or(&root).to_path_buf();
                found.push(Found {
                    path: inner_path(&root, &location),
                    folder: root.clone(),
                    location,
                    state: failing(e.into()),
                });
            }
        }
    }
    found.sort_by(|a, b| a.path.cmp(&b.path));
    Ok(found)
}

/// State of one loose file.
pub(crate) fn loose_file(location: PathBuf) -> Found {
    Found {
        path: location
            .file_name()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned(),
        folder: location.parent().unwrap_or(Path::new("")).into(),
        state: match location.symlink_metadata() {
            Ok(meta) => file_state(&meta),
            Err(e) => failing(e),
        },
        location,
    }
}

fn look_at(root: &Arc<Path>, entry: DirEntry) -> Found {
    let path = inner_path(root, entry.path());
    let (location, state) = match entry.path_is_symlink() {
        true => follow(root, entry.path()),
        false => {
            let state = entry
                .metadata()
                .map_or_else(|e| failing(e.into()), |m| file_state(&m));
            (entry.into_path(), state)
        }
    };
    Found {
        path,
        folder: root.clone(),
        location,
        state,
    }
}

fn failing(e: io::Error) -> FileState {
    let denied = e.kind() == io::ErrorKind::PermissionDenied;
    let message = format!("Cannot be read ({e}): check its permissions.");
    match denied {
        true => FileState::Refused(message),
        false => FileState::Failing(message),
    }
}

/// Target of a link with its state. A link counts only if it leads to a file of the same job.
fn follow(root: &Path, link: &Path) -> (PathBuf, FileState) {
    let refused = |why: String| (link.to_path_buf(), FileState::Refused(why));
    let target = match link.canonicalize() {
        Ok(target) => target,
        Err(e) => {
            return refused(format!(
                "Is a link that leads nowhere ({e}): copy the file itself here."
            ));
        }
    };
    if !target.starts_with(root) {
        return refused(
            "Is a link out of the job folder and is not followed: copy the file itself here."
                .into(),
        );
    }
    match target.symlink_metadata() {
        Ok(meta) if meta.is_dir() => {
            refused("Is a link to a folder of the same job, whose files are read there.".into())
        }
        Ok(meta) => {
            let state = file_state(&meta);
            (target, state)
        }
        Err(e) => refused(format!(
            "Is a link that cannot be followed ({e}): copy the file itself here."
        )),
    }
}

/// Opening a pipe or a device could wait for ever, so only regular files count.
fn file_state(meta: &Metadata) -> FileState {
    if meta.is_file() {
        FileState::Present(meta.into())
    } else {
        FileState::Refused(
            "Is not a regular file: expected a recording, a scan text or job.toml.".into(),
        )
    }
}

fn inner_path(root: &Path, path: &Path) -> String {
    let inner = path.strip_prefix(root).unwrap_or(path);
    inner
        .iter()
        .map(|part| part.to_string_lossy())
        .collect::<Vec<_>>()
        .join("/")
}
