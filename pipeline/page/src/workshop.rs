//! Data that the page shows and commands that it gives. The program behind it answers; the page itself decides nothing.

use crate::Message;
use crate::trace::Pyramid;
use chrono::{DateTime, Local, NaiveDateTime};
use model::labour::{ConsentMethod, SumLimit, WorkEvent};
use model::{Case, Outcome};
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

    /// Persons who use the page, as shop.toml names them; empty where it names none.
    fn persons(&self) -> Vec<Person>;

    /// All jobs, those that want something first.
    fn jobs(&self) -> Result<Vec<JobRow>, Message>;

    /// One job by its name; `None` where there is none.
    fn job(&self, name: &str) -> Result<Option<Job>, Message>;

    /// Answers of a job, from its job.toml; empty without one.
    fn answers(&self, name: &str) -> Result<Answers, Message>;

    /// Lines of a job.toml that are wrong.
    fn check_answers(&self, text: &str) -> Vec<WrongLine>;

    /// Takes answers over; the job is done again with them.
    fn answer(&self, name: &str, text: &str) -> Result<(), Message>;

    /// Folder into which files of a job are put; made where it is missing.
    fn drop_folder(&self, name: &str) -> Result<PathBuf, Message>;

    /// Notes that files were put into the folder of a job.
    fn added(&self, name: &str);

    /// Checks the name of a new job.
    fn check_name(&self, name: &str) -> Result<(), Message>;

    /// Signs a report, if it still is the one that the person has seen.
    fn sign(&self, name: &str, seen: &Seen, by: &Who, note: Option<&str>) -> Result<(), Message>;

    /// Records something of a job's lines of work.
    fn record(
        &self,
        name: &str,
        lines: &[String],
        by: &Who,
        change: LineChange,
    ) -> Result<(), Message>;

    /// Records what was found of the leading system of a job.
    fn record_outcome(&self, name: &str, by: &Who, outcome: &Discovery) -> Result<(), Message>;

    /// Traces of a recording by its place in the newest case; `None` where there is none. Asked for each channel of each
    /// view.
    fn recording(&self, name: &str, capture: usize) -> Result<Option<Arc<Recording>>, Message>;

    /// A published file of a job's newest report by its place in [`Job::documents`], with its name; `None` where there is
    /// none.
    fn document(&self, name: &str, document: usize) -> Result<Option<(String, Vec<u8>)>, Message>;

    /// A photo of a job by the place of its file in the newest case; `None` where there is none.
    fn photo(&self, name: &str, file: usize) -> Result<Option<Vec<u8>>, Message>;

    /// Hands a published file to the mail program of this machine's desktop. Returns what became of it.
    fn send(&self, name: &str, document: usize) -> Result<Message, Message>;
}

/// Person who uses the page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Person {
    /// Name, as it stands in the ledger.
    pub name: String,
    /// Duties that the person may do.
    pub duties: Vec<Duty>,
}

/// Something that not everybody may do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Duty {
    /// Signing reports.
    Sign,
    /// Recording what a customer said.
    Customer,
    /// Recording what was done and what was found.
    Work,
}

/// Name and PIN that a person gave. The PIN is empty where the shop names no persons.
#[derive(Clone, PartialEq, Eq)]
pub struct Who {
    /// Name.
    pub name: String,
    /// PIN.
    pub pin: String,
}

impl std::fmt::Debug for Who {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        // A PIN comes into no log.
        f.debug_tuple("Who").field(&self.name).finish()
    }
}

/// Revision that a person has seen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Seen {
    /// Number of the revision.
    pub revision: u32,
    /// Digest of what it says.
    pub digest: String,
}

/// Step of a job that is being done.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Progress {
    /// Name of the job.
    pub job: String,
    /// The step.
    pub step: Message,
    /// Share of the step that is done, 0 to 100 %; `None` where it is not known.
    pub percent: Option<u8>,
}

/// One job in the list.
#[derive(Debug, Clone, Default)]
pub struct JobRow {
    /// Name.
    pub name: String,
    /// Group: `asks`, `drafts`, `work`, `signed`.
    pub group: &'static str,
    /// State.
    pub state: Message,
    /// Verdict in one sentence.
    pub verdict: Option<Message>,
    /// Requests to a person.
    pub asks: Vec<Message>,
    /// Time of the newest file.
    pub arrived: Option<DateTime<Local>>,
    /// Facts by which it is searched.
    pub facts: JobFacts,
}

/// Facts of a job by which it is searched.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct JobFacts {
    /// The shop's number, where it is not the job's name.
    pub number: Option<String>,
    /// Owner of the vehicle, or the workshop that called.
    pub customer: Option<String>,
    /// Person who examined the vehicle.
    pub technician: Option<String>,
    /// Maker and model.
    pub vehicle: Option<String>,
    /// Plate.
    pub plate: Option<String>,
    /// Vehicle identification number.
    pub vin: Option<String>,
}

impl JobFacts {
    /// The facts that are known, in the order in which they are shown.
    pub fn all(&self) -> Vec<&str> {
        let all = [
            &self.number,
            &self.customer,
            &self.vehicle,
            &self.plate,
            &self.vin,
            &self.technician,
        ];
        all.into_iter().flatten().map(String::as_str).collect()
    }
}

/// Letters and digits of a text alone, in lower case: numbers and plates are written with and without blanks and hyphens.
pub fn squeezed(text: &str) -> String {
    let kept = text.chars().filter(|c| c.is_alphanumeric());
    kept.flat_map(char::to_lowercase).collect()
}

/// One job.
#[derive(Debug, Clone, Default)]
pub struct Job {
    /// Its row in the list.
    pub row: JobRow,
    /// Content of case.json of the newest report; `None` before the first one.
    pub case: Option<Arc<Case>>,
    /// Newest revision.
    pub seen: Option<Seen>,
    /// Name of whoever signed it, and the time.
    pub signed: Option<(String, NaiveDateTime)>,
    /// Examined systems, the lead first.
    pub coverage: Vec<SystemCoverage>,
    /// Answers that the verdict waits for, in its order.
    pub asked: Vec<Asked>,
    /// Events of lines, oldest first.
    pub events: Vec<WorkEvent>,
    /// Outcomes, oldest first.
    pub outcomes: Vec<Outcome>,
    /// Names of published files.
    pub documents: Vec<String>,
    /// Roles that a channel may have: name and words.
    pub roles: Vec<(String, String)>,
    /// Causes of the leading system: name and words.
    pub causes: Vec<(String, String)>,
    /// Names of units.
    pub units: Vec<String>,
    /// Systems that may be examined: name and words.
    pub systems: Vec<(String, String)>,
    /// Names of channel presets.
    pub presets: Vec<String>,
    /// Other jobs of the same vehicle, the newest first.
    pub visits: Vec<JobRow>,
}

impl Job {
    /// Words for a role; its name where there are none.
    pub(crate) fn role_words<'j>(&'j self, role: &'j str) -> &'j str {
        let known = self.roles.iter().find(|(name, _)| name == role);
        known.map_or(role, |(_, words)| words)
    }
}

/// An examined system: its verdict, and what was tested.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct SystemCoverage {
    /// The system, in words.
    pub system: String,
    /// Its verdict in one sentence.
    pub verdict: Message,
    /// Causes that were tested, in words.
    pub tested: Vec<String>,
    /// Causes that were not: the cause, why not, and what would test it.
    pub untested: Vec<[String; 3]>,
}

/// Answer that a verdict waits for: a key of job.toml, of a recording's section, or of one of its channels.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Asked {
    /// The recording; `None` for a key of `[vehicle]`.
    pub file: Option<String>,
    /// The channel.
    pub channel: Option<String>,
    /// The key.
    pub key: &'static str,
}

/// Answers of a job.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Answers {
    /// Text of its job.toml; a line that is no TOML is behind a `#`.
    pub text: String,
    /// Wrong lines.
    pub wrong: Vec<WrongLine>,
    /// Channel preset that was used last for the caller of this job; `None` where there was none.
    pub last_preset: Option<String>,
}

/// A line of a job.toml that is wrong.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WrongLine {
    /// Its number, from 1.
    pub line: usize,
    /// Its key; empty where it has none.
    pub key: String,
    /// The error and what to write instead, in the shop's language.
    pub message: String,
}

/// Something that becomes of lines of work.
#[derive(Debug, Clone, PartialEq)]
pub enum LineChange {
    /// A customer agreed.
    Authorise {
        /// Name of the customer.
        by: String,
        /// Way in which the word was given.
        how: ConsentMethod,
        /// Up to which sum; the estimate's where it is left out.
        limit: Option<SumLimit>,
    },
    /// A customer does not want it.
    Decline {
        /// Name of the customer.
        by: String,
        /// Way in which the word was given.
        how: ConsentMethod,
    },
    /// It was done.
    Complete {
        /// Hours that it took, where they are not those that were agreed.
        hours: Option<Decimal>,
    },
    /// A record of completion is taken back.
    Reopen,
}

/// Discovery about a system, as a person states it.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Discovery {
    /// Kind, as [`model::outcome::Found`] is written.
    pub found: String,
    /// Cause that was found instead: its name, or words.
    pub cause: Option<String>,
    /// True where the vehicle proved mended afterwards.
    pub is_mended: bool,
    /// Part that was found to be the cause.
    pub part: Option<String>,
    /// Photo that shows it: a file of the job.
    pub photo: Option<String>,
    /// Remark.
    pub note: Option<String>,
}

/// Traces of one recording: its channels in their order, then what was derived from them.
#[derive(Debug, Default)]
pub struct Recording {
    /// The traces.
    pub traces: Vec<Trace>,
}

/// One trace.
#[derive(Debug)]
pub struct Trace {
    /// Name of the channel in the file.
    pub name: String,
    /// True for the speed that was derived from the channel; false for the channel itself.
    pub is_speed: bool,
    /// Unit; `None` where it is not known.
    pub unit: Option<String>,
    /// Instants of the samples.
    pub time: model::TimeAxis,
    /// The values.
    pub pyramid: Pyramid,
}
