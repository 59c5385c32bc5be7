//! Loads every library that may hold plugins, each in a worker of its own, and keeps those that describe themselves.

use crate::discovery::{Candidate, VARIABLE, candidates};
use crate::host::HostOptions;
use crate::info::{Description, PluginInfo, RefusedLibrary};
use crate::installed::{Installed, file_hash};
use crate::process::Death;
use crate::runner::{Runner, SCAN_TIME};
use std::time::Instant;

/// What a scan found.
#[derive(Default)]
pub(crate) struct Found {
    pub(crate) libraries: Vec<Installed>,
    /// Each with its library's number and its index in that; by id.
    pub(crate) plugins: Vec<(PluginInfo, (usize, u32))>,
    pub(crate) refused: Vec<RefusedLibrary>,
}

/// Looks at all places. All libraries begin to load before the first is waited for, and all are waited for until the
/// same instant.
pub(crate) fn scan(options: &HostOptions) -> Found {
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
            Ok((Ok(described), runner)) => found.admit(&candidate, &hash, described, runner),
            Ok((Err(reason), _)) => found.refuse(&candidate, reason),
            Err(death) => found.refuse(&candidate, while_loading(death)),
        }
    }
    // The order in which plugins run, and with it the findings' ids, must not hang on when they were built.
    found.plugins.sort_by(|a, b| a.0.id.cmp(&b.0.id));
    found
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
                crashes: 0,
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
    }
}
