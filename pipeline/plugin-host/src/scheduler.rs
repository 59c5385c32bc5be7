//! Libraries that run at the same time on one recording.

use crate::crash_log::{CrashLog, Quarantine};
use crate::error::AnalyzeError;
use crate::evaluation::{evaluate, failed};
use crate::host::{HostOptions, OnProgress};
use crate::info::LibraryInfo;
use crate::library::Library;
use crate::process::WorkerError;
use crate::runner::Need;
use crate::series_cache::SeriesCache;
use crate::shared_samples::SharedSamples;
use crate::wire::{Begin, Call, Reply};
use plugin_abi::call::Outcome;
use plugin_abi::{Series, severity};
use std::cell::OnceCell;
use std::cmp::Reverse;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};

/// Result of one analyzer.
pub(crate) type Ran = Result<Outcome, AnalyzeError>;

/// Analyzers of one library that are to run.
#[derive(Debug, Clone)]
pub(crate) struct Task {
    /// The library's place.
    pub(crate) library: usize,
    /// Places of its analyzers, in their order.
    pub(crate) analyzers: Vec<usize>,
    /// Recording and settings as this library gets to see them, without series.
    pub(crate) begin: Begin,
}

/// Shared state of concurrent runs.
pub(crate) struct RunContext<'a> {
    pub(crate) options: &'a HostOptions,
    pub(crate) infos: &'a [LibraryInfo],
    /// Each runs one analyzer at a time.
    pub(crate) libraries: Vec<Mutex<&'a mut Library>>,
    pub(crate) crash_log: Mutex<&'a mut CrashLog>,
    pub(crate) on_progress: Mutex<&'a mut Option<OnProgress>>,
    pub(crate) samples: Option<&'a SharedSamples>,
    pub(crate) series: Mutex<SeriesCache>,
}

/// State of a task.
enum Run {
    Waiting,
    Running,
    Ended(Vec<Ran>),
}

/// Runs the tasks, and gives what became of their analyzers in the same order. A task begins when those before it that
/// derive what its library reads have ended: what it gets to see does not depend on which of them is quicker.
pub(crate) fn run(context: &RunContext<'_>, tasks: &[Task]) -> Vec<Vec<Ran>> {
    let runs = Mutex::new(tasks.iter().map(|_| Run::Waiting).collect::<Vec<_>>());
    let changed = Condvar::new();
    let work = || {
        let mut all = lock(&runs);
        loop {
            let ready = (0..tasks.len())
                .filter(|&n| matches!(all[n], Run::Waiting) && may_begin(context, tasks, &all, n));
            // First the one with most to do: a long one that begins last would go on alone.
            let next = ready.max_by_key(|&n| (tasks[n].analyzers.len(), Reverse(n)));
            let Some(n) = next else {
                if !all.iter().any(|r| matches!(r, Run::Waiting)) {
                    return;
                }
                all = changed.wait(all).unwrap_or_else(PoisonError::into_inner);
                continue;
            };
            all[n] = Run::Running;
            let missing = missing_series(context, tasks, &all[..n], n);
            drop(all);
            let run = AssertUnwindSafe(|| run_task(context, &tasks[n], missing));
            // A mistake of this program, not of the library: what waits for this run goes on all the same. The worker
            // may still answer what nobody waits for any more.
            let ended = catch_unwind(run).unwrap_or_else(|_| {
                lock(&context.libraries[tasks[n].library]).runner = None;
                unfinished(context, &tasks[n])
            });
            all = lock(&runs);
            all[n] = Run::Ended(ended);
            changed.notify_all();
        }
    };
    // In this process, where a debugger looks on, they run one after the other.
    let most = if context.options.in_process {
        1
    } else {
        let processors = std::thread::available_parallelism().map_or(1, usize::from);
        processors.min(context.options.parallel)
    };
    std::thread::scope(|scope| {
        for _ in 1..most.min(tasks.len()) {
            scope.spawn(work);
        }
        work();
    });
    let runs = runs.into_inner().unwrap_or_else(PoisonError::into_inner);
    let ended = tasks.iter().zip(runs).map(|(task, run)| match run {
        Run::Ended(ran) => ran,
        Run::Waiting | Run::Running => unfinished(context, task),
    });
    ended.collect()
}

fn unfinished(context: &RunContext<'_>, task: &Task) -> Vec<Ran> {
    let declared = &context.infos[task.library].declaration.analyzers;
    let analyzers = task.analyzers.iter().map(|&a| declared[a].id.clone());
    let reason = "its run did not come to an end";
    analyzers
        .map(|analyzer| {
            Err(AnalyzeError::Host {
                analyzer,
                reason: reason.into(),
            })
        })
        .collect()
}

/// True where a library derives a series that another reads.
pub(crate) fn feeds(from: &LibraryInfo, to: &LibraryInfo) -> bool {
    let outputs = from.declaration.analyzers.iter();
    let mut outputs = outputs.flat_map(|a| &a.outputs.series);
    outputs.any(|s| (to.declaration.analyzers.iter()).any(|a| a.inputs.contains(&s.name)))
}

fn may_begin(context: &RunContext<'_>, tasks: &[Task], runs: &[Run], n: usize) -> bool {
    let own = &context.infos[tasks[n].library];
    let before = tasks.iter().zip(runs).take(n);
    let mut going_on = before.filter(|(_, run)| !matches!(run, Run::Ended(_)));
    going_on.all(|(task, _)| !feeds(&context.infos[task.library], own))
}

/// Series that should have been derived before task `n`, each with the analyzer that failed to.
type Missing = Vec<(String, String)>;

fn missing_series(context: &RunContext<'_>, tasks: &[Task], before: &[Run], n: usize) -> Missing {
    let mut missing = Missing::new();
    for (task, run) in tasks[..n].iter().zip(before) {
        let Run::Ended(ran) = run else { continue };
        let declared = &context.infos[task.library].declaration.analyzers;
        for (&analyzer, ran) in task.analyzers.iter().zip(ran) {
            if ran.is_err() {
                missing.extend(series_of(&declared[analyzer]));
            }
        }
    }
    missing
}

fn series_of(analyzer: &plugin_abi::AnalyzerDeclaration) -> impl Iterator<Item = (String, String)> {
    let series = analyzer.outputs.series.iter();
    series.map(|s| (s.name.clone(), analyzer.id.clone()))
}

/// Runs the analyzers of one library, one after the other.
fn run_task(context: &RunContext<'_>, task: &Task, mut missing: Missing) -> Vec<Ran> {
    let info = &context.infos[task.library];
    let mut library = lock(&context.libraries[task.library]);
    let mut begin = task.begin.clone();
    begin.series = lock(&context.series).inputs_of(&info.declaration);
    let mut run = LibraryRun {
        context,
        info,
        library: &mut library,
        begin,
        begun: false,
        digest: OnceCell::new(),
    };
    let ran = task.analyzers.iter().map(|&number| {
        let declared = &info.declaration.analyzers[number];
        let lacks = missing.iter().find(|(s, _)| declared.inputs.contains(s));
        let mut ran = match lacks {
            Some((series, from)) => Err(AnalyzeError::InputMissing {
                analyzer: declared.id.clone(),
                series: series.clone(),
                from: from.clone(),
            }),
            None => run.run(number),
        };
        match &mut ran {
            Ok(outcome) => {
                let series = std::mem::take(&mut outcome.series).into_iter();
                let series: Vec<Arc<Series>> = series.map(Arc::new).collect();
                lock(&context.series).keep(&series);
                run.begin.series.extend(series);
            }
            Err(_) => missing.extend(series_of(declared)),
        }
        ran
    });
    ran.collect()
}

/// One library at work on one recording.
struct LibraryRun<'r, 'c> {
    context: &'r RunContext<'c>,
    info: &'r LibraryInfo,
    library: &'r mut Library,
    /// Input of a fresh worker, with all series so far.
    begin: Begin,
    /// The worker at hand was handed it.
    begun: bool,
    digest: OnceCell<Option<String>>,
}

impl LibraryRun<'_, '_> {
    /// Runs one analyzer, and once more in a fresh worker where its worker died.
    fn run(&mut self, number: usize) -> Ran {
        let declared = &self.info.declaration.analyzers[number];
        let seconds = self.context.options.deadline.as_secs();
        if let Some(quarantine) = self.quarantine() {
            return Err(self.not_run(&declared.id, quarantine));
        }
        let mut ran = self.attempt(number);
        if matches!(
            ran,
            Err(WorkerError::Crashed { .. } | WorkerError::Unreachable(_))
        ) {
            ran = self.attempt(number);
        }
        let too_large = matches!(ran, Err(WorkerError::OutOfMemory { .. }));
        let memory = self.context.options.memory_limit_bytes;
        let ran = match ran {
            Ok(outcome) => evaluate(declared, seconds, outcome),
            Err(error) => Err(failed(&declared.id, seconds, error)),
        };
        let hash = &self.info.sha256;
        let mut log = lock(&self.context.crash_log);
        match &ran {
            Err(
                AnalyzeError::Crashed { .. }
                | AnalyzeError::TimedOut { .. }
                | AnalyzeError::OutOfMemory { .. },
            ) => {
                let digest = self.digest().unwrap_or_default();
                log.crashed(hash, &digest, too_large.then_some(memory));
            }
            // The host's own trouble says nothing of how it runs.
            Err(AnalyzeError::Host { .. }) => {}
            _ => log.ended_well(hash, &|| self.digest()),
        }
        drop(log);
        ran
    }

    fn attempt(&mut self, number: usize) -> Result<Outcome, WorkerError> {
        let options = self.context.options;
        let need = Need {
            memory: options.memory_limit_bytes,
            samples: self.begin.samples_len,
            in_process: options.in_process,
        };
        let (id, on_progress) = (
            &self.info.declaration.analyzers[number].id,
            &self.context.on_progress,
        );
        let progress = |fraction| {
            if let Some(f) = lock(on_progress).as_mut() {
                f(id, fraction);
            }
        };
        progress(0.0);
        let mut on_event = |event: Reply| match event {
            Reply::Log { severity, text } => log(id, severity, &text),
            Reply::Progress(fraction) => progress(fraction),
            _ => {}
        };
        let call = Call {
            analyzer: number as u32,
            cancel_after_ms: u64::try_from(options.deadline.as_millis()).unwrap_or(u64::MAX),
        };
        let (runner, fresh) = self.library.running(need)?;
        let mut work = || {
            if fresh || !self.begun {
                runner.begin(self.begin.clone(), self.context.samples)?;
            }
            runner.analyze(call, &mut on_event)
        };
        let ran = work();
        self.begun = ran.is_ok();
        if ran.is_err() {
            self.library.runner = None;
        }
        ran
    }

    fn digest(&self) -> Option<String> {
        let compute = || self.context.samples.and_then(|s| s.digest().ok());
        self.digest.get_or_init(compute).clone()
    }

    fn quarantine(&self) -> Option<Quarantine> {
        let log = lock(&self.context.crash_log);
        let memory = self.context.options.memory_limit_bytes;
        log.quarantine(&self.info.sha256, memory, &|| self.digest())
    }

    fn not_run(&self, id: &str, quarantine: Quarantine) -> AnalyzeError {
        let (analyzer, library) = (id.to_string(), self.info.path.display().to_string());
        match quarantine {
            Quarantine::Library(inputs) => AnalyzeError::Quarantined {
                analyzer,
                library,
                sha256: self.info.sha256.clone(),
                inputs,
            },
            Quarantine::Input(times) => AnalyzeError::InputQuarantined {
                analyzer,
                library,
                times,
            },
        }
    }
}

fn lock<T>(shared: &Mutex<T>) -> MutexGuard<'_, T> {
    shared.lock().unwrap_or_else(PoisonError::into_inner)
}

fn log(analyzer: &str, how: i32, text: &str) {
    match how {
        severity::ERROR => tracing::error!(analyzer, "{text}"),
        severity::WARNING => tracing::warn!(analyzer, "{text}"),
        severity::INFO => tracing::info!(analyzer, "{text}"),
        _ => tracing::debug!(analyzer, "{text}"),
    }
}
