//! How often which library crashed, kept from one run to the next.

use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// A library is set aside once it crashed or ran out of time this often in a row.
pub(crate) const MAX_CRASHES: u32 = 3;
/// What is counted when a library does not get as far as having plugins.
pub(crate) const LOADING: &str = "loading";

/// Crashes in a row, by the library's hash and the plugin's id.
#[derive(Debug, Default, Serialize, Deserialize)]
struct Counts(BTreeMap<String, BTreeMap<String, u32>>);

/// The record. Without a file it lasts as long as the host.
#[derive(Debug, Default)]
pub(crate) struct Record {
    file: Option<PathBuf>,
    counts: Counts,
}

impl Record {
    /// Reads the record; one that cannot be read counts as empty, and is said.
    pub(crate) fn open(file: Option<&Path>) -> Record {
        let counts = file.and_then(|file| {
            read(file)
                .inspect_err(|e| {
                    tracing::warn!(
                        "{}: the record of crashed plugins cannot be read: {e}",
                        file.display()
                    );
                })
                .ok()
        });
        Record {
            file: file.map(Path::to_path_buf),
            counts: counts.unwrap_or_default(),
        }
    }

    /// How often in a row the library crashed, when that is too often.
    pub(crate) fn set_aside(&self, hash: &str) -> Option<u32> {
        let most = self.counts.0.get(hash)?.values().copied().max()?;
        (most >= MAX_CRASHES).then_some(most)
    }

    /// Whether it is set aside for crashing while it loads.
    pub(crate) fn never_loads(&self, hash: &str) -> bool {
        let of_library = self.counts.0.get(hash);
        of_library
            .and_then(|l| l.get(LOADING))
            .is_some_and(|&n| n >= MAX_CRASHES)
    }

    /// Counts a crash of a plugin.
    pub(crate) fn crashed(&mut self, hash: &str, plugin: &str) {
        let of_library = self.counts.0.entry(hash.into()).or_default();
        let count = of_library.entry(plugin.into()).or_default();
        *count = count.saturating_add(1);
        self.save();
    }

    /// The plugin came to its end: what it did before is forgiven.
    pub(crate) fn ended_well(&mut self, hash: &str, plugin: &str) {
        let Some(of_library) = self.counts.0.get_mut(hash) else {
            return;
        };
        if of_library.remove(plugin).is_some() {
            if of_library.is_empty() {
                self.counts.0.remove(hash);
            }
            self.save();
        }
    }

    fn save(&self) {
        let Some(file) = &self.file else { return };
        if let Err(e) = write(file, &self.counts) {
            tracing::warn!(
                "{}: the record of crashed plugins cannot be written: {e}",
                file.display()
            );
        }
    }
}

/// Forgives a library all its crashes, so that it runs again. Whether there were any.
///
/// # Errors
/// A library that cannot be read, or a record that cannot be read or written.
pub fn bring_back(record: &Path, library: &Path) -> io::Result<bool> {
    let hash = crate::installed::file_hash(library)?;
    let mut counts = read(record)?;
    let known = counts.0.remove(&hash).is_some();
    if known {
        write(record, &counts)?;
    }
    Ok(known)
}

fn read(file: &Path) -> io::Result<Counts> {
    match std::fs::read(file) {
        Ok(bytes) => Ok(serde_json::from_slice(&bytes)?),
        Err(e) if e.kind() == io::ErrorKind::NotFound => Ok(Counts::default()),
        Err(e) => Err(e),
    }
}

fn write(file: &Path, counts: &Counts) -> io::Result<()> {
    if let Some(folder) = file.parent() {
        std::fs::create_dir_all(folder)?;
    }
    write_whole(file, &serde_json::to_vec_pretty(counts)?)
}

/// Writes a file so that others see it whole or not at all.
pub(crate) fn write_whole(file: &Path, bytes: &[u8]) -> io::Result<()> {
    let new = file.with_extension(format!("new-{}", std::process::id()));
    let mut out = std::fs::File::create(&new)?;
    out.write_all(bytes)?;
    out.sync_all()?;
    std::fs::rename(&new, file)
}
