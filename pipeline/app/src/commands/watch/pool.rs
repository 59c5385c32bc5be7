//! Jobs done at the same time: as many as there are cores, and as their recordings fit into memory.

use crate::context::AppContext;
use crate::job::{AtHand, JobProgress};
use crate::publish::{Finished, Task};
use crate::serve::{Question, Reply};
use anyhow::{Result, anyhow};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;
use std::time::Duration;

/// Threads that each do one job at a time.
pub struct Pool {
    /// `None` once no more is to come.
    work: Option<Sender<Work>>,
    done: Receiver<Option<Done>>,
    size: usize,
    busy: usize,
    budget: u64,
    used: u64,
    /// True if the job at hand is done alone.
    is_alone: bool,
    /// What each thread has at hand.
    at_hand: Vec<Arc<AtHand>>,
}

/// Something that a thread does.
enum Work {
    Job(Box<Task>, Option<Reply>),
    Question(Question),
}

/// A job that was done, or why it was not.
pub struct Done {
    /// The job.
    pub name: String,
    /// Its results.
    pub result: Result<Finished>,
    /// Whoever waits for it.
    pub reply: Option<Reply>,
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
        let (work, waiting) = channel::<Work>();
        let (finished, done) = channel();
        let (waiting, open) = (Arc::new(Mutex::new(waiting)), Arc::new(open));
        let mut contexts = vec![context];
        for _ in 1..size {
            contexts.push(open()?);
        }
        let mut all_at_hand = Vec::new();
        for mut context in contexts {
            let (waiting, finished, open) = (waiting.clone(), finished.clone(), open.clone());
            let at_hand = Arc::new(AtHand::default());
            all_at_hand.push(at_hand.clone());
            thread::spawn(move || {
                loop {
                    let work = waiting
                        .lock()
                        .unwrap_or_else(PoisonError::into_inner)
                        .recv();
                    let done = match work {
                        Ok(Work::Job(task, reply)) => {
                            context.note_steps_in(&at_hand);
                            at_hand.begin(&task.name);
                            let done = make(&task, reply, &mut context, &*open);
                            at_hand.end();
                            Some(done)
                        }
                        Ok(Work::Question(question)) => {
                            answer(question, &mut context, &*open);
                            None
                        }
                        Err(_) => return,
                    };
                    if finished.send(done).is_err() {
                        return;
                    }
                }
            });
        }
        Ok(Pool {
            work: Some(work),
            done,
            size,
            busy: 0,
            budget,
            used: 0,
            is_alone: false,
            at_hand: all_at_hand,
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

    /// The jobs being done, as they are now.
    pub fn at_hand(&self) -> Vec<JobProgress> {
        self.at_hand.iter().filter_map(|a| a.look()).collect()
    }

    /// Number of jobs being done.
    pub fn busy(&self) -> usize {
        self.busy
    }

    /// Begins a job that nobody waits for, or somebody.
    pub fn give(&mut self, task: Task, reply: Option<Reply>) {
        self.is_alone = task.is_alone;
        self.used += task.weight();
        self.begin(Work::Job(Box::new(task), reply));
    }

    /// Answers a question once a thread is free.
    pub fn ask(&mut self, question: Question) {
        self.begin(Work::Question(question));
    }

    fn begin(&mut self, work: Work) {
        self.busy += 1;
        if let Some(threads) = &self.work {
            // The threads live as long as their channel does.
            let _ = threads.send(work);
        }
    }

    /// The next job that is done, if one is within that time.
    pub fn take(&mut self, longest: Duration) -> Option<Done> {
        match self.done.recv_timeout(longest) {
            Ok(done) => {
                self.busy -= 1;
                let done = done?;
                self.used -= done.weight;
                Some(done)
            }
            Err(RecvTimeoutError::Timeout | RecvTimeoutError::Disconnected) => None,
        }
    }
}

/// A panic over a question is the end of the question alone; whoever asked learns it by the reply that never comes.
fn answer(question: Question, context: &mut AppContext, open: &dyn Fn() -> Result<AppContext>) {
    let answered = catch_unwind(AssertUnwindSafe(|| question(context)));
    if answered.is_err()
        && let Ok(anew) = open()
    {
        *context = anew;
    }
}

/// A panic in one job must not end the service; the context that it happened in is not trusted any more. Nor is one in
/// which a check did not run that may run another time: a library that could not be loaded is looked for again.
fn make(
    task: &Task,
    reply: Option<Reply>,
    context: &mut AppContext,
    open: &dyn Fn() -> Result<AppContext>,
) -> Done {
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
        reply,
        weight: task.weight(),
    }
}
