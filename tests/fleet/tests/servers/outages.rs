//! Servers that go away, and connections that break.

use crate::crowd::{Fleet, Process, number, wait_for_rest};
use anyhow::{Result, ensure};
use baybrief_fleet_tests::proxy::{Proxy, Trouble};
use std::sync::atomic::Ordering;
use std::time::Duration;

pub fn killed() -> Result<()> {
    let jobs = number("FLEET_JOBS", 2000);
    let mut fleet = Fleet::with_jobs(jobs)?;
    let workers = (0..3)
        .map(|n| Process::start(&fleet.url, &fleet.store, &format!("w{n}"), 3000, 4, 20))
        .collect::<Result<Vec<_>>>()?;
    let mut outages = 0;
    let (postgres, store) = (&fleet.postgres, &mut fleet.store);
    wait_for_rest(postgres, Duration::from_secs(600), || {
        std::thread::sleep(Duration::from_millis(500));
        if outages < 4 {
            if outages % 2 == 0 {
                postgres.kill()?;
                std::thread::sleep(Duration::from_millis(500));
                postgres.start_again()?;
            } else {
                store.kill()?;
                std::thread::sleep(Duration::from_millis(500));
                store.start_again()?;
            }
            outages += 1;
        }
        Ok(())
    })?;
    drop(workers);
    let counts = fleet.ensure_exactly(jobs)?;
    println!("{jobs} jobs, database and store killed twice each: {counts:?}");
    ensure!(
        outages == 4,
        "the jobs were done before the servers were killed"
    );
    Ok(())
}

pub fn proxied() -> Result<()> {
    let jobs = number("FLEET_JOBS", 2000) / 4;
    let fleet = Fleet::with_jobs(jobs)?;
    let runtime = tokio::runtime::Runtime::new()?;
    let trouble = Trouble {
        cut: 3,
        stall: 3,
        lose_commit: 40,
    };
    let proxy = runtime.block_on(Proxy::start(fleet.postgres.port, trouble, 7))?;
    let url = fleet.postgres.url_by("baybrief_worker", proxy.port);
    let workers = (0..4)
        .map(|n| Process::start(&url, &fleet.store, &format!("w{n}"), 3000, 4, 5))
        .collect::<Result<Vec<_>>>()?;
    wait_for_rest(&fleet.postgres, Duration::from_secs(600), || {
        std::thread::sleep(Duration::from_millis(200));
        Ok(())
    })?;
    drop(workers);
    let counts = fleet.ensure_exactly(jobs)?;
    let made =
        [&proxy.made.cut, &proxy.made.stall, &proxy.made.lost].map(|n| n.load(Ordering::Relaxed));
    println!(
        "{jobs} jobs, connections cut {}, stalled {}, commits unanswered {}: {counts:?}",
        made[0], made[1], made[2]
    );
    ensure!(
        made.iter().all(|&n| n > 0),
        "no trouble of some kind: {made:?}"
    );
    Ok(())
}
