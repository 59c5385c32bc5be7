//! Errors around a job's files, with what to do about them.

use std::io::{self, ErrorKind};
use std::path::PathBuf;

/// Error around a job's files.
#[derive(Debug, thiserror::Error)]
pub enum IntakeError {
    /// A job folder that is none.
    #[error("{}: is not a folder; name the folder that holds the job's files", .0.display())]
    NotAFolder(PathBuf),
    /// A folder that cannot be listed.
    #[error("{}: cannot be read ({why}); check that it exists and may be read", .path.display())]
    Unreadable {
        /// The folder.
        path: PathBuf,
        /// Cause.
        why: io::Error,
    },
    /// The inbox went away, or was never there. The watch goes on and looks for it.
    #[error(
        "{}: the inbox cannot be read ({why}); connect or create it; the watch then goes on by itself",
        .path.display()
    )]
    InboxGone {
        /// The inbox.
        path: PathBuf,
        /// Cause.
        why: io::Error,
    },
    /// Another folder under the inbox's name.
    #[error(
        "{}: is another folder than before (another share or disk in its place); its present content is watched",
        .0.display()
    )]
    InboxReplaced(PathBuf),
    /// The operating system reports no changes of the inbox.
    #[error(
        "{}: the system reports no changes here ({reason}), as on many network shares; looking through it every \
         {seconds} s instead (--poll SECONDS sets this)",
        .path.display()
    )]
    NoEvents {
        /// The inbox.
        path: PathBuf,
        /// Interval at which it is looked through, s.
        seconds: f64,
        /// Evidence.
        reason: String,
    },
    /// A file that does not change but is not complete.
    #[error("{}: does not seem to be complete yet ({reason}); waiting for the rest", .path.display())]
    Incomplete {
        /// The file.
        path: PathBuf,
        /// Statement of its reader.
        reason: String,
    },
    /// A file that cannot be read for a reason that may pass.
    #[error("job {job}: {message} It is tried again.")]
    TransientRead {
        /// The job.
        job: String,
        /// File and cause.
        message: String,
    },
    /// A loose job.toml, which does not say which job it belongs to.
    #[error(
        "{}: which job does it belong to? Put it into that job's folder, or name it JOB_job.toml beside the job's \
         loose files",
        .0.display()
    )]
    UnmatchedJobFile(PathBuf),
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
    #[error("{}: cannot be written ({why}); check the folder's permissions and free space", .path.display())]
    Unwritable {
        /// The output.
        path: PathBuf,
        /// Cause.
        why: io::Error,
    },
    /// Something else in the place of a job's results.
    #[error("{}: something else is in the place of the job's results; move it away", .0.display())]
    InTheWay(PathBuf),
    /// A folder of results without a ledger.
    #[error("{}: holds no results of this program; name the folder that was given as --out", .0.display())]
    NoLedger(PathBuf),
    /// A folder of results that went away, or that another one took the place of.
    #[error(
        "{}: is not the folder of results any more that it was at the start (disconnected, or another disk in its \
         place); connect it again; the work then goes on by itself",
        .0.display()
    )]
    OutGone(PathBuf),
    /// Another process watches for the same folder of results.
    #[error(
        "{}: another baybrief watch already writes its results there (process {holder}); stop that one first, or \
         name another --out",
        .out.display()
    )]
    Taken {
        /// The folder of results.
        out: PathBuf,
        /// The other's process number, as far as it is known.
        holder: String,
    },
    /// A job's name that is needed for something else.
    #[error(
        "{0}: a job cannot have this name, because the folder of results uses it for its own files; rename its folder \
         or file"
    )]
    ReservedName(String),
    /// Results that were removed before they were in place.
    #[error(
        "job {job}: the results of report {number} were removed before they were in place; the job is done again"
    )]
    ResultsLost {
        /// Job.
        job: String,
        /// Number of the revision.
        number: u32,
    },
    /// A ledger that could not be read or written now.
    #[error("{}: the ledger cannot be used ({reason}); check the disk's free space and permissions", .path.display())]
    Ledger {
        /// The ledger's file.
        path: PathBuf,
        /// Cause.
        reason: String,
    },
    /// A ledger that is not one.
    #[error(
        "{}: is no ledger of this version of the program ({reason}); put back a copy of it, or move it away and every \
         job is done once more as a first revision",
        .path.display()
    )]
    LedgerDamaged {
        /// The ledger's file.
        path: PathBuf,
        /// Cause.
        reason: String,
    },
    /// A store that many machines share and that cannot be used.
    #[error("{why}")]
    Shared {
        /// Cause.
        why: Box<dyn std::error::Error + Send + Sync>,
        /// True where the same may work later.
        is_transient: bool,
    },
}

impl IntakeError {
    /// Returns whether one job alone is the cause (its name, something in the place of its folder), so that other jobs
    /// can go on. Everything else that cannot be written keeps every job from being published.
    pub fn is_of_one_job(&self) -> bool {
        match self {
            IntakeError::ReservedName(_)
            | IntakeError::InTheWay(_)
            | IntakeError::ResultsLost { .. } => true,
            IntakeError::Unwritable { why, .. } | IntakeError::Unreadable { why, .. } => {
                matches!(
                    why.kind(),
                    ErrorKind::AlreadyExists
                        | ErrorKind::NotADirectory
                        | ErrorKind::IsADirectory
                        | ErrorKind::InvalidFilename
                )
            }
            _ => false,
        }
    }
}
