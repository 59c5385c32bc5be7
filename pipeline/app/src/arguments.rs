//! What is typed.

use clap::{Args, Parser, Subcommand};
use std::path::PathBuf;

/// From recordings of a gearbox's work to a report that a customer can sign.
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
    Watch {
        /// The folder to watch: each folder in it is a job
        inbox: PathBuf,
        /// Seconds that a job's files must stay unchanged before it is read
        #[arg(long, value_name = "SECONDS", default_value_t = 3.0)]
        settle: f64,
        /// Looks again every so many seconds, also where the system tells nothing of changes (network shares)
        #[arg(long, value_name = "SECONDS", default_value_t = 10.0)]
        rescan: f64,
        #[command(flatten)]
        common: Common,
    },
    /// Says how files are read; changes nothing
    Inspect {
        /// Recordings, scan-tool texts, job.toml, shop.toml, saved hook-ups
        #[arg(required = true, value_name = "FILE")]
        files: Vec<PathBuf>,
        /// As JSON, for other programs
        #[arg(long)]
        json: bool,
    },
    /// Lists the analysis plugins, or proves one against the plugin interface
    Plugins {
        /// A plugin library to prove
        #[arg(long, value_name = "FILE")]
        check: Option<PathBuf>,
        /// The shop's settings
        #[arg(long, value_name = "FILE")]
        shop: Option<PathBuf>,
    },
    /// Writes an invented demo job into an inbox of its own and runs it
    Demo {
        /// Where the demo's inbox and results go
        #[arg(long, value_name = "FOLDER", default_value = "baybrief-demo")]
        out: PathBuf,
    },
    /// Prints the JSON Schema of case.json
    Schema,
}

#[derive(Debug, Args)]
pub struct Common {
    /// Where the results go: OUT/JOB/report.pdf, labour.csv, case.json
    #[arg(long, value_name = "OUT")]
    pub out: PathBuf,
    /// The shop's settings: name, prices, report, plugin folders
    #[arg(long, value_name = "FILE")]
    pub shop: Option<PathBuf>,
    /// Runs plugins inside this process, for debugging one
    #[arg(long)]
    pub in_process: bool,
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
