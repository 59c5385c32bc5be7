//! Files of a job folder, when they are ready to be read, and what has been done with them.
//!
//! [`gather`] lists and hashes a job's files. [`Watch`] waits for jobs in an inbox: events of the
//! operating system only wake it, a scan decides. A [`Ledger`] remembers what was done, a [`ResultStore`]
//! publishes results so that a crash neither loses nor doubles any. Nothing here writes to the inbox.

mod backoff;
mod crash_log;
mod error;
mod fs_events;
mod gather;
mod grouping;
mod ledger;
mod lock;
mod names;
mod open;
mod result_store;
mod source;
mod stamps;
mod store;
mod time;
mod walk;
mod watch;
mod write;

pub use backoff::Backoff;
pub use crash_log::CrashLog;
pub use error::IntakeError;
pub use gather::{JobEntry, fingerprint, gather};
pub use ledger::{
    FileFact, FolderLedger, JobGroup, JobNote, JobState, JobView, Ledger, NumberClaim, PendingRow,
    Revision, RevisionCommit, Signature, SqliteLedger,
};
pub use lock::{Lock, only_one};
pub use names::{is_ignored, is_job_file, is_reserved};
pub use open::open_beneath;
pub use result_store::{Output, ResultStore};
pub use source::JobSource;
pub use stamps::stamps;
pub use store::{Store, WriteRows};
pub use walk::Stamp;
pub use watch::{CheckFile, Completeness, Event, ReadyJob, Watch, WatchOptions};
pub use write::write_atomic;
