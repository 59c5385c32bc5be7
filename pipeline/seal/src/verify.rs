//! Reading an archive: the signature over the manifest, and every file against it.

use crate::archive::hexadecimal;
use crate::key::io;
use crate::{MANIFEST, PublicKey, SCHEMA, SIGNATURE, SealError, Sealing, jws};
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::fmt;
use std::fs::File;
use std::io::{BufReader, Read};
use std::path::{Path, PathBuf};
use zip::ZipArchive;

/// An archive that was opened.
pub struct Archive {
    path: PathBuf,
    zip: ZipArchive<BufReader<File>>,
    /// The signed manifest.
    pub sealing: Sealing,
    /// Key that signed it.
    pub key: PublicKey,
}

/// Difference between an archive and what was sealed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fault {
    /// The file is not the one that was sealed.
    Changed(String),
    /// The file is not there any more.
    Missing(String),
    /// The file was not there.
    Added(String),
    /// The archive holds bytes that belong to none of its files.
    Hidden,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Fault::Changed(file) => write!(f, "changed: {file}"),
            Fault::Missing(file) => write!(f, "missing: {file}"),
            Fault::Added(file) => write!(f, "added: {file}"),
            Fault::Hidden => f.write_str("added: bytes that belong to no file of the archive"),
        }
    }
}

impl Archive {
    /// Opens an archive and checks the signature over its manifest.
    ///
    /// # Errors
    /// A file that cannot be read, is no such archive, or whose manifest is not the signed one.
    pub fn open(path: &Path) -> Result<Archive, SealError> {
        let file = File::open(path).map_err(|why| io(path, why))?;
        let wrong = |why: String| SealError::Archive {
            path: path.into(),
            why,
        };
        let mut zip = ZipArchive::new(BufReader::new(file)).map_err(|e| wrong(e.to_string()))?;
        let mut text = |name: &str| {
            let mut entry = zip
                .by_name(name)
                .map_err(|e| wrong(format!("{name}: {e}")))?;
            let mut bytes = Vec::new();
            entry
                .read_to_end(&mut bytes)
                .map_err(|e| wrong(format!("{name}: {e}")))?;
            Ok(bytes)
        };
        let manifest = text(MANIFEST)?;
        let signature = String::from_utf8(text(SIGNATURE)?)
            .map_err(|_| wrong(format!("{SIGNATURE}: expected text")))?;
        let signed = jws::verify(&signature, None)?;
        if signed.payload != manifest {
            return Err(SealError::Signature(format!(
                "{MANIFEST} is not what {SIGNATURE} signs: it was changed after it was sealed"
            )));
        }
        let sealing: Sealing =
            serde_json::from_slice(&manifest).map_err(|e| wrong(format!("{MANIFEST}: {e}")))?;
        if sealing.schema != SCHEMA {
            return Err(wrong(format!(
                "{MANIFEST}: expected the schema {SCHEMA:?}; found {:?}",
                sealing.schema
            )));
        }
        Ok(Archive {
            path: path.into(),
            zip,
            sealing,
            key: signed.key,
        })
    }

    /// Differences between the files and the manifest; none where everything is as it was sealed.
    ///
    /// # Errors
    /// When the archive cannot be read.
    pub fn faults(&mut self) -> Result<Vec<Fault>, SealError> {
        let mut found = BTreeMap::new();
        let mut spans = Vec::new();
        for i in 0..self.zip.len() {
            let entry = self.zip.by_index(i).map_err(|e| io(&self.path, e.into()))?;
            let name = String::from_utf8_lossy(entry.name_raw()).into_owned();
            let start = entry.header_start();
            let end = entry.data_start().map(|at| at + entry.compressed_size());
            spans.push((start, end.unwrap_or(start)));
            found.insert(name, digest(entry).ok());
        }
        let mut faults = Vec::new();
        for file in &self.sealing.files {
            match found.remove(&file.path) {
                None => faults.push(Fault::Missing(file.path.clone())),
                Some(digest) if digest.as_ref() != Some(&(file.size, file.sha256.clone())) => {
                    faults.push(Fault::Changed(file.path.clone()));
                }
                Some(_) => {}
            }
        }
        let own = [MANIFEST, SIGNATURE];
        let added = found
            .into_keys()
            .filter(|name| !own.contains(&name.as_str()));
        faults.extend(added.map(Fault::Added));
        // A second file of one name, which another program might show, lies in a gap.
        spans.sort_unstable();
        let mut ends = spans.iter().scan(0, |end, span| {
            let is_next = span.0 == *end;
            *end = span.1;
            Some(is_next)
        });
        let is_dense = ends.all(|is_next| is_next)
            && spans.last().map(|s| s.1) == Some(self.zip.central_directory_start())
            && self.zip.comment().is_empty();
        if !is_dense {
            faults.push(Fault::Hidden);
        }
        Ok(faults)
    }

    /// Content of one sealed file.
    ///
    /// # Errors
    /// A file that is not there, cannot be read, or is not the one that was sealed.
    pub fn read(&mut self, path: &str) -> Result<Vec<u8>, SealError> {
        let sealed = self.sealing.files.iter().find(|f| f.path == path).cloned();
        let wrong = |why: String| SealError::Archive {
            path: self.path.clone(),
            why,
        };
        let sealed = sealed.ok_or_else(|| wrong(format!("{path} was not sealed")))?;
        let mut entry = self
            .zip
            .by_name(path)
            .map_err(|e| wrong(format!("{path}: {e}")))?;
        let mut bytes = Vec::new();
        entry
            .read_to_end(&mut bytes)
            .map_err(|e| wrong(format!("{path}: {e}")))?;
        match hexadecimal(&Sha256::digest(&bytes)) == sealed.sha256 {
            true => Ok(bytes),
            false => Err(wrong(format!("{path} was changed"))),
        }
    }

    /// Writes the sealed files below `prefix` into a folder, which gets their paths without it.
    ///
    /// # Errors
    /// As [`Archive::read`]; a path that leads out of the folder; a file that cannot be written.
    pub fn unpack(&mut self, prefix: &str, folder: &Path) -> Result<(), SealError> {
        let files = self.sealing.files.clone();
        for file in &files {
            let Some(inside) = file.path.strip_prefix(prefix) else {
                continue;
            };
            let is_plain = inside
                .split('/')
                .all(|part| !matches!(part, "" | "." | "..") && !part.contains(['\\', ':', '\0']));
            if !is_plain {
                return Err(SealError::Archive {
                    path: self.path.clone(),
                    why: format!("{}: expected a plain path", file.path),
                });
            }
            let bytes = self.read(&file.path)?;
            let to = folder.join(inside);
            let parent = to.parent().unwrap_or(folder);
            std::fs::create_dir_all(parent)
                .and_then(|()| std::fs::write(&to, bytes))
                .map_err(|why| io(&to, why))?;
        }
        Ok(())
    }
}

fn digest(mut entry: impl Read) -> std::io::Result<(u64, String)> {
    let mut hash = Sha256::new();
    let mut size = 0;
    let mut block = vec![0; 1 << 20];
    loop {
        match entry.read(&mut block)? {
            0 => return Ok((size, hexadecimal(&hash.finalize()))),
            n => {
                hash.update(&block[..n]);
                size += n as u64;
            }
        }
    }
}
