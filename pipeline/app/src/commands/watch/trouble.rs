//! Trouble with the folder of results: said, waited out, tried again.

use intake::IntakeError;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::sleep;
use std::time::{Duration, Instant};

const FIRST_PAUSE: Duration = Duration::from_secs(1);
const LONGEST_PAUSE: Duration = Duration::from_secs(300);
const STOP_CHECK: Duration = Duration::from_millis(50);

/// Longer and longer pauses.
pub struct Pauses(Duration);

impl Pauses {
    pub fn new() -> Pauses {
        Pauses(FIRST_PAUSE)
    }

    /// The next one.
    pub fn next(&mut self) -> Duration {
        let next = (self.0 * 2).min(LONGEST_PAUSE);
        std::mem::replace(&mut self.0, next)
    }
}

/// Does something until it works, with longer and longer pauses. An error comes back only where it lies with one job
/// alone, or when the service shall stop.
///
/// Meanwhile nothing else is done: where one result cannot be written, the next could not either.
pub fn insist<T>(
    stop: &AtomicBool,
    mut attempt: impl FnMut() -> Result<T, IntakeError>,
) -> Result<T, IntakeError> {
    let mut pauses = Pauses::new();
    let mut troubled = false;
    let begun = Instant::now();
    loop {
        let pause = match attempt() {
            Ok(value) => {
                if troubled {
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
                let pause = pauses.next();
                tracing::error!(again_in_s = pause.as_secs(), "{e}");
                pause
            }
        };
        troubled = true;
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
    fn trouble_passes_by_trying_again_and_a_jobs_own_does_not_hold_up_the_others() {
        let stop = AtomicBool::new(false);
        let mut left = 1;
        let begun = Instant::now();
        let value = insist(&stop, || match left {
            0 => Ok(7),
            _ => {
                left -= 1;
                Err(IntakeError::OutGone(PathBuf::new()))
            }
        });
        assert_eq!(value.ok(), Some(7));
        assert!(begun.elapsed() >= FIRST_PAUSE);
        let own = insist::<()>(&stop, || {
            Err(IntakeError::ReservedName("index.html".into()))
        });
        assert!(own.is_err());
        stop.store(true, Ordering::Relaxed);
        let stopped = insist::<()>(&stop, || Err(IntakeError::OutGone(PathBuf::new())));
        assert!(stopped.is_err());
    }
}
