//! Plugins that run at the same time on one recording.

use crate::blob::Blob;
use crate::error::AnalyzeError;
use crate::host::{HostOptions, OnProgress};
use crate::info::PluginInfo;
use crate::installed::Installed;
use crate::judge::{after, judge};
use crate::record::Record;
use crate::tracks::{Shelf, TrackData};
use crate::wire::{Call, Outcome, Reply};
use plugin_abi::severity;
use std::cmp::Reverse;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};

type Ran = Result<Outcome, AnalyzeError>;

/// What runs that go on at the same time share.
pub(crate) struct Desk<'a> {
    pub(crate) options: &'a HostOptions,
    pub(crate) plugins: &'a [PluginInfo],
    /// For each plugin its library, and its index in that.
    pub(crate) places: &'a [(usize, u32)],
    /// Each runs one plugin at a time.
    pub(crate) libraries: Vec<Mutex<&'a mut Installed>>,
    pub(crate) record: Mutex<&'a mut Record>,
    pub(crate) on_progress: Mutex<&'a mut Option<OnProgress>>,
    /// The samples.
    pub(crate) blob: Option<&'a Blob>,
    /// Tracks from runs before these.
    pub(crate) shelf: &'a Shelf,
}

/// How far a plugin's run has come.
enum Run {
    Waiting,
    Running,
    Ended(Ran),
}

/// Runs the plugins, each as `call` says, and gives what became of them in the same order. A run begins when those
/// before it that give what it takes, or are of the same library, have ended: what it gets to see does not hang on
/// which of them is quicker.
pub(crate) fn several(desk: &Desk<'_>, plugins: &[usize], call: &Call) -> Vec<Ran> {
    let runs = Mutex::new(plugins.iter().map(|_| Run::Waiting).collect::<Vec<_>>());
    let changed = Condvar::new();
    let work = || {
        let mut all = lock(&runs);
        loop {
            let ready = (0..plugins.len())
                .filter(|&n| matches!(all[n], Run::Waiting) && may_begin(desk, plugins, &all, n));
            // First the one that looks at most: a long one that begins last would go on alone.
            let next = ready.max_by_key(|&n| {
                let plugin = &desk.plugins[plugins[n]];
                let seen = call.channels.iter().filter(|c| plugin.looks_at(&c.role));
                (seen.map(|c| c.len).sum::<u64>(), Reverse(n))
            });
            let Some(n) = next else {
                if !all.iter().any(|r| matches!(r, Run::Waiting)) {
                    return;
                }
                all = changed.wait(all).unwrap_or_else(PoisonError::into_inner);
                continue;
            };
            all[n] = Run::Running;
            let own = Call {
                plugin: desk.places[plugins[n]].1,
                tracks: tracks(desk, &desk.plugins[plugins[n]], &all[..n]),
                ..call.clone()
            };
            drop(all);
            let run = AssertUnwindSafe(|| one(desk, plugins[n], own));
            // A mistake of this program, not of the plugin: what waits for this run goes on all the same. The worker may
            // still answer what nobody waits for any more.
            let ended = catch_unwind(run).unwrap_or_else(|_| {
                lock(&desk.libraries[desk.places[plugins[n]].0]).runner = None;
                Err(unfinished(desk, plugins[n]))
            });
            all = lock(&runs);
            all[n] = Run::Ended(ended);
            changed.notify_all();
        }
    };
    // In this process, where a debugger looks on, they run one after the other.
    let most = if desk.options.in_process {
        1
    } else {
        processors()
    };
    std::thread::scope(|scope| {
        for _ in 1..most.min(plugins.len()) {
            scope.spawn(work);
        }
        work();
    });
    let runs = runs.into_inner().unwrap_or_else(PoisonError::into_inner);
    let ended = plugins.iter().zip(runs).map(|(&p, run)| match run {
        Run::Ended(ran) => ran,
        Run::Waiting | Run::Running => Err(unfinished(desk, p)),
    });
    ended.collect()
}

fn unfinished(desk: &Desk<'_>, plugin: usize) -> AnalyzeError {
    AnalyzeError::Host {
        plugin: desk.plugins[plugin].id.clone(),
        reason: "its run did not come to an end".into(),
    }
}

/// Processors that may be used.
pub(crate) fn processors() -> usize {
    std::thread::available_parallelism().map_or(1, usize::from)
}

fn may_begin(desk: &Desk<'_>, plugins: &[usize], runs: &[Run], n: usize) -> bool {
    let (own, library) = (&desk.plugins[plugins[n]], desk.places[plugins[n]].0);
    let before = plugins.iter().zip(runs).take(n);
    let mut going_on = before.filter(|(_, run)| !matches!(run, Run::Ended(_)));
    going_on.all(|(&p, _)| {
        let gives = &desk.plugins[p].gives;
        desk.places[p].0 != library && !gives.iter().any(|g| own.takes.contains(g))
    })
}

/// The tracks that a plugin takes, of the last one before it that gave them.
fn tracks(desk: &Desk<'_>, plugin: &PluginInfo, before: &[Run]) -> Vec<TrackData> {
    let given = |name: &String| {
        let mut outcomes = before.iter().rev().filter_map(|run| match run {
            Run::Ended(Ok(outcome)) => Some(&outcome.tracks),
            _ => None,
        });
        outcomes.find_map(|t| t.iter().rev().find(|t| t.name == *name))
    };
    let takes = plugin.takes.iter();
    let found = takes.filter_map(|name| given(name).or_else(|| desk.shelf.get(name)));
    found.cloned().collect()
}

/// Runs one plugin.
fn one(desk: &Desk<'_>, plugin: usize, call: Call) -> Ran {
    let info = &desk.plugins[plugin];
    let id = info.id.clone();
    let seconds = desk.options.deadline.as_secs();
    let (memory, in_process) = (desk.options.memory_limit_bytes, desk.options.in_process);
    let mut library = lock(&desk.libraries[desk.places[plugin].0]);
    if let Some(crashes) = lock(&desk.record).set_aside(&library.blake3) {
        return Err(AnalyzeError::SetAside {
            plugin: id,
            library: library.path.display().to_string(),
            blake3: library.blake3.clone(),
            crashes,
        });
    }
    let mut on_event = |event: Reply| match event {
        Reply::Log { severity, text } => log(&info.id, severity, &text),
        Reply::Progress(fraction) => {
            if let Some(f) = lock(&desk.on_progress).as_mut() {
                f(info, fraction.into());
            }
        }
        _ => {}
    };
    let outcome = library
        .running(memory, in_process)
        .and_then(|runner| runner.analyze(call, desk.blob, &mut on_event));
    let outcome = match outcome {
        Ok(outcome) => judge(&id, seconds, outcome),
        Err(death) => Err(after(&id, seconds, death)),
    };
    match &outcome {
        Err(AnalyzeError::Crashed { .. } | AnalyzeError::TimedOut { .. }) => {
            lock(&desk.record).crashed(&library.blake3, &id);
        }
        // The host's own trouble says nothing of how it runs.
        Err(AnalyzeError::Host { .. }) => {}
        _ => lock(&desk.record).ended_well(&library.blake3, &id),
    }
    if let Err(e) = &outcome {
        library.after(e);
    }
    outcome
}

fn lock<T>(shared: &Mutex<T>) -> MutexGuard<'_, T> {
    shared.lock().unwrap_or_else(PoisonError::into_inner)
}

fn log(plugin: &str, how: i32, text: &str) {
    match how {
        severity::ERROR => tracing::error!(plugin, "{text}"),
        severity::WARNING => tracing::warn!(plugin, "{text}"),
        severity::INFO => tracing::info!(plugin, "{text}"),
        _ => tracing::debug!(plugin, "{text}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ended() -> Run {
        Run::Ended(Err(AnalyzeError::UnknownPlugin(0)))
    }

    #[test]
    fn a_run_waits_for_what_it_takes_and_for_its_library() {
        let plugins = [
            ("a", &["rpm"][..], &[][..]),
            ("b", &["slip"], &["rpm"]),
            ("c", &[], &[]),
            ("d", &["rpm"], &[]),
        ]
        .map(|(id, gives, takes)| PluginInfo::with_tracks(id, gives, takes));
        let (options, mut record, mut progress) = (HostOptions::default(), Record::default(), None);
        let desk = Desk {
            options: &options,
            plugins: &plugins,
            // The last two are of one library.
            places: &[(0, 0), (1, 0), (2, 0), (2, 1)],
            libraries: Vec::new(),
            record: Mutex::new(&mut record),
            on_progress: Mutex::new(&mut progress),
            blob: None,
            shelf: &Shelf::default(),
        };
        let may = |runs: &[Run], n| may_begin(&desk, &[0, 1, 2, 3], runs, n);
        let none = [Run::Running, Run::Waiting, Run::Waiting, Run::Waiting];
        assert_eq!(
            [0, 1, 2, 3].map(|n| may(&none, n)),
            [true, false, true, false]
        );
        let first = [ended(), Run::Waiting, Run::Running, Run::Waiting];
        assert_eq!([1, 3].map(|n| may(&first, n)), [true, false]);
        // What gives it later in the order is not waited for.
        let last = [ended(), Run::Waiting, ended(), Run::Running];
        assert!(may(&last, 1));
    }
}
