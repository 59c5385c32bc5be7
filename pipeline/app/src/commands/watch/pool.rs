//! Jobs done at the same time: as many as there are cores, and as their recordings fit into memory.

use crate::context::AppContext;
use crate::publish::{Finished, Task};
use anyhow::{Result, anyhow};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;
use std::time::Duration;

/// Threads that each do one job at a time.
pub struct Pool {
    /// `None` once no more is to come.
    tasks: Option<Sender<Task>>,
    done: Receiver<Done>,
    size: usize,
    busy: usize,
    budget: u64,
    used: u64,
    /// True if the job at hand is done alone.
    is_alone: bool,
}

/// A job that was done, or why it was not.
pub struct Done {
    /// The job.
    pub name: String,
    /// Its results.
    pub result: Result<Finished>,
    weight: u64,
}

impl Pool {
    /// Starts `size` threads whose jobs may take `budget` bytes together. The first gets `context`, the others one of
    /// their own.
    ///
    /// # Errors
    /// When a context cannot be opened.
    pub fn start(
        size: usize,
        budget: u64,
        context: AppContext,
        open: impl Fn() -> Result<AppContext> + Send + Sync + 'static,
    ) -> Result<Pool> {
        let (tasks, waiting) = channel::<Task>();
        let (finished, done) = channel();
        let (waiting, open) = (Arc::new(Mutex::new(waiting)), Arc::new(open));
        let mut contexts = vec![context];
        for _ in 1..size {
            contexts.push(open()?);
        }
        for mut context in contexts {
            let (waiting, finished, open) = (waiting.clone(), finished.clone(), open.clone());
            thread::spawn(move || {
                loop {
                    let task = waiting
                        .lock()
                        .unwrap_or_else(PoisonError::into_inner)
                        .recv();
                    let Ok(task) = task else { return };
                    if finished.send(work(&task, &mut context, &*open)).is_err() {
                        return;
                    }
                }
            });
        }
        Ok(Pool {
            tasks: Some(tasks),
            done,
            size,
            busy: 0,
            budget,
            used: 0,
            is_alone: false,
        })
    }

    /// Returns true if a thread is free.
    pub fn is_free(&self) -> bool {
        self.busy < self.size
    }

    /// Returns whether a job may begin now. One that is larger than the budget, or suspected of ending the service, is
    /// done alone.
    pub fn has_room_for(&self, task: &Task) -> bool {
        let fits = self.used.saturating_add(task.weight()) <= self.budget;
        let is_alone = self.is_alone || task.is_alone;
        self.busy == 0 || (self.is_free() && fits && !is_alone)
    }

    /// Number of jobs being done.
    pub fn busy(&self) -> usize {
        self.busy
    }

    /// Begins a job.
    pub fn give(&mut self, task: Task) {
        self.busy += 1;
        self.is_alone = task.is_alone;
        self.used += task.weight();
        if let Some(tasks) = &self.tasks {
            // The threads live as long as their channel does.
            let _ = tasks.send(task);
        }
    }

    /// The next job that is done, if one is within that time.
    pub fn take(&mut self, longest: Duration) -> Option<Done> {
        match self.done.recv_timeout(longest) {
            Ok(done) => {
                self.busy -= 1;
                self.used -= done.weight;
                Some(done)
            }
            Err(RecvTimeoutError::Timeout | RecvTimeoutError::Disconnected) => None,
        }
    }
}

/// A panic in one job must not end the service; the context that it happened in is not trusted any more. Nor is one in
/// which a check did not run that may run another time: a library that could not be loaded is looked for again.
fn work(task: &Task, context: &mut AppContext, open: &dyn Fn() -> Result<AppContext>) -> Done {
    let _span = tracing::info_span!("job", job = task.name).entered();
    let result = catch_unwind(AssertUnwindSafe(|| task.make(context))).unwrap_or_else(|_| {
        if let Ok(anew) = open() {
            *context = anew;
        }
        Err(anyhow!(
            "the program failed on this job; please report it with the job's files"
        ))
    });
    if matches!(&result, Ok(finished) if finished.is_due_again)
        && let Ok(anew) = open()
    {
        *context = anew;
    }
    Done {
        name: task.name.clone(),
        result,
        weight: task.weight(),
    }
}
