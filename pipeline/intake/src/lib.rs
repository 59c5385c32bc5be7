//! What lies in a job folder, when it is ready to be read, and what has been done with it.
//!
//! [`gather`] lists and hashes a job's files. [`Watch`] waits for jobs in an inbox: events of the
//! operating system only wake it, a rescan decides. A [`Ledger`] remembers what was done.
//! [`write_atomic`] writes every output. Nothing here writes to the inbox.

mod error;
mod gather;
mod grouping;
mod hints;
mod ledger;
mod names;
mod walk;
mod watch;
mod write;

pub use error::IntakeError;
pub use gather::{Digests, JobEntry, fingerprint, gather};
pub use ledger::{FileLedger, Ledger, MemoryLedger};
pub use names::is_ignored;
pub use watch::{JobSource, ReadyJob, Watch, WatchOptions};
pub use write::write_atomic;
