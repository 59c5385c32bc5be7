//! Libraries pinned by their hash: a file in their folder, in the format of the tool `sha256sum`, which can check it too.

use crate::discovery::{VARIABLE, candidates};
use crate::host::HostOptions;
use crate::library::file_hash;
use crate::trust::distrust;
use std::collections::BTreeMap;
use std::io;
use std::path::{Path, PathBuf};

/// The file's name. While it lies in a folder, only the libraries that it lists are loaded from there, and only as
/// they were when it was written.
const FILE: &str = "plugins.sha256";

/// A library that was pinned.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pinned {
    /// The library.
    pub path: PathBuf,
    /// Its SHA-256, hexadecimal.
    pub sha256: String,
    /// The hash that was pinned before, where it was another.
    pub before: Option<String>,
}

/// Pins all libraries in the folders that somebody named and in `plugins` beside the executable, as they are now.
/// The folder of a build is left alone: what is in it changes with every build.
///
/// # Errors
/// A library that cannot be read, or a folder that cannot be written to.
pub fn pin(options: &HostOptions) -> io::Result<Vec<Pinned>> {
    let executable = std::env::current_exe().and_then(|e| e.canonicalize()).ok();
    let variable = std::env::var_os(VARIABLE);
    let (found, _) = candidates(
        variable.as_deref(),
        &options.folders,
        &[],
        executable.as_deref(),
    );
    let mut folders: BTreeMap<PathBuf, Vec<Pinned>> = BTreeMap::new();
    for candidate in found.into_iter().filter(|c| c.named) {
        let Some(folder) = candidate.path.parent() else {
            continue;
        };
        // A file that cannot be used is replaced.
        let old = read(folder).ok().flatten().unwrap_or_default();
        let sha256 = file_hash(&candidate.path)?;
        let before = old.get(&name(&candidate.path)).filter(|h| **h != sha256);
        let pinned = Pinned {
            before: before.cloned(),
            path: candidate.path.clone(),
            sha256,
        };
        folders.entry(folder.into()).or_default().push(pinned);
    }
    for (folder, pinned) in &folders {
        let mut lines: Vec<String> = pinned
            .iter()
            .map(|p| format!("{}  {}\n", p.sha256, name(&p.path)))
            .collect();
        lines.sort();
        crate::crash_log::write_whole(&folder.join(FILE), lines.concat().as_bytes())?;
    }
    Ok(folders.into_values().flatten().collect())
}

/// Why a library of this hash must not be loaded from where it lies; `None` when it may.
pub(crate) fn refusal(library: &Path, hash: &str) -> Option<String> {
    let folder = library.parent()?;
    let file = folder.join(FILE);
    let pinned = match read(folder) {
        Ok(None) => return None,
        Ok(Some(pinned)) => pinned,
        Err(e) => {
            return Some(format!(
                "the file of pinned libraries, {}, cannot be used: {e}; write it anew with `baybrief plugins --pin`",
                file.display()
            ));
        }
    };
    match pinned.get(&name(library)) {
        Some(known) if known == hash => None,
        Some(known) => Some(format!(
            "it was changed since it was pinned: its SHA-256 is {hash}, pinned in {} is {known}; if you changed \
             it yourself, `baybrief plugins --pin` pins it anew",
            file.display()
        )),
        None => Some(format!(
            "it is not among the pinned libraries of {} (its SHA-256 is {hash}); if you put it there yourself, \
             `baybrief plugins --pin` pins it",
            file.display()
        )),
    }
}

fn name(path: &Path) -> String {
    path.file_name()
        .unwrap_or_default()
        .to_string_lossy()
        .into_owned()
}

/// The pinned hashes of a folder by file name; `None` where nothing is pinned.
fn read(folder: &Path) -> io::Result<Option<BTreeMap<String, String>>> {
    let file = folder.join(FILE);
    let text = match std::fs::read_to_string(&file) {
        Ok(text) => text,
        Err(e) if e.kind() == io::ErrorKind::NotFound => return Ok(None),
        Err(e) => return Err(e),
    };
    if let Some(why) = distrust(&file.canonicalize()?) {
        return Err(io::Error::other(why));
    }
    let mut pinned = BTreeMap::new();
    for (i, line) in text.lines().enumerate().filter(|(_, l)| !l.is_empty()) {
        let (hash, name) = line
            .split_once("  ")
            .filter(|(h, _)| h.len() == 64 && h.bytes().all(|b| b.is_ascii_hexdigit()))
            .ok_or_else(|| {
                let said = format!(
                    "line {}: expected a hash of 64 hexadecimal digits, two spaces and a file name",
                    i + 1
                );
                io::Error::other(said)
            })?;
        pinned.insert(name.into(), hash.to_ascii_lowercase());
    }
    Ok(Some(pinned))
}
