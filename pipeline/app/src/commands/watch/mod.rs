//! `watch`: each job that is dropped, until stopped.

mod pool;
mod retry;
mod service;

pub use service::Attached;

use super::run::writable;
use crate::arguments::{Usage, WatchArguments};
use crate::context::AppContext;
use crate::memory::{Memory, give_back_what_is_freed};
use crate::words;
use anyhow::Result;
use intake::{CrashLog, ResultStore, Watch, WatchOptions, only_one};
use pool::Pool;
use service::Service;
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;
use std::time::Duration;

/// Watches the inbox. Ends cleanly on an interrupt or a request to terminate, after the jobs at hand; on a second
/// one at once.
pub fn watch(arguments: &WatchArguments) -> Result<bool> {
    let inbox = &arguments.inbox;
    if !inbox.is_dir() {
        let message = format!("{}: there is no such folder to watch", inbox.display());
        return Err(Usage(message).into());
    }
    watch_with(arguments, |_, _| Ok(None))
}

/// Watches the inbox, together with whatever `attach` attaches to the service once its folder of results is there.
pub fn watch_with(
    arguments: &WatchArguments,
    attach: impl FnOnce(&Path, &dyn Fn() -> Result<AppContext>) -> Result<Option<Attached>>,
) -> Result<bool> {
    let options = options(arguments)?;
    let common = &arguments.common;
    writable(&common.out)?;
    let (inbox, out) = (arguments.inbox.canonicalize()?, common.out.canonicalize()?);
    apart(&inbox, &out)?;
    give_back_what_is_freed();
    let memory = Memory::of_megabytes(common.memory);
    let stop = stop_on_signals()?;
    let (shop, in_process) = (common.shop.clone(), common.in_process);
    let open = move || AppContext::open_within(shop.as_deref(), in_process, memory);
    let context = open()?;
    let settings = context.settings.shop.clone();
    let words = words::of_shop(&settings)?;
    let store = ResultStore::open(&out, true)?;
    let _only_one = only_one(&out)?;
    let crash_log = CrashLog::start(&out)?;
    if crash_log.has_crashed() {
        tracing::error!("{}", words.localizer().message("console-log-crashed"));
    }
    let attached = attach(&out, &open)?;
    let mut watch = Watch::new(&inbox, options)?;
    if let Some(attached) = &attached {
        watch = watch.with_additions(&attached.additions);
    }
    let size = match arguments.parallel {
        Some(n) => n.max(1),
        None => std::thread::available_parallelism().map_or(1, Into::into),
    };
    let size = memory.jobs(size);
    let pool = Pool::start(size, memory.for_jobs(), context, open)?;
    tracing::info!(inbox = %inbox.display(), out = %out.display(), parallel = size, "{}", words.localizer().message("console-log-watching"));
    let stopped = words.localizer().message("console-log-stopped");
    Service::new(watch, store, pool, settings, words, stop, attached).run(crash_log.has_crashed());
    tracing::info!("{stopped}");
    Ok(true)
}

fn options(arguments: &WatchArguments) -> Result<WatchOptions> {
    let seconds = |value: f64, option: &str| {
        Duration::try_from_secs_f64(value)
            .ok()
            .filter(|d| !d.is_zero() && *d <= Duration::from_secs(86_400))
            .ok_or_else(|| {
                Usage(format!(
                    "{option} {value}: give seconds, more than 0 and at most 86400"
                ))
            })
    };
    Ok(WatchOptions {
        settle: seconds(arguments.settle, "--settle")?,
        incomplete_timeout: seconds(arguments.incomplete_timeout, "--incomplete-timeout")?,
        rescan: seconds(arguments.rescan, "--rescan")?,
        poll: match arguments.poll {
            Some(poll) => Some(seconds(poll, "--poll")?),
            None => None,
        },
        ..WatchOptions::default()
    })
}

/// Results in the inbox would be taken for jobs.
fn apart(inbox: &Path, out: &Path) -> Result<(), Usage> {
    match out.starts_with(inbox) {
        false => Ok(()),
        true => Err(Usage(format!(
            "--out {} lies inside the inbox {}: its results would be taken for jobs; name another folder",
            out.display(),
            inbox.display()
        ))),
    }
}

pub(super) fn stop_on_signals() -> Result<Arc<AtomicBool>> {
    let stop = Arc::new(AtomicBool::new(false));
    for signal in [signal_hook::consts::SIGINT, signal_hook::consts::SIGTERM] {
        // A second signal ends the process at once.
        signal_hook::flag::register_conditional_shutdown(signal, 130, stop.clone())?;
        signal_hook::flag::register(signal, stop.clone())?;
    }
    Ok(stop)
}
