//! `watch`: each job that is dropped, until stopped.

mod pool;
mod retry;
mod service;

use super::run::writable;
use crate::arguments::{Usage, WatchArguments};
use crate::context::AppContext;
use crate::memory::{Memory, give_back_what_is_freed};
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
    let options = options(arguments)?;
    let common = &arguments.common;
    if !arguments.inbox.is_dir() {
        let message = format!(
            "{}: there is no such folder to watch",
            arguments.inbox.display()
        );
        return Err(Usage(message).into());
    }
    writable(&common.out)?;
    let (inbox, out) = (arguments.inbox.canonicalize()?, common.out.canonicalize()?);
    apart(&inbox, &out)?;
    give_back_what_is_freed();
    let memory = Memory::of_megabytes(common.memory);
    let stop = stop_on_signals()?;
    let context = AppContext::open_within(common.shop.as_deref(), common.in_process, memory)?;
    let settings = context.settings.shop.clone();
    let store = ResultStore::open(&out, true)?;
    let _only_one = only_one(&out)?;
    let crash_log = CrashLog::start(&out)?;
    if crash_log.has_crashed() {
        tracing::error!(
            "the last run ended by a fault of its own; its jobs are tried again one by one"
        );
    }
    let watch = Watch::new(&inbox, options)?;
    let size = match arguments.parallel {
        Some(n) => n.max(1),
        None => std::thread::available_parallelism().map_or(1, Into::into),
    };
    let size = memory.jobs(size);
    let (shop, in_process) = (common.shop.clone(), common.in_process);
    let pool = Pool::start(size, memory.for_jobs(), context, move || {
        AppContext::open_within(shop.as_deref(), in_process, memory)
    })?;
    tracing::info!(inbox = %inbox.display(), out = %out.display(), parallel = size, "watching");
    Service::new(watch, store, pool, settings, stop).run(crash_log.has_crashed());
    tracing::info!("stopped");
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

fn stop_on_signals() -> Result<Arc<AtomicBool>> {
    let stop = Arc::new(AtomicBool::new(false));
    for signal in [signal_hook::consts::SIGINT, signal_hook::consts::SIGTERM] {
        // A second signal ends the process at once.
        signal_hook::flag::register_conditional_shutdown(signal, 130, stop.clone())?;
        signal_hook::flag::register(signal, stop.clone())?;
    }
    Ok(stop)
}
