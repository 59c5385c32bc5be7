//! Outputs that are whole or not there.

use crate::IntakeError;
use std::fs::{self, File};
use std::io::{self, ErrorKind, Write};
use std::path::Path;

/// Beginning and ending of the names under which files are written before they are renamed.
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
    // The folder must be there: one that went away with its share is not made anew in its place.
    let folder = parent(path);
    let mut builder = temporary();
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

/// Gives a file a second name, in place of what had that name before: a hard link, or a copy where the file system has
/// no links. The folder is not synced.
pub(crate) fn link_atomic(from: &Path, to: &Path) -> Result<(), IntakeError> {
    let unwritable = |why| IntakeError::Unwritable {
        path: to.to_path_buf(),
        why,
    };
    if is_same_file(from, to) {
        // Renaming one name of a file to another does nothing and would leave both (POSIX, rename).
        return Ok(());
    }
    let linked = temporary().make_in(parent(to), |name| fs::hard_link(from, name));
    match linked {
        Ok(link) => link
            .into_temp_path()
            .persist(to)
            .map_err(|e| unwritable(e.error)),
        Err(e) if matches!(e.kind(), ErrorKind::NotFound | ErrorKind::StorageFull) => {
            Err(unwritable(e))
        }
        // No links here: a share, a stick, another disk below the folder.
        Err(_) => write_atomic(to, &fs::read(from).map_err(unwritable)?),
    }
}

fn is_same_file(a: &Path, b: &Path) -> bool {
    let (a, b) = (identity(a), identity(b));
    cfg!(unix) && a.is_some() && a == b
}

fn temporary<'a>() -> tempfile::Builder<'a, 'a> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(TEMPORARY_BEGINNING).suffix(TEMPORARY_ENDING);
    builder
}

fn parent(path: &Path) -> &Path {
    match path.parent() {
        Some(p) if !p.as_os_str().is_empty() => p,
        _ => Path::new("."),
    }
}

/// Makes a folder and those above it that are missing, and syncs the names that are new.
pub(crate) fn make_folder(folder: &Path) -> io::Result<()> {
    if folder.is_dir() {
        return Ok(());
    }
    if let Some(above) = folder.parent().filter(|p| !p.as_os_str().is_empty()) {
        make_folder(above)?;
    }
    match fs::create_dir(folder) {
        Err(e) if e.kind() == ErrorKind::AlreadyExists && folder.is_dir() => {}
        made => made?,
    }
    sync_folder(parent(folder))
}

/// Writes a new file that nobody edits by mistake, and syncs it.
pub(crate) fn create_synced(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut options = File::options();
    options.write(true).create_new(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt;
        options.mode(0o444);
    }
    let mut file = options.open(path)?;
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

/// Device and number of a file, whatever its name; `None` when there is none, or where the system does not say.
pub(crate) fn identity(path: &Path) -> Option<(u64, u64)> {
    let meta = fs::metadata(path).ok()?;
    #[cfg(unix)]
    {
        use std::os::unix::fs::MetadataExt;
        Some((meta.dev(), meta.ino()))
    }
    #[cfg(not(unix))]
    {
        let _ = meta;
        Some((0, 0))
    }
}
