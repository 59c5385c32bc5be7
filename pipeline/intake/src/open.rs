//! Opening a file of a job as what it was when it was listed: a regular file below its folder.
//!
//! Whoever may write to the inbox may put a pipe, a device or a link into a file's place between the look at it and
//! the opening of it. So each part of the path is opened beneath the one before it and no link is followed; a pipe
//! without a writer does not hold the opening up; and what was opened is looked at again.

use std::fs::File;
use std::io;
use std::path::Path;

/// Opens a regular file at a relative path below a folder.
///
/// # Errors
/// When it cannot be opened, is a link or no regular file, or leads out of the folder.
pub fn open_beneath(folder: &Path, path: &Path) -> io::Result<File> {
    let file = open(folder, path)?;
    match file.metadata()?.is_file() {
        true => Ok(file),
        false => Err(io::Error::other("it is no regular file any more")),
    }
}

/// Opens a regular file that lies somewhere below a folder. See [`open_beneath`].
pub(crate) fn open_within(folder: &Path, location: &Path) -> io::Result<File> {
    let inner = location.strip_prefix(folder).map_err(io::Error::other)?;
    open_beneath(folder, inner)
}

#[cfg(unix)]
fn open(folder: &Path, path: &Path) -> io::Result<File> {
    use rustix::fs::{Mode, OFlags, open, openat};
    use std::path::Component;
    let directory = OFlags::RDONLY | OFlags::DIRECTORY | OFlags::CLOEXEC;
    let file = OFlags::RDONLY | OFlags::NONBLOCK | OFlags::NOCTTY | OFlags::CLOEXEC;
    let mut at = open(folder, directory, Mode::empty())?;
    let mut parts = path.components().peekable();
    while let Some(part) = parts.next() {
        let Component::Normal(name) = part else { break };
        let kind = if parts.peek().is_some() {
            directory
        } else {
            file
        };
        at = openat(&at, name, kind | OFlags::NOFOLLOW, Mode::empty())?;
        if parts.peek().is_none() {
            return Ok(File::from(at));
        }
    }
    let message = "the path leads out of its folder";
    Err(io::Error::new(io::ErrorKind::InvalidInput, message))
}

#[cfg(not(unix))]
fn open(folder: &Path, path: &Path) -> io::Result<File> {
    File::open(folder.join(path))
}

#[cfg(all(test, unix))]
mod tests {
    use super::*;
    use std::io::Read;
    use std::os::unix::fs::symlink;
    use std::path::PathBuf;

    #[test]
    fn pipes_links_and_ways_out_are_refused_at_once() {
        let dir = tempfile::tempdir().unwrap();
        let folder = dir.path().join("job");
        std::fs::create_dir_all(folder.join("before")).unwrap();
        std::fs::write(folder.join("before/a.csv"), "1").unwrap();
        std::fs::write(dir.path().join("secret"), "2").unwrap();
        symlink(dir.path().join("secret"), folder.join("link")).unwrap();
        symlink(dir.path(), folder.join("up")).unwrap();
        let made = std::process::Command::new("mkfifo")
            .arg(folder.join("pipe"))
            .status();
        assert!(made.unwrap().success());
        let mut text = String::new();
        let mut file = open_beneath(&folder, Path::new("before/a.csv")).unwrap();
        file.read_to_string(&mut text).unwrap();
        assert_eq!(text, "1");
        let absolute = dir.path().join("secret");
        for path in [
            "pipe",
            "link",
            "up/secret",
            "../secret",
            "before",
            "",
            "none",
        ] {
            assert!(
                open_beneath(&folder, &PathBuf::from(path)).is_err(),
                "{path}"
            );
        }
        assert!(open_beneath(&folder, &absolute).is_err());
    }
}
