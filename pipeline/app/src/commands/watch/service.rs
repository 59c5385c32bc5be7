//! The service: from the watch to the pool, from the pool to the folder of results.

use super::pool::{Done, Pool};
use super::trouble::insist;
use crate::publish::{Finished, Task};
use crate::{board, job, publish};
use intake::{Event, IntakeError, JobNote, JobState, Outbox, ReadyJob, Watch, write_atomic};
use model::shop_file::LabourCsvSection;
use std::collections::BTreeMap;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

/// How long a look at the one side may keep the other waiting.
const GLANCE: Duration = Duration::from_millis(100);
/// How often the page is written at most, and how often without a change, because ages grow.
const PAGE: Duration = Duration::from_secs(1);
const PAGE_AFTER_TROUBLE: Duration = Duration::from_secs(30);
const PAGE_AGES: Duration = Duration::from_secs(300);

/// All that is in the house of a running service.
pub struct Service {
    watch: Watch,
    outbox: Outbox,
    pool: Pool,
    /// How labour rows are written.
    map: LabourCsvSection,
    stop: Arc<AtomicBool>,
    /// The next job, when there is no room for it yet.
    next: Option<Task>,
    /// Where the jobs that are being done lie.
    sources: BTreeMap<String, JobNote>,
    page_due: Instant,
    page_changed: bool,
}

impl Service {
    pub fn new(
        watch: Watch,
        outbox: Outbox,
        pool: Pool,
        map: LabourCsvSection,
        stop: Arc<AtomicBool>,
    ) -> Service {
        Service {
            watch,
            outbox,
            pool,
            map,
            stop,
            next: None,
            sources: BTreeMap::new(),
            page_due: Instant::now(),
            page_changed: true,
        }
    }

    /// Runs until it shall stop; jobs at hand are finished.
    pub fn run(&mut self) {
        let (outbox, map) = (&mut self.outbox, &self.map);
        let begun = insist(&self.stop, || {
            publish::recover(outbox, map)?;
            outbox.ledger().begin()
        });
        if begun.is_err() {
            return;
        }
        while !self.stop.load(Ordering::Relaxed) {
            self.look();
            self.begin_next();
            self.publish_what_is_done();
            self.show();
        }
        if self.pool.busy() > 0 {
            tracing::info!(jobs = self.pool.busy(), "finishing the jobs at hand");
        }
        while self.pool.busy() > 0 {
            if let Some(done) = self.pool.take(GLANCE) {
                self.publish(done);
            }
        }
        self.page_changed = true;
        self.page_due = Instant::now();
        self.show();
    }

    /// Looks for the next job while a thread is free for it.
    fn look(&mut self) {
        if self.next.is_some() || !self.pool.is_free() {
            return;
        }
        let longest = match self.pool.busy() {
            0 => PAGE,
            _ => GLANCE,
        };
        let (watch, outbox, stop) = (&mut self.watch, &mut self.outbox, &*self.stop);
        let event = insist(stop, || {
            watch.next(outbox.ledger(), &formats::unfinished, longest, stop)
        });
        match event {
            Ok(Event::Ready(ready)) => self.take_on(ready),
            Ok(Event::Notice(notice)) => say(&notice),
            Ok(Event::Nothing) | Err(_) => {}
        }
        let news = self.watch.news();
        if !news.is_empty() {
            self.note(&news);
        }
    }

    fn take_on(&mut self, ready: ReadyJob) {
        let ReadyJob {
            name,
            source,
            arrived,
            entries,
            ..
        } = ready;
        if self.sources.contains_key(&name) {
            // Changed while it is being done; once that is over, it is done again.
            return self.watch.give_back(&name);
        }
        let note = JobNote {
            name: name.clone(),
            source: source.clone(),
            arrived,
            state: JobState::Working,
        };
        self.sources.insert(name.clone(), note);
        let outbox = &mut self.outbox;
        // Cloned for a ledger that fails and is asked again.
        self.next = insist(&self.stop, || {
            Task::new(&name, source.clone(), entries.clone(), outbox)
        })
        .ok();
    }

    fn begin_next(&mut self) {
        let Some(task) = self.next.take_if(|task| self.pool.has_room_for(task)) else {
            return;
        };
        tracing::info!(job = task.name, files = task.files(), "begun");
        self.note_state(&task.name, JobState::Working);
        self.pool.give(task);
    }

    fn publish_what_is_done(&mut self) {
        let mut longest = match self.next.is_some() || !self.pool.is_free() {
            true => GLANCE,
            false => Duration::ZERO,
        };
        while let Some(done) = self.pool.take(longest) {
            longest = Duration::ZERO;
            self.publish(done);
        }
    }

    fn publish(&mut self, done: Done) {
        let name = done.name.as_str();
        let (outbox, map, stop) = (&mut self.outbox, &self.map, &self.stop);
        let published = done.result.and_then(|finished| {
            let published = insist(stop, || finished.publish(outbox, map))?;
            Ok(published.then_some(finished))
        });
        match published {
            Ok(Some(finished)) => log(name, &finished),
            // Somebody signed or ran the same job meanwhile.
            Ok(None) => self.watch.give_back(name),
            // What the stop kept from being published, the next start makes anew.
            Err(_) if self.stop.load(Ordering::Relaxed) => {}
            Err(e) => self.fail(name, format!("{e:#}")),
        }
        self.sources.remove(&done.name);
        self.page_changed = true;
    }

    fn fail(&mut self, name: &str, reason: String) {
        tracing::error!(job = name, "no report: {reason}");
        self.watch.give_back(name);
        let path = self.outbox.folder().join(name).join("problems.txt");
        let text = job::problem_file(&reason);
        if let Err(e) = write_atomic(&path, text.as_bytes()) {
            tracing::error!(job = name, "{e}");
        }
        self.note_state(name, JobState::Failed(reason));
    }

    fn note_state(&mut self, name: &str, state: JobState) {
        if let Some(note) = self.sources.get(name) {
            let note = JobNote {
                state,
                ..note.clone()
            };
            self.note(&[note]);
        }
    }

    fn note(&mut self, notes: &[JobNote]) {
        let outbox = &mut self.outbox;
        // What the stop kept from being noted, the next start finds out by itself.
        let _ = insist(&self.stop, || outbox.ledger().note(notes));
        self.page_changed = true;
    }

    /// Writes the page when something changed, though not more than once a second.
    fn show(&mut self) {
        let now = Instant::now();
        if now < self.page_due || !(self.page_changed || now >= self.page_due + PAGE_AGES) {
            return;
        }
        // What keeps the page from being written keeps results too, and is waited out there.
        self.page_due = now + PAGE;
        match board::write(&mut self.outbox) {
            Ok(()) => self.page_changed = false,
            Err(e) => {
                tracing::warn!("the page cannot be written: {e}");
                self.page_due = now + PAGE_AFTER_TROUBLE;
            }
        }
    }
}

fn say(notice: &IntakeError) {
    match notice {
        IntakeError::Unfinished { path, .. } => tracing::info!(file = %path.display(), "{notice}"),
        IntakeError::TroubleReading { job, .. } => tracing::warn!(job, "{notice}"),
        _ => tracing::warn!("{notice}"),
    }
}

fn log(name: &str, finished: &Finished) {
    let revision = finished.revision();
    tracing::info!(
        job = name,
        revision = revision.number,
        set_aside = revision.set_aside,
        "{}",
        revision.sentence
    );
    for file in &finished.case().files {
        if file.status == model::case::FileStatus::SetAside {
            let message = file.message.as_deref().unwrap_or_default();
            tracing::warn!(job = name, file = file.path, "set aside: {message}");
        }
    }
}
