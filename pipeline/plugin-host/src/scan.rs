//! Loads every library that may hold plugins, each in a worker of its own, and keeps those that describe themselves.

use crate::crash_log::CrashLog;
use crate::discovery::{Candidate, VARIABLE, candidates};
use crate::host::HostOptions;
use crate::info::{LibraryInfo, RefusedLibrary};
use crate::library::{Library, file_hash};
use crate::names::BuiltInNames;
use crate::pins;
use crate::process::WorkerError;
use crate::runner::{Need, Runner, SCAN_TIME};
use crate::sandbox::Sandbox;
use crate::scheduler::feeds;
use crate::trust::distrust;
use crate::wire::Described;
use plugin_abi::LibraryDeclaration;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::time::Instant;

/// Result of a scan.
#[derive(Default)]
pub(crate) struct Found {
    /// In the order in which they run.
    pub(crate) libraries: Vec<(LibraryInfo, Library)>,
    pub(crate) refused: Vec<RefusedLibrary>,
    /// Confinement of the workers; `None` when none was started.
    pub(crate) sandbox: Option<Sandbox>,
}

/// A library that described itself.
struct Candidacy {
    candidate: Candidate,
    hash: String,
    declaration: LibraryDeclaration,
    runner: Runner,
}

/// Looks at all places. All libraries begin to load before the first is waited for, and all are waited for until the
/// same instant. One whose worker dies is tried once more.
pub(crate) fn scan(options: &HostOptions, crash_log: &mut CrashLog) -> Found {
    let variable = std::env::var_os(VARIABLE);
    let executable = std::env::current_exe().and_then(|e| e.canonicalize()).ok();
    let (candidates, refused) = candidates(
        variable.as_deref(),
        &options.folders,
        &options.built_in_folders,
        executable.as_deref(),
    );
    let mut found = Found {
        refused,
        ..Found::default()
    };
    let mut hashes: Vec<String> = Vec::new();
    let mut begun = Vec::new();
    for candidate in candidates {
        match file_hash(&candidate.path) {
            // A copy of one that comes before it.
            Ok(hash) if hashes.contains(&hash) => {}
            Ok(hash) => {
                hashes.push(hash.clone());
                if let Some(why) = forbidden(&candidate.path, &hash, crash_log) {
                    found.refuse(&candidate, why);
                    continue;
                }
                let runner = begin(&candidate, options);
                begun.push((candidate, hash, runner));
            }
            Err(e) => found.refuse(&candidate, format!("it cannot be read: {e}")),
        }
    }
    let until = || Instant::now().checked_add(SCAN_TIME.min(options.deadline));
    let first = until();
    let mut described = Vec::new();
    for (candidate, hash, runner) in begun {
        let mut loaded = runner.and_then(|runner| end(runner, first));
        if let Err(WorkerError::Crashed { .. }) = loaded {
            loaded = begin(&candidate, options).and_then(|runner| end(runner, until()));
        }
        match loaded {
            Ok((answer, runner)) => {
                crash_log.loaded(&hash);
                found.sandbox = found.sandbox.or(answer.sandbox);
                match answer.library {
                    Ok(declaration) => described.push(Candidacy {
                        candidate,
                        hash,
                        declaration,
                        runner,
                    }),
                    Err(reason) => found.refuse(&candidate, reason),
                }
            }
            Err(error) => {
                if !matches!(error, WorkerError::Unreachable(_)) {
                    crash_log.crashed_while_loading(&hash);
                }
                found.refused.push(RefusedLibrary {
                    path: candidate.path,
                    reason: while_loading(error),
                    transient: true,
                });
            }
        }
    }
    found.admit(described);
    found
}

/// Why a library must not even be loaded.
fn forbidden(path: &Path, hash: &str, crash_log: &CrashLog) -> Option<String> {
    distrust(path)
        .or_else(|| pins::refusal(path, hash))
        .or_else(|| {
            let crashes = crash_log.never_loads(hash)?;
            let path = path.display();
            Some(format!(
                "it (SHA-256 {hash}) crashed or ran out of time {crashes} times in a row while it was loaded and is \
                 quarantined; another build of it is tried again, and so is this one after `baybrief plugins \
                 --unquarantine {path}`"
            ))
        })
}

fn begin(candidate: &Candidate, options: &HostOptions) -> Result<Runner, WorkerError> {
    let need = Need {
        memory: options.memory_limit_bytes,
        samples: 0,
        in_process: options.in_process,
    };
    let mut runner = Runner::start(&candidate.path, need)?;
    runner.begin_describe()?;
    Ok(runner)
}

fn end(mut runner: Runner, until: Option<Instant>) -> Result<(Described, Runner), WorkerError> {
    Ok((runner.end_describe(until)?, runner))
}

fn while_loading(error: WorkerError) -> String {
    match error {
        WorkerError::Crashed { how, output } => {
            format!("it crashed while it was loaded: {how}{output}")
        }
        WorkerError::OutOfMemory { output } => {
            format!("it needs more memory than it may have{output}")
        }
        WorkerError::TimedOut { output } => format!("it did not finish loading{output}"),
        WorkerError::Unreachable(reason) => reason,
    }
}

impl Found {
    fn refuse(&mut self, candidate: &Candidate, reason: String) {
        self.refused.push(RefusedLibrary {
            path: candidate.path.clone(),
            reason,
            transient: false,
        });
    }

    /// Takes in the libraries whose names no other has: first the built-in ones, then the others in their order.
    fn admit(&mut self, described: Vec<Candidacy>) {
        let (built_in, foreign): (Vec<_>, Vec<_>) =
            described.into_iter().partition(|d| d.candidate.built_in);
        let mut names = BuiltInNames::default();
        for one in built_in {
            match names.add(&one.declaration) {
                Ok(()) => self.keep(one, false),
                // An older build beside a newer one is no news.
                Err(_) if self.has_system(&one.declaration.system) => {}
                Err(clash) => self.refuse(&one.candidate, clash),
            }
        }
        for one in foreign {
            let declared = &one.declaration;
            let clash = names.clash(declared).or_else(|| self.clash(declared));
            match clash {
                None => self.keep(one, true),
                Some(clash) if one.candidate.named => self.refuse(&one.candidate, clash),
                Some(_) => {}
            }
        }
        self.put_in_order();
    }

    fn has_system(&self, system: &str) -> bool {
        let mut systems = self.libraries.iter().map(|(i, _)| &i.declaration.system);
        systems.any(|s| s == system)
    }

    /// A system or an analyzer that a library before it has.
    fn clash(&self, declared: &LibraryDeclaration) -> Option<String> {
        let taken = |what: &str, name: &str, info: &LibraryInfo| {
            let path = info.path.display();
            format!("its {what} {name} is already provided by {path}")
        };
        self.libraries.iter().find_map(|(info, _)| {
            let known = &info.declaration;
            if known.system == declared.system {
                return Some(taken("system", &declared.system, info));
            }
            let ids = declared.analyzers.iter().map(|a| &a.id);
            let mut both = ids.filter(|id| known.analyzers.iter().any(|a| a.id == **id));
            both.next().map(|id| taken("analyzer", id, info))
        })
    }

    fn keep(&mut self, one: Candidacy, foreign: bool) {
        let info = LibraryInfo {
            declaration: one.declaration,
            path: one.candidate.path.clone(),
            sha256: one.hash.clone(),
            foreign,
        };
        let library = Library {
            path: one.candidate.path,
            sha256: one.hash,
            runner: Some(one.runner),
        };
        self.libraries.push((info, library));
    }

    /// Each after those whose series it reads, else built-in ones first, those that others read before the rest, by
    /// system; those that wait for each other by system. The findings' ids must not depend on when libraries were built.
    fn put_in_order(&mut self) {
        let mut rest = std::mem::take(&mut self.libraries);
        let is_read = |l: &LibraryInfo| {
            let mut others = rest.iter().map(|(other, _)| other);
            others.any(|o| o.declaration.system != l.declaration.system && feeds(l, o))
        };
        let key = |l: &LibraryInfo| (l.foreign, !is_read(l), l.declaration.system.clone());
        let keys: BTreeMap<PathBuf, _> =
            rest.iter().map(|(l, _)| (l.path.clone(), key(l))).collect();
        rest.sort_by(|(a, _), (b, _)| keys.get(&a.path).cmp(&keys.get(&b.path)));
        while !rest.is_empty() {
            let waits = |own: &LibraryInfo| {
                let mut others = rest.iter().map(|(other, _)| other);
                others.any(|o| o.declaration.system != own.declaration.system && feeds(o, own))
            };
            let next = rest.iter().position(|(info, _)| !waits(info)).unwrap_or(0);
            self.libraries.push(rest.remove(next));
        }
    }
}
