//! `watch`: each job that is dropped, until stopped.

use super::run::{summary, writable};
use crate::arguments::{Common, Usage};
use crate::house::House;
use crate::job;
use anyhow::Result;
use intake::{FileLedger, Ledger, Watch, WatchOptions};
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

/// Watches the inbox. Ends cleanly on an interrupt or a request to terminate, after the job at hand.
pub fn watch(inbox: &Path, settle: f64, rescan: f64, common: &Common) -> Result<bool> {
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
    let options = WatchOptions {
        settle: seconds(settle, "--settle")?,
        rescan: seconds(rescan, "--rescan")?,
        poll: None,
    };
    if !inbox.is_dir() {
        return Err(Usage(format!(
            "{}: there is no such folder to watch",
            inbox.display()
        ))
        .into());
    }
    writable(&common.out)?;
    let (inbox, out) = (inbox.canonicalize()?, common.out.canonicalize()?);
    if out.starts_with(&inbox) {
        let message = format!(
            "--out {} lies inside the inbox {}: its results would be taken for jobs; name another folder",
            out.display(),
            inbox.display()
        );
        return Err(Usage(message).into());
    }
    let inbox = inbox.as_path();
    let stop = Arc::new(AtomicBool::new(false));
    for signal in [signal_hook::consts::SIGINT, signal_hook::consts::SIGTERM] {
        // A second signal ends the process at once.
        signal_hook::flag::register_conditional_shutdown(signal, 130, stop.clone())?;
        signal_hook::flag::register(signal, stop.clone())?;
    }
    let mut house = House::open(common.shop.as_deref(), common.in_process)?;
    let mut ledger = FileLedger::open(&common.out)?;
    let mut watch = Watch::new(inbox, options)?;
    eprintln!(
        "Watching {}; results go to {}.",
        inbox.display(),
        common.out.display()
    );
    while let Some(ready) = watch.next(&ledger, &stop) {
        let ready = match ready {
            Ok(ready) => ready,
            Err(e) => {
                eprintln!("{e}");
                continue;
            }
        };
        match job::run(&ready.name, &ready.entries, &common.out, &mut house) {
            Ok(done) => {
                println!("{}", summary(&ready.name, &done.case, &common.out, &house));
                ledger.mark_done(&ready.name, &ready.fingerprint)?;
            }
            // Not marked: a restart tries it again.
            Err(e) => eprintln!("{}: no report: {e:#}", ready.name),
        }
    }
    debug_assert!(stop.load(Ordering::Relaxed));
    eprintln!("Stopped.");
    Ok(true)
}
