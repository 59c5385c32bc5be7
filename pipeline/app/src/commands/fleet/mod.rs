//! `work`: the jobs of many shops, as one worker of many; and the page of one of the shops.

mod desk;
mod examine;
mod shops;

pub use desk::serve;

use super::watch::stop_on_signals;
use crate::arguments::{FleetArguments, Usage};
use crate::memory::{Memory, give_back_what_is_freed};
use crate::output::say;
use anyhow::{Context, Result};
use chrono::{TimeDelta, Utc};
use examine::Examine;
use fleet::{Database, FleetError, Inbox, Lead, Metrics, Objects, Worker, WorkerOptions};
use shops::Shops;
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};
use tokio::runtime::Runtime;

/// Time between two writings of the figures.
const FIGURES: Duration = Duration::from_secs(15);

/// Time between two sweeps of results that no report names, and their least age.
const SWEEP: Duration = Duration::from_secs(86_400);
const LEAST_AGE: TimeDelta = TimeDelta::days(1);

/// Works until stopped, or until nothing is left. `Ok(false)` when a retry names no failed job.
pub fn work(arguments: FleetArguments) -> Result<bool> {
    let runtime = Runtime::new().context("threads for the worker")?;
    if arguments.migrate {
        runtime.block_on(Database::migrate(&arguments.store))?;
        say!("the tables are up to date");
        return Ok(true);
    }
    let memory = Memory::default();
    let at_once = match arguments.parallel {
        Some(n) => n as usize,
        None => std::thread::available_parallelism().map_or(1, Into::into),
    };
    let at_once = memory.jobs(at_once);
    let connections = u32::try_from(at_once).unwrap_or(u32::MAX).saturating_add(4);
    let database = runtime.block_on(Database::open(&arguments.store, connections))?;
    if let Some(job) = &arguments.retry {
        let (shop, job) = job
            .split_once('/')
            .ok_or_else(|| Usage(format!("{job:?}: expected SHOP/JOB")))?;
        let retried = runtime.block_on(database.retry(shop, job))?;
        match retried {
            true => say!("{shop}/{job} is tried again"),
            false => say!("{shop}/{job}: no failed job has that name"),
        }
        return Ok(retried);
    }
    give_back_what_is_freed();
    let objects = Objects::open(
        arguments.objects.as_deref().unwrap_or_default(),
        std::env::vars(),
    )?;
    let metrics = Arc::new(Metrics::default());
    let handle = runtime.handle().clone();
    let shops = Arc::new(Shops::new(objects.clone(), handle, memory));
    let options = WorkerOptions {
        name: arguments.name.clone().unwrap_or_else(own_name),
        lease: Duration::from_secs(arguments.lease),
        at_once,
        poll: Duration::from_secs(1),
    };
    tracing::info!(worker = options.name, at_once, "working");
    let worker = Worker::new(
        database.clone(),
        objects.clone(),
        Examine::new(Arc::clone(&shops)),
        options,
        Arc::clone(&metrics),
    );
    let stop = stop_on_signals()?;
    let round = Round {
        inbox: Inbox::new(Duration::from_secs(arguments.settle)),
        lead: Lead::default(),
        is_settled: false,
        database,
        objects,
        shops,
        metrics,
        arguments,
    };
    runtime.block_on(async {
        let rounds = tokio::spawn(round.repeat(Arc::clone(&stop)));
        worker.run(&stop).await;
        rounds.await
    })?;
    tracing::info!("stopped");
    Ok(true)
}

/// Machine and process.
fn own_name() -> String {
    let host = std::fs::read_to_string("/proc/sys/kernel/hostname").unwrap_or_default();
    format!("{}-{}", host.trim(), std::process::id())
}

/// The work beside the jobs. Any worker may do it, since each may end: all of it is the same done twice.
struct Round {
    inbox: Inbox,
    lead: Lead,
    /// True once this worker has put into the queue all that lies in the inbox.
    is_settled: bool,
    database: Database,
    objects: Objects,
    shops: Arc<Shops>,
    metrics: Arc<Metrics>,
    arguments: FleetArguments,
}

impl Round {
    async fn repeat(mut self, stop: Arc<AtomicBool>) {
        let rescan = Duration::from_secs(self.arguments.rescan);
        let (mut scanned, mut counted, mut swept) = (None, None, Some(Instant::now()));
        let is_due = |last: &mut Option<Instant>, every: Duration| {
            let due = last.is_none_or(|at: Instant| at.elapsed() >= every);
            if due {
                *last = Some(Instant::now());
            }
            due
        };
        while !stop.load(Ordering::Relaxed) {
            if is_due(&mut scanned, rescan) {
                said("the inbox cannot be looked through", self.scan().await);
                if self.lead.is_held() {
                    said("labour rows wait", self.hand_over().await);
                    said("lost jobs cannot be given up", self.give_up().await);
                }
            }
            if is_due(&mut counted, FIGURES)
                && let Some(file) = &self.arguments.metrics
            {
                said(
                    "the figures cannot be written",
                    self.write_figures(file).await,
                );
            }
            if is_due(&mut swept, SWEEP) {
                said(
                    "what no report names cannot be swept away",
                    self.sweep().await,
                );
            }
            if self.arguments.until_idle && self.is_idle().await.unwrap_or(false) {
                stop.store(true, Ordering::Relaxed);
            }
            tokio::time::sleep(Duration::from_millis(500)).await;
        }
        said("labour rows wait", self.hand_over().await);
    }

    /// One worker looks; the others are told by the queue.
    async fn scan(&mut self) -> Result<(), FleetError> {
        self.is_settled = match self.lead.is_taken(&self.database).await? {
            true => {
                self.inbox.scan(&self.objects, &self.database).await?;
                self.inbox.is_settled()
            }
            // Whoever leads ends first.
            false => false,
        };
        Ok(())
    }

    async fn sweep(&mut self) -> Result<(), FleetError> {
        if self.lead.is_taken(&self.database).await? {
            let (objects, database) = (&self.objects, &self.database);
            objects.sweep(database, Utc::now(), LEAST_AGE).await?;
        }
        Ok(())
    }

    async fn hand_over(&self) -> Result<(), FleetError> {
        let shops = Arc::clone(&self.shops);
        let write = move |shop: &str, rows: &[intake::PendingRow]| shops.write_batch(shop, rows);
        self.database
            .hand_over(&self.objects, &write)
            .await
            .map(drop)
    }

    async fn give_up(&self) -> Result<(), FleetError> {
        let given_up = self.database.give_up().await?;
        if given_up > 0 {
            tracing::warn!("{given_up} jobs are given up: their workers ended again and again");
        }
        Ok(())
    }

    async fn write_figures(&self, file: &Path) -> Result<(), FleetError> {
        let text = self.metrics.text(&self.database.queue_figures().await?);
        // Who reads it never sees half of it.
        let written = intake::write_atomic(file, text.as_bytes());
        written.map_err(|e| FleetError::Folder(std::io::Error::other(e)))
    }

    /// True once every job that lies in the inbox is done or failed.
    async fn is_idle(&self) -> Result<bool, FleetError> {
        let figures = self.database.queue_figures().await?;
        let is_open = |state: &str| state == "waiting" || state == "running";
        Ok(self.is_settled && !figures.iter().any(|f| is_open(&f.state) && f.jobs > 0))
    }
}

fn said(what: &str, result: Result<(), FleetError>) {
    if let Err(e) = result {
        tracing::warn!("{what}: {e}");
    }
}
