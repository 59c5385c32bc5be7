//! Many jobs, several workers, of which any ends at any moment.

use crate::block_on;
use anyhow::{Context, Result, ensure};
use baybrief_fleet_tests::check::{Counts, check};
use baybrief_fleet_tests::servers::{Postgres, Store};
use baybrief_fleet_tests::stub::input_key;
use fleet::{Database, Inbox, Objects};
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

/// Workers of the long tests.
const WORKERS: usize = 6;

/// Shops among which the jobs are shared out.
const SHOPS: usize = 7;

/// A number of the environment.
pub fn number(name: &str, otherwise: usize) -> usize {
    std::env::var(name)
        .ok()
        .and_then(|n| n.parse().ok())
        .unwrap_or(otherwise)
}

/// A worker process.
pub struct Process(pub Child);

impl Process {
    pub fn start(
        url: &str,
        store: &Store,
        name: &str,
        lease_ms: u32,
        at_once: u32,
        pause_ms: u32,
    ) -> Result<Process> {
        let program = Path::new(env!("CARGO_BIN_EXE_fleet-worker"));
        let arguments = [lease_ms, at_once, pause_ms];
        Process::start_program(program, url, store, name, arguments)
    }

    /// Starts a worker of another build.
    fn start_program(
        program: &Path,
        url: &str,
        store: &Store,
        name: &str,
        [lease_ms, at_once, pause_ms]: [u32; 3],
    ) -> Result<Process> {
        let child = Command::new(program)
            .args([
                url,
                name,
                &lease_ms.to_string(),
                &at_once.to_string(),
                &pause_ms.to_string(),
            ])
            .envs(store.environment())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()?;
        Ok(Process(child))
    }

    pub fn signal(&self, signal: rustix::process::Signal) -> Result<()> {
        let pid = i32::try_from(self.0.id())?;
        rustix::process::kill_process(
            rustix::process::Pid::from_raw(pid).context("a process")?,
            signal,
        )?;
        Ok(())
    }

    pub fn kill(&mut self) -> Result<()> {
        self.0.kill()?;
        self.0.wait()?;
        Ok(())
    }
}

impl Drop for Process {
    fn drop(&mut self) {
        let _ = self.kill();
    }
}

/// Puts so many jobs of all shops into the inbox, and into the queue.
async fn add_jobs(database: &Database, objects: &Objects, count: usize) -> Result<()> {
    for i in 0..count {
        let key = input_key(&format!("shop-{}", i % SHOPS), &format!("J-{i}"));
        objects
            .put_once(&key, format!("job {i}").into_bytes().into())
            .await?;
    }
    let mut inbox = Inbox::new(Duration::ZERO);
    ensure!(inbox.scan(objects, database).await? == count);
    ensure!(
        inbox.scan(objects, database).await? == 0,
        "a second look finds nothing new"
    );
    Ok(())
}

/// Servers with so many jobs in the inbox and in the queue.
pub struct Fleet {
    pub postgres: Postgres,
    pub store: Store,
    /// Address of the database for a worker.
    pub url: String,
}

impl Fleet {
    pub fn with_jobs(count: usize) -> Result<Fleet> {
        let (postgres, store) = (Postgres::start()?, Store::start()?);
        let url = postgres.url("baybrief_worker");
        block_on(async {
            let database = Database::open(&url, 2).await?;
            add_jobs(&database, &store.objects()?, count).await
        })?;
        Ok(Fleet {
            postgres,
            store,
            url,
        })
    }

    /// Checks that each of so many jobs was done once.
    pub fn ensure_exactly(&self, jobs: usize) -> Result<Counts> {
        let counts = block_on(async { check(&self.postgres, &self.store.objects()?).await })?;
        let each = (counts.jobs, counts.reports, counts.rows);
        ensure!(each == (jobs, jobs, jobs), "{counts:?}");
        Ok(counts)
    }
}

/// Waits until nothing waits or is under way, and the rows are handed over.
pub fn wait_for_rest(
    postgres: &Postgres,
    most: Duration,
    mut meanwhile: impl FnMut() -> Result<()>,
) -> Result<()> {
    let start = Instant::now();
    let left = "SELECT (SELECT count(*) FROM baybrief.job WHERE state IN ('waiting', 'running')), \
                (SELECT count(*) FROM baybrief.labour WHERE batch IS NULL), (SELECT count(*) FROM baybrief.batch WHERE NOT put)";
    loop {
        meanwhile()?;
        // The server may be down for the test's sake.
        let left = postgres.sql("fleet", left).unwrap_or_default();
        if left == "0|0|0" {
            return Ok(());
        }
        if start.elapsed() >= most {
            let rows = "SELECT shop, name, state, attempts, token, worker, due - now(), lease_until - now(), reason \
                        FROM baybrief.job WHERE state IN ('waiting', 'running') LIMIT 5";
            let rows = postgres.sql("fleet", rows)?;
            anyhow::bail!(
                "after {} s there are left (jobs, rows, batches) {left}:\n{rows}",
                most.as_secs()
            );
        }
    }
}

pub fn killed() -> Result<()> {
    let jobs = number("FLEET_JOBS", 2000);
    let fleet = Fleet::with_jobs(jobs)?;
    let start_worker =
        |n: usize| Process::start(&fleet.url, &fleet.store, &format!("w{n}"), 2000, 4, 5);
    let mut workers = (0..WORKERS).map(start_worker).collect::<Result<Vec<_>>>()?;
    let mut chance = ChaCha8Rng::seed_from_u64(21);
    let (mut kills, started) = (0, Instant::now());
    wait_for_rest(&fleet.postgres, Duration::from_secs(900), || {
        std::thread::sleep(Duration::from_millis(u64::from(chance.next_u32() % 400)));
        if kills < 60 {
            let n = chance.next_u32() as usize % WORKERS;
            workers[n].kill()?;
            kills += 1;
            workers[n] = start_worker(n)?;
        }
        Ok(())
    })?;
    let seconds = started.elapsed().as_secs_f64();
    drop(workers);
    let counts = fleet.ensure_exactly(jobs)?;
    let tokens = fleet
        .postgres
        .sql("fleet", "SELECT sum(token), max(token) FROM baybrief.job")?;
    println!(
        "{jobs} jobs, {WORKERS} workers, {kills} kills: {counts:?}, claims (all, most of one job) {tokens}, {seconds:.1} s"
    );
    ensure!(kills >= 20, "too few kills prove nothing: {kills}");
    Ok(())
}

pub fn stopped() -> Result<()> {
    let jobs = number("FLEET_JOBS", 2000) / 10;
    let fleet = Fleet::with_jobs(jobs)?;
    let workers = (0..3)
        .map(|n| Process::start(&fleet.url, &fleet.store, &format!("w{n}"), 600, 2, 30))
        .collect::<Result<Vec<_>>>()?;
    let mut stops = 0;
    wait_for_rest(&fleet.postgres, Duration::from_secs(300), || {
        std::thread::sleep(Duration::from_millis(150));
        if stops < 12 {
            // Longer than the lease: it wakes up with claims that others have taken over.
            let worker = &workers[stops % workers.len()];
            worker.signal(rustix::process::Signal::STOP)?;
            std::thread::sleep(Duration::from_millis(900));
            worker.signal(rustix::process::Signal::CONT)?;
            stops += 1;
        }
        Ok(())
    })?;
    drop(workers);
    let counts = fleet.ensure_exactly(jobs)?;
    let taken_over: usize = fleet
        .postgres
        .sql("fleet", "SELECT count(*) FROM baybrief.job WHERE token > 1")?
        .parse()?;
    println!(
        "{jobs} jobs, {stops} workers stopped past their lease, {taken_over} jobs taken over: {counts:?}"
    );
    ensure!(
        taken_over > 0,
        "no job was taken over: the test proves nothing"
    );
    Ok(())
}

/// A fleet-worker of the version before, that OLDER_WORKER names, on the present tables beside workers of this version.
pub fn beside_an_older_program() -> Result<()> {
    let older = std::env::var_os("OLDER_WORKER").map(PathBuf::from);
    let older = older.context("OLDER_WORKER must name a fleet-worker of the version before")?;
    let jobs = number("FLEET_JOBS", 2000) / 5;
    let fleet = Fleet::with_jobs(jobs)?;
    let start_worker = |n: usize| {
        let name = format!("w{n}");
        match n % 2 {
            0 => Process::start(&fleet.url, &fleet.store, &name, 2000, 2, 20),
            _ => Process::start_program(&older, &fleet.url, &fleet.store, &name, [2000, 2, 20]),
        }
    };
    let mut workers = (0..4).map(start_worker).collect::<Result<Vec<_>>>()?;
    let mut kills = 0;
    wait_for_rest(&fleet.postgres, Duration::from_secs(600), || {
        std::thread::sleep(Duration::from_millis(300));
        if kills < 16 {
            let n = kills % workers.len();
            workers[n].kill()?;
            workers[n] = start_worker(n)?;
            kills += 1;
        }
        Ok(())
    })?;
    drop(workers);
    let counts = fleet.ensure_exactly(jobs)?;
    // What the older one does not write takes the default, a UUID.
    let by_older = "SELECT count(*) FROM baybrief.revision WHERE publication ~ '^[0-9a-f]{8}-'";
    let by_older: usize = fleet.postgres.sql("fleet", by_older)?.parse()?;
    println!("{jobs} jobs, {by_older} of them by the older program, {kills} kills: {counts:?}");
    ensure!(
        (1..jobs).contains(&by_older),
        "one of the two did nothing: {by_older}"
    );
    Ok(())
}
