//! The files of a job folder, as they lie on disk.

use crate::IntakeError;
use crate::names::is_ignored;
use std::fs::Metadata;
use std::io;
use std::path::{Path, PathBuf};
use std::time::SystemTime;
use walkdir::{DirEntry, WalkDir};

/// One thing in a job folder.
#[derive(Debug)]
pub(crate) struct Found {
    /// Path inside the job folder, with forward slashes.
    pub(crate) path: String,
    pub(crate) location: PathBuf,
    pub(crate) state: FileState,
}

/// Larger files are set aside: a recording is read whole, and one of them must not take all memory.
pub(crate) const LARGEST: u64 = 4_000_000_000;

impl Found {
    /// Whether it is a file whose content is looked at.
    pub(crate) fn is_readable(&self) -> bool {
        matches!(&self.state, FileState::Present(stamp) if stamp.size <= LARGEST)
    }
}

/// What can be said of a file without opening it. Two equal states: nobody wrote in between.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum FileState {
    Present(Stamp),
    /// Must not be read, and why.
    Refused(String),
    /// Cannot be read now, and why.
    Failing(String),
}

/// Size and times of a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Stamp {
    /// Size, bytes.
    pub size: u64,
    /// When it was last written, nanoseconds since 1970-01-01 UTC, where the file system says so.
    pub modified: Option<i64>,
    /// When the file's entry last changed (Unix), nanoseconds since 1970-01-01 UTC: catches copies that set the
    /// old times again.
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
        let modified = meta.modified().ok();
        Stamp {
            size: meta.len(),
            modified: modified
                .and_then(|m| m.duration_since(SystemTime::UNIX_EPOCH).ok())
                .and_then(|d| i64::try_from(d.as_nanos()).ok()),
            changed,
        }
    }
}

impl Stamp {
    /// When the file came into its folder, as far as the file system tells.
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
    let root = folder.canonicalize().map_err(unreadable)?;
    if !root.is_dir() {
        return Err(IntakeError::NotAFolder(folder.to_path_buf()));
    }
    let entries = WalkDir::new(&root)
        .min_depth(1)
        .into_iter()
        .filter_entry(|e| !is_ignored(&e.file_name().to_string_lossy()));
    let mut found = Vec::new();
    for entry in entries {
        match entry {
            Ok(entry) if entry.file_type().is_dir() => {}
            Ok(entry) => found.push(Found {
                path: inner_path(&root, entry.path()),
                state: state(&root, &entry),
                location: entry.into_path(),
            }),
            // The folder itself cannot be listed.
            Err(e) if e.depth() == 0 => return Err(unreadable(e.into())),
            Err(e) => {
                let location = e.path().unwrap_or(&root).to_path_buf();
                found.push(Found {
                    path: inner_path(&root, &location),
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
        state: match location.symlink_metadata() {
            Ok(meta) => file_state(&meta),
            Err(e) => failing(e),
        },
        location,
    }
}

fn state(root: &Path, entry: &DirEntry) -> FileState {
    if entry.path_is_symlink() {
        return link_state(root, entry.path());
    }
    match entry.metadata() {
        Ok(meta) => file_state(&meta),
        Err(e) => failing(e.into()),
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

/// A link counts only if it leads to a file of the same job.
fn link_state(root: &Path, link: &Path) -> FileState {
    let target = match link.canonicalize() {
        Ok(target) => target,
        Err(e) => {
            return FileState::Refused(format!(
                "Is a link that leads nowhere ({e}): copy the file itself here."
            ));
        }
    };
    if !target.starts_with(root) {
        return FileState::Refused(
            "Is a link out of the job folder and is not followed: copy the file itself here."
                .into(),
        );
    }
    match target.metadata() {
        Ok(meta) if meta.is_dir() => FileState::Refused(
            "Is a link to a folder of the same job, whose files are read where they lie.".into(),
        ),
        Ok(meta) => file_state(&meta),
        Err(e) => FileState::Refused(format!(
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
