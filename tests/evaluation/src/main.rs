//! Makes labelled cases, evaluates the program on them, searches for cases that defeat it, proposes weights of evidence.

use anyhow::Context;
use baybrief_evaluation::case::{CaseSpec, generate};
use baybrief_evaluation::evaluate::{Evaluated, Runner, read_truths};
use baybrief_evaluation::program::{Executable, InProcess, Program};
use baybrief_evaluation::search::{self, Extent};
use baybrief_evaluation::{calibrate, classes, learning, sentinels, summary, systems};
use clap::{Args, Parser, Subcommand};
use std::path::PathBuf;
use std::process::ExitCode;
use std::sync::atomic::{AtomicUsize, Ordering};

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
    /// Write SYSTEMS.md: an evaluation of the further systems
    Systems {
        #[command(flatten)]
        running: Running,
        /// Seed of the cases
        #[arg(long, default_value_t = 1)]
        seed: u64,
        /// Number of cases; the classes take turns
        #[arg(long, default_value_t = 300)]
        count: usize,
    },
    /// Let a shop learn from simulated jobs of a unit whose sheet is wrong, and print the curve
    Learning {
        /// Seed of the jobs
        #[arg(long, default_value_t = 1)]
        seed: u64,
        /// Number of jobs
        #[arg(long, default_value_t = 200)]
        jobs: usize,
        /// Number of fresh cases that each change of the limits is tried on
        #[arg(long, default_value_t = 80)]
        probes: usize,
        /// A folder with cases/ and truth/ whose cases each change is tried on as well
        #[arg(long)]
        set: Option<PathBuf>,
        /// Cases at once
        #[arg(long, default_value_t = 2)]
        at_once: usize,
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
        /// Number of the worst cases to print
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
    /// Regression cases (TOML files with class, seed and overrides) instead of fresh cases
    #[arg(long, num_args = 1..)]
    regressions: Vec<PathBuf>,
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
    /// An executable to evaluate, one process a case; else the library in this process, without reports
    #[arg(long)]
    bin: Option<PathBuf>,
    /// Cases at once
    #[arg(long, default_value_t = 2)]
    at_once: usize,
    /// Write the tables into this file as well
    #[arg(long)]
    markdown: Option<PathBuf>,
    /// Name every case on standard error as it is done
    #[arg(long)]
    verbose: bool,
}

impl Which {
    fn specs(&self) -> anyhow::Result<Vec<CaseSpec>> {
        if !self.regressions.is_empty() {
            return self.regressions.iter().map(|f| CaseSpec::read(f)).collect();
        }
        let spec = |i| CaseSpec::numbered(self.seed, i, &self.class);
        Ok((0..self.count).map(spec).collect())
    }
}

impl Running {
    /// Does some work with the program.
    fn with<T>(&self, work: impl FnOnce(Runner) -> anyhow::Result<T>) -> anyhow::Result<T> {
        let program: Box<dyn Program> = match &self.bin {
            Some(bin) => Box::new(Executable::new(bin)?),
            None => Box::new(InProcess),
        };
        let done = AtomicUsize::new(0);
        let on_done = |e: &Evaluated| {
            let number = done.fetch_add(1, Ordering::Relaxed) + 1;
            if self.verbose {
                let seed = e.spec.as_ref().map_or(0, |s| s.seed);
                let (class, outcome) = (&e.truth.class, e.outcome.heading());
                eprintln!("{number} {class} {seed}: {outcome}, {:.2} s", e.seconds);
            }
        };
        work(Runner {
            program: &*program,
            at_once: self.at_once,
            on_done: &on_done,
        })
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
    // A plugin's worker process is this executable too.
    if let Some(code) = baybrief::worker_entry() {
        return code;
    }
    match work(Arguments::parse().command) {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(e) => {
            eprintln!("{e:#}");
            ExitCode::FAILURE
        }
    }
}

/// Runs a command; false when a search found a false teardown, or a case came to no verdict.
fn work(command: Command) -> anyhow::Result<bool> {
    match command {
        Command::Generate { out, which } => {
            let specs = which.specs()?;
            generate(&out, &specs)?;
            println!("{} cases in {}", specs.len(), out.display());
        }
        Command::Evaluate {
            running,
            set,
            which,
            list,
        } => {
            let all = running.with(|runner| {
                if let Some(set) = set {
                    let truths = read_truths(&set.join("truth"))?;
                    return Ok(runner.evaluate_set(&set, &truths));
                }
                Ok(runner.evaluate_all(&which.specs()?))
            })?;
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
            let all = running.with(|runner| Ok(runner.evaluate_all(&which.specs()?)))?;
            running.print(&calibrate::markdown(&all, &checked))?;
        }
        Command::Table {
            running,
            seed,
            count,
        } => {
            let specs: Vec<CaseSpec> = (0..count)
                .map(|i| CaseSpec::numbered(seed, i, &[]))
                .collect();
            let (all, sentinels) = running
                .with(|runner| Ok((runner.evaluate_all(&specs), sentinels::evaluate(runner)?)))?;
            let file = sentinels::package().join("TABLE.md");
            std::fs::write(&file, sentinels::table_file(seed, &all, &sentinels))
                .with_context(|| format!("cannot write {}", file.display()))?;
            println!("{}", file.display());
        }
        Command::Systems {
            running,
            seed,
            count,
        } => {
            let specs: Vec<CaseSpec> = (0..count).map(|i| CaseSpec::of_systems(seed, i)).collect();
            let all = running.with(|runner| Ok(runner.evaluate_all(&specs)))?;
            let file = sentinels::package().join("SYSTEMS.md");
            let head = format!(
                "# Evaluation of the further systems\n\nWritten by `cargo run --release -p baybrief-evaluation -- systems`; \
                 never edited. {count} cases of seed {seed}.\n\n"
            );
            std::fs::write(&file, head + &systems::markdown(&all))
                .with_context(|| format!("cannot write {}", file.display()))?;
            println!("{}", file.display());
            println!("{}", summary::not_right(&all));
        }
        Command::Learning {
            seed,
            jobs,
            probes,
            set,
            at_once,
        } => {
            let learned = learning::run(&learning::Extent {
                seed,
                jobs,
                recordings: jobs,
                probes,
                set,
                steps: (0..=jobs).step_by(20).collect(),
                at_once,
            })?;
            print!("{}", learning::markdown(&learned));
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
            };
            let found = running.with(|runner| Ok(search::search(runner, &extent)))?;
            running.print(&search::markdown(&found, worst))?;
            if let Some(folder) = keep {
                std::fs::create_dir_all(&folder)?;
                for spec in search::regressions(&found) {
                    let file = folder.join(format!("{}.toml", spec.class));
                    std::fs::write(&file, toml::to_string(&spec)?)
                        .with_context(|| format!("cannot write {}", file.display()))?;
                }
            }
            return Ok(!search::has_failed(&found));
        }
    }
    Ok(true)
}
