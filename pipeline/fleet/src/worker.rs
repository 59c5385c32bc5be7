//! A worker: claims jobs, does them, and makes their results real.

use crate::files::listing_digest;
use crate::wake::Wake;
use crate::{Again, Claim, Database, FleetError, Inbox, Metrics, Objects, ShopStore};
use std::convert::Infallible;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};
use tempfile::TempDir;
use tokio::runtime::Handle;
use tokio::task::JoinSet;

/// A job as it is handed to the work itself.
#[derive(Debug)]
pub struct Task {
    /// Claim that it is done under.
    pub claim: Claim,
    /// Folder with its files; removed afterwards.
    pub folder: PathBuf,
    /// The shop's store. What is published there counts only while the claim is the newest.
    pub store: ShopStore,
    /// True once the claim is lost: what is made of it counts as nothing.
    pub is_lost: Arc<AtomicBool>,
}

/// Reason for which there are no results.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Failure {
    /// It may work later.
    Transient(String),
    /// It will not, with these files.
    Permanent(String),
    /// A server was away, which is no job's fault.
    Away(String),
}

/// The work itself. Called on a thread of its own, several at a time.
pub trait Work: Send + Sync + 'static {
    /// Does a job and publishes its results in the task's store. Returns whether they were published; else somebody else
    /// changed the job meanwhile.
    ///
    /// # Errors
    /// When there are no results.
    fn run(&self, task: Task) -> Result<bool, Failure>;
}

/// How a worker works.
#[derive(Debug, Clone)]
pub struct WorkerOptions {
    /// Name that the queue shows.
    pub name: String,
    /// Time after which a worker that says nothing is taken for dead. Renewed at a third.
    pub lease: Duration,
    /// Jobs at the same time.
    pub at_once: usize,
    /// Time after which the queue is looked at although nothing woke the worker.
    pub poll: Duration,
}

/// A worker of the fleet.
pub struct Worker<W> {
    database: Database,
    objects: Objects,
    work: Arc<W>,
    options: WorkerOptions,
    metrics: Arc<Metrics>,
}

impl<W> Clone for Worker<W> {
    fn clone(&self) -> Self {
        Worker {
            database: self.database.clone(),
            objects: self.objects.clone(),
            work: Arc::clone(&self.work),
            options: self.options.clone(),
            metrics: Arc::clone(&self.metrics),
        }
    }
}

/// Pause before a job is tried again whose database or store was away.
const AWAY: Duration = Duration::from_secs(2);

/// Reason for which a job that somebody else changed is tried again.
const CHANGED: &str = "somebody published or recorded something of it meanwhile";

/// Pause before a job is tried again, by the number of attempts so far.
fn pause(attempts: i32) -> Duration {
    Duration::from_secs(5 << attempts.clamp(0, 6))
}

impl<W: Work> Worker<W> {
    /// A worker on a database and a store.
    pub fn new(
        database: Database,
        objects: Objects,
        work: W,
        options: WorkerOptions,
        metrics: Arc<Metrics>,
    ) -> Worker<W> {
        Worker {
            database,
            objects,
            work: Arc::new(work),
            options,
            metrics,
        }
    }

    /// Works until `stop` is set, and then finishes the jobs at hand. Servers that are away are waited for.
    pub async fn run(&self, stop: &AtomicBool) {
        let mut running = JoinSet::new();
        let mut wake = Wake::default();
        while !stop.load(Ordering::Relaxed) {
            let free = self.options.at_once - running.len();
            let claims = match free {
                0 => Ok(Vec::new()),
                _ => self.claim(free).await,
            };
            let claims = claims.unwrap_or_else(|e| {
                tracing::warn!("the queue cannot be asked: {e}");
                Vec::new()
            });
            if !claims.is_empty() {
                wake.end();
                for claim in claims {
                    let worker = self.clone();
                    running.spawn(async move { worker.one(claim).await });
                }
            } else if free == 0 || !wake.begin(&self.database).await {
                tokio::select! {
                    Some(_) = running.join_next() => {}
                    () = wake.wait(self.options.poll) => {}
                }
            }
            while running.try_join_next().is_some() {}
        }
        while running.join_next().await.is_some() {}
    }

    async fn claim(&self, most: usize) -> Result<Vec<Claim>, FleetError> {
        let most = u32::try_from(most).unwrap_or(u32::MAX);
        self.database
            .claim(&self.options.name, self.options.lease, most)
            .await
    }

    /// Does one claimed job to its end.
    async fn one(&self, claim: Claim) {
        let is_lost = Arc::new(AtomicBool::new(false));
        // Side by side: a renewal may wait for the very transaction that finishes the job.
        let result = tokio::select! {
            result = self.done(&claim, Arc::clone(&is_lost)) => result,
            never = self.keep(&claim, &is_lost) => match never {},
        };
        let retry = Again::After(pause(claim.attempts));
        let how = match result {
            Ok(true) => "done",
            Ok(false) => match self.database.renew(&claim, self.options.lease).await {
                Ok(false) => "outdated",
                _ => self.give_back(&claim, CHANGED, Again::After(AWAY)).await,
            },
            Err(Failure::Transient(why)) => self.give_back(&claim, &why, retry).await,
            Err(Failure::Permanent(why)) => self.give_back(&claim, &why, Again::Never).await,
            Err(Failure::Away(why)) => self.give_back(&claim, &why, Again::Uncounted(AWAY)).await,
        };
        self.metrics.ended(how);
    }

    /// Renews the lease for as long as it is polled.
    async fn keep(&self, claim: &Claim, is_lost: &AtomicBool) -> Infallible {
        loop {
            tokio::time::sleep(self.options.lease / 3).await;
            match self.database.renew(claim, self.options.lease).await {
                Ok(true) => {}
                Ok(false) => is_lost.store(true, Ordering::Relaxed),
                // The lease may run out: then the token tells.
                Err(e) => tracing::warn!(
                    "{}/{}: the lease could not be renewed: {e}",
                    claim.shop,
                    claim.job
                ),
            }
        }
    }

    async fn give_back(&self, claim: &Claim, why: &str, again: Again) -> &'static str {
        tracing::warn!("{}/{}: {why}", claim.shop, claim.job);
        if let Err(e) = self.database.give_back(claim, why, again).await {
            tracing::warn!(
                "{}/{}: it waits for its lease to run out: {e}",
                claim.shop,
                claim.job
            );
        }
        if again == Again::Never {
            "failed"
        } else {
            "retried"
        }
    }

    async fn done(&self, claim: &Claim, is_lost: Arc<AtomicBool>) -> Result<bool, Failure> {
        let start = Instant::now();
        let (_kept, folder) = self.fetch(claim).await?;
        self.metrics.took("fetch", start.elapsed().as_secs_f64());
        let store = ShopStore::new(
            self.database.clone(),
            self.objects.clone(),
            &claim.shop,
            Handle::current(),
        )?;
        let task = Task {
            claim: claim.clone(),
            folder,
            store: store.under(claim, &self.metrics),
            is_lost,
        };
        let work = Arc::clone(&self.work);
        tokio::task::spawn_blocking(move || work.run(task))
            .await
            .map_err(|_| Failure::Transient("the work ended by a fault of the program".into()))
            .flatten()
    }

    /// The job's files in a folder of this machine, which goes with the first one.
    async fn fetch(&self, claim: &Claim) -> Result<(TempDir, PathBuf), Failure> {
        let mut files = Inbox::files_of(&self.objects, &claim.shop, &claim.job).await?;
        if listing_digest(&files) != claim.inputs {
            // What is there now is queued by the next look at the inbox.
            return Err(Failure::Transient(
                "its files have changed since it was queued".into(),
            ));
        }
        Inbox::leave_out_manifest(&mut files);
        let place = tempfile::tempdir().map_err(FleetError::from)?;
        let folder = self
            .objects
            .mirror(&files, &claim.job, place.path())
            .await?;
        Ok((place, folder))
    }
}

impl From<FleetError> for Failure {
    fn from(e: FleetError) -> Self {
        match e.is_transient() {
            true => Failure::Away(e.to_string()),
            false => Failure::Permanent(e.to_string()),
        }
    }
}
