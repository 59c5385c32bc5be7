//! The plugins that were found, and running them.

use crate::blob::{Blob, with_role};
use crate::error::AnalyzeError;
use crate::info::{PluginInfo, RefusedLibrary, Scope, alternatives};
use crate::installed::Installed;
use crate::record::Record;
use crate::runner::Runner;
use crate::scan::scan;
use crate::together::{Desk, processors, several};
use crate::tracks::Shelf;
use crate::walls::Walls;
use crate::wire::{Call, ChannelPlan, Outcome};
use model::{Capture, Finding};
use std::path::PathBuf;
use std::sync::Mutex;
use std::time::Duration;

/// How to find and run plugins.
#[derive(Debug, Clone)]
pub struct HostOptions {
    /// Folders with plugin libraries, beyond those that are always looked at.
    pub folders: Vec<PathBuf>,
    /// Runs plugins in this process, where a debugger sees them and a crash ends it.
    pub in_process: bool,
    /// How long one run of a plugin may take. After it the plugin is told to stop, then killed. A library may take as
    /// long to load, but no longer than 20 s.
    pub deadline: Duration,
    /// Address space that a worker may use besides the samples, bytes. This counts the executable, its threads'
    /// stacks and the libraries.
    pub memory_limit_bytes: u64,
    /// The file that keeps how often which library crashed from one run to the next; without it, that is forgotten
    /// with the host.
    pub crash_record: Option<PathBuf>,
}

impl Default for HostOptions {
    /// No folders of its own, worker processes, 120 s, 4 GiB, no record of crashes.
    fn default() -> Self {
        HostOptions {
            folders: Vec::new(),
            in_process: false,
            deadline: Duration::from_secs(120),
            memory_limit_bytes: 4 << 30,
            crash_record: None,
        }
    }
}

pub(crate) type OnProgress = Box<dyn FnMut(&PluginInfo, f64) + Send>;

/// The plugins that were found, and running them.
pub struct Host {
    options: HostOptions,
    libraries: Vec<Installed>,
    plugins: Vec<PluginInfo>,
    /// For each plugin its library, and its index in that.
    places: Vec<(usize, u32)>,
    refused: Vec<RefusedLibrary>,
    walls: Walls,
    record: Record,
    /// The samples that were handed over last: one recording is looked at by several plugins in turn.
    shared: Option<Blob>,
    /// What plugins handed on for that recording.
    shelf: Shelf,
    on_progress: Option<OnProgress>,
}

impl Host {
    /// Finds the plugins. Looked at, in this order, are: what the environment variable `BAYBRIEF_PLUGINS` lists
    /// (folders or files), the options' folders, `plugins` beside the executable, and the executable's own folder
    /// with `deps` beside it, where only names with `baybrief_plugin_` count. The first place to have a plugin id
    /// wins, in one place the newest file. One that others may write to, or that is not as it was pinned, is not
    /// loaded. Each library is loaded in a process of its own, so that one that crashes
    /// when it is loaded ends up among the [`refused`](Host::refused) and nothing else happens.
    pub fn discover(options: &HostOptions) -> Host {
        let mut record = Record::open(options.crash_record.as_deref());
        let found = scan(options, &mut record);
        let (plugins, places) = found.plugins.into_iter().unzip();
        Host {
            options: options.clone(),
            libraries: found.libraries,
            plugins,
            places,
            refused: found.refused,
            walls: found.walls.unwrap_or(Walls::NONE),
            record,
            shared: None,
            shelf: Shelf::default(),
            on_progress: None,
        }
    }

    /// The plugins, in the order in which they are to be run: each after those whose tracks it takes, else by id.
    pub fn plugins(&self) -> &[PluginInfo] {
        &self.plugins
    }

    /// Libraries and folders that give no plugin, and why.
    pub fn refused(&self) -> &[RefusedLibrary] {
        &self.refused
    }

    /// What keeps the plugins from the rest of the system; nothing where they run in this process.
    pub fn walls(&self) -> Walls {
        self.walls
    }

    /// Calls `f` with the fraction (0 to 1) that a running plugin says it has done.
    pub fn on_progress(&mut self, f: impl FnMut(&PluginInfo, f64) + Send + 'static) {
        self.on_progress = Some(Box::new(f));
    }

    /// How often in a row the library of a plugin crashed or ran out of time, where it is set aside for that.
    pub fn set_aside(&self, plugin: &PluginInfo) -> Option<u32> {
        self.record.set_aside(&plugin.blake3)
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
        let Some(info) = self.plugins.get(plugin) else {
            return Err(AnalyzeError::UnknownPlugin(plugin));
        };
        if let Some(missing) = self.misfit(plugin, capture) {
            return Err(AnalyzeError::Unmet {
                plugin: info.id.clone(),
                missing,
            });
        }
        let mut results = self.run(&[plugin], capture, settings_json);
        results
            .pop()
            .unwrap_or(Err(AnalyzeError::UnknownPlugin(plugin)))
    }

    /// Runs every plugin for recordings whose needs this one meets, as [`analyze`](Host::analyze) does, and as many
    /// at once as there are processors. The results are the same as one after the other, and in the order of
    /// [`plugins`](Host::plugins); each with its plugin's place there.
    pub fn analyze_all(
        &mut self,
        capture: &Capture,
        settings_json: &str,
    ) -> Vec<(usize, Result<Vec<Finding>, AnalyzeError>)> {
        let fit: Vec<usize> = (0..self.plugins.len())
            .filter(|&p| self.misfit(p, Some(capture)).is_none())
            .collect();
        let results = self.run(&fit, Some(capture), settings_json);
        fit.into_iter().zip(results).collect()
    }

    /// Runs plugins that fit, and gives their results in the same order.
    fn run(
        &mut self,
        plugins: &[usize],
        capture: Option<&Capture>,
        settings_json: &str,
    ) -> Vec<Result<Vec<Finding>, AnalyzeError>> {
        let handed_over = match capture {
            Some(capture) => self.hand_over(capture),
            None => Ok((Vec::new(), false)),
        };
        let (channels, new_samples) = match handed_over {
            Ok(handed_over) => handed_over,
            Err(reason) => {
                let failed = |&p: &usize| {
                    Err(AnalyzeError::Host {
                        plugin: self.plugins[p].id.clone(),
                        reason: reason.clone(),
                    })
                };
                return plugins.iter().map(failed).collect();
            }
        };
        if let Some(capture) = capture {
            self.shelf
                .turn_to(&capture.file, settings_json, new_samples);
        }
        let call = Call {
            plugin: 0,
            file: capture.map(|c| c.file.clone()).unwrap_or_default(),
            settings_json: settings_json.into(),
            channels,
            tracks: Vec::new(),
            blob_len: capture.and(self.shared.as_ref()).map_or(0, Blob::len),
            cancel_after_ms: u64::try_from(self.options.deadline.as_millis()).unwrap_or(u64::MAX),
            processor_s: processor_time(self.options.deadline),
        };
        let desk = Desk {
            options: &self.options,
            plugins: &self.plugins,
            places: &self.places,
            libraries: self.libraries.iter_mut().map(Mutex::new).collect(),
            record: Mutex::new(&mut self.record),
            on_progress: Mutex::new(&mut self.on_progress),
            blob: self.shared.as_ref().filter(|_| call.blob_len > 0),
            shelf: &self.shelf,
        };
        let outcomes = several(&desk, plugins, &call);
        let mut results = Vec::with_capacity(plugins.len());
        for (&plugin, outcome) in plugins.iter().zip(outcomes) {
            results.push(outcome.map(|outcome| self.findings(plugin, capture, outcome)));
        }
        results
    }

    /// The findings of a run, and its tracks put on the shelf.
    fn findings(
        &mut self,
        plugin: usize,
        capture: Option<&Capture>,
        outcome: Outcome,
    ) -> Vec<Finding> {
        if capture.is_some() {
            self.shelf.keep(outcome.tracks);
        }
        let observations = outcome.findings.into_iter();
        observations
            .map(|observation| Finding {
                plugin: self.plugins[plugin].id.clone(),
                file: capture.map(|c| c.file.clone()),
                observation,
                ..Finding::default()
            })
            .collect()
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

    /// Makes `shared` hold the samples of `capture`; says where in it they lie, and whether they are new there.
    fn hand_over(&mut self, capture: &Capture) -> Result<(Vec<ChannelPlan>, bool), String> {
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
            return Ok((plan, false));
        }
        let cannot =
            |e: std::io::Error| format!("the samples of {} cannot be shared: {e}", capture.file);
        let blob = self.shared.insert(Blob::write(capture).map_err(cannot)?);
        blob.plan(capture)
            .map(|plan| (plan, true))
            .ok_or_else(|| cannot(std::io::Error::other("they were written wrongly")))
    }
}

impl Drop for Host {
    /// Ends all workers at once; each is then waited for on its own.
    fn drop(&mut self) {
        for library in &self.libraries {
            if let Some(Runner::Worker(process)) = &library.runner {
                process.kill_group();
            }
        }
    }
}

/// Processor time for a run that may take `deadline` and may use every core, s.
fn processor_time(deadline: Duration) -> u64 {
    let seconds = deadline.as_secs().saturating_add(2);
    seconds.saturating_mul(processors() as u64)
}
