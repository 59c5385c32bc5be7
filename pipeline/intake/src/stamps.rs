//! Digest of a job's files by their sizes and times alone: where two are equal, nobody wrote in between.

use crate::FileFact;
use crate::gather::hexadecimal;
use crate::grouping::Snapshot;
use crate::walk::FileState;
use sha2::{Digest, Sha256};

/// Digest of the files that a revision was made from: SHA-256, 64 hexadecimal digits. A file that could not be read
/// enters with the reason, so that it is worth another look once it can be.
pub fn stamps(files: &[FileFact]) -> String {
    let mut hasher = Sha256::new();
    for file in files {
        match &file.content {
            Ok(_) => present(
                &mut hasher,
                &file.path,
                file.size,
                file.modified,
                file.changed,
            ),
            Err(why) => refused(&mut hasher, &file.path, why),
        }
    }
    hexadecimal(hasher)
}

/// The same of files as they are now; `None` while one of them cannot be looked at.
pub(crate) fn of_snapshot(snapshot: &Snapshot) -> Option<String> {
    let mut hasher = Sha256::new();
    for (path, state) in snapshot {
        match state {
            FileState::Present(s) => present(&mut hasher, path, s.size, s.modified, s.changed),
            FileState::Refused(why) => refused(&mut hasher, path, why),
            FileState::Failing(_) => return None,
        }
    }
    Some(hexadecimal(hasher))
}

fn present(
    hasher: &mut Sha256,
    path: &str,
    size: u64,
    modified: Option<i64>,
    changed: Option<i64>,
) {
    part(hasher, path);
    part(hasher, &format!("{size} {modified:?} {changed:?}"));
}

fn refused(hasher: &mut Sha256, path: &str, why: &str) {
    part(hasher, path);
    part(hasher, &format!("refused: {why}"));
}

fn part(hasher: &mut Sha256, text: &str) {
    hasher.update((text.len() as u64).to_le_bytes());
    hasher.update(text);
}
