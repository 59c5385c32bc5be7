//! Memory of a store of results: jobs, revisions, files, signatures, events of lines, labour rows.

mod records;
mod sqlite;

pub use records::{
    FileFact, JobGroup, JobNote, JobState, JobView, NumberClaim, PendingRow, Revision,
    RevisionCommit, Signature,
};
pub use sqlite::SqliteLedger;

use crate::IntakeError;
use model::Outcome;
use model::labour::{HandedRow, WorkEvent};
use std::collections::BTreeMap;

/// Memory of a store of results. Each call is one transaction: it happened whole or not at all, and what it wrote
/// outlives a power cut.
///
/// # Errors
/// Every call fails when the ledger cannot be read or written; nothing is changed then.
#[expect(clippy::missing_errors_doc, reason = "the same for every call")]
pub trait Ledger: Send {
    /// Newest revision of a job.
    fn latest(&mut self, job: &str) -> Result<Option<Revision>, IntakeError>;

    /// Signature of the newest revision of a job that was signed.
    fn last_signature(&mut self, job: &str) -> Result<Option<Signature>, IntakeError>;

    /// job.toml of a job as it was last right, TOML; `None` where it never was.
    fn answers(&mut self, job: &str) -> Result<Option<String>, IntakeError>;

    /// All labour rows of a job, in the order in which they were handed over.
    fn handed_rows(&mut self, job: &str) -> Result<Vec<HandedRow>, IntakeError>;

    /// All events of the lines of a job, oldest first.
    fn work_events(&mut self, job: &str) -> Result<Vec<WorkEvent>, IntakeError>;

    /// Adds an event of lines to a job that has a revision. Returns `false`, and changes nothing, when the job has another
    /// number of events by now than the lines were read with: somebody else recorded something.
    fn record(
        &mut self,
        job: &str,
        event: &WorkEvent,
        events_known: usize,
    ) -> Result<bool, IntakeError>;

    /// All outcomes of a job, oldest first.
    fn outcomes(&mut self, job: &str) -> Result<Vec<Outcome>, IntakeError>;

    /// All outcomes by the name of their job, each job's oldest first.
    fn all_outcomes(&mut self) -> Result<BTreeMap<String, Vec<Outcome>>, IntakeError>;

    /// Adds an outcome to a job that has a revision.
    fn record_outcome(&mut self, job: &str, outcome: &Outcome) -> Result<(), IntakeError>;

    /// Newest revisions whose verdict names a cause and of which nobody has said what was found, oldest first.
    fn outcomes_owed(&mut self) -> Result<Vec<Revision>, IntakeError>;

    /// Returns whether a revision is one after which its job is to be done once more.
    fn is_due_again(&mut self, job: &str, number: u32) -> Result<bool, IntakeError>;

    /// Entries of the inbox that belong to no job, as they were last noted.
    fn refusals(&mut self) -> Result<Vec<String>, IntakeError>;

    /// Number of jobs in each group that has any.
    fn group_sizes(&mut self) -> Result<BTreeMap<JobGroup, u64>, IntakeError>;

    /// One job with its newest revision; `None` where none has that name.
    fn job(&mut self, name: &str) -> Result<Option<JobView>, IntakeError>;

    /// Jobs of a group with their newest revisions, the newest files first, at most so many.
    fn jobs_in(&mut self, group: JobGroup, limit: u32) -> Result<Vec<JobView>, IntakeError>;
}

/// Further memory of a folder of results: the state of its watch and of publications under way.
///
/// # Errors
/// As [`Ledger`].
#[expect(clippy::missing_errors_doc, reason = "the same for every call")]
pub trait FolderLedger: Ledger {
    /// Notes the state of jobs.
    fn note(&mut self, jobs: &[JobNote]) -> Result<(), IntakeError>;

    /// Forgets after a start that jobs were waiting, in work or held; they are found again. A job without a revision is
    /// forgotten whole. `has_crashed`: the service ended by a fault of its own, which is counted against each job that
    /// it worked on.
    fn begin(&mut self, has_crashed: bool) -> Result<(), IntakeError>;

    /// Forgets that jobs are waiting or in work: they went away, or are again as they were done.
    fn release(&mut self, jobs: &[String]) -> Result<(), IntakeError>;

    /// Number of times in a row that the service ended by a fault of its own while it worked on a job with these files.
    fn crashes(&mut self, job: &str, fingerprint: &str) -> Result<u32, IntakeError>;

    /// Digest of the files of the newest revision of each of some jobs ([`stamps`](crate::stamps())); none of one that
    /// is due again.
    fn stamps(&mut self, jobs: &[&str]) -> Result<BTreeMap<String, String>, IntakeError>;

    /// Other jobs that have the shop's number, in the order of their names.
    fn number_claims(&mut self, number: &str, job: &str) -> Result<Vec<NumberClaim>, IntakeError>;

    /// Adds a revision, or writes a known one anew, together with its files, its signature, events and labour rows.
    /// Its results are not published yet, and its rows are pending. Returns `false`, and changes nothing, when the job
    /// has another revision or other events by now than the commit was made from.
    fn commit(&mut self, commit: &RevisionCommit<'_>) -> Result<bool, IntakeError>;

    /// Revisions whose results are not published yet, oldest first.
    fn pending_revisions(&mut self) -> Result<Vec<(String, u32)>, IntakeError>;

    /// Notes that the results of a revision are in place.
    fn mark_published(&mut self, job: &str, number: u32) -> Result<(), IntakeError>;

    /// Notes that the results of a revision are lost: the job is due again.
    fn mark_lost(&mut self, job: &str, number: u32) -> Result<(), IntakeError>;

    /// Labour rows that are not in their batch file yet, in their order.
    fn pending_rows(&mut self) -> Result<Vec<PendingRow>, IntakeError>;

    /// Notes that labour rows are in their batch file.
    fn mark_written(&mut self, rows: &[PendingRow]) -> Result<(), IntakeError>;

    /// Notes which entries of the inbox belong to no job, each with what to do about it, in place of those known before.
    fn note_refusals(&mut self, refusals: &[String]) -> Result<(), IntakeError>;
}
