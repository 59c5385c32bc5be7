//! Locks between processes. The system lifts them when their holder ends, however it ends.

use crate::IntakeError;
use crate::result_store::OWN;
use std::fs::{File, OpenOptions, TryLockError};
use std::io::{Read, Seek, Write};
use std::path::Path;

/// A lock, held as long as it lives.
#[derive(Debug)]
pub struct Lock {
    _file: File,
}

/// Waits for a lock.
pub(crate) fn hold(path: &Path) -> Result<Lock, IntakeError> {
    let unwritable = |why| IntakeError::Unwritable {
        path: path.to_path_buf(),
        why,
    };
    let file = open(path).map_err(unwritable)?;
    file.lock().map_err(unwritable)?;
    Ok(Lock { _file: file })
}

/// Takes the lock of the one process that watches for a folder of results.
///
/// # Errors
/// [`IntakeError::Taken`] when another one does, with what it wrote of itself.
pub fn only_one(out: &Path) -> Result<Lock, IntakeError> {
    let path = out.join(OWN).join("watch.lock");
    let unwritable = |why| IntakeError::Unwritable {
        path: path.clone(),
        why,
    };
    let mut file = open(&path).map_err(unwritable)?;
    match file.try_lock() {
        Ok(()) => {}
        Err(TryLockError::WouldBlock) => {
            let mut holder = String::new();
            // Only for the message.
            let _ = file.take(64).read_to_string(&mut holder);
            return Err(IntakeError::Taken {
                out: out.to_path_buf(),
                holder: holder.trim().into(),
            });
        }
        Err(TryLockError::Error(e)) => return Err(unwritable(e)),
    }
    let _ = file.set_len(0);
    let _ = file.rewind();
    let _ = writeln!(file, "{}", std::process::id());
    Ok(Lock { _file: file })
}

fn open(path: &Path) -> std::io::Result<File> {
    OpenOptions::new()
        .read(true)
        .write(true)
        .create(true)
        .truncate(false)
        .open(path)
}
