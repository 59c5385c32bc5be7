//! A long run in small: a thousand jobs that come continuously, some slowly, while the program is killed now and then.
//!
//! `cargo test --release -p baybrief --test end-to-end -- --ignored a_thousand_jobs --nocapture`

use crate::bench::Bench;
use crate::jobs::{drag, with_job_file};
use crate::service::{Watch, assert_whole, visible};
use intake::{JobGroup, JobState, ResultStore};
use simulator::noise::Noise;
use std::collections::BTreeSet;
use std::fs::{self, File};
use std::io::Write;
use std::path::Path;
use std::thread::sleep;
use std::time::{Duration, Instant};

/// Killed about so often during the first half; the second half runs through, to measure memory.
const KILL_EVERY: Duration = Duration::from_secs(15);
const LONGEST: Duration = Duration::from_secs(3600);
const QUICK: [&str; 4] = ["--settle", "0.5", "--rescan", "2"];

#[test]
#[ignore = "takes about ten minutes; DEVELOPERS.md names the command"]
fn a_thousand_jobs_with_kills_and_slow_copies() {
    let jobs = std::env::var("SOAK_JOBS").map_or(1000, |n| n.parse().expect("a number of jobs"));
    let bench = Bench::new();
    let (inbox, out) = (bench.path("inbox"), bench.path("out"));
    fs::create_dir_all(&inbox).expect("an inbox");
    let shop = bench.path("shop.toml");
    fs::write(&shop, crate::crash::shop_settings()).expect("the settings");
    let shop = shop.to_string_lossy().into_owned();
    let arguments: Vec<&str> = QUICK.into_iter().chain(["--shop", &shop]).collect();
    let recording = with_job_file(&drag(0, 1));
    let mut dice = Noise::new(11);

    let begun = Instant::now();
    let mut watch = Watch::start(&bench, &arguments);
    let (mut kills, mut born) = (0, Instant::now());
    let mut memory = Memory::default();
    let mut slow: Vec<(File, Vec<u8>, usize)> = Vec::new();
    for job in 0..jobs {
        let scan = format!("Transmission control module\nP0894 confirmed\nOdometer {job} km\n");
        let words = format!("[job]\nnumber = \"S-{job}\"\ndiagnosis_hours = 1.0\n");
        match job % 20 {
            // Loose files of one job.
            0 => {
                fs::write(inbox.join(format!("S-{job}_scan.txt")), scan).expect("a file");
                fs::write(inbox.join(format!("S-{job}_job.toml")), words).expect("a file");
            }
            // A recording that comes slowly.
            1 => {
                let folder = inbox.join(format!("S-{job}"));
                fs::create_dir(&folder).expect("a folder");
                fs::write(folder.join("job.toml"), words).expect("a file");
                let file = File::create(folder.join("relearn.csv")).expect("a file");
                slow.push((file, recording["relearn.csv"].clone(), 0));
            }
            _ => {
                let folder = inbox.join(format!("S-{job}"));
                fs::create_dir(&folder).expect("a folder");
                fs::write(folder.join("scan.txt"), scan).expect("a file");
                fs::write(folder.join("job.toml"), words).expect("a file");
            }
        }
        slow.retain_mut(|(file, bytes, at)| {
            let end = (*at + bytes.len() / 10 + 1).min(bytes.len());
            file.write_all(&bytes[*at..end]).expect("a part");
            *at = end;
            end < bytes.len()
        });
        if job < jobs / 2 && born.elapsed() > KILL_EVERY.mul_f64(dice.between(0.5, 1.5)) {
            watch.kill();
            assert_whole(&out);
            kills += 1;
            watch = Watch::start(&bench, &arguments);
            born = Instant::now();
            memory = Memory::default();
        }
        memory.look(&watch, done(&out).0);
        sleep(Duration::from_millis(250));
    }
    for (mut file, bytes, at) in slow {
        file.write_all(&bytes[at..]).expect("the rest");
    }
    loop {
        let (done, _) = done(&out);
        memory.look(&watch, done);
        if done == jobs {
            break;
        }
        assert!(begun.elapsed() < LONGEST, "{done} of {jobs} are done");
        sleep(Duration::from_millis(500));
    }
    watch.stop();
    let (done, revisions) = done(&out);
    let reports = visible(&out)
        .iter()
        .filter(|p| {
            p.ends_with("report.pdf")
                && p.iter()
                    .any(|part| part.to_string_lossy().starts_with("rev-"))
        })
        .count();
    let lines = lines(&out);
    println!(
        "jobs in {jobs}, jobs done {done}, revisions {revisions}, reports out {reports}, lines out {lines}, \
         kills {kills}, {:.0} s\nmemory of the last process: {memory}",
        begun.elapsed().as_secs_f64()
    );
    assert_eq!(reports, revisions, "one report for each revision");
    assert_eq!(lines, jobs, "one line for each job");
}

/// Jobs that are done, and revisions of all jobs.
fn done(out: &Path) -> (usize, usize) {
    let Ok(mut store) = ResultStore::open(out, false) else {
        return (0, 0);
    };
    let mut list = |group| store.ledger().jobs_in(group, u32::MAX).unwrap_or_default();
    let jobs = JobGroup::ALL.map(&mut list).concat();
    let done = jobs
        .iter()
        .filter(|j| j.state == JobState::Done && j.revision.is_some());
    let revisions = jobs
        .iter()
        .filter_map(|j| j.revision.as_ref())
        .map(|r| r.number as usize);
    (done.count(), revisions.sum())
}

/// Lines of the batch files, each once.
fn lines(out: &Path) -> usize {
    let mut ids = BTreeSet::new();
    for path in visible(out) {
        let name = path
            .file_name()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned();
        if path.parent() == Some(out) && name.starts_with("labour-") {
            for row in fs::read_to_string(&path)
                .expect("a batch file")
                .lines()
                .skip(1)
            {
                assert!(ids.insert(row.to_string()), "{row} twice");
            }
        }
    }
    ids.len()
}

/// Resident memory of one process, MiB, by the number of jobs that it has done.
#[derive(Default)]
struct Memory {
    first: Option<(usize, f64)>,
    after_100: Option<f64>,
    last: f64,
    most: f64,
    jobs: usize,
}

impl Memory {
    fn look(&mut self, watch: &Watch, done: usize) {
        let status =
            fs::read_to_string(format!("/proc/{}/status", watch.0.id())).unwrap_or_default();
        let kib = status.lines().find_map(|l| {
            l.strip_prefix("VmRSS:")?
                .trim()
                .strip_suffix(" kB")?
                .trim()
                .parse::<f64>()
                .ok()
        });
        let Some(mib) = kib.map(|k| k / 1024.0) else {
            return;
        };
        let (start, _) = *self.first.get_or_insert((done, mib));
        self.jobs = done.saturating_sub(start);
        if self.jobs >= 100 {
            self.after_100.get_or_insert(mib);
        }
        self.last = mib;
        self.most = self.most.max(mib);
    }
}

impl std::fmt::Display for Memory {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let start = self.first.map_or(0.0, |(_, mib)| mib);
        write!(
            f,
            "{start:.1} MiB at its start, {:.1} after its 100th job, {:.1} at the end after {} jobs, {:.1} at most",
            self.after_100.unwrap_or(f64::NAN),
            self.last,
            self.jobs,
            self.most
        )
    }
}
