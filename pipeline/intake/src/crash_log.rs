//! Record of how the service ended: by its own fault, or because it was stopped, killed or lost its power.
//!
//! A job that makes the program fail hard would do so at every start. What ends the service from outside must not be
//! blamed on a job, so that a fault of its own leaves a mark: an abort (a failed allocation, a stack that overflows, a
//! panic while panicking) or a file that shrank under a mapping (SIGBUS) by a signal handler, an end for want of memory
//! by the system's count of such ends (Linux, /proc/vmstat).

use crate::IntakeError;
use crate::result_store::OWN;
use std::fs::{self, File};
use std::io::Write;
use std::path::Path;

const NAME: &str = "crash.log";
const FAULT: &str = "fault\n";
const STOPPED: &str = "stopped\n";

/// Record of this run of the service. Dropped, it notes an orderly end.
#[derive(Debug)]
pub struct CrashLog {
    file: File,
    has_crashed: bool,
}

impl CrashLog {
    /// Reads how the last run ended, and begins the record of this one. Once in a process.
    ///
    /// # Errors
    /// When the record cannot be written.
    pub fn start(out: &Path) -> Result<CrashLog, IntakeError> {
        let path = out.join(OWN).join(NAME);
        let unwritable = |why| IntakeError::Unwritable {
            path: path.clone(),
            why,
        };
        let now = out_of_memory_ends();
        let has_crashed = fs::read_to_string(&path).is_ok_and(|last| is_own_fault(&last, &now));
        let mut file = File::create(&path).map_err(unwritable)?;
        file.write_all(now.as_bytes()).map_err(unwritable)?;
        file.sync_all().map_err(unwritable)?;
        #[cfg(unix)]
        mark_faults(&file).map_err(unwritable)?;
        Ok(CrashLog { file, has_crashed })
    }

    /// Returns whether the last run ended by its own fault.
    pub fn has_crashed(&self) -> bool {
        self.has_crashed
    }
}

impl Drop for CrashLog {
    fn drop(&mut self) {
        // At worst the next start takes an end for want of memory meanwhile for one of ours.
        let _ = self.file.write_all(STOPPED.as_bytes());
    }
}

fn is_own_fault(last: &str, now: &str) -> bool {
    let Some((before, end)) = last.split_once('\n') else {
        return false;
    };
    let killed = end.is_empty() && before != now.trim_end() && is_same_boot(before, now);
    end.contains(FAULT.trim_end()) || killed
}

/// The first word is the boot.
fn is_same_boot(before: &str, now: &str) -> bool {
    before.split(' ').next() == now.split(' ').next()
}

/// Boot and number of processes that were ended for want of memory since, as one line.
fn out_of_memory_ends() -> String {
    let boot = fs::read_to_string("/proc/sys/kernel/random/boot_id").unwrap_or_default();
    let counts = fs::read_to_string("/proc/vmstat").unwrap_or_default();
    let ends = counts.lines().find_map(|l| l.strip_prefix("oom_kill "));
    format!("{} {}\n", boot.trim(), ends.unwrap_or("0"))
}

/// Has the signals of a fault write a mark before they end the process.
#[cfg(unix)]
fn mark_faults(file: &File) -> std::io::Result<()> {
    use rustix::process::Signal;
    use std::sync::Arc;
    let file = Arc::new(file.try_clone()?);
    for signal in [Signal::ABORT, Signal::BUS] {
        let file = file.clone();
        let mark = move |_: &_| _ = rustix::io::write(&*file, FAULT.as_bytes());
        // SAFETY: the action makes one system call, write(2), which is safe in a signal handler (POSIX, 2.4.3).
        unsafe { signal_hook_registry::register_unchecked(signal.as_raw(), mark)? };
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fault_of_its_own_is_told_from_an_end_from_outside() {
        let now = "boot-a 3\n";
        for (last, is_fault) in [
            ("boot-a 3\n", false),          // killed, or the power failed
            ("boot-a 3\nstopped\n", false), // in order
            ("boot-a 3\nfault\n", true),    // aborted
            ("boot-a 2\n", true),           // ended for want of memory
            ("boot-a 2\nstopped\n", false), // another process was, later
            ("boot-b 2\n", false),          // the machine was started again
            ("", false),                    // first start
        ] {
            assert_eq!(is_own_fault(last, now), is_fault, "{last:?}");
        }
    }

    #[test]
    fn an_orderly_end_is_no_crash_for_the_next_start() {
        let out = tempfile::tempdir().unwrap();
        fs::create_dir(out.path().join(OWN)).unwrap();
        assert!(!CrashLog::start(out.path()).unwrap().has_crashed());
        assert!(!CrashLog::start(out.path()).unwrap().has_crashed());
        let mut log = File::options()
            .append(true)
            .open(out.path().join(OWN).join(NAME))
            .unwrap();
        fs::write(out.path().join(OWN).join(NAME), out_of_memory_ends()).unwrap();
        log.write_all(FAULT.as_bytes()).unwrap();
        assert!(CrashLog::start(out.path()).unwrap().has_crashed());
    }
}
