//! A library that is in use, and its worker.

use crate::process::WorkerError;
use crate::runner::{Need, Runner};
use sha2::{Digest, Sha256};
use std::path::{Path, PathBuf};

/// A library that is in use.
pub(crate) struct Library {
    pub(crate) path: PathBuf,
    /// SHA-256 of the file when it was found, hexadecimal.
    pub(crate) sha256: String,
    pub(crate) runner: Option<Runner>,
}

impl Library {
    /// The runner, started anew when there is none, when it ended between two calls or has too little memory for
    /// `need`; and true where it was started anew. A file that was replaced meanwhile is not loaded: the record would
    /// name another one.
    pub(crate) fn running(&mut self, need: Need) -> Result<(&mut Runner, bool), WorkerError> {
        let warm = self
            .runner
            .take()
            .and_then(|mut runner| runner.suffices(need).then_some(runner));
        let fresh = warm.is_none();
        let runner = match warm {
            Some(runner) => runner,
            None => {
                self.unchanged().map_err(WorkerError::Unreachable)?;
                Runner::start(&self.path, need)?
            }
        };
        Ok((self.runner.insert(runner), fresh))
    }

    fn unchanged(&self) -> Result<(), String> {
        let path = self.path.display();
        let now = file_hash(&self.path)
            .map_err(|e| format!("its library {path} cannot be read any more: {e}"))?;
        if now == self.sha256 {
            return Ok(());
        }
        Err(format!(
            "its library {path} was changed since it was found (SHA-256 then {}, now {now}); start again to use the new \
             one",
            self.sha256
        ))
    }
}

/// SHA-256 of a file, hexadecimal.
pub(crate) fn file_hash(path: &Path) -> std::io::Result<String> {
    Ok(sha256(&std::fs::read(path)?))
}

/// SHA-256 of bytes, hexadecimal.
pub(crate) fn sha256(bytes: &[u8]) -> String {
    let digest = Sha256::digest(bytes);
    digest.iter().map(|b| format!("{b:02x}")).collect()
}
