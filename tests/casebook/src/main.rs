//! Makes labelled cases, evaluates a baybrief executable against them, proposes weights of evidence.

use anyhow::Context;
use baybrief_casebook::{calibrate, classes, generate, run, summary};
use clap::{Args, Parser, Subcommand};
use std::path::PathBuf;
use std::process::ExitCode;

#[derive(Parser)]
#[command(about = "Labelled cases with known truth, and how a baybrief executable does on them")]
struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    /// Write cases and their truth into a folder
    Generate {
        /// The folder; gets cases/NAME/ and truth/NAME.json
        #[arg(long)]
        out: PathBuf,
        #[command(flatten)]
        which: Which,
    },
    /// Run the executable over the cases and print how it did, as Markdown
    Evaluate(Running),
    /// Run the executable over the cases and propose weights of evidence, as Markdown
    Calibrate(Running),
}

#[derive(Args)]
struct Which {
    /// Seed of the cases
    #[arg(long, default_value_t = 1)]
    seed: u64,
    /// Number of cases; the classes take turns
    #[arg(long, default_value_t = 200)]
    count: usize,
    /// One class only
    #[arg(long, value_parser = class_names())]
    class: Option<String>,
}

fn class_names() -> clap::builder::PossibleValuesParser {
    classes::CLASSES.map(|(name, _)| name).into()
}

#[derive(Args)]
struct Running {
    /// The executable
    #[arg(long)]
    bin: PathBuf,
    /// A folder with cases/ and truth/ that is there already, instead of fresh cases
    #[arg(long)]
    set: Option<PathBuf>,
    #[command(flatten)]
    which: Which,
    /// Cases at once
    #[arg(long, default_value_t = 2)]
    at_once: usize,
    /// List every case that is not right
    #[arg(long)]
    list: bool,
    /// Write the tables into this file as well
    #[arg(long)]
    markdown: Option<PathBuf>,
}

impl Running {
    fn judged(&self) -> anyhow::Result<Vec<run::Judged>> {
        let bin = std::fs::canonicalize(&self.bin)
            .with_context(|| format!("no executable {}", self.bin.display()))?;
        match &self.set {
            Some(set) => {
                let truths = run::read_truths(&set.join("truth"))?;
                Ok(run::run_all(&bin, set, &truths, self.at_once))
            }
            None => {
                // Batches, so that the files of a long run never fill the temporary folder.
                let mut all = Vec::new();
                let mut done = 0;
                while done < self.which.count {
                    let set = tempfile::tempdir()?;
                    let batch = (self.which.count - done).min(BATCH);
                    let class = self.which.class.as_deref();
                    let truths = generate(set.path(), self.which.seed, done, batch, class)?;
                    all.extend(run::run_all(&bin, set.path(), &truths, self.at_once));
                    done += batch;
                }
                Ok(all)
            }
        }
    }

    fn print(&self, text: &str) -> anyhow::Result<()> {
        print!("{text}");
        match &self.markdown {
            Some(file) => std::fs::write(file, text)
                .with_context(|| format!("cannot write {}", file.display())),
            None => Ok(()),
        }
    }
}

/// Cases that lie on disk at once.
const BATCH: usize = 70;

fn main() -> ExitCode {
    match work(Arguments::parse().command) {
        Ok(()) => ExitCode::SUCCESS,
        Err(e) => {
            eprintln!("{e:#}");
            ExitCode::FAILURE
        }
    }
}

fn work(command: Command) -> anyhow::Result<()> {
    match command {
        Command::Generate { out, which } => {
            let truths = generate(&out, which.seed, 0, which.count, which.class.as_deref())?;
            println!("{} cases in {}", truths.len(), out.display());
            Ok(())
        }
        Command::Evaluate(running) => {
            let judged = running.judged()?;
            if running.list {
                println!("{}", summary::not_right(&judged));
            }
            running.print(&summary::markdown(&judged))
        }
        Command::Calibrate(running) => running.print(&calibrate::markdown(&running.judged()?)),
    }
}
