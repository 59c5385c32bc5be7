//! Values that the ledger keeps.

use crate::time::from_nanos;
use crate::{JobEntry, JobSource};
use chrono::NaiveDateTime;
use model::labour::{HandedRow, OrderTexts, WorkEvent};
use serde::{Deserialize, Serialize};
use std::hash::{BuildHasher, Hasher, RandomState};
use std::path::PathBuf;
use std::time::SystemTime;

/// State of a job at some time.
#[derive(Debug, Clone, PartialEq)]
pub struct JobNote {
    /// Name of the job.
    pub name: String,
    /// Place of its files.
    pub source: JobSource,
    /// Time of its newest file.
    pub arrived: SystemTime,
    /// State.
    pub state: JobState,
    /// [`fingerprint`](crate::fingerprint) of its files, once they have been read.
    pub fingerprint: Option<String>,
}

/// State of a job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum JobState {
    /// Its files are complete, or soon will be.
    Waiting,
    /// It is being read and measured.
    Working,
    /// It has its report.
    Done,
    /// There is no report of its present files, for this reason. It is tried again.
    Failed(String),
    /// It ended the service twice, for this reason. It is not tried again until its files change.
    Held(String),
}

/// Group of jobs in a list, in the order in which they want to be seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum JobGroup {
    /// Failed, held, or asks for something.
    Asks,
    /// Has a report that nobody has reviewed.
    Draft,
    /// Waits or is being measured.
    Work,
    /// Signed.
    Signed,
}

impl JobGroup {
    /// All groups, in their order.
    pub const ALL: [JobGroup; 4] = [
        JobGroup::Asks,
        JobGroup::Draft,
        JobGroup::Work,
        JobGroup::Signed,
    ];

    /// Name in the ledger and in addresses.
    pub fn name(self) -> &'static str {
        match self {
            JobGroup::Asks => "asks",
            JobGroup::Draft => "drafts",
            JobGroup::Work => "work",
            JobGroup::Signed => "signed",
        }
    }

    /// Group of a job with that state and newest revision.
    pub fn new(state: &JobState, revision: Option<&Revision>) -> JobGroup {
        match (state, revision) {
            (JobState::Waiting | JobState::Working, _) => JobGroup::Work,
            (JobState::Failed(_) | JobState::Held(_), _) => JobGroup::Asks,
            (JobState::Done, Some(r)) if r.signature.is_some() => JobGroup::Signed,
            (JobState::Done, Some(r)) if !r.asks.is_empty() || r.set_aside > 0 => JobGroup::Asks,
            (JobState::Done, _) => JobGroup::Draft,
        }
    }
}

/// One report.
#[derive(Debug, Clone, PartialEq)]
pub struct Revision {
    /// Name of the job.
    pub job: String,
    /// Number of the revision, from 1.
    pub number: u32,
    /// Token of the publication that wrote it ([`Revision::new_token`]): times may repeat, tokens do not.
    pub token: String,
    /// The shop's number for the job.
    pub job_number: String,
    /// [`fingerprint`](crate::fingerprint) of the files that it was made from.
    pub fingerprint: String,
    /// Digest of what was found and of the settings that it was found with.
    pub outcome: String,
    /// State of the verdict: `open`.
    pub verdict: String,
    /// Verdict in one sentence.
    pub sentence: String,
    /// Requests to a person, in plain words.
    pub asks: Vec<String>,
    /// Number of rejected files.
    pub set_aside: usize,
    /// Place of the job's files.
    pub source: JobSource,
    /// File with the shop's settings.
    pub shop: Option<PathBuf>,
    /// Time at which it was made.
    pub made: SystemTime,
    /// Review; `None` while it is a draft.
    pub signature: Option<Signature>,
}

impl Revision {
    /// Returns a random token, 32 hexadecimal digits.
    pub fn new_token() -> String {
        let random = || RandomState::new().build_hasher().finish();
        format!("{:016x}{:016x}", random(), random())
    }
}

/// A person's word that a report is right.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Signature {
    /// Name of the person.
    pub by: String,
    /// Time, in the shop's time.
    pub at: NaiveDateTime,
    /// Remark that is kept with it.
    pub note: Option<String>,
}

/// A file that a revision was made from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FileFact {
    /// Path inside the job folder, with forward slashes.
    pub path: String,
    /// Size, bytes.
    pub size: u64,
    /// Time of the last write, nanoseconds since 1970-01-01 UTC.
    pub modified: Option<i64>,
    /// Time of the last change of its entry (Unix), nanoseconds since 1970-01-01 UTC.
    pub changed: Option<i64>,
    /// SHA-256 of the whole content, hexadecimal, or the reason why it could not be read.
    pub content: Result<String, String>,
}

impl FileFact {
    /// Time at which the file came into its folder, as far as the file system tells.
    pub(crate) fn arrived(&self) -> Option<i64> {
        self.changed.or(self.modified)
    }
}

impl From<&JobEntry> for FileFact {
    fn from(entry: &JobEntry) -> Self {
        FileFact {
            path: entry.path.clone(),
            size: entry.stamp.size,
            modified: entry.stamp.modified,
            changed: entry.stamp.changed,
            content: match &entry.content {
                Ok(digest) => Ok(digest.clone()),
                Err(problem) => Err(problem.message.clone()),
            },
        }
    }
}

/// A revision that is to be kept, and what belongs to it.
#[derive(Debug, Clone, Copy)]
pub struct RevisionCommit<'a> {
    /// Revision.
    pub revision: &'a Revision,
    /// Files that it was made from.
    pub files: &'a [FileFact],
    /// Labour rows that it hands over.
    pub rows: &'a [HandedRow],
    /// Complaint, cause and correction, for batch files with columns for them.
    pub texts: Option<&'a OrderTexts>,
    /// Events of lines that come with it: its offer.
    pub events: &'a [WorkEvent],
    /// job.toml, TOML, where all of it is right.
    pub answers: Option<&'a str>,
    /// Token of the job's newest revision when this one was made; `None` for a first one.
    pub base: Option<&'a str>,
    /// Number of the job's events of lines when it was made.
    pub events_known: usize,
    /// True where the job is to be done once more with the same files: it may turn out otherwise.
    pub is_due_again: bool,
}

impl RevisionCommit<'_> {
    pub(crate) fn note(&self) -> JobNote {
        let arrived = self.files.iter().filter_map(FileFact::arrived).max();
        JobNote {
            name: self.revision.job.clone(),
            source: self.revision.source.clone(),
            arrived: from_nanos(arrived.unwrap_or(0)),
            state: JobState::Done,
            fingerprint: Some(self.revision.fingerprint.clone()),
        }
    }
}

/// A labour row that is not in its batch file yet.
#[derive(Debug, Clone, PartialEq)]
pub struct PendingRow {
    /// Name of the job.
    pub job: String,
    /// Row.
    pub row: HandedRow,
    /// Texts of the revision that handed it over.
    pub texts: Option<OrderTexts>,
}

/// Another job that has the same number of the shop's.
#[derive(Debug, Clone, PartialEq)]
pub struct NumberClaim {
    /// Name of the job.
    pub job: String,
    /// Place of its files.
    pub source: JobSource,
    /// True where something of it was handed over, signed, authorised or done.
    pub is_binding: bool,
}

/// A job with its newest revision.
#[derive(Debug, Clone, PartialEq)]
pub struct JobView {
    /// Name of the job.
    pub name: String,
    /// Time of its newest file.
    pub arrived: SystemTime,
    /// State.
    pub state: JobState,
    /// Newest revision.
    pub revision: Option<Revision>,
}
