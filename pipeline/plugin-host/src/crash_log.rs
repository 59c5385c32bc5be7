//! Crashes by library and by recording, kept from one run to the next: it must be the one that is to blame which does not
//! run again.

use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// A library is quarantined once it crashed on this many recordings in a row, or so often while it loaded; it does not
/// run any more on one recording once it crashed on that so often.
pub(crate) const MAX_CRASHES: usize = 3;
/// A recording is to blame, and no library, once this many libraries crashed on it.
const MAX_LIBRARIES: usize = 2;
/// Name under which crashes before any recording are counted.
const LOADING: &str = "loading";

/// Crashes on record.
#[derive(Debug, Default, Serialize, Deserialize)]
#[serde(default)]
struct Record {
    /// By the library's hash.
    libraries: BTreeMap<String, LibraryRecord>,
    /// Memory that was not enough for a recording, bytes, by its digest.
    not_enough: BTreeMap<String, u64>,
}

#[derive(Debug, Default, Serialize, Deserialize)]
#[serde(default)]
struct LibraryRecord {
    /// Crashes by the digest of the recording.
    crashes: BTreeMap<String, u32>,
    /// Digests of recordings that it crashed on since it last came to its end on one.
    in_a_row: BTreeSet<String>,
}

/// Why a library is not run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Quarantine {
    /// It crashed on so many recordings in a row.
    Library(usize),
    /// It crashed on this recording so often, or other libraries did.
    Input(u32),
}

/// The log. Without a file it lasts as long as the host.
#[derive(Debug, Default)]
pub(crate) struct CrashLog {
    file: Option<PathBuf>,
    record: Record,
}

impl CrashLog {
    /// Reads the log; one that cannot be read counts as empty, and is said.
    pub(crate) fn open(file: Option<&Path>) -> CrashLog {
        let record = file.and_then(|file| {
            read(file)
                .inspect_err(|e| {
                    let file = file.display();
                    tracing::warn!("{file}: the log of crashed plugins cannot be read: {e}");
                })
                .ok()
        });
        CrashLog {
            file: file.map(Path::to_path_buf),
            record: record.unwrap_or_default(),
        }
    }

    /// On how many recordings in a row the library crashed, where that is too many.
    pub(crate) fn quarantined(&self, hash: &str) -> Option<usize> {
        let library = self.record.libraries.get(hash)?;
        let own = |digest: &&String| !self.is_to_blame(digest);
        let inputs = library.in_a_row.iter().filter(own).count();
        (inputs >= MAX_CRASHES).then_some(inputs)
    }

    /// Returns the number of crashes while loading, where there are too many.
    pub(crate) fn never_loads(&self, hash: &str) -> Option<u32> {
        let times = *self.record.libraries.get(hash)?.crashes.get(LOADING)?;
        (times as usize >= MAX_CRASHES).then_some(times)
    }

    /// Why a library is not to run on a recording with so many bytes of memory. The recording's digest (it takes as long as
    /// reading it) is asked for only where the library crashed on one.
    pub(crate) fn quarantine(
        &self,
        hash: &str,
        memory: u64,
        digest: &dyn Fn() -> Option<String>,
    ) -> Option<Quarantine> {
        let library = self.record.libraries.get(hash)?;
        if let Some(inputs) = self.quarantined(hash) {
            return Some(Quarantine::Library(inputs));
        }
        if library.crashes.keys().all(|input| input == LOADING) {
            return None;
        }
        let digest = digest()?;
        // More memory than was not enough is a reason to try again.
        if self
            .record
            .not_enough
            .get(&digest)
            .is_some_and(|m| memory > *m)
        {
            return None;
        }
        let of = |library: &LibraryRecord| library.crashes.get(&digest).copied().unwrap_or(0);
        let own = of(library);
        let all: u32 = self.record.libraries.values().map(of).sum();
        // One that did not meet it before may try once, even where others crashed.
        let too_often = own as usize >= MAX_CRASHES || (own > 0 && self.is_to_blame(&digest));
        too_often.then_some(Quarantine::Input(all))
    }

    fn is_to_blame(&self, digest: &str) -> bool {
        let crashed = |library: &&LibraryRecord| library.crashes.contains_key(digest);
        let libraries = self.record.libraries.values().filter(crashed).count();
        digest != LOADING
            && (libraries >= MAX_LIBRARIES || self.record.not_enough.contains_key(digest))
    }

    /// Counts a crash on a recording; `not_enough` is the memory where it needs more than that, bytes.
    pub(crate) fn crashed(&mut self, hash: &str, digest: &str, not_enough: Option<u64>) {
        let library = self.record.libraries.entry(hash.into()).or_default();
        let times = library.crashes.entry(digest.into()).or_default();
        *times = times.saturating_add(1);
        library.in_a_row.insert(digest.into());
        if let Some(memory) = not_enough {
            self.record.not_enough.insert(digest.into(), memory);
        }
        self.save();
    }

    /// Counts a crash of a library that was being loaded.
    pub(crate) fn crashed_while_loading(&mut self, hash: &str) {
        let library = self.record.libraries.entry(hash.into()).or_default();
        let times = library.crashes.entry(LOADING.into()).or_default();
        *times = times.saturating_add(1);
        self.save();
    }

    /// The library was loaded: crashes before that are forgotten.
    pub(crate) fn loaded(&mut self, hash: &str) {
        if let Some(library) = self.record.libraries.get_mut(hash)
            && library.crashes.remove(LOADING).is_some()
        {
            self.tidy(hash);
        }
    }

    /// The library came to its end on a recording: it is sound, and what it crashed on before is no row any more.
    pub(crate) fn ended_well(&mut self, hash: &str, digest: &dyn Fn() -> Option<String>) {
        let Some(library) = self.record.libraries.get_mut(hash) else {
            return;
        };
        let had_row = !std::mem::take(&mut library.in_a_row).is_empty();
        let known = digest().is_some_and(|digest| library.crashes.remove(&digest).is_some());
        if had_row || known {
            self.tidy(hash);
        }
    }

    fn tidy(&mut self, hash: &str) {
        let empty = |l: &LibraryRecord| l.crashes.is_empty() && l.in_a_row.is_empty();
        if self.record.libraries.get(hash).is_some_and(empty) {
            self.record.libraries.remove(hash);
        }
        self.save();
    }

    fn save(&self) {
        let Some(file) = &self.file else { return };
        if let Err(e) = write(file, &self.record) {
            let file = file.display();
            tracing::warn!("{file}: the log of crashed plugins cannot be written: {e}");
        }
    }
}

/// Releases a library from quarantine, and every recording that it crashed on. True where there was anything.
///
/// # Errors
/// A library that cannot be read, or a log that cannot be read or written.
pub fn unquarantine(log: &Path, library: &Path) -> io::Result<bool> {
    let hash = crate::library::file_hash(library)?;
    let mut record = read(log)?;
    let Some(released) = record.libraries.remove(&hash) else {
        return Ok(false);
    };
    let not_enough = &mut record.not_enough;
    not_enough.retain(|digest, _| !released.crashes.contains_key(digest));
    write(log, &record)?;
    Ok(true)
}

fn read(file: &Path) -> io::Result<Record> {
    match std::fs::read(file) {
        Ok(bytes) => Ok(serde_json::from_slice(&bytes)?),
        Err(e) if e.kind() == io::ErrorKind::NotFound => Ok(Record::default()),
        Err(e) => Err(e),
    }
}

fn write(file: &Path, record: &Record) -> io::Result<()> {
    if let Some(folder) = file.parent() {
        std::fs::create_dir_all(folder)?;
    }
    write_whole(file, &serde_json::to_vec_pretty(record)?)
}

/// Writes a file so that others see it whole or not at all.
pub(crate) fn write_whole(file: &Path, bytes: &[u8]) -> io::Result<()> {
    let new = file.with_extension(format!("new-{}", std::process::id()));
    let mut out = std::fs::File::create(&new)?;
    out.write_all(bytes)?;
    out.sync_all()?;
    std::fs::rename(&new, file)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn crash(log: &mut CrashLog, library: &str, inputs: &[&str]) {
        for input in inputs {
            log.crashed(library, input, None);
        }
    }

    #[test]
    fn three_recordings_in_a_row_quarantine_a_library_and_one_does_not() {
        let mut log = CrashLog::default();
        crash(&mut log, "lib", &["a", "a", "a", "b"]);
        assert_eq!(log.quarantined("lib"), None);
        let on_a = log.quarantine("lib", 100, &|| Some("a".into()));
        assert_eq!(on_a, Some(Quarantine::Input(3)));
        assert_eq!(log.quarantine("lib", 100, &|| Some("c".into())), None);
        crash(&mut log, "lib", &["c"]);
        assert_eq!(log.quarantined("lib"), Some(3));
    }

    #[test]
    fn a_good_end_ends_the_row() {
        let mut log = CrashLog::default();
        crash(&mut log, "lib", &["a", "b"]);
        log.ended_well("lib", &|| Some("c".into()));
        crash(&mut log, "lib", &["d"]);
        assert_eq!(log.quarantined("lib"), None);
    }

    #[test]
    fn a_recording_that_several_libraries_crash_on_is_to_blame() {
        let mut log = CrashLog::default();
        for library in ["one", "two", "three"] {
            crash(&mut log, library, &["x", "y", "z"]);
        }
        assert_eq!(log.quarantined("one"), None);
        assert_eq!(
            log.quarantine("one", 100, &|| Some("x".into())),
            Some(Quarantine::Input(3))
        );
        // A library that never met it tries.
        assert_eq!(log.quarantine("four", 100, &|| Some("x".into())), None);
    }

    #[test]
    fn a_recording_that_needs_too_much_memory_is_to_blame() {
        let mut log = CrashLog::default();
        for huge in ["x", "y", "z"] {
            log.crashed("lib", huge, Some(100));
        }
        assert_eq!(log.quarantined("lib"), None);
        assert!(log.quarantine("lib", 100, &|| Some("y".into())).is_some());
        let with_more = log.quarantine("lib", 101, &|| Some("y".into()));
        assert_eq!(with_more, None, "the advice is to allow more: it is tried");
    }
}
