//! Loads every library that may hold plugins, each in a worker of its own, and keeps those that describe themselves.

use crate::discovery::{Candidate, VARIABLE, candidates};
use crate::host::HostOptions;
use crate::info::{Description, PluginInfo, RefusedLibrary};
use crate::installed::{Installed, file_hash};
use crate::order::in_order;
use crate::pins;
use crate::process::Death;
use crate::record::{LOADING, Record};
use crate::runner::{Runner, SCAN_TIME};
use crate::trust::distrust;
use crate::walls::Walls;
use std::path::Path;
use std::time::Instant;

/// What a scan found.
#[derive(Default)]
pub(crate) struct Found {
    pub(crate) libraries: Vec<Installed>,
    /// Each with its library's number and its index in that; in the order in which they run.
    pub(crate) plugins: Vec<(PluginInfo, (usize, u32))>,
    pub(crate) refused: Vec<RefusedLibrary>,
    /// What stands around the workers; `None` when none was started.
    pub(crate) walls: Option<Walls>,
}

/// Looks at all places. All libraries begin to load before the first is waited for, and all are waited for until the
/// same instant.
pub(crate) fn scan(options: &HostOptions, record: &mut Record) -> Found {
    let variable = std::env::var_os(VARIABLE);
    let executable = std::env::current_exe().and_then(|e| e.canonicalize()).ok();
    let (candidates, refused) =
        candidates(variable.as_deref(), &options.folders, executable.as_deref());
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
                if let Some(why) = forbidden(&candidate.path, &hash, record) {
                    found.refuse(&candidate, why);
                    continue;
                }
                let runner = begin(&candidate, options);
                begun.push((candidate, hash, runner));
            }
            Err(e) => found.refuse(&candidate, format!("it cannot be read: {e}")),
        }
    }
    let until = Instant::now().checked_add(SCAN_TIME.min(options.deadline));
    for (candidate, hash, runner) in begun {
        let described = runner.and_then(|mut runner| Ok((runner.end_describe(until)?, runner)));
        match described {
            Ok((described, runner)) => {
                record.ended_well(&hash, LOADING);
                found.walls = found.walls.or(described.walls);
                match described.plugins {
                    Ok(plugins) => found.admit(&candidate, &hash, plugins, runner),
                    Err(reason) => found.refuse(&candidate, reason),
                }
            }
            Err(death) => {
                if !matches!(death, Death::Unreachable(_)) {
                    record.crashed(&hash, LOADING);
                }
                found.refuse(&candidate, while_loading(death));
            }
        }
    }
    // The findings' ids must not hang on when plugins were built.
    found.plugins = in_order(found.plugins);
    found
}

/// Why a library must not even be loaded.
fn forbidden(path: &Path, hash: &str, record: &Record) -> Option<String> {
    distrust(path)
        .or_else(|| pins::refusal(path, hash))
        .or_else(|| {
            let crashes = record.set_aside(hash)?;
            let path = path.display();
            record.never_loads(hash).then(|| {
                format!(
                    "it (BLAKE3 {hash}) crashed or ran out of time {crashes} times in a row while it was loaded and is \
                     set aside; another build of it is tried again, and so is this one after `baybrief plugins \
                     --bring-back {path}`"
                )
            })
        })
}

fn begin(candidate: &Candidate, options: &HostOptions) -> Result<Runner, Death> {
    let memory = options.memory_limit_bytes;
    let mut runner = Runner::start(&candidate.path, memory, options.in_process)?;
    runner.begin_describe()?;
    Ok(runner)
}

fn while_loading(death: Death) -> String {
    match death {
        Death::Crashed { how, noise } => format!("it crashed while it was loaded: {how}{noise}"),
        Death::TimedOut { noise } => format!("it did not finish loading{noise}"),
        Death::Unreachable(reason) => reason,
    }
}

impl Found {
    fn refuse(&mut self, candidate: &Candidate, reason: String) {
        self.refused.push(RefusedLibrary {
            path: candidate.path.clone(),
            reason,
        });
    }

    /// Takes in the plugins of a library that none before it has.
    fn admit(
        &mut self,
        candidate: &Candidate,
        hash: &str,
        described: Vec<Description>,
        runner: Runner,
    ) {
        let library = self.libraries.len();
        let before = self.plugins.len();
        for (index, d) in (0u32..).zip(described) {
            let first = self.plugins.iter().find(|(p, _)| p.id == d.id);
            let Some((first, _)) = first else {
                self.plugins
                    .push((info(d, candidate, hash), (library, index)));
                continue;
            };
            if candidate.named {
                let first = first.path.display();
                self.refuse(
                    candidate,
                    format!("its plugin {} is already provided by {first}", d.id),
                );
            }
        }
        if self.plugins.len() > before {
            self.libraries.push(Installed {
                path: candidate.path.clone(),
                blake3: hash.into(),
                runner: Some(runner),
            });
        }
    }
}

fn info(d: Description, candidate: &Candidate, hash: &str) -> PluginInfo {
    PluginInfo {
        id: d.id,
        name: d.name,
        version: d.version,
        vendor: d.vendor,
        path: candidate.path.clone(),
        blake3: hash.into(),
        scope: d.scope,
        needs: d.needs,
        uses: d.uses,
        gives: d.gives,
        takes: d.takes,
        texts: d.texts,
    }
}
