//! Outputs that are whole or not there.

use crate::IntakeError;
use std::fs::{self, File};
use std::io::{self, Write};
use std::path::Path;

/// How the names begin and end under which files are written before they are renamed.
pub(crate) const TEMPORARY_BEGINNING: &str = ".writing-";
pub(crate) const TEMPORARY_ENDING: &str = ".tmp";

/// Writes a file so that a reader, a crash or a power cut sees the old content or the new one, never a
/// part: a temporary name in the same folder, fsync, rename, fsync of the folder. Missing folders are made.
///
/// # Errors
/// When the folder or the file cannot be written; the old content then still stands.
pub fn write_atomic(path: &Path, bytes: &[u8]) -> Result<(), IntakeError> {
    replace(path, bytes).map_err(|why| IntakeError::Unwritable {
        path: path.to_path_buf(),
        why,
    })
}

fn replace(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let folder = match path.parent() {
        Some(p) if !p.as_os_str().is_empty() => p,
        _ => Path::new("."),
    };
    fs::create_dir_all(folder)?;
    let mut builder = tempfile::Builder::new();
    builder.prefix(TEMPORARY_BEGINNING).suffix(TEMPORARY_ENDING);
    #[cfg(unix)]
    {
        // As any other new file: what the user's umask leaves of it.
        use std::os::unix::fs::PermissionsExt;
        builder.permissions(fs::Permissions::from_mode(0o666));
    }
    let mut file = builder.tempfile_in(folder)?;
    file.write_all(bytes)?;
    file.as_file().sync_all()?;
    file.persist(path)?;
    sync_folder(folder)
}

/// Writes a new file and syncs it.
pub(crate) fn create_synced(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = File::create(path)?;
    file.write_all(bytes)?;
    file.sync_all()
}

/// Syncs the names in a folder.
pub(crate) fn sync_folder(folder: &Path) -> io::Result<()> {
    // Windows cannot open a folder as a file; there the rename is all that can be asked for.
    if cfg!(unix) {
        File::open(folder)?.sync_all()?;
    }
    Ok(())
}
