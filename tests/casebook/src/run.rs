//! Runs the program under test over a folder of cases, a few at a time.

use crate::score::{self, CodeCount, Number, Outcome};
use crate::truth::Truth;
use anyhow::Context;
use model::Case;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::{Duration, Instant};

/// Longest time for one case.
const LIMIT: Duration = Duration::from_secs(60);

/// One case as it was judged.
#[derive(Debug, Clone)]
pub struct Judged {
    /// What is true of it.
    pub truth: Truth,
    /// What the program wrote; `None` when it wrote nothing readable.
    pub case: Option<Case>,
    /// How the verdict stands.
    pub outcome: Outcome,
    /// The wanted numbers.
    pub numbers: Vec<Number>,
    /// Claims that would be false, and how many of them were made.
    pub false_claims: (usize, usize),
    /// The codes.
    pub codes: CodeCount,
    /// What else was wrong.
    pub problems: Vec<String>,
    /// Time that it took, s.
    pub seconds: f64,
}

/// Reads every truth in a folder, in the order of their names.
pub fn read_truths(folder: &Path) -> anyhow::Result<Vec<Truth>> {
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder)
        .with_context(|| format!("cannot list {}", folder.display()))?
        .map(|e| e.map(|e| e.path()))
        .collect::<Result<_, _>>()?;
    files.retain(|f| f.extension().is_some_and(|e| e == "json"));
    files.sort();
    let read = |f: &PathBuf| -> anyhow::Result<Truth> {
        let text = std::fs::read(f).with_context(|| format!("cannot read {}", f.display()))?;
        serde_json::from_slice(&text).with_context(|| format!("{} is no truth file", f.display()))
    };
    files.iter().map(read).collect()
}

/// Runs `bin` over the cases of `set` (`set/cases/NAME`), `at_once` at a time, and judges what it writes.
pub fn run_all(bin: &Path, set: &Path, truths: &[Truth], at_once: usize) -> Vec<Judged> {
    let next = AtomicUsize::new(0);
    let done: Mutex<Vec<(usize, Judged)>> = Mutex::new(Vec::new());
    std::thread::scope(|scope| {
        for _ in 0..at_once.max(1) {
            scope.spawn(|| {
                while let Some((i, truth)) = {
                    let i = next.fetch_add(1, Ordering::Relaxed);
                    truths.get(i).map(|t| (i, t))
                } {
                    let judged = run_one(bin, &set.join("cases").join(&truth.case), truth);
                    if let Ok(mut all) = done.lock() {
                        all.push((i, judged));
                    }
                }
            });
        }
    });
    let mut all = done.into_inner().unwrap_or_else(|e| e.into_inner());
    all.sort_by_key(|(i, _)| *i);
    all.into_iter().map(|(_, j)| j).collect()
}

fn run_one(bin: &Path, folder: &Path, truth: &Truth) -> Judged {
    let start = Instant::now();
    let mut problems = Vec::new();
    let case = match tempfile::tempdir() {
        Err(e) => {
            problems.push(format!("no temporary folder: {e}"));
            None
        }
        Ok(out) => {
            if let Err(e) = call(bin, folder, out.path()) {
                problems.push(format!("{e:#}"));
            }
            let written = out.path().join(&truth.case);
            look_at_papers(&written, &mut problems);
            match read_case(&written.join("case.json")) {
                Ok(case) => Some(case),
                Err(e) => {
                    problems.push(format!("{e:#}"));
                    None
                }
            }
        }
    };
    let seconds = start.elapsed().as_secs_f64();
    let crashed = problems.iter().any(|p| p.starts_with(CRASH));
    judge(truth, case, crashed, problems, seconds)
}

/// Judges one case; for a program that crashed the verdict does not count.
pub fn judge(
    truth: &Truth,
    case: Option<Case>,
    crashed: bool,
    problems: Vec<String>,
    seconds: f64,
) -> Judged {
    let findings = case.as_ref().map_or(&[][..], |c| &c.findings);
    let outcome = match &case {
        Some(c) if !crashed => score::judge(truth, c),
        _ => Outcome::Crashed,
    };
    let numbers = truth
        .measures
        .iter()
        .flat_map(|m| score::numbers(m, findings))
        .collect();
    let made = truth
        .forbidden_findings
        .iter()
        .filter(|f| score::claimed(f, findings))
        .count();
    let codes = score::codes(&truth.codes, case.as_ref().map_or(&[], |c| &c.codes));
    Judged {
        truth: truth.clone(),
        outcome,
        numbers,
        false_claims: (truth.forbidden_findings.len(), made),
        codes,
        problems,
        seconds,
        case,
    }
}

/// How a crash's problem begins.
const CRASH: &str = "the program";

/// Calls the program and waits for its end, with its messages in a file so that no pipe can fill.
fn call(bin: &Path, folder: &Path, out: &Path) -> anyhow::Result<()> {
    let messages = out.join(".messages");
    let mut child = Command::new(bin)
        .arg("run")
        .arg(folder)
        .arg("--out")
        .arg(out)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(std::fs::File::create(&messages)?)
        .spawn()
        .with_context(|| format!("{CRASH} {} cannot be started", bin.display()))?;
    let start = Instant::now();
    let status = loop {
        if let Some(status) = child.try_wait()? {
            break status;
        }
        if start.elapsed() > LIMIT {
            child.kill().ok();
            child.wait()?;
            anyhow::bail!("{CRASH} had not ended after {} s", LIMIT.as_secs());
        }
        std::thread::sleep(Duration::from_millis(10));
    };
    let said = String::from_utf8_lossy(&std::fs::read(&messages)?).into_owned();
    anyhow::ensure!(!said.contains("panicked"), "{CRASH} panicked");
    let legal = matches!(status.code(), Some(0..=2));
    anyhow::ensure!(legal, "{CRASH} ended with {status}");
    Ok(())
}

fn read_case(file: &Path) -> anyhow::Result<Case> {
    let text = std::fs::read(file).with_context(|| format!("no {}", name(file)))?;
    serde_json::from_slice(&text).with_context(|| format!("{} cannot be read", name(file)))
}

fn look_at_papers(folder: &Path, problems: &mut Vec<String>) {
    let report = std::fs::read(folder.join("report.pdf")).unwrap_or_default();
    if !report.starts_with(b"%PDF") {
        problems.push("report.pdf is missing or no PDF".into());
    }
    if !folder.join("labour.csv").is_file() {
        problems.push("labour.csv is missing".into());
    }
}

fn name(file: &Path) -> String {
    file.file_name()
        .map(|n| n.to_string_lossy().into_owned())
        .unwrap_or_default()
}
