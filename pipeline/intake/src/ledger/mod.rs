//! What has been done: jobs, files, steps, revisions, signatures, labour rows.

mod sqlite;

pub use sqlite::SqliteLedger;

use crate::{IntakeError, JobEntry, JobSource};
use chrono::{NaiveDate, NaiveDateTime};
use model::labour::HandedRow;
use std::path::PathBuf;
use std::time::{Duration, SystemTime, UNIX_EPOCH};

/// The memory of a folder of results. Each call is one transaction: it happened whole or not at all, and what it
/// wrote outlives a power cut.
///
/// # Errors
/// Every call fails when the ledger cannot be read or written; nothing is changed then.
pub trait Ledger: Send {
    /// Notes where jobs stand.
    fn note(&mut self, jobs: &[JobNote]) -> Result<(), IntakeError>;

    /// Forgets that jobs were waiting or in work, as after a start; they are found again. A job without a
    /// revision is forgotten whole.
    fn begin(&mut self) -> Result<(), IntakeError>;

    /// The same for some jobs: they went away, or are again as they were done.
    fn leave(&mut self, jobs: &[String]) -> Result<(), IntakeError>;

    /// The newest revision of a job.
    fn latest(&mut self, job: &str) -> Result<Option<Revision>, IntakeError>;

    /// The files of the newest revision of a job, in the order of their paths.
    fn files(&mut self, job: &str) -> Result<Vec<FileFact>, IntakeError>;

    /// All labour rows of a job, in the order in which they were handed over.
    fn handed(&mut self, job: &str) -> Result<Vec<HandedRow>, IntakeError>;

    /// Adds a revision, or writes a known one anew, together with its files, its signature and the labour rows
    /// that it hands over. Its results do not lie where they belong yet, and its rows are not written yet.
    fn commit(&mut self, made: &Made<'_>) -> Result<(), IntakeError>;

    /// Revisions whose results do not lie where they belong yet, oldest first.
    fn unplaced(&mut self) -> Result<Vec<(String, u32)>, IntakeError>;

    /// Notes that the results of a revision lie where they belong.
    fn placed(&mut self, job: &str, number: u32) -> Result<(), IntakeError>;

    /// Labour rows that are not in their batch file yet, in their order.
    fn unwritten(&mut self) -> Result<Vec<Unwritten>, IntakeError>;

    /// Notes that labour rows are in their batch file.
    fn written(&mut self, rows: &[Unwritten]) -> Result<(), IntakeError>;

    /// Every job with its newest revision, in the order of the names.
    fn overview(&mut self) -> Result<Vec<JobView>, IntakeError>;
}

/// Where a job stands.
#[derive(Debug, Clone, PartialEq)]
pub struct JobNote {
    /// The job.
    pub name: String,
    /// Where its files lie.
    pub source: JobSource,
    /// When its newest file came.
    pub arrived: SystemTime,
    /// Where it stands.
    pub state: JobState,
}

impl JobNote {
    fn done(made: &Made<'_>) -> JobNote {
        JobNote {
            name: made.revision.job.clone(),
            source: made.revision.source.clone(),
            arrived: moment(
                made.files
                    .iter()
                    .filter_map(FileFact::arrived)
                    .max()
                    .unwrap_or(0),
            ),
            state: JobState::Done,
        }
    }
}

/// Where a job stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum JobState {
    /// Its files are complete, or soon will be.
    Waiting,
    /// It is being read and measured.
    Working,
    /// It has its report.
    Done,
    /// There is no report of its present files, and why. It is tried again.
    Failed(String),
}

/// One report.
#[derive(Debug, Clone, PartialEq)]
pub struct Revision {
    /// The job.
    pub job: String,
    /// From 1.
    pub number: u32,
    /// Of the files that it was made from ([`crate::fingerprint`]).
    pub fingerprint: String,
    /// Digest of what was found and of the settings that it was found with.
    pub outcome: String,
    /// State of the verdict: `open`.
    pub verdict: String,
    /// The verdict in one sentence.
    pub sentence: String,
    /// What is asked for next, in plain words.
    pub asks: Vec<String>,
    /// Number of files that were set aside.
    pub set_aside: usize,
    /// Where the job's files lie.
    pub source: JobSource,
    /// The file with the shop's settings.
    pub shop: Option<PathBuf>,
    /// When it was made.
    pub made: SystemTime,
    /// Who reviewed it; `None` while it is a draft.
    pub signature: Option<Signature>,
}

/// A person's word that a report is right.
#[derive(Debug, Clone, PartialEq)]
pub struct Signature {
    /// Who.
    pub by: String,
    /// When, in the shop's time.
    pub at: NaiveDateTime,
    /// Anything that the person wanted to be kept with it.
    pub note: Option<String>,
}

/// A file that a revision was made from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FileFact {
    /// Path inside the job folder, with forward slashes.
    pub path: String,
    /// Size, bytes.
    pub size: u64,
    /// When it was last written, nanoseconds since 1970-01-01 UTC.
    pub modified: Option<i64>,
    /// When its entry last changed (Unix), nanoseconds since 1970-01-01 UTC.
    pub changed: Option<i64>,
    /// BLAKE3 of the whole content, hexadecimal, or why it could not be read.
    pub content: Result<String, String>,
}

impl FileFact {
    /// When the file came into its folder, as far as the file system tells.
    fn arrived(&self) -> Option<i64> {
        self.changed.or(self.modified)
    }
}

/// From nanoseconds since 1970.
pub(crate) fn moment(nanos: i64) -> SystemTime {
    let since = Duration::from_nanos(u64::try_from(nanos).unwrap_or(0));
    UNIX_EPOCH.checked_add(since).unwrap_or(UNIX_EPOCH)
}

impl From<&JobEntry> for FileFact {
    fn from(entry: &JobEntry) -> Self {
        FileFact {
            path: entry.path.clone(),
            size: entry.stamp.size,
            modified: entry.stamp.modified,
            changed: entry.stamp.changed,
            content: match &entry.content {
                Ok(digests) => Ok(digests.blake3.clone()),
                Err(problem) => Err(problem.message.clone()),
            },
        }
    }
}

/// A revision that is to be kept, and what belongs to it.
#[derive(Debug, Clone, Copy)]
pub struct Made<'a> {
    /// The revision.
    pub revision: &'a Revision,
    /// The files that it was made from.
    pub files: &'a [FileFact],
    /// The labour rows that it hands over.
    pub rows: &'a [HandedRow],
    /// The day of their batch file.
    pub day: NaiveDate,
}

/// A labour row that is not in its batch file yet.
#[derive(Debug, Clone, PartialEq)]
pub struct Unwritten {
    /// The job's name.
    pub job: String,
    /// The revision that handed it over.
    pub number: u32,
    /// The day of the batch file.
    pub day: NaiveDate,
    /// The row.
    pub row: HandedRow,
}

/// What can be seen of a job.
#[derive(Debug, Clone, PartialEq)]
pub struct JobView {
    /// The job.
    pub name: String,
    /// When its newest file came.
    pub arrived: SystemTime,
    /// Where it stands.
    pub state: JobState,
    /// Its newest revision.
    pub revision: Option<Revision>,
}
