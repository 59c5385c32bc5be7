//! Files of a job or of a shop's settings, as the store lists them, and on this machine.

use crate::objects::sha256;
use crate::store::keep;
use crate::{FleetError, Objects};
use object_store::ObjectMeta;
use object_store::path::Path as Key;
use std::path::{Path, PathBuf};

/// A file as the store lists it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StoredFile {
    /// Path below the prefix of those that belong together, with forward slashes.
    pub path: String,
    /// Name in the store.
    pub key: String,
    /// Size, bytes.
    pub size: u64,
    /// Version as the store tells it: its entity tag, else the time of the last write.
    pub version: String,
}

/// Digest of files as they are listed: other files, another digest.
pub fn listing_digest(files: &[StoredFile]) -> String {
    let line = |f: &StoredFile| format!("{:?} {} {}\n", f.path, f.size, f.version);
    sha256(files.iter().map(line).collect::<String>().as_bytes())
}

impl StoredFile {
    /// The file of an object, with the first `depth` parts of its name apart; `None` where no further part names it.
    pub(crate) fn below(depth: usize, object: ObjectMeta) -> Option<(Vec<String>, StoredFile)> {
        let parts = object.location.parts();
        let mut prefix: Vec<String> = parts.map(|p| p.as_ref().to_owned()).collect();
        if prefix.len() <= depth {
            return None;
        }
        let path = prefix.split_off(depth).join("/");
        let file = StoredFile {
            path,
            key: object.location.to_string(),
            size: object.size,
            version: object
                .e_tag
                .unwrap_or_else(|| object.last_modified.to_rfc3339()),
        };
        Some((prefix, file))
    }
}

impl Objects {
    /// Files below a prefix, by path.
    ///
    /// # Errors
    /// When the store cannot be reached.
    pub async fn files(&self, prefix: &[&str]) -> Result<Vec<StoredFile>, FleetError> {
        let objects = self
            .list(&Key::from_iter(prefix.iter().copied()))
            .await?
            .into_iter();
        let files = objects.filter_map(|o| StoredFile::below(prefix.len(), o));
        Ok(files.map(|(_, file)| file).collect())
    }

    /// Fetches files into a folder of that name on this machine, unless they are there as they are now. Returns the folder.
    ///
    /// # Errors
    /// When the store cannot be reached or the folder cannot be written.
    pub async fn mirror(
        &self,
        files: &[StoredFile],
        name: &str,
        below: &Path,
    ) -> Result<PathBuf, FleetError> {
        let folder = below.join(listing_digest(files)).join(name);
        if !folder.is_dir() {
            let part = tempfile::tempdir_in(below)?;
            for file in files {
                self.fetch(file, part.path()).await?;
            }
            keep(part, &folder)?;
        }
        Ok(folder)
    }

    async fn fetch(&self, file: &StoredFile, folder: &Path) -> Result<(), FleetError> {
        let bytes = self.get(&Key::from(file.key.as_str())).await?;
        // Parts of a name of the store are no steps upwards: it refuses `.` and `..`.
        let path = folder.join(&file.path);
        if let Some(parent) = path.parent() {
            std::fs::create_dir_all(parent)?;
        }
        std::fs::write(path, bytes)?;
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(path: &str, size: u64) -> StoredFile {
        StoredFile {
            path: path.into(),
            key: format!("inbox/a/b/{path}"),
            size,
            version: "1".into(),
        }
    }

    #[test]
    fn other_files_have_another_digest() {
        let digest = |files: &[StoredFile]| listing_digest(files);
        let one = digest(&[file("a", 1), file("b", 2)]);
        assert_ne!(one, digest(&[file("a", 1), file("b", 3)]));
        assert_ne!(one, digest(&[file("a", 1)]));
        // A name that looks like two lines is one name.
        assert_ne!(
            digest(&[file("a\" 1 1\n\"b", 2)]),
            digest(&[file("a", 1), file("b", 2)])
        );
    }
}
