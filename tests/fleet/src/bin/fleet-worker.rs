//! A worker process whose work is a stub: fleet-worker DATABASE NAME LEASE_MS AT_ONCE PAUSE_MS. The store is that of the
//! environment. Ends at SIGTERM, after the jobs at hand.

use anyhow::{Context, Result};
use baybrief_fleet_tests::servers::BUCKET;
use baybrief_fleet_tests::stub::{Stub, write_batch};
use fleet::{Database, FleetError, Lead, Metrics, Objects, Worker, WorkerOptions};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;
use tokio::signal::unix::{SignalKind, signal};

#[tokio::main]
async fn main() -> Result<()> {
    tracing_subscriber::fmt()
        .with_writer(std::io::stderr)
        .init();
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [url, name, numbers @ ..] = arguments.as_slice() else {
        anyhow::bail!("fleet-worker DATABASE NAME LEASE_MS AT_ONCE PAUSE_MS");
    };
    let numbers: Vec<u64> = numbers
        .iter()
        .map(|n| n.parse().context("a number"))
        .collect::<Result<_>>()?;
    let [lease, at_once, pause] = numbers[..] else {
        anyhow::bail!("three numbers are expected")
    };
    let at_once = usize::try_from(at_once)?;
    let database = loop {
        match Database::open(url, u32::try_from(at_once)? + 4).await {
            Err(e) if e.is_transient() => tokio::time::sleep(Duration::from_millis(200)).await,
            opened => break opened?,
        }
    };
    let objects = Objects::open(BUCKET, std::env::vars())?;
    let options = WorkerOptions {
        name: name.clone(),
        lease: Duration::from_millis(lease),
        at_once,
        poll: Duration::from_millis(100),
    };
    let stub = Stub {
        pause: Duration::from_millis(pause),
    };
    let worker = Worker::new(
        database.clone(),
        objects.clone(),
        stub,
        options,
        Arc::new(Metrics::default()),
    );
    let stop = Arc::new(AtomicBool::new(false));
    let (stopped, mut term) = (Arc::clone(&stop), signal(SignalKind::terminate())?);
    tokio::spawn(async move {
        term.recv().await;
        stopped.store(true, Ordering::Relaxed);
    });
    // Rows go out beside the work, by whoever leads: it may end at any moment.
    tokio::spawn(async move {
        let mut lead = Lead::default();
        loop {
            if let Err(e) = hand_over(&mut lead, &database, &objects).await {
                tracing::warn!("labour rows wait: {e}");
            }
            tokio::time::sleep(Duration::from_millis(500)).await;
        }
    });
    worker.run(&stop).await;
    Ok(())
}

async fn hand_over(
    lead: &mut Lead,
    database: &Database,
    objects: &Objects,
) -> Result<(), FleetError> {
    if lead.is_taken(database).await? {
        database.hand_over(objects, &write_batch).await?;
    }
    Ok(())
}
