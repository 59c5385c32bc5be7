//! Writing an archive: every file with its digest in a manifest, the manifest signed.

use crate::key::io;
use crate::{MANIFEST, SCHEMA, SIGNATURE, SealError, ShopKey, jws};
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::fs::File;
use std::io::{BufWriter, Read, Write};
use std::path::{Path, PathBuf};
use zip::write::{SimpleFileOptions, ZipWriter};
use zip::{CompressionMethod, DateTime};

/// One file of an archive.
#[derive(Debug, Clone)]
pub struct Entry {
    /// Path inside the archive, with forward slashes.
    pub path: String,
    /// Content.
    pub content: Content,
}

/// Content of an entry.
#[derive(Debug, Clone)]
pub enum Content {
    /// Bytes.
    Bytes(Vec<u8>),
    /// A file, which must have this SHA-256 (hexadecimal) where one is given.
    File(PathBuf, Option<String>),
}

impl Entry {
    /// An entry of these bytes.
    pub fn bytes(path: impl Into<String>, bytes: Vec<u8>) -> Entry {
        Entry {
            path: path.into(),
            content: Content::Bytes(bytes),
        }
    }

    /// An entry of a file's content.
    pub fn file(path: impl Into<String>, file: PathBuf, sha256: Option<String>) -> Entry {
        Entry {
            path: path.into(),
            content: Content::File(file, sha256),
        }
    }
}

/// Contents and time of a seal.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Sealing {
    /// Always `baybrief.sealed/1`.
    pub schema: String,
    /// Job.
    pub job: String,
    /// Number of its report.
    pub revision: u32,
    /// Time, in the shop's time.
    pub sealed_at: String,
    /// Version of the program that made the report.
    pub program: String,
    /// SHA-256 of the analysis libraries that ran, by their names.
    pub libraries: BTreeMap<String, String>,
    /// Every other file of the archive but the signature.
    pub files: Vec<ManifestFile>,
}

/// One file of the manifest.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ManifestFile {
    /// Path inside the archive.
    pub path: String,
    /// Size, bytes.
    pub size: u64,
    /// SHA-256 of the content, hexadecimal.
    pub sha256: String,
}

impl Sealing {
    /// A sealing without files yet.
    pub fn new(job: &str, revision: u32, sealed_at: String, program: &str) -> Sealing {
        Sealing {
            schema: SCHEMA.into(),
            job: job.into(),
            revision,
            sealed_at,
            program: program.into(),
            libraries: BTreeMap::new(),
            files: Vec::new(),
        }
    }
}

/// Writes an archive of the entries, in their order, and returns its manifest. The same content gives the same bytes.
/// An archive that is there already is replaced once the new one is whole.
///
/// # Errors
/// When a file cannot be read or written, or has another digest than it should have.
pub fn write(
    to: &Path,
    mut sealing: Sealing,
    entries: Vec<Entry>,
    key: &ShopKey,
) -> Result<Sealing, SealError> {
    let mut partial = to.as_os_str().to_owned();
    partial.push(".partial");
    let partial = PathBuf::from(partial);
    let written = write_to(&partial, &mut sealing, entries, key)
        .and_then(|()| std::fs::rename(&partial, to).map_err(|why| io(to, why)));
    if written.is_err() {
        // Half an archive is of no use to anybody.
        let _ = std::fs::remove_file(&partial);
    }
    written.map(|()| sealing)
}

fn write_to(
    partial: &Path,
    sealing: &mut Sealing,
    entries: Vec<Entry>,
    key: &ShopKey,
) -> Result<(), SealError> {
    let zip_error = |e: zip::result::ZipError| io(partial, e.into());
    let file = File::create(partial).map_err(|why| io(partial, why))?;
    let mut zip = ZipWriter::new(BufWriter::new(file));
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .last_modified_time(DateTime::default())
        .large_file(true)
        .unix_permissions(0o644);
    for entry in entries {
        zip.start_file(entry.path.as_str(), options)
            .map_err(zip_error)?;
        let mut hash = Sha256::new();
        let mut size = 0;
        let mut put = |bytes: &[u8]| {
            hash.update(bytes);
            size += bytes.len() as u64;
            zip.write_all(bytes).map_err(|why| io(partial, why))
        };
        let wanted = match entry.content {
            Content::Bytes(bytes) => {
                put(&bytes)?;
                None
            }
            Content::File(path, wanted) => {
                let mut file = File::open(&path).map_err(|why| io(&path, why))?;
                let mut block = vec![0; 1 << 20];
                loop {
                    match file.read(&mut block).map_err(|why| io(&path, why))? {
                        0 => break,
                        n => put(&block[..n])?,
                    }
                }
                wanted
            }
        };
        let sha256 = hexadecimal(&hash.finalize());
        if wanted.is_some_and(|w| w != sha256) {
            return Err(SealError::Changed(entry.path));
        }
        sealing.files.push(ManifestFile {
            path: entry.path,
            size,
            sha256,
        });
    }
    let mut manifest = serde_json::to_vec_pretty(sealing).map_err(|e| io(partial, e.into()))?;
    manifest.push(b'\n');
    let signature = jws::sign(&manifest, key);
    for (name, bytes) in [(MANIFEST, manifest), (SIGNATURE, signature.into_bytes())] {
        zip.start_file(name, options).map_err(zip_error)?;
        zip.write_all(&bytes).map_err(|why| io(partial, why))?;
    }
    let file = zip.finish().map_err(zip_error)?;
    let file = file.into_inner().map_err(|e| io(partial, e.into_error()))?;
    file.sync_all().map_err(|why| io(partial, why))
}

pub(crate) fn hexadecimal(bytes: &[u8]) -> String {
    bytes.iter().map(|b| format!("{b:02x}")).collect()
}
