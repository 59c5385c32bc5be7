//! Retries when the folder of results cannot be used.

use intake::{Backoff, IntakeError};
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::sleep;
use std::time::{Duration, Instant};

const FIRST_PAUSE: Duration = Duration::from_secs(1);
const MAX_PAUSE: Duration = Duration::from_secs(300);
const STOP_CHECK: Duration = Duration::from_millis(50);

/// Pauses between attempts at the folder of results.
pub fn backoff() -> Backoff {
    Backoff::new(FIRST_PAUSE, MAX_PAUSE)
}

/// Does something until it works, with growing pauses. An error comes back only where one job alone is its cause, or
/// when the service shall stop.
///
/// Meanwhile nothing else is done: where one result cannot be written, the next could not either.
pub fn retry<T>(
    stop: &AtomicBool,
    mut attempt: impl FnMut() -> Result<T, IntakeError>,
) -> Result<T, IntakeError> {
    let mut pauses = backoff();
    let mut has_failed = false;
    let begun = Instant::now();
    loop {
        let pause = match attempt() {
            Ok(value) => {
                if has_failed {
                    tracing::info!(after_s = begun.elapsed().as_secs(), "it works again");
                }
                return Ok(value);
            }
            Err(e) if e.is_of_one_job() => return Err(e),
            Err(e) if stop.load(Ordering::Relaxed) => {
                tracing::error!("{e}; not tried again, because the service stops");
                return Err(e);
            }
            Err(e) => {
                let pause = pauses.next_pause();
                tracing::error!(again_in_s = pause.as_secs(), "{e}");
                pause
            }
        };
        has_failed = true;
        let end = Instant::now() + pause;
        while Instant::now() < end && !stop.load(Ordering::Relaxed) {
            sleep(STOP_CHECK);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::path::PathBuf;

    #[test]
    fn a_failure_passes_by_trying_again_and_that_of_one_job_holds_up_no_other() {
        let stop = AtomicBool::new(false);
        let mut left = 1;
        let begun = Instant::now();
        let value = retry(&stop, || match left {
            0 => Ok(7),
            _ => {
                left -= 1;
                Err(IntakeError::OutGone(PathBuf::new()))
            }
        });
        assert_eq!(value.ok(), Some(7));
        assert!(begun.elapsed() >= FIRST_PAUSE);
        let own = retry::<()>(&stop, || {
            Err(IntakeError::ReservedName("index.html".into()))
        });
        assert!(own.is_err());
        stop.store(true, Ordering::Relaxed);
        let stopped = retry::<()>(&stop, || Err(IntakeError::OutGone(PathBuf::new())));
        assert!(stopped.is_err());
    }
}
