//! The job that a thread has at hand, for whoever waits for it: the thread notes what it does, another one looks.

use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Mutex, MutexGuard, PoisonError};

/// Step of a job.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub enum Step {
    /// It was begun.
    #[default]
    Begun,
    /// A file is read.
    Reading {
        /// Path inside the job.
        file: String,
        /// Size of the files before it, bytes.
        before: u64,
        /// Size of all files, bytes.
        all: u64,
    },
    /// A library measures.
    Measuring {
        /// System that the library is of.
        system: String,
    },
    /// The reports are made.
    Reporting,
}

/// A job at hand as it was when somebody looked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobProgress {
    /// Name of the job.
    pub job: String,
    /// Step that is being done.
    pub step: Step,
    /// Share of the step that is done, 0 to 100 %; `None` where it is not known.
    pub percent: Option<u8>,
}

/// The job that a thread has at hand.
#[derive(Debug, Default)]
pub struct AtHand {
    /// Name of the job and its step; `None` between jobs.
    job: Mutex<Option<(String, Step)>>,
    /// End of what was read of the file that is read, bytes.
    reached: AtomicU64,
}

impl AtHand {
    /// Begins a job.
    pub fn begin(&self, job: &str) {
        *self.lock() = Some((job.into(), Step::Begun));
    }

    /// Notes the step that begins. Without a job nobody waits, and nothing is noted.
    pub fn note(&self, next: Step) {
        if let Some((_, step)) = &mut *self.lock() {
            *step = next;
            self.reached.store(0, Ordering::Relaxed);
        }
    }

    /// Counter for the end of what was read of a file.
    pub fn reached(&self) -> &AtomicU64 {
        &self.reached
    }

    /// Ends the job.
    pub fn end(&self) {
        *self.lock() = None;
    }

    /// The job at hand, as it is now.
    pub fn look(&self) -> Option<JobProgress> {
        let (job, step) = self.lock().clone()?;
        let percent = match step {
            Step::Reading { before, all, .. } => {
                let read = before.saturating_add(self.reached.load(Ordering::Relaxed));
                let percent = u128::from(read) * 100 / u128::from(all.max(1));
                Some(u8::try_from(percent).unwrap_or(100).min(100))
            }
            _ => None,
        };
        Some(JobProgress { job, step, percent })
    }

    fn lock(&self) -> MutexGuard<'_, Option<(String, Step)>> {
        self.job.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_share_read_is_of_all_files() {
        let at_hand = AtHand::default();
        at_hand.note(Step::Reporting);
        assert_eq!(at_hand.look(), None, "no job");
        at_hand.begin("R-1");
        let reading = Step::Reading {
            file: "b.csv".into(),
            before: 100,
            all: 400,
        };
        at_hand.note(reading.clone());
        at_hand.reached().store(200, Ordering::Relaxed);
        let seen = |step, percent| {
            let job = "R-1".into();
            Some(JobProgress { job, step, percent })
        };
        assert_eq!(at_hand.look(), seen(reading, Some(75)));
        at_hand.note(Step::Reporting);
        assert_eq!(at_hand.look(), seen(Step::Reporting, None));
        at_hand.end();
        assert_eq!(at_hand.look(), None);
    }
}
