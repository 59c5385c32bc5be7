//! Runs a program over cases, a few at a time, and compares its answers with the truth.

use crate::case::{CaseSpec, case_name};
use crate::program::{Answer, Program};
use crate::said::Said;
use crate::score::{self, CodeCount, Number, Outcome};
use crate::truth::Truth;
use anyhow::Context;
use std::path::{Path, PathBuf};
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

/// One evaluated case.
#[derive(Debug, Clone)]
pub struct Evaluated {
    /// The case; `None` where it came from a folder.
    pub spec: Option<CaseSpec>,
    /// Digest of its files; 0 where it came from a folder.
    pub digest: u64,
    /// Its truth.
    pub truth: Truth,
    /// Program's answer; `None` where nothing readable was.
    pub said: Option<Said>,
    /// Relation of the verdict to the truth.
    pub outcome: Outcome,
    /// The wanted numbers.
    pub numbers: Vec<Number>,
    /// Claims that would be false, and how many of them were made.
    pub false_claims: (usize, usize),
    /// Causes listed as tested that nothing tested.
    pub false_clearances: Vec<String>,
    /// Files that can be read and were refused.
    pub refused: Vec<String>,
    /// The codes.
    pub codes: CodeCount,
    /// Other faults.
    pub problems: Vec<String>,
    /// Time that it took, s.
    pub seconds: f64,
}

/// Compares an answer with the truth.
pub fn compare(truth: Truth, answer: Answer) -> Evaluated {
    let mut problems = answer.problems;
    let (said, outcome) = match answer.said {
        Ok(said) => {
            let outcome = score::outcome(&truth, &said);
            (said, outcome)
        }
        Err(e) => {
            problems.push(e);
            (Said::default(), Outcome::Crashed)
        }
    };
    let (refused, unsaid) = match outcome {
        Outcome::Crashed => Default::default(),
        _ => score::file_faults(&truth, &said),
    };
    problems.extend(unsaid);
    let made = truth
        .forbidden_findings
        .iter()
        .filter(|f| score::claimed(f, &said.findings))
        .count();
    let clearances = score::false_clearances(&truth, &said);
    Evaluated {
        spec: None,
        digest: 0,
        outcome,
        numbers: truth
            .measures
            .iter()
            .flat_map(|m| score::numbers(m, &said.findings))
            .collect(),
        false_claims: (truth.forbidden_findings.len(), made),
        false_clearances: clearances.iter().map(|c| c.to_string()).collect(),
        refused,
        codes: score::codes(&truth.codes, &said.codes),
        problems,
        seconds: answer.seconds,
        said: (outcome != Outcome::Crashed).then_some(said),
        truth,
    }
}

fn evaluate_one(program: &dyn Program, spec: &CaseSpec, name: &str) -> Evaluated {
    let case = spec.make(name);
    let answer = (|| -> anyhow::Result<Answer> {
        let folder = tempfile::tempdir().context("no temporary folder")?;
        let job = folder.path().join(name);
        case.folder
            .write(&job)
            .with_context(|| format!("cannot write {}", job.display()))?;
        Ok(program.run(&job))
    })();
    let answer = answer.unwrap_or_else(|e| Answer {
        said: Err(format!("{e:#}")),
        problems: Vec::new(),
        seconds: 0.0,
    });
    Evaluated {
        spec: Some(spec.clone()),
        digest: case.digest(),
        ..compare(case.truth, answer)
    }
}

/// A program at work on many cases.
#[derive(Clone, Copy)]
pub struct Runner<'a> {
    /// The program under test.
    pub program: &'a dyn Program,
    /// Cases at once.
    pub at_once: usize,
    /// Is told of every case that is done, in no order.
    pub on_done: &'a (dyn Fn(&Evaluated) + Sync),
}

impl Runner<'_> {
    /// Makes a case in a temporary folder, has it judged and compares.
    pub fn evaluate_one(&self, spec: &CaseSpec, name: &str) -> Evaluated {
        let evaluated = evaluate_one(self.program, spec, name);
        (self.on_done)(&evaluated);
        evaluated
    }

    /// Evaluates cases; the results are in the cases' order.
    pub fn evaluate_all(&self, specs: &[CaseSpec]) -> Vec<Evaluated> {
        in_parallel(specs.len(), self.at_once, |i| {
            self.evaluate_one(&specs[i], &case_name(i))
        })
    }

    /// Evaluates cases that lie in `set/cases/NAME` with their truths.
    pub fn evaluate_set(&self, set: &Path, truths: &[Truth]) -> Vec<Evaluated> {
        in_parallel(truths.len(), self.at_once, |i| {
            let folder = set.join("cases").join(&truths[i].case);
            let evaluated = compare(truths[i].clone(), self.program.run(&folder));
            (self.on_done)(&evaluated);
            evaluated
        })
    }
}

/// The results of `work` for 0 to `count`, worked out by `at_once` threads, in order.
pub fn in_parallel<T: Send>(
    count: usize,
    at_once: usize,
    work: impl Fn(usize) -> T + Sync,
) -> Vec<T> {
    let next = AtomicUsize::new(0);
    let done: Mutex<Vec<(usize, T)>> = Mutex::new(Vec::new());
    std::thread::scope(|scope| {
        for _ in 0..at_once.max(1) {
            scope.spawn(|| {
                loop {
                    let i = next.fetch_add(1, Ordering::Relaxed);
                    if i >= count {
                        break;
                    }
                    let result = work(i);
                    if let Ok(mut all) = done.lock() {
                        all.push((i, result));
                    }
                }
            });
        }
    });
    let mut all = done.into_inner().unwrap_or_else(|e| e.into_inner());
    all.sort_by_key(|(i, _)| *i);
    all.into_iter().map(|(_, result)| result).collect()
}

/// Reads every truth in a folder, in the order of their names.
///
/// # Errors
/// A folder that cannot be listed, or a file that is no truth.
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
