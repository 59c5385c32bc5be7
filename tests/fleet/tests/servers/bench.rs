//! Throughput, printed: never a condition of a test.

use crate::block_on;
use crate::crowd::{Fleet, Process, wait_for_rest};
use anyhow::Result;
use baybrief_fleet_tests::servers::Postgres;
use fleet::Database;
use std::time::{Duration, Instant};

/// Jobs done a second by so many workers with one job at a time each that waits 100 ms, and claims a second of empty
/// jobs in batches.
pub fn throughput() -> Result<()> {
    let mut one = 0.0;
    for workers in [1_usize, 2, 4, 8] {
        let jobs = 60 * workers;
        let fleet = Fleet::with_jobs(jobs)?;
        let start = Instant::now();
        let running = (0..workers)
            .map(|n| Process::start(&fleet.url, &fleet.store, &format!("w{n}"), 30_000, 1, 100))
            .collect::<Result<Vec<_>>>()?;
        wait_for_rest(&fleet.postgres, Duration::from_secs(300), || {
            std::thread::sleep(Duration::from_millis(20));
            Ok(())
        })?;
        let rate = jobs as f64 / start.elapsed().as_secs_f64();
        drop(running);
        if workers == 1 {
            one = rate;
        }
        println!(
            "{workers} workers: {rate:.1} jobs/s, {:.2} times one worker",
            rate / one
        );
    }
    let postgres = Postgres::start()?;
    block_on(async {
        let database = Database::open(&postgres.url("baybrief_worker"), 4).await?;
        let jobs = 20_000;
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
        for most in [1, 8, 64] {
            let start = Instant::now();
            let mut claimed = 0;
            while claimed < 3000 {
                claimed += database
                    .claim("w", Duration::from_secs(600), most)
                    .await?
                    .len();
            }
            println!(
                "{:.0} claims a second, {most} at a time",
                claimed as f64 / start.elapsed().as_secs_f64()
            );
        }
        Ok(())
    })
}
