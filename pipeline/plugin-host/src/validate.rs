//! Validates a plugin library against the interface, check by check.

mod behaviour;
mod inspection;
mod synthetic;

pub(crate) use inspection::inspect;

use crate::process::{WorkerError, WorkerProcess};
use crate::runner::SCAN_TIME;
use crate::wire::{Reply, Request};
use serde::{Deserialize, Serialize};
use std::path::Path;

/// Result of one check of a library.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CheckResult {
    /// The check's name: `loads`, `strings-utf8`, ...
    pub name: &'static str,
    /// Its result.
    pub outcome: Outcome,
    /// Observation, in a sentence.
    pub sentence: String,
}

/// Result of a check.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Outcome {
    /// As it should be.
    Pass,
    /// A rule of the interface is broken.
    Fail,
    /// No rule is broken, but users will be unhappy.
    Warn,
    /// Not run, because an earlier check failed.
    Skipped,
    /// The library ended the process.
    Crashed,
}

/// An outcome and its sentence.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Verdict {
    pub outcome: Outcome,
    pub sentence: String,
}

impl Verdict {
    fn new(outcome: Outcome, sentence: impl Into<String>) -> Verdict {
        Verdict {
            outcome,
            sentence: sentence.into(),
        }
    }

    /// The same with more to say.
    fn with_hint(mut self, hint: &str) -> Verdict {
        self.sentence.push_str(hint);
        self
    }
}

/// The checks, in the order in which they are made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) enum Check {
    Loads,
    ExportsSymbol,
    DeclarationSizes,
    StringsUtf8,
    NamesSane,
    DeclarationStable,
    EmptyCapture,
    SyntheticCapture,
    OddSamples,
    RandomCaptures,
    NeedsSuffice,
    OpensNoFile,
    OpensNoConnection,
    StartsNoProcess,
    SignalsNobody,
    KeepsItsLimits,
    CancelsInTime,
    StdoutSilent,
}

impl Check {
    /// Every check with its name.
    const ALL: [(Check, &'static str); 18] = [
        (Check::Loads, "loads"),
        (Check::ExportsSymbol, "exports-symbol"),
        (Check::DeclarationSizes, "declaration-sizes"),
        (Check::StringsUtf8, "strings-utf8"),
        (Check::NamesSane, "names-sane"),
        (Check::DeclarationStable, "declaration-stable"),
        (Check::EmptyCapture, "empty-capture"),
        (Check::SyntheticCapture, "synthetic-capture-twice"),
        (Check::OddSamples, "nan-and-infinity"),
        (Check::RandomCaptures, "random-captures"),
        (Check::NeedsSuffice, "needs-suffice"),
        (Check::OpensNoFile, "opens-no-file"),
        (Check::OpensNoConnection, "opens-no-connection"),
        (Check::StartsNoProcess, "starts-no-process"),
        (Check::SignalsNobody, "signals-nobody"),
        (Check::KeepsItsLimits, "keeps-its-limits"),
        (Check::CancelsInTime, "cancels-in-time"),
        (Check::StdoutSilent, "stdout-silent"),
    ];
}

/// Memory that a library under validation may use, bytes.
const MEMORY: u64 = 4 << 30;

/// Validates the library against the interface, in worker processes. Always every check, in the same order; those that
/// could not be made say so. The same `seed` gives the same random recordings.
pub fn validate(library: &Path, seed: u64) -> Vec<CheckResult> {
    let mut made: Vec<(Check, Verdict)> = Vec::new();
    let path = match library.canonicalize() {
        Ok(path) => path,
        Err(e) => {
            made.push((
                Check::Loads,
                Verdict::new(Outcome::Fail, format!("The file cannot be opened: {e}.")),
            ));
            return complete(made);
        }
    };
    match WorkerProcess::start(&path, MEMORY, 0, true, None) {
        Ok(mut process) => {
            inspection_of(&mut process, &mut made);
            if made
                .iter()
                .all(|(_, v)| matches!(v.outcome, Outcome::Pass | Outcome::Warn))
            {
                behaviour::checks(&path, process, seed, &mut made);
            }
        }
        Err(e) => {
            let sentence = format!("No worker process could be started: {e}.");
            made.push((Check::Loads, Verdict::new(Outcome::Skipped, sentence)));
        }
    }
    complete(made)
}

/// The checks that look at the library without running a plugin.
fn inspection_of(process: &mut WorkerProcess, made: &mut Vec<(Check, Verdict)>) {
    let asked = process.ask(&Request::Inspect, None, SCAN_TIME, &mut |event| {
        if let Reply::Checked(check, verdict) = event {
            made.push((check, verdict));
        }
    });
    let (outcome, sentence) = match asked {
        Ok(_) => return,
        Err(WorkerError::Crashed { how, output }) => (
            Outcome::Crashed,
            format!("The library ended the process: {how}{output}."),
        ),
        Err(WorkerError::OutOfMemory { output }) => (
            Outcome::Crashed,
            format!("The library needs more memory than it may have{output}."),
        ),
        Err(WorkerError::TimedOut { output }) => (
            Outcome::Fail,
            format!("No answer within {} s{output}.", SCAN_TIME.as_secs()),
        ),
        Err(WorkerError::Unreachable(reason)) => (Outcome::Skipped, format!("Not made: {reason}.")),
    };
    let mut all = Check::ALL.into_iter().map(|(check, _)| check);
    if let Some(next) = all.find(|c| !made.iter().any(|(m, _)| m == c)) {
        made.push((next, Verdict::new(outcome, sentence)));
    }
}

/// Adds those that were not made.
fn complete(mut made: Vec<(Check, Verdict)>) -> Vec<CheckResult> {
    let all = Check::ALL.into_iter().map(|(check, name)| {
        let verdict = match made.iter().position(|(m, _)| *m == check) {
            Some(i) => made.swap_remove(i).1,
            None => Verdict::new(
                Outcome::Skipped,
                "Not made, because an earlier check did not pass.",
            ),
        };
        CheckResult {
            name,
            outcome: verdict.outcome,
            sentence: verdict.sentence,
        }
    });
    all.collect()
}
