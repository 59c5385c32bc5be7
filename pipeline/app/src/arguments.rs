//! Command line.

use chrono::NaiveDateTime;
use clap::builder::PossibleValuesParser;
use clap::{Args, Parser, Subcommand, ValueEnum};
use model::labour::ConsentMethod;
use rust_decimal::Decimal;
use simulator::systems::DEMO_JOBS;
use std::path::{Path, PathBuf};

/// From recordings of a vehicle at work to a report that a customer can sign.
///
/// Drop recordings (CSV, WAV, MDF 4, NumPy), scan-tool texts and a few words (job.toml) into a folder; get report.pdf,
/// labour.csv and case.json. Nothing dropped is ever changed or deleted.
#[derive(Debug, Parser)]
#[command(name = "baybrief", version, arg_required_else_help = true)]
pub struct Arguments {
    #[command(subcommand)]
    pub command: Command,
}

#[derive(Debug, Subcommand)]
pub enum Command {
    /// Does each job folder once
    Run {
        /// Folders with recordings, scan-tool texts and job.toml
        #[arg(required = true, value_name = "JOB_FOLDER")]
        folders: Vec<PathBuf>,
        #[command(flatten)]
        common: Common,
    },
    /// Does the same for whatever is dropped into a folder, until stopped
    Watch(WatchArguments),
    /// Does the jobs of many shops, as one worker of many
    #[cfg(feature = "fleet")]
    Work(FleetArguments),
    /// Does the same, with a page in the browser for adding files, answering, signing
    Serve(ServeArguments),
    /// Marks a report as reviewed by a person and renders it without its draft mark
    Sign {
        /// Who reviewed it
        #[arg(long, value_name = "NAME")]
        by: String,
        /// Anything to be kept with the signature
        #[arg(long, value_name = "TEXT")]
        note: Option<String>,
        #[command(flatten)]
        report: ReportArguments,
    },
    /// Records what the customer authorised, up to which sum
    Authorise(AuthoriseArguments),
    /// Records what the customer declined, or no longer wants
    Decline {
        #[command(flatten)]
        work: WorkArguments,
        /// Way in which the word was given
        #[arg(long, value_enum)]
        how: How,
    },
    /// Records work as done, with the hours that it took
    Complete {
        #[command(flatten)]
        work: WorkArguments,
        /// Hours of one line, where they are not those that were agreed; the diagnosis always needs them
        #[arg(long, value_name = "HOURS", value_parser = decimal)]
        hours: Option<Decimal>,
        /// Takes a record of completion back
        #[arg(long, conflicts_with = "hours", requires = "lines")]
        undo: bool,
    },
    /// Records what was found when the unit was opened, or when it had proven itself
    Outcome(OutcomeArguments),
    /// Shows what the shop's own proven jobs teach, and adopts it: limits, weights of evidence, the own record
    Learn(LearnArguments),
    /// Writes known-good values for other shops into a file: no numbers, names, plates or notes
    Export(ExportArguments),
    /// Takes in the known-good values of another shop; nothing is in force before it is adopted
    Import(ImportArguments),
    /// Packs everything that a report rests on into one signed archive
    Seal(SealArguments),
    /// Checks a sealed archive, and says what was changed
    Verify(VerifyArguments),
    /// Lists all jobs: state, verdict, age, what is asked for; or the lines of work of one
    Status {
        /// One job: the name of its folder in OUT
        job: Option<String>,
        /// Copies the files of the job's newest report into a folder
        #[arg(long, value_name = "FOLDER", requires = "job")]
        fetch: Option<PathBuf>,
        #[command(flatten)]
        place: StoreArguments,
    },
    /// Says how files are read; changes nothing
    Inspect {
        /// Recordings, scan-tool texts, job.toml, shop.toml, channel presets
        #[arg(required = true, value_name = "FILE")]
        files: Vec<PathBuf>,
        /// As JSON, for other programs
        #[arg(long)]
        json: bool,
        /// The shop's settings: its language, sheets and plugins
        #[arg(long, value_name = "FILE")]
        shop: Option<PathBuf>,
    },
    /// Lists the analysis plugins, or validates one against the plugin interface
    Plugins {
        /// A plugin library to validate
        #[arg(long, value_name = "FILE")]
        validate: Option<PathBuf>,
        /// The first of the seeds for the random recordings of --validate
        #[arg(
            long,
            value_name = "NUMBER",
            default_value_t = 1,
            requires = "validate"
        )]
        seed: u64,
        /// Pins the libraries in their folders by hash: from then on, changed and further ones are refused
        #[arg(long, conflicts_with = "validate")]
        pin: bool,
        /// A library that was quarantined for crashing, to be run again
        #[arg(long, value_name = "FILE", conflicts_with_all = ["validate", "pin"])]
        unquarantine: Option<PathBuf>,
        /// The shop's settings
        #[arg(long, value_name = "FILE")]
        shop: Option<PathBuf>,
    },
    /// Writes an invented demo job into an inbox of its own and runs it
    Demo {
        /// System that the job shows
        #[arg(long, value_name = "NAME", default_value = DEMO_JOBS[0].system, value_parser = demo_systems())]
        system: String,
        /// Folder of the demo's inbox and results
        #[arg(long, value_name = "FOLDER", default_value = "baybrief-demo")]
        out: PathBuf,
        /// Opens the page in the browser on it, until stopped
        #[arg(long)]
        page: bool,
    },
    /// Sets the PIN with which a person of shop.toml signs at the page; asks for it, or reads it from a pipe
    Pin {
        /// The person, as [[page.person]] names them
        name: String,
        /// Takes the PIN away
        #[arg(long)]
        remove: bool,
        /// The shop's settings
        #[arg(long, value_name = "FILE")]
        shop: PathBuf,
    },
    /// Writes a first shop.toml by asking questions
    Init {
        /// The file to write; one that is there already stays as it is
        #[arg(value_name = "FILE", default_value = "shop.toml")]
        file: PathBuf,
    },
    /// Prints the JSON Schema of case.json
    Schema,
}

/// The place of the results.
#[derive(Debug, Args)]
pub struct StoreArguments {
    /// Folder of the results
    #[arg(long, value_name = "OUT")]
    #[cfg_attr(feature = "fleet", arg(required_unless_present = "store"))]
    #[cfg_attr(not(feature = "fleet"), arg(required = true))]
    pub out: Option<PathBuf>,
    #[cfg(feature = "fleet")]
    #[command(flatten)]
    pub shared: SharedArguments,
}

/// The store of many shops, and one of them.
#[cfg(feature = "fleet")]
#[derive(Debug, Default, Args)]
pub struct SharedArguments {
    /// Ledger of many shops, where --out is left out: postgres://LOGIN@HOST/DATABASE
    #[arg(
        long,
        value_name = "URL",
        env = "BAYBRIEF_STORE",
        hide_env_values = true
    )]
    pub store: Option<String>,
    /// Recordings and results of many shops: s3://BUCKET, see `work --help`
    #[arg(long, value_name = "URL", env = "BAYBRIEF_OBJECTS")]
    pub objects: Option<String>,
    /// The shop among many
    #[arg(long, value_name = "SHOP", env = "BAYBRIEF_TENANT")]
    pub tenant: Option<String>,
}

impl Command {
    /// The shop's settings and the folder of the results, where they are named.
    pub fn places(&self) -> (Option<&Path>, Option<&Path>) {
        fn of_report(report: &ReportArguments) -> (Option<&Path>, Option<&Path>) {
            (report.shop.as_deref(), report.place.out.as_deref())
        }
        match self {
            Command::Run { common, .. } => (common.shop.as_deref(), Some(&common.out)),
            Command::Watch(w) => (w.common.shop.as_deref(), Some(&w.common.out)),
            Command::Serve(s) => (s.shop.as_deref(), s.out.as_deref()),
            Command::Sign { report, .. } => of_report(report),
            Command::Authorise(a) => of_report(&a.work.report),
            Command::Decline { work, .. } | Command::Complete { work, .. } => {
                of_report(&work.report)
            }
            Command::Outcome(o) => of_report(&o.report),
            Command::Learn(l) => (l.shop.as_deref(), l.place.out.as_deref()),
            Command::Export(e) => (Some(&e.shop), e.place.out.as_deref()),
            Command::Import(i) => (Some(&i.shop), None),
            Command::Seal(s) => of_report(&s.report),
            Command::Verify(v) => (v.shop.as_deref(), None),
            Command::Status { place, .. } => (None, place.out.as_deref()),
            Command::Inspect { shop, .. } | Command::Plugins { shop, .. } => {
                (shop.as_deref(), None)
            }
            Command::Pin { shop, .. } => (Some(shop), None),
            #[cfg(feature = "fleet")]
            Command::Work(_) => (None, None),
            Command::Demo { .. } | Command::Init { .. } | Command::Schema => (None, None),
        }
    }
}

/// The newest report of a job.
#[derive(Debug, Args)]
pub struct ReportArguments {
    /// The job: the name of its folder in OUT
    pub job: String,
    #[command(flatten)]
    pub place: StoreArguments,
    /// The shop's settings, where they are not those that the report was made with
    #[arg(long, value_name = "FILE")]
    pub shop: Option<PathBuf>,
}

#[derive(Debug, Args)]
pub struct AuthoriseArguments {
    #[command(flatten)]
    pub work: WorkArguments,
    /// Way in which it was given
    #[arg(long, value_enum)]
    pub how: How,
    /// Sum for all of these lines together, in the currency of the bill; left out, the one that the report states
    #[arg(long, value_name = "SUM", requires = "basis", value_parser = decimal)]
    pub up_to: Option<Decimal>,
    #[command(flatten)]
    pub basis: BasisArguments,
}

#[derive(Debug, Args)]
#[group(id = "basis", multiple = false)]
pub struct BasisArguments {
    /// The sum is without the tax
    #[arg(long, requires = "up_to")]
    pub net: bool,
    /// The sum is with the tax
    #[arg(long, requires = "up_to")]
    pub gross: bool,
}

#[derive(Debug, Args)]
pub struct WorkArguments {
    /// Operation codes, line numbers or stages (first-step, teardown, repair), divided by commas; `status JOB` lists
    /// them. Left out: what is usual for the step
    #[arg(long, value_name = "LINES", value_delimiter = ',')]
    pub lines: Vec<String>,
    /// Who gave their word, or did the work
    #[arg(long, value_name = "NAME")]
    pub by: String,
    /// When that was, where it was not just now: "2026-03-09 14:05"
    #[arg(long, value_name = "TIME", value_parser = time)]
    pub at: Option<NaiveDateTime>,
    /// Anything to be kept with it
    #[arg(long, value_name = "TEXT")]
    pub note: Option<String>,
    #[command(flatten)]
    pub report: ReportArguments,
}

#[derive(Debug, Args)]
pub struct OutcomeArguments {
    #[command(flatten)]
    pub discovery: Discovery,
    #[command(flatten)]
    pub report: ReportArguments,
}

/// Discovery as a person states it.
#[derive(Debug, Args)]
pub struct Discovery {
    /// Finding at the opened unit
    #[arg(long, value_enum)]
    pub found: WhatFound,
    /// The cause that was found instead: a name, or a few words
    #[arg(long, value_name = "CAUSE")]
    pub cause: Option<String>,
    /// The system that it is about, where it is not the leading one
    #[arg(long, value_name = "SYSTEM")]
    pub system: Option<String>,
    /// The vehicle proved mended afterwards: its recordings after the repair are known good
    #[arg(long = "mended")]
    pub is_mended: bool,
    /// The part that was found to be the cause
    #[arg(long, value_name = "TEXT")]
    pub part: Option<String>,
    /// A photo that shows it: a file of the job
    #[arg(long, value_name = "FILE")]
    pub photo: Option<String>,
    /// Who looked
    #[arg(long, value_name = "NAME")]
    pub by: String,
    /// Anything to be kept with it
    #[arg(long, value_name = "TEXT")]
    pub note: Option<String>,
}

/// Finding at the opened unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum WhatFound {
    /// The cause that the report names
    Confirmed,
    /// Another cause, see --cause
    OtherCause,
    /// The condemned part is sound; what else is wrong is not known
    PartSound,
    /// The whole unit is as it should be
    Healthy,
    /// It was not opened, and nothing proved the repair
    NotOpened,
}

#[derive(Debug, Args)]
pub struct LearnArguments {
    /// Topic to show or to adopt
    #[arg(value_enum, default_value = "limits")]
    pub topic: LearnTopic,
    /// Adopts what is proposed: limits that may move by themselves, or what --value names
    #[arg(long)]
    pub adopt: bool,
    /// Brings back the version before: of the limits the name of the sheet, of weights any word
    #[arg(long, value_name = "SHEET", conflicts_with = "adopt")]
    pub revert: Option<String>,
    /// Limits, or weights as CAUSE/ROW, that the person adopts by name, divided by commas: a limit may then be narrowed
    #[arg(long, value_name = "NAMES", value_delimiter = ',', requires = "adopt")]
    pub value: Vec<String>,
    /// Adopts the limits of one kind of unit only: the name of its sheet
    #[arg(long, value_name = "SHEET", requires = "adopt")]
    pub unit: Option<String>,
    /// Jobs whose odd values a person knows to be good, divided by commas
    #[arg(long, value_name = "JOBS", value_delimiter = ',')]
    pub include: Vec<String>,
    /// Who adopts or takes back
    #[arg(long, value_name = "NAME")]
    pub by: Option<String>,
    #[command(flatten)]
    pub place: StoreArguments,
    /// The shop's settings: [learning] names the folder of what is learned
    #[arg(long, value_name = "FILE")]
    pub shop: Option<PathBuf>,
}

/// Subject of `learn`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum LearnTopic {
    /// Limits that known-good units keep
    Limits,
    /// Weights of evidence as counted on outcomes
    Weights,
    /// Verdicts at each level, with the share that was confirmed
    Record,
}

#[derive(Debug, Args)]
pub struct ExportArguments {
    /// The values of units that are proven good
    #[arg(long)]
    pub known_good: bool,
    /// The file to write
    #[arg(long, value_name = "FILE", default_value = "known-good.jws")]
    pub to: PathBuf,
    #[command(flatten)]
    pub place: StoreArguments,
    /// The shop's settings: [learning] names its key
    #[arg(long, value_name = "FILE")]
    pub shop: PathBuf,
}

#[derive(Debug, Args)]
pub struct ImportArguments {
    /// The file that the other shop sent
    pub file: PathBuf,
    /// Name of that shop, as sources of limits will print it
    #[arg(long, value_name = "NAME")]
    pub from: String,
    /// The shop's settings: [learning] names the folder of what is learned
    #[arg(long, value_name = "FILE")]
    pub shop: PathBuf,
}

#[derive(Debug, Args)]
pub struct SealArguments {
    /// The archive to write; JOB-report-NUMBER.zip where left out
    #[arg(long, value_name = "FILE")]
    pub to: Option<PathBuf>,
    #[command(flatten)]
    pub report: ReportArguments,
}

#[cfg(feature = "fleet")]
#[derive(Debug, Args)]
pub struct FleetArguments {
    /// Queue and ledger: postgres://baybrief_worker@HOST/DATABASE
    #[arg(
        long,
        value_name = "URL",
        env = "BAYBRIEF_STORE",
        hide_env_values = true
    )]
    pub store: String,
    /// Recordings and results: s3://BUCKET; where it lies and its keys come from AWS_ENDPOINT_URL, AWS_ACCESS_KEY_ID, ...
    #[arg(
        long,
        value_name = "URL",
        env = "BAYBRIEF_OBJECTS",
        required_unless_present_any = ["migrate", "retry"]
    )]
    pub objects: Option<String>,
    /// Brings the database's tables up to date, as baybrief_owner, and ends
    #[arg(long)]
    pub migrate: bool,
    /// Name of this worker in the queue; machine and process where left out
    #[arg(long, value_name = "NAME")]
    pub name: Option<String>,
    /// Jobs done at the same time; as many as the machine has cores where left out
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=256))]
    pub parallel: Option<u32>,
    /// Seconds after which a worker that says nothing is taken for dead
    #[arg(long, value_name = "SECONDS", default_value_t = 60, value_parser = clap::value_parser!(u64).range(3..=3600))]
    pub lease: u64,
    /// Seconds that a job's files must stay unchanged before it is done
    #[arg(long, value_name = "SECONDS", default_value_t = 10)]
    pub settle: u64,
    /// Looks through the inbox every so many seconds
    #[arg(long, value_name = "SECONDS", default_value_t = 10, value_parser = clap::value_parser!(u64).range(1..=3600))]
    pub rescan: u64,
    /// File that gets figures as OpenMetrics text, written anew every 15 seconds
    #[arg(long, value_name = "FILE")]
    pub metrics: Option<PathBuf>,
    /// Ends once nothing is left to be done
    #[arg(long)]
    pub until_idle: bool,
    /// Tries a failed job again, and ends
    #[arg(long, value_name = "SHOP/JOB")]
    pub retry: Option<String>,
}

#[derive(Debug, Args)]
pub struct VerifyArguments {
    /// The sealed archive
    pub file: PathBuf,
    /// Fingerprint of the key that it should be sealed with
    // One in 64 begins with a hyphen.
    #[arg(long, value_name = "FINGERPRINT", allow_hyphen_values = true)]
    pub key: Option<String>,
    /// Runs the sealed job once more and compares case.json
    #[arg(long)]
    pub again: bool,
    /// The settings of one's own shop, where it should be sealed with its key
    #[arg(long, value_name = "FILE", conflicts_with = "key")]
    pub shop: Option<PathBuf>,
}

/// Way in which a customer's word was given.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub enum How {
    /// By a signature on paper
    Signed,
    /// By telephone
    Telephone,
    /// By a written message
    Message,
    /// On a screen in the shop
    Screen,
}

impl From<How> for ConsentMethod {
    fn from(how: How) -> ConsentMethod {
        match how {
            How::Signed => ConsentMethod::Signed,
            How::Telephone => ConsentMethod::Telephone,
            How::Message => ConsentMethod::Message,
            How::Screen => ConsentMethod::Screen,
        }
    }
}

#[derive(Debug, Args)]
pub struct WatchArguments {
    /// The folder to watch: each folder in it is a job; loose files are one job for each name before the first _
    pub inbox: PathBuf,
    /// Seconds that a job's files must stay unchanged before it is read
    #[arg(long, value_name = "SECONDS", default_value_t = 3.0)]
    pub settle: f64,
    /// Seconds to wait for the rest of a file that is incomplete, before it is taken as it is
    #[arg(long, value_name = "SECONDS", default_value_t = 60.0)]
    pub incomplete_timeout: f64,
    /// Looks through the whole folder every so many seconds, whatever the system reports
    #[arg(long, value_name = "SECONDS", default_value_t = 10.0)]
    pub rescan: f64,
    /// For network shares: looks every so many seconds and asks the system for nothing. Chosen by itself where the
    /// system turns out to report nothing
    #[arg(long, value_name = "SECONDS")]
    pub poll: Option<f64>,
    /// Jobs done at the same time; as many as the machine has cores where left out
    #[arg(long, value_name = "N")]
    pub parallel: Option<usize>,
    #[command(flatten)]
    pub common: Common,
}

/// Memory below which no report can be made, MB.
const LEAST_MEMORY: u64 = 150;

#[derive(Debug, Args)]
pub struct ServeArguments {
    /// The folder to watch; below the user's documents where left out
    pub inbox: Option<PathBuf>,
    /// Folder of the results; below the user's documents where left out
    #[arg(long, value_name = "OUT")]
    pub out: Option<PathBuf>,
    /// The shop's settings: name, prices, report, plugin folders
    #[arg(long, value_name = "FILE")]
    pub shop: Option<PathBuf>,
    /// Memory for all of the program's processes together, MB; half of the machine's where left out
    #[arg(long, value_name = "MB", value_parser = clap::value_parser!(u64).range(LEAST_MEMORY..))]
    pub memory: Option<u64>,
    /// Port of the page on this machine; any that is free where left out
    #[arg(long, value_name = "PORT", default_value_t = 0)]
    pub port: u16,
    /// Opens no browser
    #[arg(long)]
    pub no_browser: bool,
    #[cfg(feature = "fleet")]
    #[command(flatten)]
    pub shared: SharedArguments,
}

#[derive(Debug, Args)]
pub struct Common {
    /// Folder of the results: OUT/JOB/report.pdf, labour.csv, case.json
    #[arg(long, value_name = "OUT")]
    pub out: PathBuf,
    /// The shop's settings: name, prices, report, plugin folders
    #[arg(long, value_name = "FILE")]
    pub shop: Option<PathBuf>,
    /// Memory that this process and its workers may take together, MB; half of the machine's where left out. Samples that
    /// would take more lie in temporary files
    #[arg(long, value_name = "MB", value_parser = clap::value_parser!(u64).range(LEAST_MEMORY..))]
    pub memory: Option<u64>,
    /// Runs plugins inside this process, for debugging one; only in builds for debugging
    #[cfg_attr(debug_assertions, arg(long))]
    #[cfg_attr(not(debug_assertions), arg(skip))]
    pub in_process: bool,
}

fn demo_systems() -> PossibleValuesParser {
    DEMO_JOBS.iter().map(|d| d.system).into()
}

/// Reads a number with a decimal point.
pub fn decimal(text: &str) -> Result<Decimal, String> {
    let number = Decimal::from_str_exact(text.trim());
    number.map_err(|_| match text.contains(',') {
        true => format!("write {} with a point", text.replace(',', ".")),
        false => "expected a number such as 12.50".into(),
    })
}

fn time(text: &str) -> Result<NaiveDateTime, String> {
    NaiveDateTime::parse_from_str(text.trim(), "%Y-%m-%d %H:%M")
        .map_err(|_| "expected a day and a time such as \"2026-03-09 14:05\"".into())
}

/// A call that was wrong in itself: ends with status 2.
#[derive(Debug)]
pub struct Usage(pub String);

impl std::fmt::Display for Usage {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for Usage {}
