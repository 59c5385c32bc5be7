//! The service: from the watch to the pool, from the pool to the folder of results.

use super::pool::{Done, Pool};
use super::requests::Waiting;
use super::retry::{backoff, retry};
use crate::job::JobProgress;
use crate::publish::{Finished, Task};
use crate::serve::Sent;
use crate::words::fluent_args;
use crate::{job, publish, status_page};
use formats::Incomplete;
use intake::{
    Backoff, Completeness, Event, IntakeError, JobNote, JobState, ReadyJob, ResultStore, Watch,
    write_atomic,
};
use model::ShopFile;
use report::ReportTheme;
use report::localizer::Localizer;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::Receiver;
use std::time::{Duration, Instant};

/// Longest time that one side may keep the other waiting.
const POLL_INTERVAL: Duration = Duration::from_millis(100);
/// Interval of the status page at least, after a failure, and without a change, because ages grow.
const PAGE: Duration = Duration::from_secs(1);
const PAGE_AFTER_FAILURE: Duration = Duration::from_secs(30);
const PAGE_AGES: Duration = Duration::from_secs(300);
/// The page takes at most one part in so many of the time.
const PAGE_SHARE: u32 = 20;

/// Something that shows the jobs while the service runs, and adds files to them.
pub struct Attached {
    /// Folder whose folders add to the jobs of their names.
    pub additions: PathBuf,
    /// What it sends.
    pub sent: Receiver<Sent>,
    /// Called after each change of the jobs.
    pub note_change: Box<dyn Fn()>,
    /// Called again and again with the jobs that are being done.
    pub note_progress: Box<dyn Fn(Vec<JobProgress>)>,
}

/// State of the running service.
pub struct Service {
    pub(super) watch: Watch,
    pub(super) store: ResultStore,
    pub(super) pool: Pool,
    /// Settings that labour rows are written by.
    shop: ShopFile,
    words: ReportTheme,
    stop: Arc<AtomicBool>,
    /// The next job, when there is no room for it yet.
    pub(super) next: Option<Task>,
    /// Folders of the jobs that are being done.
    sources: BTreeMap<String, JobNote>,
    /// When labour rows are to be handed over; `None` while there are none.
    pub(super) rows_due: Option<Instant>,
    row_backoff: Backoff,
    page_due: Instant,
    pub(super) page_changed: bool,
    pub(super) attached: Option<Attached>,
    /// Reports that persons wait for.
    pub(super) waiting: Vec<Waiting>,
}

impl Service {
    pub fn new(
        watch: Watch,
        store: ResultStore,
        pool: Pool,
        shop: ShopFile,
        words: ReportTheme,
        stop: Arc<AtomicBool>,
        attached: Option<Attached>,
    ) -> Service {
        Service {
            watch,
            store,
            pool,
            shop,
            words,
            stop,
            next: None,
            sources: BTreeMap::new(),
            rows_due: Some(Instant::now()),
            row_backoff: backoff(),
            page_due: Instant::now(),
            page_changed: true,
            attached,
            waiting: Vec::new(),
        }
    }

    /// Runs until it shall stop; jobs at hand are finished. `has_crashed`: the last run ended by its own fault.
    pub fn run(&mut self, has_crashed: bool) {
        let store = &mut self.store;
        let begun = retry(&self.stop, || {
            publish::recover(store)?;
            store.ledger().begin(has_crashed)
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
            if let Some(attached) = &self.attached {
                (attached.note_progress)(self.pool.at_hand());
            }
        }
        if self.pool.busy() > 0 {
            let text = self.words.localizer().message("console-log-finishing");
            tracing::info!(jobs = self.pool.busy(), "{text}");
        }
        while self.pool.busy() > 0 {
            if let Some(done) = self.pool.take(POLL_INTERVAL) {
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
        self.take_sent();
        let takes = self.next.is_none() && self.pool.is_free();
        let longest = match self.pool.busy() {
            0 if self.attached.is_none() => PAGE,
            _ => POLL_INTERVAL,
        };
        let (watch, store, stop) = (&mut self.watch, &mut self.store, &*self.stop);
        let event = retry(stop, || match takes {
            true => watch.next(store.ledger(), &check, longest, stop),
            false => {
                let notice = watch.poll(store.ledger(), &check)?;
                Ok(notice.map_or(Event::Nothing, Event::Notice))
            }
        });
        self.note_changes();
        self.note_refusals();
        match event {
            Ok(Event::Ready(ready)) => self.take_on(ready),
            Ok(Event::Held(note)) => {
                if let JobState::Held(why) = &note.state {
                    let text = self.because("console-log-held", why);
                    tracing::error!(job = note.name, "{text}");
                }
                self.note(&[note]);
            }
            Ok(Event::Notice(notice)) => report(&notice, self.words.localizer()),
            Ok(Event::Nothing) | Err(_) => {}
        }
    }

    fn note_changes(&mut self) {
        let mut removed = self.watch.drain_removed();
        // What becomes of those in work is noted when they are done.
        removed.retain(|name| !self.sources.contains_key(name));
        if !removed.is_empty() {
            self.release(&removed);
        }
        let new = self.watch.drain_new();
        if !new.is_empty() {
            self.note(&new);
        }
    }

    /// Keeps for the status page what of the inbox belongs to no job.
    fn note_refusals(&mut self) {
        let Some(refusals) = self.watch.drain_refusals() else {
            return;
        };
        let store = &mut self.store;
        let _ = retry(&self.stop, || store.ledger().note_refusals(&refusals));
        self.page_changed = true;
    }

    fn take_on(&mut self, ready: ReadyJob) {
        let ReadyJob {
            name,
            source,
            arrived,
            entries,
            fingerprint,
            crashes,
        } = ready;
        if self.sources.contains_key(&name) {
            // Changed while it is being done; once that is over, it is done again.
            self.watch.requeue(&name);
            return;
        }
        let note = JobNote {
            name: name.clone(),
            source: source.clone(),
            arrived,
            state: JobState::Working,
            fingerprint: Some(fingerprint),
        };
        self.sources.insert(name.clone(), note);
        let store = &mut self.store;
        // Cloned for a ledger that fails and is asked again.
        self.next = retry(&self.stop, || {
            Task::new(&name, source.clone(), entries.clone(), store)
        })
        .ok()
        .map(|task| task.alone_if(crashes > 0));
    }

    fn begin_next(&mut self) {
        self.begin_waiting();
        let Some(task) = self.next.take_if(|task| self.pool.has_room_for(task)) else {
            return;
        };
        let text = self.words.localizer().message("console-log-begun");
        tracing::info!(job = task.name, files = task.files(), "{text}");
        self.note_state(&task.name, JobState::Working);
        self.pool.give(task, None);
    }

    fn publish_what_is_done(&mut self) {
        let mut longest = match self.next.is_some() || !self.pool.is_free() {
            true => POLL_INTERVAL,
            false => Duration::ZERO,
        };
        while let Some(done) = self.pool.take(longest) {
            longest = Duration::ZERO;
            self.publish(done);
        }
    }

    fn publish(&mut self, done: Done) {
        if done.reply.is_some() {
            return self.publish_waited_for(done);
        }
        let name = done.name.as_str();
        let (store, stop) = (&mut self.store, &self.stop);
        let published = done.result.and_then(|finished| {
            let published = retry(stop, || finished.publish(store))?;
            Ok(published.then_some(finished))
        });
        match published {
            Ok(Some(finished)) => {
                log(name, &finished, self.words.localizer());
                if finished.is_due_again && self.watch.requeue_few(name) {
                    let text = self.words.localizer().message("console-log-again");
                    tracing::warn!(job = name, "{text}");
                }
            }
            // Somebody signed or ran the same job meanwhile, or recorded something of its lines.
            Ok(None) if self.watch.requeue(name) => {}
            Ok(None) => self.release(&[name.into()]),
            // What the stop kept from being published, the next start makes anew.
            Err(_) if self.stop.load(Ordering::Relaxed) => {}
            Err(e) => self.fail(name, format!("{e:#}")),
        }
        self.sources.remove(&done.name);
        self.rows_due.get_or_insert_with(Instant::now);
        self.page_changed = true;
    }

    fn fail(&mut self, name: &str, reason: String) {
        let text = self.because("console-log-no-report", &reason);
        tracing::error!(job = name, "{text}");
        if !self.watch.requeue(name) {
            // Gone from the inbox: there is nothing to try again.
            return self.release(&[name.into()]);
        }
        let path = self.store.folder().join(name).join("problems.txt");
        let text = job::problem_file(&reason, self.words.localizer());
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
        let store = &mut self.store;
        // What the stop kept from being noted, the next start finds out by itself.
        let _ = retry(&self.stop, || store.ledger().note(notes));
        self.page_changed = true;
    }

    fn release(&mut self, jobs: &[String]) {
        let store = &mut self.store;
        let _ = retry(&self.stop, || store.ledger().release(jobs));
        self.page_changed = true;
    }

    fn because(&self, key: &str, reason: &str) -> String {
        let localizer = self.words.localizer();
        let reason = localizer.translate(reason);
        localizer.message_with(key, &fluent_args!["reason" => reason])
    }

    /// Hands labour rows over. A batch file that cannot be written keeps rows back, and no report.
    fn hand_over(&mut self) {
        if self.rows_due.is_none_or(|due| Instant::now() < due) {
            return;
        }
        match publish::hand_over(&mut self.store, &self.shop) {
            Ok(()) => {
                self.rows_due = None;
                self.row_backoff = backoff();
            }
            Err(e) => {
                let pause = self.row_backoff.next_pause();
                let text = self.because("console-log-rows-wait", &e.to_string());
                tracing::error!(again_in_s = pause.as_secs(), "{text}");
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
        let written = status_page::write(&mut self.store, self.words.localizer());
        self.page_due = now + PAGE.max(now.elapsed() * PAGE_SHARE);
        match written {
            Ok(()) => {
                self.page_changed = false;
                if let Some(attached) = &self.attached {
                    (attached.note_change)();
                }
            }
            Err(e) => {
                tracing::warn!("{}", self.because("console-log-page", &e.to_string()));
                self.page_due = now + PAGE_AFTER_FAILURE;
            }
        }
    }
}

/// Asks the readers about a file that does not change.
fn check(path: &Path) -> Completeness {
    match formats::incomplete(path) {
        None => Completeness::Complete,
        Some(Incomplete::LastLine(reason)) => Completeness::LastLine(reason),
        Some(Incomplete::Rest(reason)) => Completeness::Incomplete(reason),
    }
}

fn report(notice: &IntakeError, localizer: &Localizer) {
    let text = localizer.translate(&notice.to_string());
    match notice {
        IntakeError::Incomplete { path, .. } => tracing::info!(file = %path.display(), "{text}"),
        IntakeError::TransientRead { job, .. } => tracing::warn!(job, "{text}"),
        _ => tracing::warn!("{text}"),
    }
}

fn log(name: &str, finished: &Finished, localizer: &Localizer) {
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
            let message = localizer.translate(file.message.as_deref().unwrap_or_default());
            let arguments = fluent_args!["message" => message];
            let text = localizer.message_with("console-set-aside", &arguments);
            tracing::warn!(job = name, file = file.path, "{text}");
        }
    }
}
