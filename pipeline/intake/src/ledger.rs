//! What has been done.

use crate::{IntakeError, write_atomic};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

/// Remembers with which content each job was last done.
pub trait Ledger {
    /// Whether the job's outputs were made from just this content. An older content of the same job does
    /// not count: its outputs have been replaced.
    fn done(&self, job: &str, fingerprint: &str) -> bool;

    /// Remembers that the job was done with this content.
    ///
    /// # Errors
    /// When it cannot be kept.
    fn mark_done(&mut self, job: &str, fingerprint: &str) -> Result<(), IntakeError>;
}

/// A ledger that forgets with the process.
#[derive(Debug, Clone, Default)]
pub struct MemoryLedger {
    done: BTreeMap<String, String>,
}

impl Ledger for MemoryLedger {
    fn done(&self, job: &str, fingerprint: &str) -> bool {
        self.done.get(job).is_some_and(|f| f == fingerprint)
    }

    fn mark_done(&mut self, job: &str, fingerprint: &str) -> Result<(), IntakeError> {
        self.done.insert(job.into(), fingerprint.into());
        Ok(())
    }
}

/// A ledger in one small file beside the outputs, written whole at each mark.
#[derive(Debug)]
pub struct FileLedger {
    path: PathBuf,
    content: Content,
}

#[derive(Debug, Serialize, Deserialize)]
struct Content {
    schema: String,
    /// Fingerprint by job.
    done: BTreeMap<String, String>,
}

impl FileLedger {
    const SCHEMA: &str = "baybrief.ledger/1";

    /// Opens `.baybrief/ledger.json` in the folder of the outputs; a missing one is empty.
    ///
    /// # Errors
    /// When it cannot be read, or is not a ledger.
    pub fn open(out: &Path) -> Result<FileLedger, IntakeError> {
        let path = out.join(".baybrief").join("ledger.json");
        let content = match std::fs::read(&path) {
            Ok(bytes) => Self::parse(&bytes).map_err(|reason| IntakeError::LedgerDamaged {
                path: path.clone(),
                reason,
            })?,
            Err(e) if e.kind() == ErrorKind::NotFound => Content {
                schema: Self::SCHEMA.into(),
                done: BTreeMap::new(),
            },
            Err(source) => return Err(IntakeError::Unreadable { path, source }),
        };
        Ok(FileLedger { path, content })
    }

    fn parse(bytes: &[u8]) -> Result<Content, String> {
        let content: Content = serde_json::from_slice(bytes).map_err(|e| e.to_string())?;
        match content.schema == Self::SCHEMA {
            true => Ok(content),
            false => Err(format!(
                "schema {:?}, expected {:?}",
                content.schema,
                Self::SCHEMA
            )),
        }
    }
}

impl Ledger for FileLedger {
    fn done(&self, job: &str, fingerprint: &str) -> bool {
        self.content.done.get(job).is_some_and(|f| f == fingerprint)
    }

    fn mark_done(&mut self, job: &str, fingerprint: &str) -> Result<(), IntakeError> {
        self.content.done.insert(job.into(), fingerprint.into());
        let unwritable = |e: serde_json::Error| IntakeError::Unwritable {
            path: self.path.clone(),
            source: e.into(),
        };
        write_atomic(
            &self.path,
            &serde_json::to_vec_pretty(&self.content).map_err(unwritable)?,
        )
    }
}
