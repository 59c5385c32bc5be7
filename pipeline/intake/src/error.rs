//! What can go wrong around a job's files, with what to do about it.

use std::io;
use std::path::PathBuf;

/// What went wrong around a job's files.
#[derive(Debug, thiserror::Error)]
pub enum IntakeError {
    /// A job folder that is none.
    #[error("{}: is not a folder; name the folder that holds the job's files", .0.display())]
    NotAFolder(PathBuf),
    /// A folder that cannot be listed.
    #[error("{}: cannot be read ({source}); check that it exists and may be read", .path.display())]
    Unreadable {
        /// The folder.
        path: PathBuf,
        /// Why.
        source: io::Error,
    },
    /// The inbox went away, or was never there. The watch goes on and looks for it.
    #[error(
        "{}: the inbox cannot be read ({source}); connect or create it, the watch then goes on by itself",
        .path.display()
    )]
    InboxGone {
        /// The inbox.
        path: PathBuf,
        /// Why.
        source: io::Error,
    },
    /// A link in the inbox.
    #[error("{}: is a link and is not followed; copy the files themselves into the inbox", .0.display())]
    LinkInInbox(PathBuf),
    /// A second job of the same name: loose files beside a folder.
    #[error(
        "{}: would be a second job named {job:?}; move it into the folder of that name, or rename it",
        .path.display()
    )]
    NameTaken {
        /// The folder, or the first of the loose files.
        path: PathBuf,
        /// The name.
        job: String,
    },
    /// An output that cannot be written.
    #[error("{}: cannot be written ({source}); check the folder's permissions and free space", .path.display())]
    Unwritable {
        /// The output.
        path: PathBuf,
        /// Why.
        source: io::Error,
    },
    /// A ledger that is not one.
    #[error(
        "{}: is not a ledger of this program ({reason}); move it away, then every job is done once more",
        .path.display()
    )]
    LedgerDamaged {
        /// The ledger's file.
        path: PathBuf,
        /// Why.
        reason: String,
    },
}
