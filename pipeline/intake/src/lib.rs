//! What lies in a job folder, when it is ready to be read, and what has been done with it.
//!
//! [`gather`] lists and hashes a job's files. [`Watch`] waits for jobs in an inbox: events of the
//! operating system only wake it, a rescan decides. A [`Ledger`] remembers what was done, an [`Outbox`]
//! publishes results so that a crash neither loses nor doubles any. Nothing here writes to the inbox.

mod error;
mod gather;
mod grouping;
mod hints;
mod ledger;
mod lock;
mod names;
mod outbox;
mod source;
mod walk;
mod watch;
mod write;

pub use error::IntakeError;
pub use gather::{Digests, JobEntry, fingerprint, gather};
pub use ledger::{
    FileFact, JobNote, JobState, JobView, Ledger, Made, Revision, Signature, SqliteLedger,
    Unwritten,
};
pub use lock::{Lock, only_one};
pub use names::is_ignored;
pub use outbox::{Outbox, Output};
pub use source::JobSource;
pub use walk::Stamp;
pub use watch::{Event, ReadyJob, Unfinished, Watch, WatchOptions};
pub use write::write_atomic;
