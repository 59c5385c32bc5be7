//! The plugins that were found, and running them.

use crate::blob::{Blob, with_role};
use crate::discovery::{VARIABLE, candidates};
use crate::error::AnalyzeError;
use crate::info::{PluginInfo, RefusedLibrary, Scope, alternatives};
use crate::process::Death;
use crate::runner::Runner;
use crate::wire::{Call, ChannelPlan, Outcome, Reply};
use model::{Capture, Finding};
use plugin_abi::{severity, status};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// How to find and run plugins.
#[derive(Debug, Clone)]
pub struct HostOptions {
    /// Folders with plugin libraries, beyond those that are always looked at.
    pub folders: Vec<PathBuf>,
    /// Runs plugins in this process, where a debugger sees them and a crash ends it.
    pub in_process: bool,
    /// How long one run of a plugin may take. After it the plugin is told to stop, then killed.
    pub deadline: Duration,
    /// Address space that a worker may use besides the samples, bytes. This counts the executable, its threads'
    /// stacks and the libraries.
    pub memory_limit_bytes: u64,
}

impl Default for HostOptions {
    /// No folders of its own, worker processes, 120 s, 4 GiB.
    fn default() -> Self {
        HostOptions {
            folders: Vec::new(),
            in_process: false,
            deadline: Duration::from_secs(120),
            memory_limit_bytes: 4 << 30,
        }
    }
}

/// A library that crashed this often is set aside for the rest of the run.
const MAX_CRASHES: u32 = 3;

/// The plugins that were found, and running them.
pub struct Host {
    options: HostOptions,
    libraries: Vec<Library>,
    plugins: Vec<PluginInfo>,
    /// For each plugin its library, and its index in that.
    places: Vec<(usize, u32)>,
    refused: Vec<RefusedLibrary>,
    /// The samples that were handed over last: one recording is looked at by several plugins in turn.
    shared: Option<Blob>,
    on_progress: Option<Box<dyn FnMut(&PluginInfo, f64) + Send>>,
}

struct Library {
    path: PathBuf,
    runner: Option<Runner>,
    crashes: u32,
}

impl Host {
    /// Finds the plugins. Looked at, in this order, are: what the environment variable `BAYBRIEF_PLUGINS` lists
    /// (folders or files), the options' folders, `plugins` beside the executable, and the executable's own folder
    /// with `deps` beside it, where only names with `baybrief_plugin_` count. The first place to have a plugin id
    /// wins, in one place the newest file. Each library is loaded in a process of its own, so that one that crashes
    /// when it is loaded ends up among the [`refused`](Host::refused) and nothing else happens.
    pub fn discover(options: &HostOptions) -> Host {
        let variable = std::env::var_os(VARIABLE);
        let executable = std::env::current_exe().and_then(|e| e.canonicalize()).ok();
        let (candidates, refused) =
            candidates(variable.as_deref(), &options.folders, executable.as_deref());
        let mut host = Host {
            options: options.clone(),
            libraries: Vec::new(),
            plugins: Vec::new(),
            places: Vec::new(),
            refused,
            shared: None,
            on_progress: None,
        };
        // All begin to load before the first is waited for.
        let mut hashes: Vec<String> = Vec::new();
        let mut begun = Vec::new();
        for candidate in candidates {
            match file_hash(&candidate.path) {
                Ok(hash) if hashes.contains(&hash) => {}
                Ok(hash) => {
                    let runner = host.start(&candidate.path).and_then(|mut runner| {
                        runner.begin_describe()?;
                        Ok(runner)
                    });
                    hashes.push(hash.clone());
                    begun.push((candidate, hash, runner));
                }
                Err(e) => host.refuse(candidate.path, format!("it cannot be read: {e}")),
            }
        }
        for (candidate, hash, runner) in begun {
            host.admit(candidate.path, candidate.named, &hash, runner);
        }
        host
    }

    fn start(&self, library: &Path) -> Result<Runner, Death> {
        Runner::start(
            library,
            self.options.memory_limit_bytes,
            self.options.in_process,
        )
    }

    fn refuse(&mut self, path: PathBuf, reason: String) {
        self.refused.push(RefusedLibrary { path, reason });
    }

    /// Takes in the plugins of a library that nobody before it has.
    fn admit(&mut self, path: PathBuf, named: bool, hash: &str, runner: Result<Runner, Death>) {
        let described = runner.and_then(|mut runner| Ok((runner.end_describe()?, runner)));
        let (described, runner) = match described {
            Ok((Ok(described), runner)) => (described, runner),
            Ok((Err(reason), _)) => return self.refuse(path, reason),
            Err(death) => return self.refuse(path, while_loading(death)),
        };
        let library = self.libraries.len();
        let mut taken = false;
        for (index, d) in (0u32..).zip(described) {
            if let Some(first) = self.plugins.iter().find(|p| p.id == d.id) {
                if named {
                    let reason = format!(
                        "its plugin {} is already provided by {}",
                        d.id,
                        first.path.display()
                    );
                    self.refuse(path.clone(), reason);
                }
                continue;
            }
            taken = true;
            self.places.push((library, index));
            self.plugins.push(PluginInfo {
                id: d.id,
                name: d.name,
                version: d.version,
                vendor: d.vendor,
                path: path.clone(),
                blake3: hash.into(),
                scope: d.scope,
                needs: d.needs,
                uses: d.uses,
            });
        }
        if taken {
            self.libraries.push(Library {
                path,
                runner: Some(runner),
                crashes: 0,
            });
        }
    }

    /// The plugins, in the order in which their libraries were found.
    pub fn plugins(&self) -> &[PluginInfo] {
        &self.plugins
    }

    /// Libraries and folders that give no plugin, and why.
    pub fn refused(&self) -> &[RefusedLibrary] {
        &self.refused
    }

    /// Calls `f` with the fraction (0 to 1) that a running plugin says it has done.
    pub fn on_progress(&mut self, f: impl FnMut(&PluginInfo, f64) + Send + 'static) {
        self.on_progress = Some(Box::new(f));
    }

    /// Which requirement of a plugin the recording does not meet, as the rest of a sentence that begins with the
    /// plugin's name: "needs a channel with ...". `None` when all are met, or there is no such plugin.
    pub fn unmet(&self, plugin: usize, capture: &Capture) -> Option<String> {
        let info = self.plugins.get(plugin)?;
        let has = |role: &str| with_role(capture).any(|(_, r)| r.name() == role);
        let missing = info
            .needs
            .iter()
            .find(|need| !alternatives(need).any(has))?;
        let roles: Vec<&str> = alternatives(missing).collect();
        Some(format!(
            "needs a channel with the role {}, and {} has none",
            roles.join(" or "),
            capture.file
        ))
    }

    /// Runs a plugin on a recording, or, for [`Scope::Job`], on none. It gets the channels that have a role, in
    /// their order, and `settings_json`, whose `channels` array is in that same order. Its findings come back
    /// checked and without ids; `duration_s` and `charge_as` among their arguments are also put into the fields.
    ///
    /// # Errors
    /// Whatever kept the plugin from giving findings that count. The next call starts afresh.
    pub fn analyze(
        &mut self,
        plugin: usize,
        capture: Option<&Capture>,
        settings_json: &str,
    ) -> Result<Vec<Finding>, AnalyzeError> {
        let (Some(info), Some(&(library, index))) =
            (self.plugins.get(plugin), self.places.get(plugin))
        else {
            return Err(AnalyzeError::UnknownPlugin(plugin));
        };
        let id = info.id.clone();
        if let Some(missing) = self.misfit(plugin, capture) {
            return Err(AnalyzeError::Unmet {
                plugin: id,
                missing,
            });
        }
        let channels = match capture {
            Some(capture) => self.hand_over(capture),
            None => Ok(Vec::new()),
        };
        let channels = channels.map_err(|reason| AnalyzeError::Host {
            plugin: id.clone(),
            reason,
        })?;
        let call = Call {
            plugin: index,
            file: capture.map(|c| c.file.clone()).unwrap_or_default(),
            settings_json: settings_json.into(),
            channels,
            blob_len: capture.and(self.shared.as_ref()).map_or(0, Blob::len),
            cancel_after_ms: u64::try_from(self.options.deadline.as_millis()).unwrap_or(u64::MAX),
            processor_s: processor_time(self.options.deadline),
        };
        let mut findings = self.run(plugin, library, call)?;
        for finding in &mut findings {
            finding.plugin.clone_from(&id);
            finding.file = capture.map(|c| c.file.clone());
        }
        Ok(findings)
    }

    fn misfit(&self, plugin: usize, capture: Option<&Capture>) -> Option<String> {
        match (self.plugins.get(plugin)?.scope, capture) {
            (Scope::Capture, None) => Some("looks at a recording, and was given none".into()),
            (Scope::Job, Some(_)) => {
                Some("looks at a whole job, and was given one recording".into())
            }
            (Scope::Job, None) => None,
            (Scope::Capture, Some(capture)) => self.unmet(plugin, capture),
        }
    }

    /// Makes `shared` hold the samples of `capture` and says where in it they lie.
    fn hand_over(&mut self, capture: &Capture) -> Result<Vec<ChannelPlan>, String> {
        for (channel, _) in with_role(capture) {
            let (samples, instants) = (channel.samples.len(), capture.time.len());
            if samples != instants {
                return Err(format!(
                    "channel {:?} of {} has {samples} samples for {instants} instants",
                    channel.name, capture.file
                ));
            }
        }
        if let Some(plan) = self.shared.as_ref().and_then(|blob| blob.plan(capture)) {
            return Ok(plan);
        }
        let cannot =
            |e: std::io::Error| format!("the samples of {} cannot be shared: {e}", capture.file);
        let blob = self.shared.insert(Blob::write(capture).map_err(cannot)?);
        blob.plan(capture)
            .ok_or_else(|| cannot(std::io::Error::other("they were written wrongly")))
    }

    fn run(
        &mut self,
        plugin: usize,
        library: usize,
        call: Call,
    ) -> Result<Vec<Finding>, AnalyzeError> {
        let info = &self.plugins[plugin];
        let id = info.id.clone();
        let seconds = self.options.deadline.as_secs();
        let (memory, in_process) = (self.options.memory_limit_bytes, self.options.in_process);
        let library = &mut self.libraries[library];
        if library.crashes >= MAX_CRASHES {
            return Err(AnalyzeError::SetAside {
                plugin: id,
                library: library.path.display().to_string(),
                crashes: library.crashes,
            });
        }
        let on_progress = &mut self.on_progress;
        let mut on_event = |event: Reply| match event {
            Reply::Log { severity, text } => log(&info.id, severity, &text),
            Reply::Progress(fraction) => {
                if let Some(f) = on_progress.as_mut() {
                    f(info, fraction.into());
                }
            }
            _ => {}
        };
        let blob = (call.blob_len > 0)
            .then_some(self.shared.as_ref())
            .flatten();
        let outcome = library
            .running(memory, in_process)
            .and_then(|runner| runner.analyze(call, blob, &mut on_event));
        let outcome = match outcome {
            Ok(outcome) => judge(&id, seconds, outcome),
            Err(death) => Err(after(&id, seconds, death)),
        };
        if let Err(e) = &outcome {
            library.after(e);
        }
        outcome
    }
}

impl Library {
    /// The runner, started anew when there is none or when it ended between two calls.
    fn running(&mut self, memory: u64, in_process: bool) -> Result<&mut Runner, Death> {
        let warm = self
            .runner
            .take()
            .and_then(|mut runner| runner.is_running().then_some(runner));
        let runner = match warm {
            Some(runner) => runner,
            None => Runner::start(&self.path, memory, in_process)?,
        };
        Ok(self.runner.insert(runner))
    }

    /// Lets go of a worker that cannot be trusted any more.
    fn after(&mut self, error: &AnalyzeError) {
        match error {
            AnalyzeError::Crashed { .. } | AnalyzeError::TimedOut { .. } => {
                self.crashes += 1;
                self.runner = None;
            }
            AnalyzeError::Host { .. } => self.runner = None,
            _ => {}
        }
    }
}

/// BLAKE3 of a file, hexadecimal.
fn file_hash(path: &Path) -> std::io::Result<String> {
    let mut hasher = blake3::Hasher::new();
    hasher.update_reader(std::fs::File::open(path)?)?;
    Ok(hasher.finalize().to_hex().to_string())
}

/// Processor time for a run that may take `deadline` and may use every core, s.
fn processor_time(deadline: Duration) -> u64 {
    let cores = std::thread::available_parallelism().map_or(1, |n| n.get() as u64);
    deadline.as_secs().saturating_add(2).saturating_mul(cores)
}

fn while_loading(death: Death) -> String {
    match death {
        Death::Crashed { how, noise } => format!("it crashed while it was loaded: {how}{noise}"),
        Death::TimedOut { noise } => format!("it did not finish loading{noise}"),
        Death::Unreachable(reason) => reason,
    }
}

fn after(id: &str, seconds: u64, death: Death) -> AnalyzeError {
    let plugin = id.to_string();
    match death {
        Death::Crashed { how, noise } => AnalyzeError::Crashed { plugin, how, noise },
        Death::TimedOut { noise } => AnalyzeError::TimedOut {
            plugin,
            seconds,
            noise,
        },
        Death::Unreachable(reason) => AnalyzeError::Host { plugin, reason },
    }
}

/// Whether the findings of a call that came back count.
fn judge(id: &str, seconds: u64, outcome: Outcome) -> Result<Vec<Finding>, AnalyzeError> {
    let plugin = id.to_string();
    let reason = outcome.reason.unwrap_or_else(|| "it gave no reason".into());
    if let Some(rule) = outcome.broken {
        return Err(AnalyzeError::BrokeRule { plugin, rule });
    }
    match outcome.status {
        status::OK => Ok(outcome.findings),
        status::REFUSED => Err(AnalyzeError::Refused { plugin, reason }),
        status::PANICKED => Err(AnalyzeError::Crashed {
            plugin,
            how: reason,
            noise: String::new(),
        }),
        status::CANCELLED => Err(AnalyzeError::TimedOut {
            plugin,
            seconds,
            noise: String::new(),
        }),
        status::BAD_INPUT => Err(AnalyzeError::Host {
            plugin,
            reason: format!("it does not accept what it was given: {reason}"),
        }),
        status::FAILED => Err(AnalyzeError::BrokeRule {
            plugin,
            rule: reason,
        }),
        other => Err(AnalyzeError::BrokeRule {
            plugin,
            rule: format!("it returned status {other} ({reason})"),
        }),
    }
}

fn log(plugin: &str, how: i32, text: &str) {
    match how {
        severity::ERROR => tracing::error!(plugin, "{text}"),
        severity::WARNING => tracing::warn!(plugin, "{text}"),
        severity::INFO => tracing::info!(plugin, "{text}"),
        _ => tracing::debug!(plugin, "{text}"),
    }
}
