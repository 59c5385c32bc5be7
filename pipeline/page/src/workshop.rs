//! Data that the page shows and commands that it gives. The program behind it answers; the page itself decides nothing.

use crate::trace::Pyramid;
use chrono::{DateTime, Local};
use model::Case;
use model::labour::{ConsentMethod, SumLimit};
use rust_decimal::Decimal;
use std::path::PathBuf;
use std::sync::Arc;

/// The program behind the page. Each call may take a while and is made on a thread of its own.
///
/// # Errors
/// A message for the person at the page.
#[expect(
    clippy::missing_errors_doc,
    reason = "each error is a sentence for the person at the page"
)]
pub trait Workshop: Send + Sync + 'static {
    /// Language of the shop: `en`, `de`, `es`.
    fn language(&self) -> String;

    /// All jobs, those that want something first.
    fn jobs(&self) -> Result<Vec<JobRow>, String>;

    /// One job by its name; `None` where there is none.
    fn job(&self, name: &str) -> Result<Option<Job>, String>;

    /// Answers of a job, from its job.toml; empty without one.
    fn answers(&self, name: &str) -> Result<String, String>;

    /// Checks the text of a job.toml: each error with its key.
    fn check_answers(&self, text: &str) -> Vec<AnswerError>;

    /// Takes answers over; the job is done again with them.
    fn answer(&self, name: &str, text: &str) -> Result<(), String>;

    /// Folder into which files of a job are put; made where it is missing.
    fn drop_folder(&self, name: &str) -> Result<PathBuf, String>;

    /// Notes that files were put into the folder of a job.
    fn added(&self, name: &str);

    /// Checks the name of a new job.
    fn check_name(&self, name: &str) -> Result<(), String>;

    /// Signs a report, if it still is the one that the person has seen.
    fn sign(&self, name: &str, seen: &Seen, by: &str, note: Option<&str>) -> Result<(), String>;

    /// Records something of a job's lines of work.
    fn record(
        &self,
        name: &str,
        lines: &[String],
        by: &str,
        change: LineChange,
    ) -> Result<(), String>;

    /// Traces of a recording by its place in the newest case; `None` where there is none. Asked for each channel of each
    /// view.
    fn recording(&self, name: &str, capture: usize) -> Result<Option<Arc<Recording>>, String>;

    /// A published file of a job's newest report by its place in [`Job::documents`], with its name; `None` where there is
    /// none.
    fn document(&self, name: &str, document: usize) -> Result<Option<(String, Vec<u8>)>, String>;
}

/// Revision that a person has seen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Seen {
    /// Number of the revision.
    pub revision: u32,
    /// Digest of what it says.
    pub digest: String,
}

/// One job in the list.
#[derive(Debug, Clone, Default)]
pub struct JobRow {
    /// Name.
    pub name: String,
    /// Group: `asks`, `drafts`, `work`, `signed`.
    pub group: &'static str,
    /// State in a few words.
    pub state: String,
    /// Verdict in one sentence.
    pub verdict: Option<String>,
    /// Requests to a person.
    pub asks: Vec<String>,
    /// Time of the newest file.
    pub arrived: Option<DateTime<Local>>,
    /// Words by which it is searched: number, plate, vehicle number, customer, technician.
    pub facts: Vec<String>,
}

/// One job.
#[derive(Debug, Clone, Default)]
pub struct Job {
    /// Name.
    pub name: String,
    /// State in a few words.
    pub state: String,
    /// Content of case.json of the newest report; `None` before the first one.
    pub case: Option<Arc<Case>>,
    /// Newest revision.
    pub seen: Option<Seen>,
    /// Who signed it, and when.
    pub signed: Option<String>,
    /// Verdict in one sentence.
    pub verdict: Option<String>,
    /// Requests to a person.
    pub asks: Vec<String>,
    /// Tested causes of the leading system.
    pub tested: Vec<String>,
    /// Untested causes: the cause, why not, and the recording that would test it.
    pub untested: Vec<[String; 3]>,
    /// Lines of work in words, by their numbers.
    pub lines: Vec<String>,
    /// Events of lines in words.
    pub events: Vec<String>,
    /// Names of published files.
    pub documents: Vec<String>,
    /// Roles that a channel may have: name and words.
    pub roles: Vec<(String, String)>,
    /// Names of units.
    pub units: Vec<String>,
    /// Earlier and later jobs of the same vehicle.
    pub visits: Vec<String>,
}

/// An error in answers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AnswerError {
    /// Key that it is about, as in `vehicle.vin`; empty where it is about the whole.
    pub key: String,
    /// Error, with the text to write instead.
    pub message: String,
}

/// Something that becomes of lines of work.
#[derive(Debug, Clone, PartialEq)]
pub enum LineChange {
    /// A customer agreed.
    Authorise {
        /// Way in which the word was given.
        how: ConsentMethod,
        /// Up to which sum; the estimate's where it is left out.
        limit: Option<SumLimit>,
    },
    /// A customer does not want it.
    Decline {
        /// Way in which the word was given.
        how: ConsentMethod,
    },
    /// It was done.
    Complete {
        /// Hours that it took, where they are not those that were agreed.
        hours: Option<Decimal>,
    },
}

/// Traces of one recording.
#[derive(Debug)]
pub struct Recording {
    /// Instants of the samples.
    pub time: model::TimeAxis,
    /// Channels.
    pub channels: Vec<Trace>,
}

/// Trace of one channel.
#[derive(Debug)]
pub struct Trace {
    /// Name in the file.
    pub name: String,
    /// Unit; `None` where it is not known.
    pub unit: Option<String>,
    /// The values.
    pub pyramid: Pyramid,
}
