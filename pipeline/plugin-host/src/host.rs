//! The libraries that were found, and running them.

use crate::crash_log::CrashLog;
use crate::error::AnalyzeError;
use crate::info::{LibraryInfo, RefusedLibrary};
use crate::library::Library;
use crate::runner::Runner;
use crate::sandbox::Sandbox;
use crate::scan::scan;
use crate::scheduler::{Ran, RunContext, Task, run};
use crate::series_cache::SeriesCache;
use crate::shared_samples::{SharedSamples, with_role};
use crate::wire::{Begin, ChannelPlan};
use model::{Capture, Finding, TimeAxis};
use plugin_abi::{AnalyzerDeclaration, Scope, Series, Settings, alternatives, axis};
use std::path::PathBuf;
use std::sync::{Mutex, PoisonError};
use std::time::Duration;

/// Options for finding and running plugins.
#[derive(Debug, Clone)]
pub struct HostOptions {
    /// Folders with plugin libraries, beyond those that are always looked at.
    pub folders: Vec<PathBuf>,
    /// Folders whose libraries came with this executable, where a package puts them elsewhere.
    pub built_in_folders: Vec<PathBuf>,
    /// Runs plugins in this process, where a debugger sees them and a crash ends it.
    pub in_process: bool,
    /// Time limit of one run of an analyzer. After it the analyzer is told to stop, then killed. A library may take
    /// as long to load, but no longer than 20 s.
    pub deadline: Duration,
    /// Memory that a worker may use besides its executable and the samples, bytes.
    pub memory_limit_bytes: u64,
    /// Libraries that run at the same time on one recording, at most; there are never more than processors.
    pub parallel: usize,
    /// Samples of a recording that are handed over in memory, bytes; more of them lie in a file of `scratch`.
    pub samples_in_memory_bytes: u64,
    /// Folder of files without a name.
    pub scratch: PathBuf,
    /// The file that keeps which library crashed on which recording from one run to the next; without it, that is
    /// forgotten with the host.
    pub crash_log: Option<PathBuf>,
}

impl Default for HostOptions {
    /// No folders of its own, worker processes, 120 s, 4 GiB, as many at a time as there are processors, all samples in
    /// memory, no log of crashes.
    fn default() -> Self {
        HostOptions {
            folders: Vec::new(),
            built_in_folders: Vec::new(),
            in_process: false,
            deadline: Duration::from_secs(120),
            memory_limit_bytes: 4 << 30,
            parallel: usize::MAX,
            samples_in_memory_bytes: u64::MAX,
            scratch: std::env::temp_dir(),
            crash_log: None,
        }
    }
}

pub(crate) type OnProgress = Box<dyn FnMut(&str, f64) + Send>;

/// Results of the analyzers for a recording or a job.
#[derive(Debug, Default)]
pub struct Analysis {
    /// Findings, without ids and texts, in the order of the libraries and their analyzers.
    pub findings: Vec<Finding>,
    /// Series that were derived from the recording. [`Series::channel`] counts the channels that have a role.
    pub series: Vec<Series>,
    /// Checks that should have run and did not.
    pub not_run: Vec<NotRun>,
}

/// A check that should have run and did not: what it would have shown is not tested.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NotRun {
    /// System of the library.
    pub library: String,
    /// The analyzer.
    pub analyzer: String,
    /// The recording; `None` for a job.
    pub capture: Option<String>,
    /// Kinds of findings that it would have given.
    pub kinds: Vec<String>,
    /// True where the same run may succeed another time: the job is due again.
    pub transient: bool,
    /// Why.
    pub reason: AnalyzeError,
}

/// The libraries that were found, and running them.
pub struct Host {
    options: HostOptions,
    infos: Vec<LibraryInfo>,
    libraries: Vec<Library>,
    refused: Vec<RefusedLibrary>,
    sandbox: Sandbox,
    crash_log: CrashLog,
    on_progress: Option<OnProgress>,
}

impl Host {
    /// Finds the libraries. Looked at, in this order, are: what the environment variable `BAYBRIEF_PLUGINS` lists
    /// (folders or files), the options' folders, `plugins` beside the executable, the folders of built-in libraries,
    /// `../lib/baybrief` from the executable, and its own folder with `deps` beside it, where only names with
    /// `baybrief_plugin_` count. Built-in are those of the last three; no other may declare a name that a built-in one has. Of two of one system the first wins,
    /// in one place the newest file. One that others may write to, or that is not as it was pinned, is not loaded. Each
    /// is loaded in a process of its own, so that one that crashes when it is loaded ends up among the
    /// [`refused`](Host::refused) and nothing else happens.
    pub fn discover(options: &HostOptions) -> Host {
        let mut crash_log = CrashLog::open(options.crash_log.as_deref());
        let found = scan(options, &mut crash_log);
        let (infos, libraries) = found.libraries.into_iter().unzip();
        Host {
            options: options.clone(),
            infos,
            libraries,
            refused: found.refused,
            sandbox: found.sandbox.unwrap_or(Sandbox::NONE),
            crash_log,
            on_progress: None,
        }
    }

    /// The libraries, in the order in which they run: each after those whose series it reads, else built-in ones
    /// first, those that others read before the rest, by system.
    pub fn libraries(&self) -> &[LibraryInfo] {
        &self.infos
    }

    /// Libraries and folders that are not used, and why.
    pub fn refused(&self) -> &[RefusedLibrary] {
        &self.refused
    }

    /// Returns the sandbox of the plugins; an empty one where they run in this process.
    pub fn sandbox(&self) -> Sandbox {
        self.sandbox
    }

    /// Number of workers that run at the moment: at most one a library.
    pub fn workers(&self) -> usize {
        let is_worker = |l: &&Library| matches!(l.runner, Some(Runner::Worker(_)));
        self.libraries.iter().filter(is_worker).count()
    }

    /// Calls `f` with an analyzer's id and the fraction that is done: 0 when it begins, then what it says itself, 0 to 1.
    pub fn on_progress(&mut self, f: impl FnMut(&str, f64) + Send + 'static) {
        self.on_progress = Some(Box::new(f));
    }

    /// On how many recordings in a row a library crashed or ran out of time, where it is quarantined for that.
    pub fn quarantined(&self, library: &LibraryInfo) -> Option<usize> {
        self.crash_log.quarantined(&library.sha256)
    }

    /// Runs every analyzer for recordings whose needs this one meets: libraries at once, as far as they do not read each
    /// other's series and as there are processors, analyzers of one library in their order. The results are the same as
    /// one after the other. Each library gets the channels that have a role, in their order, and what `settings` says
    /// to it, whose `channels` are in that same order; one for which it says nothing is left out.
    pub fn analyze_capture(
        &mut self,
        capture: &Capture,
        settings: &dyn Fn(&LibraryInfo) -> Option<Settings>,
    ) -> Analysis {
        let handed_over = hand_over(capture, &self.options);
        let unmet = |a: &AnalyzerDeclaration| a.scope != Scope::Capture || !is_met(a, capture);
        let file = Some(capture.file.as_str());
        match handed_over {
            Ok((samples, channels)) => {
                let begin = Begin {
                    file: capture.file.clone(),
                    channels,
                    samples_len: samples.len(),
                    ..Begin::default()
                };
                let tasks = self.tasks(&begin, settings, &unmet);
                self.run(&tasks, Some(&samples), file)
            }
            Err(unusable) => {
                let tasks = self.tasks(&Begin::default(), settings, &unmet);
                let ran = tasks.iter().map(|task| {
                    let ids = task.analyzers.iter().map(|&a| self.id(task.library, a));
                    ids.map(|id| Err(unusable.error(id))).collect()
                });
                let ran = ran.collect();
                self.analysis(&tasks, ran, file)
            }
        }
    }

    /// Runs every analyzer for jobs.
    pub fn analyze_job(&mut self, settings: &dyn Fn(&LibraryInfo) -> Option<Settings>) -> Analysis {
        let unmet = |a: &AnalyzerDeclaration| a.scope != Scope::Job;
        let tasks = self.tasks(&Begin::default(), settings, &unmet);
        self.run(&tasks, None, None)
    }

    fn id(&self, library: usize, analyzer: usize) -> &str {
        &self.infos[library].declaration.analyzers[analyzer].id
    }

    fn tasks(
        &self,
        begin: &Begin,
        settings: &dyn Fn(&LibraryInfo) -> Option<Settings>,
        unmet: &dyn Fn(&AnalyzerDeclaration) -> bool,
    ) -> Vec<Task> {
        let libraries = self.infos.iter().enumerate();
        let tasks = libraries.filter_map(|(library, info)| {
            let analyzers = info.declaration.analyzers.iter().enumerate();
            let fit = analyzers.filter(|(_, a)| !unmet(a)).map(|(i, _)| i);
            let fit: Vec<usize> = fit.collect();
            let settings = (!fit.is_empty()).then(|| settings(info)).flatten()?;
            Some(Task {
                library,
                analyzers: fit,
                begin: Begin {
                    // Plain data without maps keyed by anything but strings: it always serialises.
                    settings_json: serde_json::to_string(&settings).unwrap_or_else(|_| "{}".into()),
                    ..begin.clone()
                },
            })
        });
        tasks.collect()
    }

    fn run(
        &mut self,
        tasks: &[Task],
        samples: Option<&SharedSamples>,
        file: Option<&str>,
    ) -> Analysis {
        let context = RunContext {
            options: &self.options,
            infos: &self.infos,
            libraries: self.libraries.iter_mut().map(Mutex::new).collect(),
            crash_log: Mutex::new(&mut self.crash_log),
            on_progress: Mutex::new(&mut self.on_progress),
            samples,
            series: Mutex::default(),
        };
        let ran = run(&context, tasks);
        let series: SeriesCache = context
            .series
            .into_inner()
            .unwrap_or_else(PoisonError::into_inner);
        Analysis {
            series: series.into_series(),
            ..self.analysis(tasks, ran, file)
        }
    }

    fn analysis(&self, tasks: &[Task], ran: Vec<Vec<Ran>>, file: Option<&str>) -> Analysis {
        let mut analysis = Analysis::default();
        for (task, ran) in tasks.iter().zip(ran) {
            let declaration = &self.infos[task.library].declaration;
            for (&analyzer, ran) in task.analyzers.iter().zip(ran) {
                let declared = &declaration.analyzers[analyzer];
                match ran {
                    Ok(outcome) => {
                        let findings = outcome.findings.into_iter();
                        analysis
                            .findings
                            .extend(findings.map(|observation| Finding {
                                plugin: declared.id.clone(),
                                system: declaration.system.clone(),
                                file: file.map(Into::into),
                                observation,
                                ..Finding::default()
                            }));
                    }
                    Err(reason) => analysis.not_run.push(NotRun {
                        library: declaration.system.clone(),
                        analyzer: declared.id.clone(),
                        capture: file.map(Into::into),
                        kinds: declared
                            .outputs
                            .kinds
                            .iter()
                            .map(|k| k.name.clone())
                            .collect(),
                        transient: reason.is_transient(),
                        reason,
                    }),
                }
            }
        }
        analysis
    }
}

/// Why a recording is handed to nobody.
enum Unusable {
    Input(String),
    Host(String),
}

impl Unusable {
    fn error(&self, id: &str) -> AnalyzeError {
        let analyzer = id.to_string();
        match self {
            Unusable::Input(reason) => AnalyzeError::UnusableInput {
                analyzer,
                reason: reason.clone(),
            },
            Unusable::Host(reason) => AnalyzeError::Host {
                analyzer,
                reason: reason.clone(),
            },
        }
    }
}

/// True where the recording has a channel for each of the analyzer's needs.
fn is_met(analyzer: &AnalyzerDeclaration, capture: &Capture) -> bool {
    let has = |role: &str| with_role(capture).any(|(_, r)| r.name() == role);
    analyzer
        .needs
        .iter()
        .all(|need| alternatives(need).any(has))
}

/// The samples of a recording, to be shared with workers, and where in them its channels lie.
fn hand_over(
    capture: &Capture,
    options: &HostOptions,
) -> Result<(SharedSamples, Vec<ChannelPlan>), Unusable> {
    let file = &capture.file;
    let axis = match &capture.time {
        TimeAxis::Even {
            start_s,
            step_s,
            len,
        } => axis::check_even(*start_s, *step_s, *len),
        TimeAxis::Listed(instants) => axis::check_listed(instants),
    };
    axis.map_err(|e| Unusable::Input(format!("{file} cannot be computed on: {e}")))?;
    for (channel, _) in with_role(capture) {
        let (samples, instants) = (channel.samples.len(), capture.time.len());
        if samples != instants {
            return Err(Unusable::Input(format!(
                "channel {:?} of {file} has {samples} samples for {instants} instants",
                channel.name
            )));
        }
    }
    let cannot = |e| Unusable::Host(format!("the samples of {file} cannot be shared: {e}"));
    let in_memory = capture.bytes() <= options.samples_in_memory_bytes;
    let scratch = (!in_memory).then_some(&*options.scratch);
    SharedSamples::write(capture, scratch).map_err(cannot)
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
