//! The program under test, behind a small interface: a job folder goes in, an answer comes out.

use crate::said::Said;
use anyhow::Context;
use baybrief::AppContext;
use std::cell::RefCell;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// Longest time for one case.
const LIMIT: Duration = Duration::from_secs(60);

/// The outcome of one job.
#[derive(Debug, Clone)]
pub struct Answer {
    /// Program's answer; an error where the program crashed or left nothing readable.
    pub said: Result<Said, String>,
    /// Faults of the papers beside case.json.
    pub problems: Vec<String>,
    /// Time that it took, s.
    pub seconds: f64,
}

/// A program that examines job folders.
pub trait Program: Sync {
    /// Examines the job in `folder`.
    fn run(&self, folder: &Path) -> Answer;
}

/// The program's library in this process: the same acquire, derive, detect and assess, without reports. Thousands of
/// jobs can be examined so.
///
/// The plugins run in their worker processes all the same, with their limits of time and memory; the executable must
/// call [`baybrief::worker_entry`] first.
pub struct InProcess;

thread_local! {
    /// Plugins, knowledge and settings, opened once a thread.
    static CONTEXT: RefCell<Option<AppContext>> = const { RefCell::new(None) };
}

impl Program for InProcess {
    fn run(&self, folder: &Path) -> Answer {
        let start = Instant::now();
        let said = CONTEXT.with_borrow_mut(|kept| {
            let judged = catch_unwind(AssertUnwindSafe(|| examine(folder, kept)));
            judged.unwrap_or_else(|_| {
                // What a panic leaves behind is not used again.
                *kept = None;
                anyhow::bail!("the program panicked")
            })
        });
        Answer {
            said: said.map_err(|e| format!("{e:#}")),
            problems: Vec::new(),
            seconds: start.elapsed().as_secs_f64(),
        }
    }
}

fn examine(folder: &Path, kept: &mut Option<AppContext>) -> anyhow::Result<Said> {
    let context = match kept {
        Some(context) => context,
        None => {
            let opened = AppContext::open(None, false)?;
            anyhow::ensure!(
                !opened.host.libraries().is_empty(),
                "no plugin library beside this executable; build the plugins first"
            );
            kept.insert(opened)
        }
    };
    let case = baybrief::job::examine_folder(folder, context)?;
    Said::parse(&serde_json::to_vec(&case)?)
}

/// An executable: `BIN run FOLDER --out TEMPORARY`, one process a job.
pub struct Executable {
    bin: PathBuf,
}

impl Executable {
    /// The executable of a path.
    ///
    /// # Errors
    /// A path that does not exist.
    pub fn new(bin: &Path) -> anyhow::Result<Self> {
        let bin = std::fs::canonicalize(bin)
            .with_context(|| format!("no executable {}", bin.display()))?;
        Ok(Executable { bin })
    }
}

impl Program for Executable {
    fn run(&self, folder: &Path) -> Answer {
        let start = Instant::now();
        let mut problems = Vec::new();
        let said = self.run(folder, &mut problems);
        Answer {
            said: said.map_err(|e| format!("{e:#}")),
            problems,
            seconds: start.elapsed().as_secs_f64(),
        }
    }
}

impl Executable {
    fn run(&self, folder: &Path, problems: &mut Vec<String>) -> anyhow::Result<Said> {
        let out = tempfile::tempdir().context("no temporary folder")?;
        self.call(folder, out.path())?;
        let name = folder.file_name().context("a job folder has a name")?;
        let job = out.path().join(name);
        let text = std::fs::read(job.join("case.json")).context("no case.json")?;
        let said = Said::parse(&text).context("case.json cannot be read")?;
        let report = std::fs::read(job.join("report.pdf")).unwrap_or_default();
        if !report.starts_with(b"%PDF") {
            problems.push("report.pdf is missing or no PDF".into());
        }
        if !job.join("labour.csv").is_file() {
            problems.push("labour.csv is missing".into());
        }
        Ok(said)
    }

    /// Calls the program and waits for its end, with its messages in a file so that no pipe can fill.
    fn call(&self, folder: &Path, out: &Path) -> anyhow::Result<()> {
        let messages = out.join(".messages");
        let mut child = Command::new(&self.bin)
            .arg("run")
            .arg(folder)
            .arg("--out")
            .arg(out)
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(std::fs::File::create(&messages)?)
            .spawn()
            .with_context(|| format!("{} cannot be started", self.bin.display()))?;
        let start = Instant::now();
        let status = loop {
            if let Some(status) = child.try_wait()? {
                break status;
            }
            if start.elapsed() > LIMIT {
                child.kill().ok();
                child.wait()?;
                anyhow::bail!("no end after {} s", LIMIT.as_secs());
            }
            std::thread::sleep(Duration::from_millis(5));
        };
        let said = String::from_utf8_lossy(&std::fs::read(&messages)?).into_owned();
        anyhow::ensure!(!said.contains("panicked"), "the program panicked");
        let legal = matches!(status.code(), Some(0..=2));
        anyhow::ensure!(legal, "the program ended with {status}");
        Ok(())
    }
}
