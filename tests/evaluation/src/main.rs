//! Makes labelled cases, evaluates the program on them, searches for cases that defeat it, proposes weights of evidence.

use anyhow::Context;
use baybrief_evaluation::case::{CaseSpec, generate};
use baybrief_evaluation::evaluate::{Evaluated, evaluate_all, evaluate_set, read_truths};
use baybrief_evaluation::judge::{Executable, InProcess, Judge};
use baybrief_evaluation::search::{self, Extent};
use baybrief_evaluation::{calibrate, classes, sentinels, summary};
use clap::{Args, Parser, Subcommand};
use std::path::PathBuf;
use std::process::ExitCode;

#[derive(Parser)]
#[command(about = "Labelled cases with known truth, and the evaluation of baybrief on them")]
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
    /// Run the program over cases and print the tables, as Markdown
    Evaluate {
        #[command(flatten)]
        running: Running,
        /// A folder with cases/ and truth/ that is there already, instead of fresh cases
        #[arg(long)]
        set: Option<PathBuf>,
        /// Regression cases (TOML files) instead of fresh cases
        #[arg(long, num_args = 1.., conflicts_with = "set")]
        regressions: Vec<PathBuf>,
        #[command(flatten)]
        which: Which,
        /// List every case that is not right
        #[arg(long)]
        list: bool,
    },
    /// Run the program over cases and propose weights of evidence, as Markdown
    Calibrate {
        #[command(flatten)]
        running: Running,
        #[command(flatten)]
        which: Which,
    },
    /// Write TABLE.md: an evaluation of many cases, and the sentinels that show when it is stale
    Table {
        #[command(flatten)]
        running: Running,
        /// Seed of the cases
        #[arg(long, default_value_t = 1)]
        seed: u64,
        /// Number of cases; the classes take turns
        #[arg(long, default_value_t = 1000)]
        count: usize,
    },
    /// Search for cases whose verdict is wrong or condemns a sound part; fails when one does
    Search {
        #[command(flatten)]
        running: Running,
        #[command(flatten)]
        which: Which,
        /// Climbs from the worst random cases
        #[arg(long, default_value_t = 20)]
        climbs: usize,
        /// Steps of each climb
        #[arg(long, default_value_t = 40)]
        steps: usize,
        /// How many of the worst cases to print
        #[arg(long, default_value_t = 25)]
        worst: usize,
        /// Keep the worst wrong case of each class as CLASS.toml in this folder
        #[arg(long)]
        keep: Option<PathBuf>,
    },
}

#[derive(Args)]
struct Which {
    /// Seed of the cases
    #[arg(long, default_value_t = 1)]
    seed: u64,
    /// Number of cases; the classes take turns
    #[arg(long, default_value_t = 300)]
    count: usize,
    /// Some classes only
    #[arg(long, num_args = 1.., value_parser = class_names())]
    class: Vec<String>,
}

fn class_names() -> clap::builder::PossibleValuesParser {
    classes::CLASSES
        .iter()
        .map(|c| c.0)
        .collect::<Vec<_>>()
        .into()
}

#[derive(Args)]
struct Running {
    /// An executable to judge, one process a case; else the library in this process, without reports
    #[arg(long)]
    bin: Option<PathBuf>,
    /// Cases at once
    #[arg(long, default_value_t = 2)]
    at_once: usize,
    /// Write the tables into this file as well
    #[arg(long)]
    markdown: Option<PathBuf>,
}

impl Which {
    fn specs(&self) -> Vec<CaseSpec> {
        let spec = |i| CaseSpec::numbered(self.seed, i, &self.class);
        (0..self.count).map(spec).collect()
    }
}

impl Running {
    fn judge(&self) -> anyhow::Result<Box<dyn Judge>> {
        Ok(match &self.bin {
            Some(bin) => Box::new(Executable::new(bin)?),
            None => Box::new(InProcess),
        })
    }

    fn fresh(&self, which: &Which) -> anyhow::Result<Vec<Evaluated>> {
        Ok(evaluate_all(&*self.judge()?, &which.specs(), self.at_once))
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

fn main() -> ExitCode {
    match work(Arguments::parse().command) {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(e) => {
            eprintln!("{e:#}");
            ExitCode::FAILURE
        }
    }
}

/// Runs a command; false when a search found a false teardown.
fn work(command: Command) -> anyhow::Result<bool> {
    match command {
        Command::Generate { out, which } => {
            let truths = generate(&out, which.seed, which.count, &which.class)?;
            println!("{} cases in {}", truths.len(), out.display());
        }
        Command::Evaluate {
            running,
            set,
            regressions,
            which,
            list,
        } => {
            let judge = running.judge()?;
            let all = if let Some(set) = set {
                let truths = read_truths(&set.join("truth"))?;
                evaluate_set(&*judge, &set, &truths, running.at_once)
            } else if regressions.is_empty() {
                evaluate_all(&*judge, &which.specs(), running.at_once)
            } else {
                let read = regressions.iter().map(|f| CaseSpec::read(f));
                let specs: Vec<CaseSpec> = read.collect::<Result<_, _>>()?;
                evaluate_all(&*judge, &specs, running.at_once)
            };
            if list {
                println!("{}", summary::not_right(&all));
            }
            running.print(&summary::markdown(&all))?;
        }
        Command::Calibrate { running, which } => {
            let file = sentinels::package().join("checked.toml");
            let text = std::fs::read_to_string(&file)
                .with_context(|| format!("cannot read {}", file.display()))?;
            let checked = calibrate::checked(&text)
                .with_context(|| format!("{} cannot be used", file.display()))?;
            running.print(&calibrate::markdown(&running.fresh(&which)?, &checked))?;
        }
        Command::Table {
            running,
            seed,
            count,
        } => {
            let specs: Vec<CaseSpec> = (0..count)
                .map(|i| CaseSpec::numbered(seed, i, &[]))
                .collect();
            let judge = running.judge()?;
            let all = evaluate_all(&*judge, &specs, running.at_once);
            let sentinels = sentinels::evaluate(&*judge, running.at_once)?;
            let file = sentinels::package().join("TABLE.md");
            std::fs::write(&file, sentinels::table_file(seed, &all, &sentinels))
                .with_context(|| format!("cannot write {}", file.display()))?;
            println!("{}", file.display());
        }
        Command::Search {
            running,
            which,
            climbs,
            steps,
            worst,
            keep,
        } => {
            let extent = Extent {
                seed: which.seed,
                random: which.count,
                climbs,
                steps,
                classes: which.class,
                at_once: running.at_once,
            };
            let found = search::search(&*running.judge()?, &extent);
            running.print(&search::markdown(&found, worst))?;
            if let Some(folder) = keep {
                std::fs::create_dir_all(&folder)?;
                for spec in search::regressions(&found) {
                    let file = folder.join(format!("{}.toml", spec.class));
                    std::fs::write(&file, toml::to_string(&spec)?)
                        .with_context(|| format!("cannot write {}", file.display()))?;
                }
            }
            return Ok(!search::false_teardown(&found));
        }
    }
    Ok(true)
}
