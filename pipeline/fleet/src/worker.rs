//! A worker: claims jobs, does them, and makes their results real.

use crate::files::listing_digest;
use crate::finish::Known;
use crate::objects::sha256;
use crate::{
    Again, Claim, Database, FinishResult, FleetError, Inbox, Metrics, ObjectFact, Objects, Report,
};
use bytes::Bytes;
use model::labour::{HandedRow, WorkEvent};
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
    /// Number of the report that is to be made.
    pub number: u32,
    /// Labour rows handed over so far, oldest first.
    pub handed: Vec<HandedRow>,
    /// Events of lines of work so far, oldest first.
    pub events: Vec<WorkEvent>,
    /// True once the claim is lost: what is made of it counts as nothing.
    pub is_lost: Arc<AtomicBool>,
    database: Database,
    runtime: Handle,
}

impl Task {
    /// Other jobs of the shop with the same number of the shop's, by name. Waits for the database.
    ///
    /// # Errors
    /// When the database cannot be reached.
    pub fn number_conflicts(&self, number: &str) -> Result<Vec<String>, FleetError> {
        self.runtime
            .block_on(self.database.number_conflicts(&self.claim, number))
    }
}

/// Results of the work.
#[derive(Debug, Clone, Default)]
pub struct Made {
    /// The shop's number for the job; empty for none.
    pub job_number: String,
    /// Verdict, its sentence, what is asked for: as the shop's lists show it.
    pub facts: serde_json::Value,
    /// Files of the report.
    pub outputs: Vec<(String, Vec<u8>)>,
    /// Labour rows to hand over.
    pub rows: Vec<HandedRow>,
    /// Events of lines that come with it: its offer.
    pub events: Vec<WorkEvent>,
}

/// Reason for which there are no results.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Failure {
    /// It may work later.
    Transient(String),
    /// It will not, with these files.
    Permanent(String),
}

/// The work itself. Called on a thread of its own, several at a time.
pub trait Work: Send + Sync + 'static {
    /// Does a job.
    ///
    /// # Errors
    /// When there are no results.
    fn run(&self, task: &Task) -> Result<Made, Failure>;
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
    /// Time after which the queue is looked at although nobody said that there is something.
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
            let is_idle = claims.is_empty();
            for claim in claims {
                let worker = self.clone();
                running.spawn(async move { worker.one(claim).await });
            }
            match (is_idle, running.is_empty()) {
                // Notifications are hints that get lost: polling decides.
                (true, true) => tokio::time::sleep(self.options.poll).await,
                (true, false) => {
                    tokio::select! {
                        _ = running.join_next() => {}
                        () = tokio::time::sleep(self.options.poll) => {}
                    }
                }
                (false, _) => {}
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
            Ok(FinishResult::Kept) => "done",
            Ok(FinishResult::Outdated) => "outdated",
            Ok(FinishResult::NumberTaken) => {
                self.give_back(&claim, "another job has taken its number meanwhile", retry)
                    .await
            }
            Err(End::Work(Failure::Transient(why))) => self.give_back(&claim, &why, retry).await,
            Err(End::Work(Failure::Permanent(why))) => {
                self.give_back(&claim, &why, Again::Never).await
            }
            // A server that is away is no job's fault.
            Err(End::Server(e)) if e.is_transient() => {
                self.give_back(&claim, &e.to_string(), Again::Uncounted(AWAY))
                    .await
            }
            Err(End::Server(e)) => self.give_back(&claim, &e.to_string(), Again::Never).await,
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

    async fn done(&self, claim: &Claim, is_lost: Arc<AtomicBool>) -> Result<FinishResult, End> {
        let timed = |stage, since: Instant| self.metrics.took(stage, since.elapsed().as_secs_f64());
        let start = Instant::now();
        let (folder, known) = self.fetch(claim).await?;
        timed("fetch", start);
        let start = Instant::now();
        let (number, work) = (known.number + 1, Arc::clone(&self.work));
        let task = Task {
            claim: claim.clone(),
            folder: folder.path().to_path_buf(),
            number,
            handed: known.handed,
            events: known.events,
            is_lost: Arc::clone(&is_lost),
            database: self.database.clone(),
            runtime: Handle::current(),
        };
        let made = tokio::task::spawn_blocking(move || work.run(&task))
            .await
            .map_err(|_| Failure::Transient("the work ended by a fault of the program".into()))
            .flatten()?;
        timed("work", start);
        if is_lost.load(Ordering::Relaxed) {
            return Ok(FinishResult::Outdated);
        }
        let start = Instant::now();
        let objects = self.put(claim, number, made.outputs).await?;
        timed("put", start);
        let start = Instant::now();
        let report = Report {
            number,
            job_number: made.job_number,
            facts: made.facts,
            objects,
            rows: made.rows,
            events: made.events,
        };
        let finished = self.database.finish(claim, &report).await?;
        timed("finish", start);
        Ok(finished)
    }

    /// The job's files in a folder of this machine, and what the ledger knows of it.
    async fn fetch(&self, claim: &Claim) -> Result<(TempDir, Known), End> {
        let known = self.database.known(claim).await?;
        let files = Inbox::files_of(&self.objects, &claim.shop, &claim.job).await?;
        if listing_digest(&files) != claim.inputs {
            // What is there now is queued by the next look at the inbox.
            return Err(
                Failure::Transient("its files have changed since it was queued".into()).into(),
            );
        }
        let folder = tempfile::tempdir().map_err(FleetError::from)?;
        for file in &files {
            self.objects.fetch(file, folder.path()).await?;
        }
        Ok((folder, known))
    }

    async fn put(
        &self,
        claim: &Claim,
        number: u32,
        outputs: Vec<(String, Vec<u8>)>,
    ) -> Result<Vec<ObjectFact>, FleetError> {
        let mut facts = Vec::new();
        for (name, bytes) in outputs {
            let digest = sha256(&bytes);
            let key = Objects::result_key(&claim.shop, &claim.job, number, &digest, &name);
            facts.push(ObjectFact {
                name,
                sha256: digest,
                size: bytes.len() as u64,
            });
            self.objects.put_once(&key, Bytes::from(bytes)).await?;
        }
        Ok(facts)
    }
}

/// End of a claim without results.
enum End {
    Work(Failure),
    Server(FleetError),
}

impl From<Failure> for End {
    fn from(failure: Failure) -> Self {
        End::Work(failure)
    }
}

impl From<FleetError> for End {
    fn from(e: FleetError) -> Self {
        End::Server(e)
    }
}
