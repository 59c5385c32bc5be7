//! A job's files with the digests of their contents.

use crate::IntakeError;
use crate::open::open_within;
use crate::walk::{FileState, Found, MAX_SIZE, Stamp, walk};
use model::Problem;
use sha2::{Digest, Sha256};
use std::fs::File;
use std::io::{self, Read};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// One file of a job.
#[derive(Debug, Clone, PartialEq)]
pub struct JobEntry {
    /// Path inside the job folder, with forward slashes.
    pub path: String,
    /// Folder beneath which it is opened.
    pub(crate) folder: Arc<Path>,
    /// Path of the file itself; of a link inside the job, that of its target.
    pub location: PathBuf,
    /// Size and times; all zero when it could not be read.
    pub stamp: Stamp,
    /// SHA-256 of the content (FIPS 180-4), 64 hexadecimal digits, or the reason why there is none.
    pub content: Result<String, Problem>,
    /// True where the reason may pass by itself (a share that hangs, a bad cable).
    pub is_transient: bool,
}

impl JobEntry {
    /// Opens it as what it was when it was listed: a regular file beneath its folder, through no link.
    ///
    /// # Errors
    /// When it cannot be opened, or is something else by now.
    pub fn open(&self) -> io::Result<File> {
        open_within(&self.folder, &self.location)
    }

    /// Returns whether the file is still as it was hashed, by size and times alone; true for one that was not read.
    pub fn is_unchanged(&self) -> bool {
        let now = || {
            self.location
                .symlink_metadata()
                .map(|meta| Stamp::from(&meta))
        };
        self.content.is_err() || now().is_ok_and(|stamp| stamp == self.stamp)
    }
}

/// Lists and hashes the files of a job folder and its sub-folders, in the order of their paths.
///
/// Ignored names ([`crate::is_ignored`]) are left out. What cannot or must not be read (a link out of the
/// folder, a pipe, no permission) stands in the list with its problem.
///
/// # Errors
/// When the folder itself cannot be listed.
pub fn gather(folder: &Path) -> Result<Vec<JobEntry>, IntakeError> {
    Ok(walk(folder)?.into_iter().map(digest).collect())
}

/// Digest over every file's path and content: SHA-256, 64 hexadecimal digits. The same files with the same contents
/// give the same fingerprint, whatever their times.
pub fn fingerprint(entries: &[JobEntry]) -> String {
    let mut hasher = Sha256::new();
    for entry in entries {
        let content = entry.content.as_deref().unwrap_or("unread");
        for part in [entry.path.as_str(), content] {
            hasher.update((part.len() as u64).to_le_bytes());
            hasher.update(part);
        }
    }
    hexadecimal(hasher)
}

pub(crate) fn hexadecimal(hasher: Sha256) -> String {
    let digest = hasher.finalize();
    digest.iter().map(|b| format!("{b:02x}")).collect()
}

/// Reads one file once.
pub(crate) fn digest(found: Found) -> JobEntry {
    let (stamp, content) = match &found.state {
        FileState::Refused(why) => (Stamp::default(), Err((why.clone(), false))),
        FileState::Failing(why) => (Stamp::default(), Err((why.clone(), true))),
        FileState::Present(stamp) => (*stamp, read(&found, *stamp)),
    };
    let is_transient = content
        .as_ref()
        .is_err_and(|(_, is_transient)| *is_transient);
    JobEntry {
        content: content.map_err(|(message, _)| Problem {
            file: found.path.clone(),
            place: None,
            message,
        }),
        path: found.path,
        folder: found.folder,
        location: found.location,
        stamp,
        is_transient,
    }
}

/// Reason why a file could not be read, and whether it may pass.
type Unread = (String, bool);

fn read(found: &Found, expected: Stamp) -> Result<String, Unread> {
    if expected.size > MAX_SIZE {
        let gigabytes = |bytes: u64| bytes as f64 / 1e9;
        let message = format!(
            "Is too large ({:.1} GB, at most {:.1} GB are read): record or export a shorter part, or fewer channels.",
            gigabytes(expected.size),
            gigabytes(MAX_SIZE)
        );
        return Err((message, false));
    }
    let (digest, after) = hash(found).map_err(|e| {
        let message = format!("Cannot be read ({e}): check its permissions and the disk.");
        (message, e.kind() != io::ErrorKind::PermissionDenied)
    })?;
    if after != expected {
        let message = format!(
            "Changed while it was read ({} bytes before, {} after): do the job again once it is copied.",
            expected.size, after.size
        );
        return Err((message, true));
    }
    Ok(digest)
}

/// Bytes that are read at once.
const PART: usize = 256 << 10;

/// Digest of a file, and its size and times once it was read; the size is that of the bytes that were read.
fn hash(found: &Found) -> io::Result<(String, Stamp)> {
    let mut file = open_within(&found.folder, &found.location)?;
    let mut hasher = Sha256::new();
    let mut part = vec![0; PART];
    let mut size = 0;
    loop {
        match file.read(&mut part) {
            Ok(0) => break,
            Ok(n) => {
                hasher.update(&part[..n]);
                size += n as u64;
            }
            Err(e) if e.kind() == io::ErrorKind::Interrupted => {}
            Err(e) => return Err(e),
        }
    }
    let after = Stamp {
        size,
        ..Stamp::from(&file.metadata()?)
    };
    Ok((hexadecimal(hasher), after))
}
