//! Claims, leases, tokens and turns.

use crate::block_on;
use anyhow::{Context, Result, ensure};
use baybrief_fleet_tests::servers::{Postgres, Store};
use baybrief_fleet_tests::stub::{Stub, commit, input_key, revision, row, write_batch};
use chrono::{TimeDelta, Utc};
use fleet::{
    Again, Claim, CommitResult, Database, Inbox, Metrics, Objects, ShopStore, Worker, WorkerOptions,
};
use futures_util::future::try_join_all;
use intake::{Revision, RevisionCommit, Store as _};
use object_store::memory::InMemory;
use sqlx::postgres::PgListener;
use std::collections::BTreeSet;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;
use std::time::{Duration, Instant};

const LEASE: Duration = Duration::from_secs(60);

async fn open(postgres: &Postgres) -> Result<Database> {
    Ok(Database::open(&postgres.url("baybrief_worker"), 4).await?)
}

async fn claim_one(database: &Database, lease: Duration) -> Result<Claim> {
    let mut claims = database.claim("w", lease, 1).await?;
    claims.pop().context("there is a job to claim")
}

/// Publishes the report of that number under a claim, on top of `base`.
async fn finish(
    database: &Database,
    claim: &Claim,
    number: u32,
    base: Option<&Revision>,
) -> Result<(CommitResult, Revision)> {
    let revision = Revision {
        job_number: String::new(),
        ..revision(&claim.job, number, &claim.inputs)
    };
    let commit = RevisionCommit {
        base: base.map(|r| r.token.as_str()),
        ..commit(&revision)
    };
    let shop = claim.shop.as_str();
    let result = database
        .commit(shop, Some(claim), &commit, &[], &[])
        .await?;
    Ok((result, revision))
}

pub fn fencing() -> Result<()> {
    let postgres = Postgres::start()?;
    block_on(async {
        let database = open(&postgres).await?;
        ensure!(database.enqueue("north", "J-1", "a").await?);
        ensure!(
            !database.enqueue("north", "J-1", "a").await?,
            "known with these files"
        );
        let first = claim_one(&database, Duration::from_millis(200)).await?;
        ensure!(
            database.claim("x", LEASE, 5).await?.is_empty(),
            "it is handed out"
        );
        tokio::time::sleep(Duration::from_millis(300)).await;
        // Its worker is taken for dead; another one gets the job under a newer token.
        let second = claim_one(&database, LEASE).await?;
        ensure!((first.token, second.token) == (1, 2));
        ensure!(
            !database.renew(&first, LEASE).await?,
            "the first one is outdated"
        );
        let late = finish(&database, &first, 1, None).await?.0;
        ensure!(late == CommitResult::Outdated, "{late:?}");
        ensure!(!database.give_back(&first, "late", Again::Never).await?);
        ensure!(database.renew(&second, LEASE).await?);
        let (kept, report) = finish(&database, &second, 1, None).await?;
        ensure!(kept == CommitResult::Published, "{kept:?}");
        // The answer was lost, and it is asked for once more: nothing twice.
        let commit = commit(&report);
        let again = database.commit("north", Some(&second), &commit, &[], &[]);
        ensure!(again.await? == CommitResult::Published);
        // Another report under the claim that is over.
        let other = finish(&database, &second, 2, Some(&report)).await?.0;
        ensure!(other == CommitResult::Outdated, "{other:?}");
        let reports = postgres.sql(
            "fleet",
            "SELECT count(*), min(token) FROM baybrief.revision",
        )?;
        ensure!(reports == "1|2", "{reports}");
        ensure!(
            database.claim("x", LEASE, 5).await?.is_empty(),
            "it is done"
        );
        Ok(())
    })
}

pub fn turns() -> Result<()> {
    let postgres = Postgres::start()?;
    block_on(async {
        let database = open(&postgres).await?;
        for i in 0..50 {
            database.enqueue("many", &format!("J-{i}"), "a").await?;
        }
        // Ten are under way when a shop with one job comes, and another with three.
        ensure!(database.claim("w", LEASE, 10).await?.len() == 10);
        database.enqueue("one", "J-1", "a").await?;
        for i in 0..3 {
            database.enqueue("three", &format!("J-{i}"), "a").await?;
        }
        let mut order = Vec::new();
        for _ in 0..8 {
            order.push(claim_one(&database, LEASE).await?.shop);
        }
        let place = |shop: &str| order.iter().position(|s| s == shop);
        ensure!(place("one").is_some_and(|p| p <= 3), "{order:?}");
        ensure!(
            order.iter().filter(|s| *s == "three").count() == 3,
            "{order:?}"
        );
        ensure!(
            order.iter().filter(|s| *s == "many").count() == 4,
            "{order:?}"
        );
        Ok(())
    })
}

pub fn attempts() -> Result<()> {
    let postgres = Postgres::start()?;
    block_on(async {
        let database = open(&postgres).await?;
        database.enqueue("north", "J-1", "a").await?;
        for _ in 0..5 {
            claim_one(&database, Duration::from_millis(20)).await?;
            tokio::time::sleep(Duration::from_millis(60)).await;
        }
        ensure!(
            database.claim("w", LEASE, 1).await?.is_empty(),
            "five workers ended on it"
        );
        ensure!(database.give_up().await? == 1);
        let state = postgres.sql("fleet", "SELECT state, reason FROM baybrief.job")?;
        ensure!(
            state == "failed|its worker ended 5 times without finishing it",
            "{state}"
        );
        ensure!(database.retry("north", "J-1").await?);
        ensure!(
            !database.retry("south", "J-1").await?,
            "another shop has no such job"
        );
        let claim = claim_one(&database, LEASE).await?;
        ensure!(
            database
                .give_back(&claim, "a mistake in it", Again::Never)
                .await?
        );
        let state = postgres.sql("fleet", "SELECT state, reason FROM baybrief.job")?;
        ensure!(state == "failed|a mistake in it", "{state}");
        // Other files: a new chance.
        ensure!(database.enqueue("north", "J-1", "b").await?);
        let claim = claim_one(&database, LEASE).await?;
        ensure!(
            database
                .give_back(&claim, "away", Again::After(Duration::from_secs(600)))
                .await?
        );
        ensure!(database.claim("w", LEASE, 1).await?.is_empty(), "it waits");
        let figures = database.queue_figures().await?;
        ensure!(
            figures.len() == 3 && figures[0].state == "waiting" && figures[0].jobs == 1,
            "{figures:?}"
        );
        Ok(())
    })
}

pub fn changes() -> Result<()> {
    let postgres = Postgres::start()?;
    block_on(async {
        let database = open(&postgres).await?;
        database.enqueue("north", "J-1", "a").await?;
        let claim = claim_one(&database, LEASE).await?;
        ensure!(database.enqueue("north", "J-1", "b").await?);
        ensure!(
            database.claim("w", LEASE, 1).await?.is_empty(),
            "not by two at a time"
        );
        let (kept, first) = finish(&database, &claim, 1, None).await?;
        ensure!(kept == CommitResult::Published, "{kept:?}");
        let again = claim_one(&database, LEASE).await?;
        ensure!(again.inputs == "b");
        let moved = finish(&database, &again, 2, None).await?.0;
        ensure!(
            moved == CommitResult::Changed,
            "made from nothing: {moved:?}"
        );
        let kept = finish(&database, &again, 2, Some(&first)).await?.0;
        ensure!(kept == CommitResult::Published, "{kept:?}");
        ensure!(database.claim("w", LEASE, 1).await?.is_empty());
        let numbers = postgres.sql(
            "fleet",
            "SELECT string_agg(inputs, ',' ORDER BY number) FROM baybrief.revision",
        )?;
        ensure!(numbers == "a,b", "{numbers}");
        Ok(())
    })
}

/// job.toml as it was last right stays; a check that did not run makes the job due again, three times at most.
pub fn memory() -> Result<()> {
    let postgres = Postgres::start()?;
    let runtime = tokio::runtime::Runtime::new()?;
    let database = runtime.block_on(open(&postgres))?;
    let bucket = Objects::new(Arc::new(InMemory::new()));
    let handle = runtime.handle().clone();
    let store = ShopStore::new(database.clone(), bucket, "north", handle)?;
    runtime.block_on(database.enqueue("north", "J-1", "a"))?;
    let mut base: Option<Revision> = None;
    for round in 0..6 {
        let Ok(claim) = runtime.block_on(claim_one(&database, LEASE)) else {
            ensure!(round == 4, "done {round} times");
            break;
        };
        let mut store = store.clone().under(&claim, &Arc::new(Metrics::default()));
        let revision = Revision {
            job_number: String::new(),
            ..revision("J-1", 1, "a")
        };
        let publish = RevisionCommit {
            answers: (round == 0).then_some("[job]"),
            base: base.as_ref().map(|r| r.token.as_str()),
            is_due_again: true,
            ..commit(&revision)
        };
        ensure!(store.publish_revision(&publish, &[])?);
        ensure!(store.ledger().answers("J-1")?.as_deref() == Some("[job]"));
        ensure!(
            store.ledger().is_due_again("J-1", 1)? == (round < 3),
            "round {round}"
        );
        base = Some(revision);
        // The pause between the rounds is the database's.
        postgres.sql("fleet", "UPDATE baybrief.job SET due = now()")?;
    }
    let state = "SELECT state, repeats FROM baybrief.job";
    ensure!(postgres.sql("fleet", state)? == "done|3");
    // Other files start anew.
    runtime.block_on(database.enqueue("north", "J-1", "b"))?;
    ensure!(postgres.sql("fleet", state)? == "waiting|0");
    Ok(())
}

pub fn sweep() -> Result<()> {
    let postgres = Postgres::start()?;
    let store = Store::start()?;
    block_on(async {
        let (database, objects) = (open(&postgres).await?, store.objects()?);
        objects
            .put_once(&input_key("north", "J-1"), b"x".as_slice().into())
            .await?;
        let mut inbox = Inbox::new(Duration::ZERO);
        ensure!(inbox.scan(&objects, &database).await? == 1);
        let orphan = |objects: Objects| async move {
            let key = format!("results/north/J-1/1/{}/report.txt", fleet::sha256(b"left"));
            objects
                .put_once(&key.as_str().into(), b"left".as_slice().into())
                .await
        };
        orphan(objects.clone()).await?;
        let claim = claim_one(&database, LEASE).await?;
        let digest = fleet::sha256(b"kept");
        let key = format!("results/north/J-1/1/{digest}/report.txt");
        objects
            .put_once(&key.as_str().into(), b"kept".as_slice().into())
            .await?;
        let object = fleet::ObjectFact {
            name: "report.txt".into(),
            sha256: digest,
            size: 4,
        };
        let revision = revision("J-1", 1, "a");
        let (commit, files) = (commit(&revision), [object]);
        let published = database.commit("north", Some(&claim), &commit, &files, &[]);
        ensure!(published.await? == CommitResult::Published);
        let now = Utc::now();
        ensure!(
            objects.sweep(&database, now, TimeDelta::days(1)).await? == 0,
            "not before a day has passed"
        );
        ensure!(
            objects
                .sweep(&database, now + TimeDelta::days(2), TimeDelta::days(1))
                .await?
                == 1
        );
        ensure!(objects.get(&key.as_str().into()).await?.as_ref() == b"kept");
        Ok(())
    })
}

/// A worker whose poll is longer than anybody would wait is told of each job, also after it has worked; whoever waits
/// for results is told of each that is done.
pub fn woken() -> Result<()> {
    let postgres = Postgres::start()?;
    block_on(async {
        let database = open(&postgres).await?;
        let objects = Objects::new(Arc::new(InMemory::new()));
        let options = WorkerOptions {
            name: "w".into(),
            lease: LEASE,
            at_once: 2,
            poll: Duration::from_secs(600),
        };
        let stub = Stub {
            pause: Duration::ZERO,
        };
        let metrics = Arc::new(Metrics::default());
        let worker = Worker::new(database.clone(), objects.clone(), stub, options, metrics);
        let mut listener = PgListener::connect(&postgres.url("baybrief_worker")).await?;
        listener.listen("baybrief_done").await?;
        let working = tokio::spawn(async move { worker.run(&AtomicBool::new(false)).await });
        let mut inbox = Inbox::new(Duration::ZERO);
        for job in ["J-1", "J-2", "J-3"] {
            // Idle by now.
            tokio::time::sleep(Duration::from_millis(500)).await;
            let key = input_key("north", job);
            objects.put_once(&key, b"x".as_slice().into()).await?;
            ensure!(inbox.scan(&objects, &database).await? == 1);
            let queued = Instant::now();
            while !database.queue_figures().await?.iter().all(|f| f.jobs == 0) {
                ensure!(
                    queued.elapsed() < Duration::from_secs(60),
                    "{job} waits for the poll"
                );
                tokio::time::sleep(Duration::from_millis(20)).await;
            }
            let told = tokio::time::timeout(Duration::from_secs(60), listener.recv()).await;
            told.with_context(|| format!("nobody says that {job} is done"))??;
        }
        // It would look at `stop` after its poll.
        working.abort();
        let done = postgres.sql(
            "fleet",
            "SELECT count(*), max(token) FROM baybrief.revision",
        )?;
        ensure!(done == "3|1", "{done}");
        Ok(())
    })
}

/// Two may believe that they lead: each row is in one batch, and each batch in one file.
pub fn handed_over_at_once() -> Result<()> {
    let postgres = Postgres::start()?;
    block_on(async {
        let database = open(&postgres).await?;
        let objects = Objects::new(Arc::new(InMemory::new()));
        let mut rows = BTreeSet::new();
        for round in 0..10 {
            for shop in ["north", "south"] {
                let job = format!("J-{round}");
                database.enqueue(shop, &job, "a").await?;
                let claim = claim_one(&database, LEASE).await?;
                let revision = revision(&job, 1, "a");
                let publish = RevisionCommit {
                    rows: &[row(&job, 1)],
                    ..commit(&revision)
                };
                let published = database.commit(shop, Some(&claim), &publish, &[], &[]);
                ensure!(published.await? == CommitResult::Published);
                rows.insert(format!("{shop},{job},{job}-D-1"));
            }
            try_join_all((0..4).map(|_| database.hand_over(&objects, &write_batch))).await?;
        }
        let mut handed = Vec::new();
        for file in objects.list(&"labour".into()).await? {
            let text = objects.get(&file.location).await?;
            let text = std::str::from_utf8(&text)?.to_owned();
            handed.extend(text.lines().map(String::from));
        }
        ensure!(handed.len() == rows.len(), "{handed:?}");
        ensure!(handed.into_iter().collect::<BTreeSet<_>>() == rows);
        Ok(())
    })
}
