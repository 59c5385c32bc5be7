//! Listening for events of the operating system, and polling where none arrive.

use super::Watch;
use crate::IntakeError;
use crate::hints::{Hint, Hints};
use std::time::{Duration, Instant};

/// How late the operating system may report what a scan has already seen.
const LATE_HINT: Duration = Duration::from_millis(250);
/// So many changes without a hint, and the operating system is believed to report none.
const DEAF_AFTER: u32 = 2;
/// How often the inbox is looked through where the operating system reports nothing.
const CHOSEN_POLL: Duration = Duration::from_secs(2);
/// How soon a call notices that it shall stop.
const STOP_CHECK: Duration = Duration::from_millis(50);

impl Watch {
    /// Without hints (none wanted, none to be had) the rescan alone finds everything, only later.
    pub(super) fn ask_for_hints(&mut self) {
        if self.hints.is_some() || self.options.poll.is_some() {
            return;
        }
        match Hints::of(&self.inbox) {
            Ok(hints) => self.hints = Some(hints),
            Err(e) if self.inbox.is_dir() => self.poll_because(e.to_string()),
            // The scan that follows says that the inbox is gone.
            Err(_) => {}
        }
    }

    /// A scan that finds what no hint announced, and again: the operating system reports nothing here, as on many
    /// network shares.
    pub(super) fn judge_hints(&mut self, changed: bool) {
        let first = !std::mem::replace(&mut self.scanned_before, true);
        let Some(hints) = self.hints.as_ref().filter(|_| changed && !first) else {
            self.hinted = false;
            return;
        };
        let announced = self.hinted || hints.wait(LATE_HINT) == Hint::Changed;
        self.hinted = false;
        self.unannounced = if announced { 0 } else { self.unannounced + 1 };
        if self.unannounced >= DEAF_AFTER {
            self.poll_because("files came and nothing was reported".into());
        }
    }

    fn poll_because(&mut self, reason: String) {
        let every = CHOSEN_POLL.min(self.options.rescan);
        self.options.poll = Some(every);
        self.hints = None;
        self.untold.push_back(IntakeError::NoEvents {
            path: self.inbox.clone(),
            seconds: every.as_secs_f64(),
            reason,
        });
    }

    /// Waits at most so long; a hint brings the next scan forward.
    pub(super) fn wait(&mut self, longest: Duration) {
        let slice = longest.min(STOP_CHECK);
        let Some(hints) = &self.hints else {
            return std::thread::sleep(slice);
        };
        match hints.wait(slice) {
            Hint::Changed => {
                self.hinted = true;
                let soon = Instant::now() + self.options.settle / 4;
                self.next_scan = self.next_scan.min(soon);
            }
            Hint::Nothing => {}
            Hint::Ended => self.hints = None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Event, SqliteLedger, WatchOptions};
    use std::sync::atomic::AtomicBool;

    /// Files come, are found by rescans, and no event has announced them: from then on it polls.
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
        watch.hints = Some(Hints::deaf());
        let mut notice = None;
        for i in 0..10 {
            let longest = Duration::from_secs(1);
            let event = watch.next(&mut ledger, &|_| None, longest, &AtomicBool::new(false));
            match event.unwrap() {
                Event::Notice(n) => notice = Some(n),
                Event::Ready(_) | Event::Nothing => {}
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
        assert!(watch.options.poll.is_some() && watch.hints.is_none());
    }
}
