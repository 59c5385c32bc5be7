//! Errors of sealing and verifying.

use std::io;
use std::path::PathBuf;

/// Failure of sealing, signing or reading what was sealed.
#[derive(Debug, thiserror::Error)]
pub enum SealError {
    /// A file cannot be read or written.
    #[error("{}: {why}", path.display())]
    Io {
        /// File.
        path: PathBuf,
        /// Reason.
        why: io::Error,
    },
    /// A key file is none.
    #[error(
        "{}: expected an Ed25519 private key in PKCS #8 (PEM, \"BEGIN PRIVATE KEY\"): {why}; put the shop's key back \
         from a backup, or move this file away and a new key is made",
        path.display()
    )]
    Key {
        /// File.
        path: PathBuf,
        /// Reason.
        why: String,
    },
    /// The system has no random numbers.
    #[error("the system gives no random numbers for a key: {0}")]
    Random(getrandom::Error),
    /// A signature does not hold.
    #[error("the signature does not hold: {0}")]
    Signature(String),
    /// A file changed since its digest was taken.
    #[error(
        "{0}: has changed since the report was made; do the job again with `run`, and seal that"
    )]
    Changed(String),
    /// An archive cannot be read as one.
    #[error("{}: expected a sealed archive: {why}", path.display())]
    Archive {
        /// File.
        path: PathBuf,
        /// Reason.
        why: String,
    },
}
