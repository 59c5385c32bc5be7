//! Many shops and many machines: PostgreSQL is queue and ledger, an S3-compatible store holds recordings and results, and
//! any number of workers do the jobs, of which any may end at any moment.
//!
//! What holds whatever ends when:
//!
//! - A job is handed to one worker at a time, for as long as its lease lives by the database's clock. Each claim has a
//!   token that grows; only the holder of the newest one may finish. A worker that was taken for dead and comes back
//!   finds its token outdated and changes nothing.
//! - Results are put under names that nobody else uses, before the one transaction that makes them real. Objects that
//!   no row names are swept away after a day.
//! - A transaction names its shop; row-level security keeps it from the rows of all others.

mod commit;
mod database;
mod error;
mod files;
mod inbox;
mod labour;
mod lead;
mod ledger;
mod metrics;
mod objects;
mod queue;
mod store;
mod sweep;
mod wake;
mod worker;

pub use commit::{CommitResult, ObjectFact};
pub use database::Database;
pub use error::FleetError;
pub use files::{StoredFile, listing_digest};
pub use inbox::Inbox;
pub use labour::WriteBatch;
pub use lead::Lead;
pub use metrics::Metrics;
pub use objects::{Objects, sha256};
pub use queue::{Again, Claim, QueueFigures};
pub use store::ShopStore;
pub use worker::{Failure, Task, Work, Worker, WorkerOptions};

/// Roles of a fleet, for whoever administers the database server.
pub const ROLES: &str = include_str!("roles.sql");
