//! A job's files with the digests of their contents.

use crate::IntakeError;
use crate::walk::{FileState, Found, LARGEST, Stamp, walk};
use model::Problem;
use sha2::{Digest, Sha256};
use std::fs::File;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// One file of a job.
#[derive(Debug, Clone, PartialEq)]
pub struct JobEntry {
    /// Path inside the job folder, with forward slashes.
    pub path: String,
    /// Where it lies.
    pub location: PathBuf,
    /// Size and times; all zero when it could not be read.
    pub stamp: Stamp,
    /// Digests of the content, or why there are none.
    pub content: Result<Digests, Problem>,
    /// Whether what kept it from being read may pass by itself (a share that hangs, a bad cable).
    pub may_pass: bool,
}

impl JobEntry {
    /// Whether the file still lies there as it was hashed, by size and times alone; true for one that was not read.
    pub fn is_unchanged(&self) -> bool {
        let now = || std::fs::metadata(&self.location).map(|meta| Stamp::from(&meta));
        self.content.is_err() || now().is_ok_and(|stamp| stamp == self.stamp)
    }
}

/// Digests of a content.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Digests {
    /// SHA-256 (FIPS 180-4), 64 hexadecimal digits.
    pub sha256: String,
    /// BLAKE3, 64 hexadecimal digits.
    pub blake3: String,
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

/// BLAKE3 over every file's path and content digest, 64 hexadecimal digits: the same files with the same
/// contents give the same fingerprint, whatever their times.
pub fn fingerprint(entries: &[JobEntry]) -> String {
    let mut hasher = blake3::Hasher::new();
    for entry in entries {
        let content = entry.content.as_ref().map_or("unread", |c| &c.blake3);
        for part in [&entry.path, content] {
            hasher.update(&(part.len() as u64).to_le_bytes());
            hasher.update(part.as_bytes());
        }
    }
    hasher.finalize().to_hex().to_string()
}

/// Reads one file once, for both digests.
pub(crate) fn digest(found: Found) -> JobEntry {
    let (stamp, content) = match found.state {
        FileState::Refused(why) => (Stamp::default(), Err((why, false))),
        FileState::Failing(why) => (Stamp::default(), Err((why, true))),
        FileState::Present(stamp) => (stamp, read(&found.location, stamp.size)),
    };
    let may_pass = content.as_ref().is_err_and(|(_, may_pass)| *may_pass);
    JobEntry {
        content: content.map_err(|(message, _)| Problem {
            file: found.path.clone(),
            place: None,
            message,
        }),
        path: found.path,
        location: found.location,
        stamp,
        may_pass,
    }
}

/// Why a file could not be read, and whether that may pass.
type Unread = (String, bool);

fn read(location: &Path, expected: u64) -> Result<Digests, Unread> {
    if expected > LARGEST {
        let gigabytes = |bytes: u64| bytes as f64 / 1e9;
        let message = format!(
            "Is too large ({:.1} GB, at most {:.1} GB are read): record or export a shorter part, or fewer channels.",
            gigabytes(expected),
            gigabytes(LARGEST)
        );
        return Err((message, false));
    }
    let (digests, size) = hash(location).map_err(|e| {
        let message = format!("Cannot be read ({e}): check its permissions and the disk.");
        (message, e.kind() != io::ErrorKind::PermissionDenied)
    })?;
    if size != expected {
        let message = format!(
            "Changed while it was read ({expected} bytes before, {size} after): do the job again once it is copied."
        );
        return Err((message, true));
    }
    Ok(digests)
}

/// Bytes that are read at once. That many are worth a thread: the digests of a long recording would otherwise keep the
/// job waiting.
const PART: usize = 2 << 20;

fn hash(location: &Path) -> io::Result<(Digests, u64)> {
    let mut file = File::open(location)?;
    let mut sha256 = Sha256::new();
    let mut blake3 = blake3::Hasher::new();
    let mut part = Vec::with_capacity(PART.min(file.metadata()?.len() as usize + 1));
    let mut size = 0;
    while file.by_ref().take(PART as u64).read_to_end(&mut part)? > 0 {
        if part.len() < PART {
            sha256.update(&part);
            blake3.update(&part);
        } else {
            std::thread::scope(|scope| {
                scope.spawn(|| blake3.update(&part));
                sha256.update(&part);
            });
        }
        size += part.len() as u64;
        part.clear();
    }
    let sha256 = sha256
        .finalize()
        .iter()
        .map(|b| format!("{b:02x}"))
        .collect();
    let blake3 = blake3.finalize().to_hex().to_string();
    Ok((Digests { sha256, blake3 }, size))
}
