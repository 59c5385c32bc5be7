//! Throughput, printed: never a condition of a test.

use crate::block_on;
use crate::crowd::{Fleet, Process, wait_for_rest};
use anyhow::Result;
use baybrief_fleet_tests::servers::Postgres;
use fleet::Database;
use futures_util::future::try_join_all;
use std::time::{Duration, Instant};

/// Claims so many jobs, some at a time.
async fn claim_many(database: &Database, wanted: usize, most: u32) -> Result<usize> {
    let mut claimed = 0;
    while claimed < wanted {
        let claims = database.claim("w", Duration::from_secs(600), most).await?;
        anyhow::ensure!(!claims.is_empty(), "too few jobs were queued");
        claimed += claims.len();
    }
    Ok(claimed)
}

/// Jobs done a second, from the first report of the slowest beginner to the last of all.
fn rate(postgres: &Postgres, jobs: usize, workers: usize) -> Result<f64> {
    let made = format!(
        "SELECT EXTRACT(EPOCH FROM max(made) - (array_agg(made ORDER BY made))[{workers}]) FROM baybrief.revision"
    );
    let seconds: f64 = postgres.sql("fleet", &made)?.parse()?;
    Ok((jobs - workers) as f64 / seconds)
}

/// Jobs done a second by so many workers with one job at a time each that waits 100 ms, time to list the inbox, and claims
/// a second of empty jobs in batches.
pub fn throughput() -> Result<()> {
    let mut one = 0.0;
    for workers in [1_usize, 2, 4, 8] {
        let jobs = 100 * workers;
        let fleet = Fleet::with_jobs(jobs)?;
        let running = (0..workers)
            .map(|n| Process::start(&fleet.url, &fleet.store, &format!("w{n}"), 30_000, 1, 100))
            .collect::<Result<Vec<_>>>()?;
        wait_for_rest(&fleet.postgres, Duration::from_secs(300), || {
            // A look starts a process: more would slow down what is measured.
            std::thread::sleep(Duration::from_secs(1));
            Ok(())
        })?;
        drop(running);
        let rate = rate(&fleet.postgres, jobs, workers)?;
        if workers == 1 {
            one = rate;
        }
        println!(
            "{workers} workers: {rate:.1} jobs/s, {:.2} times one worker",
            rate / one
        );
    }
    let fleet = Fleet::with_jobs(3000)?;
    block_on(async {
        let objects = fleet.store.objects()?;
        let start = Instant::now();
        let names = objects.list(&"inbox".into()).await?.len();
        println!(
            "{:.0} ms to list 1,000 names of the inbox",
            start.elapsed().as_secs_f64() * 1e6 / names as f64
        );
        Ok(())
    })?;
    drop(fleet);
    let postgres = Postgres::start()?;
    block_on(async {
        let database = Database::open(&postgres.url("baybrief_worker"), 8).await?;
        let jobs = 2_000;
        let start = Instant::now();
        for i in 0..jobs {
            database
                .enqueue(&format!("shop-{}", i % 100), &format!("J-{i}"), "a")
                .await?;
        }
        println!(
            "{:.0} jobs queued a second, one at a time",
            f64::from(jobs) / start.elapsed().as_secs_f64()
        );
        // The rest of a day's queue.
        let rest = "INSERT INTO baybrief.job (shop, name, state, inputs, turn, queued, due) \
                    SELECT 'shop-' || i % 100, 'R-' || i, 'waiting', 'a', 1000 + i / 100, now(), now() \
                    FROM generate_series(1, 18000) i";
        postgres.sql("fleet", rest)?;
        for (workers, most) in [(1, 1), (1, 8), (1, 64), (8, 1), (8, 8)] {
            let start = Instant::now();
            let claims = (0..workers).map(|_| claim_many(&database, 3000 / workers, most));
            let claimed: usize = try_join_all(claims).await?.into_iter().sum();
            println!(
                "{:.0} claims a second, {workers} workers, {most} at a time",
                claimed as f64 / start.elapsed().as_secs_f64()
            );
        }
        Ok(())
    })
}
