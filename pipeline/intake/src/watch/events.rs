//! Listening for events of the operating system, and polling where none arrive.

use super::Watch;
use crate::IntakeError;
use crate::fs_events::{FsEvents, Wakeup};
use std::time::{Duration, Instant};

/// Greatest delay with which the operating system may report what a scan has already seen.
const LATE_EVENT: Duration = Duration::from_millis(250);
/// So many changes without an event, and the operating system is believed to report none.
const SILENT_AFTER: u32 = 2;
/// Interval of scans where the operating system reports nothing.
const POLL_INTERVAL: Duration = Duration::from_secs(2);
/// Interval at which a call looks whether it shall stop.
const STOP_CHECK: Duration = Duration::from_millis(50);

impl Watch {
    /// Begins to listen where that is wanted and not done yet. Without events the scans alone find everything, later.
    pub(super) fn listen(&mut self) {
        if self.events.is_some() || self.options.poll.is_some() {
            return;
        }
        match FsEvents::listen(&self.inbox) {
            Ok(events) => self.events = Some(events),
            Err(e) if self.inbox.is_dir() => self.fall_back_to_polling(e.to_string()),
            // The scan that follows says that the inbox is gone.
            Err(_) => {}
        }
    }

    /// Counts scans that find what no event announced: the operating system reports nothing here, as on many network
    /// shares.
    pub(super) fn check_events(&mut self, has_changed: bool) {
        let is_first = !std::mem::replace(&mut self.has_scanned, true);
        let Some(events) = self.events.as_ref().filter(|_| has_changed && !is_first) else {
            self.is_announced = false;
            return;
        };
        let is_announced = self.is_announced || events.wait(LATE_EVENT) == Wakeup::Changed;
        self.is_announced = false;
        self.unannounced = if is_announced {
            0
        } else {
            self.unannounced + 1
        };
        if self.unannounced >= SILENT_AFTER {
            self.fall_back_to_polling("files came and nothing was reported".into());
        }
    }

    fn fall_back_to_polling(&mut self, reason: String) {
        let every = POLL_INTERVAL.min(self.options.rescan);
        self.options.poll = Some(every);
        self.events = None;
        self.unreported.push_back(IntakeError::NoEvents {
            path: self.inbox.clone(),
            seconds: every.as_secs_f64(),
            reason,
        });
    }

    /// Waits at most so long; an event brings the next scan forward.
    pub(super) fn wait(&mut self, longest: Duration) {
        let slice = longest.min(STOP_CHECK);
        let Some(events) = &self.events else {
            return std::thread::sleep(slice);
        };
        match events.wait(slice) {
            Wakeup::Changed => {
                self.is_announced = true;
                let soon = Instant::now() + self.options.settle / 4;
                self.next_scan = self.next_scan.min(soon);
            }
            Wakeup::TimedOut => {}
            Wakeup::Ended => self.events = None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Completeness, Event, SqliteLedger, WatchOptions};
    use std::sync::atomic::AtomicBool;

    /// Files come, are found by scans, and no event has announced them: from then on it polls.
    #[test]
    fn where_no_events_arrive_it_polls_and_says_so() {
        let dir = tempfile::tempdir().unwrap();
        let inbox = dir.path().join("inbox");
        std::fs::create_dir(&inbox).unwrap();
        let mut ledger = SqliteLedger::open(&dir.path().join("ledger.db"), true).unwrap();
        let options = WatchOptions {
            settle: Duration::from_millis(50),
            rescan: Duration::from_millis(100),
            ..WatchOptions::default()
        };
        let mut watch = Watch::new(&inbox, options).unwrap();
        watch.events = Some(FsEvents::silent());
        let mut notice = None;
        for i in 0..10 {
            let longest = Duration::from_secs(1);
            let check = |_: &std::path::Path| Completeness::Complete;
            let event = watch.next(&mut ledger, &check, longest, &AtomicBool::new(false));
            match event.unwrap() {
                Event::Notice(n) => notice = Some(n),
                Event::Ready(_) | Event::Held(_) | Event::Nothing => {}
            }
            if notice.is_some() {
                break;
            }
            std::fs::write(inbox.join(format!("R-{i}.csv")), "1").unwrap();
        }
        assert!(
            matches!(notice, Some(IntakeError::NoEvents { .. })),
            "{notice:?}"
        );
        assert!(watch.options.poll.is_some() && watch.events.is_none());
    }
}
