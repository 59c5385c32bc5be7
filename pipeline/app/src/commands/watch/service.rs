//! The service: from the watch to the pool, from the pool to the folder of results.

use super::pool::{Done, Pool};
use super::trouble::{Pauses, insist};
use crate::publish::{Finished, Task};
use crate::{job, publish, status_page};
use intake::{Event, IntakeError, JobNote, JobState, Outbox, ReadyJob, Watch, write_atomic};
use model::ShopFile;
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

/// All that is in the context of a running service.
pub struct Service {
    watch: Watch,
    outbox: Outbox,
    pool: Pool,
    /// Settings that labour rows are written by.
    shop: ShopFile,
    stop: Arc<AtomicBool>,
    /// The next job, when there is no room for it yet.
    next: Option<Task>,
    /// Where the jobs that are being done lie.
    sources: BTreeMap<String, JobNote>,
    /// When labour rows are to be handed over; `None` while there are none.
    rows_due: Option<Instant>,
    row_pauses: Pauses,
    page_due: Instant,
    page_changed: bool,
}

impl Service {
    pub fn new(
        watch: Watch,
        outbox: Outbox,
        pool: Pool,
        shop: ShopFile,
        stop: Arc<AtomicBool>,
    ) -> Service {
        Service {
            watch,
            outbox,
            pool,
            shop,
            stop,
            next: None,
            sources: BTreeMap::new(),
            rows_due: Some(Instant::now()),
            row_pauses: Pauses::new(),
            page_due: Instant::now(),
            page_changed: true,
        }
    }

    /// Runs until it shall stop; jobs at hand are finished.
    pub fn run(&mut self) {
        let outbox = &mut self.outbox;
        let begun = insist(&self.stop, || {
            publish::recover(outbox)?;
            outbox.ledger().begin()
        });
        if begun.is_err() {
            return;
        }
        while !self.stop.load(Ordering::Relaxed) {
            self.look();
            self.begin_next();
            self.publish_what_is_done();
            self.hand_over();
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
        self.rows_due = self.rows_due.map(|_| Instant::now());
        self.hand_over();
        self.page_changed = true;
        self.page_due = Instant::now();
        self.show();
    }

    /// Looks for the next job while a thread is free for it, and otherwise only at what came and went.
    fn look(&mut self) {
        let takes = self.next.is_none() && self.pool.is_free();
        let longest = match self.pool.busy() {
            0 => PAGE,
            _ => GLANCE,
        };
        let (watch, outbox, stop) = (&mut self.watch, &mut self.outbox, &*self.stop);
        let event = insist(stop, || match takes {
            true => watch.next(outbox.ledger(), &formats::incomplete, longest, stop),
            false => {
                let notice = watch.look(outbox.ledger(), &formats::incomplete)?;
                Ok(notice.map_or(Event::Nothing, Event::Notice))
            }
        });
        self.note_changes();
        match event {
            Ok(Event::Ready(ready)) => self.take_on(ready),
            Ok(Event::Notice(notice)) => say(&notice),
            Ok(Event::Nothing) | Err(_) => {}
        }
    }

    fn note_changes(&mut self) {
        let mut left = self.watch.left();
        // What becomes of those in work is noted when they are done.
        left.retain(|name| !self.sources.contains_key(name));
        if !left.is_empty() {
            self.leave(&left);
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
            self.watch.give_back(&name);
            return;
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
        let (outbox, stop) = (&mut self.outbox, &self.stop);
        let published = done.result.and_then(|finished| {
            let published = insist(stop, || finished.publish(outbox))?;
            Ok(published.then_some(finished))
        });
        match published {
            Ok(Some(finished)) => log(name, &finished),
            // Somebody signed or ran the same job meanwhile.
            Ok(None) if self.watch.give_back(name) => {}
            Ok(None) => self.leave(&[name.into()]),
            // What the stop kept from being published, the next start makes anew.
            Err(_) if self.stop.load(Ordering::Relaxed) => {}
            Err(e) => self.fail(name, format!("{e:#}")),
        }
        self.sources.remove(&done.name);
        self.rows_due.get_or_insert_with(Instant::now);
        self.page_changed = true;
    }

    fn fail(&mut self, name: &str, reason: String) {
        tracing::error!(job = name, "no report: {reason}");
        if !self.watch.give_back(name) {
            // Gone from the inbox: there is nothing to try again.
            return self.leave(&[name.into()]);
        }
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

    fn leave(&mut self, jobs: &[String]) {
        let outbox = &mut self.outbox;
        let _ = insist(&self.stop, || outbox.ledger().leave(jobs));
        self.page_changed = true;
    }

    /// Hands labour rows over. A batch file that cannot be written keeps rows back, and no report.
    fn hand_over(&mut self) {
        if self.rows_due.is_none_or(|due| Instant::now() < due) {
            return;
        }
        match publish::hand_over(&mut self.outbox, &self.shop) {
            Ok(()) => {
                self.rows_due = None;
                self.row_pauses = Pauses::new();
            }
            Err(e) => {
                let pause = self.row_pauses.next();
                tracing::error!(
                    again_in_s = pause.as_secs(),
                    "labour rows are not handed over yet: {e}"
                );
                self.rows_due = Some(Instant::now() + pause);
            }
        }
    }

    /// Writes the page when something changed, though not more than once a second.
    fn show(&mut self) {
        let now = Instant::now();
        if now < self.page_due || !(self.page_changed || now >= self.page_due + PAGE_AGES) {
            return;
        }
        // What keeps the page from being written keeps results too, and is waited out there.
        self.page_due = now + PAGE;
        match status_page::write(&mut self.outbox) {
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
