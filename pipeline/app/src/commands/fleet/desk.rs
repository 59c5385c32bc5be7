//! `serve` on the store of many shops: the page of one of them. Workers do the jobs; here only those reports are made that
//! a person at the page asks for.

use crate::arguments::ServeArguments;
use crate::commands::report::newest;
use crate::commands::serve::open_page;
use crate::commands::store::open_shared;
use crate::commands::watch::stop_on_signals;
use crate::context::AppContext;
use crate::memory::Memory;
use crate::publish::Task;
use crate::serve::{Follow, Request, Sent, Shop};
use anyhow::{Context, Result};
use fleet::ShopStore;
use intake::{IntakeError, JobGroup, JobState, Signature, Store};
use page::{Message, Page};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::time::{Duration, Instant};

/// Longest time without a look at what was asked for, and at the jobs.
const POLL: Duration = Duration::from_millis(200);
const LOOK: Duration = Duration::from_secs(5);

/// Jobs of each group that are looked at for changes.
const LISTED: u32 = 1_000;

/// Serves the page of a shop until it is stopped.
pub fn serve(arguments: &ServeArguments) -> Result<bool> {
    let mut store = open_shared(&arguments.shared)?;
    let settings = match &arguments.shop {
        Some(shop) => Some(shop.clone()),
        None => store.settings(None)?,
    };
    let memory = Memory::of_megabytes(arguments.memory);
    let context = AppContext::open_within(settings.as_deref(), false, memory)?;
    let stop = stop_on_signals()?;
    let private = tempfile::tempdir().context("a folder for what is added")?;
    let added = private.path().join("added");
    std::fs::create_dir(&added).with_context(|| added.display().to_string())?;
    let (sender, sent) = channel();
    let shop = Shop::new(store.reopen()?, private.path(), &context, sender);
    let page = open_page(shop, private.path(), &context, arguments)?;
    let mut desk = Desk {
        store,
        context,
        added,
        page,
        sent,
        to_put: BTreeSet::new(),
        seen: Vec::new(),
    };
    desk.run(&stop);
    Ok(true)
}

/// State of a job that the page shows.
type Seen = (String, JobState, Option<String>);

/// What stands behind the page.
struct Desk {
    store: ShopStore,
    context: AppContext,
    /// Folder of what was added at the page and is not in the store yet.
    added: PathBuf,
    page: Page,
    sent: Receiver<Sent>,
    /// Jobs of which something was added.
    to_put: BTreeSet<String>,
    seen: Vec<Seen>,
}

impl Desk {
    fn run(&mut self, stop: &AtomicBool) {
        let mut looked: Option<Instant> = None;
        while !stop.load(Ordering::Relaxed) {
            match self.sent.recv_timeout(POLL) {
                Ok(Sent::Changed(job)) => {
                    self.to_put.insert(job);
                }
                Ok(Sent::Request(request)) => self.do_request(request),
                Ok(Sent::Question(question)) => question(&mut self.context),
                Err(RecvTimeoutError::Timeout) => {}
                Err(RecvTimeoutError::Disconnected) => return,
            }
            self.put_added();
            if looked.is_none_or(|at| at.elapsed() >= LOOK) {
                looked = Some(Instant::now());
                match self.look() {
                    Ok(seen) if seen != self.seen => {
                        self.seen = seen;
                        self.page.note_change();
                    }
                    Ok(_) => {}
                    Err(e) => tracing::warn!("the jobs cannot be looked at: {e}"),
                }
            }
        }
    }

    fn look(&mut self) -> Result<Vec<Seen>, IntakeError> {
        let mut seen = Vec::new();
        for group in JobGroup::ALL {
            let jobs = self.store.ledger().jobs_in(group, LISTED)?.into_iter();
            seen.extend(jobs.map(|j| (j.name, j.state, j.revision.map(|r| r.token))));
        }
        Ok(seen)
    }

    fn do_request(&mut self, request: Request) {
        let Request { job, act, reply } = request;
        let answer = act(&mut self.store).and_then(|follow| match follow {
            Follow::Nothing => Ok(()),
            Follow::Report => self.publish(&job, None),
            Follow::Signed(signature) => self.publish(&job, Some(signature)),
        });
        if let Err(e) = &answer {
            tracing::warn!(job, "what was asked for was not done: {e:?}");
        }
        // The person who asked may have gone.
        let _ = reply.send(answer);
        self.page.note_change();
    }

    fn publish(&mut self, job: &str, signature: Option<Signature>) -> Result<(), Message> {
        let is_signed = signature.is_some();
        match self.make(job, signature) {
            Ok(true) => Ok(()),
            // Nobody has seen the report that came in between.
            Ok(false) if is_signed => Err(Message::new("sign-moved")),
            Ok(false) => Err(Message::new("recorded-not-made")),
            Err(e) => Err(Message::Words(format!("{e:#}"))),
        }
    }

    fn make(&mut self, job: &str, signature: Option<Signature>) -> Result<bool> {
        let latest = newest(&mut self.store, job)?;
        let source = self.store.source(&latest)?;
        let task = Task::new(job, source.clone(), source.gather()?, &mut self.store)?;
        let task = match signature {
            Some(signature) => task.signed(signature),
            None => task,
        };
        Ok(task.make(&mut self.context)?.publish(&mut self.store)?)
    }

    /// Puts what was added into the store's inbox. What cannot be put now stays, and is tried again.
    fn put_added(&mut self) {
        for job in std::mem::take(&mut self.to_put) {
            if let Err(e) = put_files(&self.store, &job, &self.added.join(&job)) {
                tracing::warn!(job, "what was added waits: {e:#}");
                self.to_put.insert(job);
            }
        }
    }
}

/// Puts the files of a folder into a job of the inbox, and removes each that is there.
fn put_files(store: &ShopStore, job: &str, folder: &Path) -> Result<()> {
    for entry in intake::gather(folder)? {
        let bytes = std::fs::read(&entry.location).with_context(|| entry.path.clone())?;
        store.add_file(job, &entry.path, bytes)?;
        std::fs::remove_file(&entry.location)?;
    }
    Ok(())
}
