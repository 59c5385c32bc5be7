//! Cost of new jobs beside those that are done: it must not grow with them.
//!
//!     cargo bench -p baybrief-intake
//!
//! Everything is in memory where the system has such a folder, so that a disk's syncs do not hide the growth.

use baybrief_intake::{
    Completeness, Event, FileFact, JobGroup, Output, ReadyJob, ResultStore, Revision,
    RevisionCommit, Watch, WatchOptions, gather, only_one,
};
use divan::Bencher;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::atomic::AtomicBool;
use std::time::{Duration, SystemTime};
use tempfile::TempDir;

/// Finished jobs.
const FINISHED: [usize; 2] = [0, 20_000];
/// New jobs of one round.
const NEW: usize = 40;

fn main() {
    divan::main();
}

struct Shop {
    _dir: TempDir,
    inbox: PathBuf,
    store: ResultStore,
    jobs: usize,
}

impl Shop {
    fn new(finished: usize) -> Shop {
        let memory = Path::new("/dev/shm");
        let dir = match memory.is_dir() {
            true => tempfile::tempdir_in(memory),
            false => tempfile::tempdir(),
        };
        let dir = dir.expect("a folder");
        let inbox = dir.path().join("inbox");
        fs::create_dir(&inbox).expect("an inbox");
        let store = ResultStore::open(&dir.path().join("out"), true).expect("a store");
        let mut shop = Shop {
            _dir: dir,
            inbox,
            store,
            jobs: 0,
        };
        for _ in 0..finished {
            let (name, folder) = shop.add_job();
            let entries = gather(&folder).expect("files");
            let files: Vec<FileFact> = entries.iter().map(FileFact::from).collect();
            shop.publish(&name, &baybrief_intake::fingerprint(&entries), &files);
        }
        shop
    }

    /// A job of a recording and a job file, whose bytes differ from all others.
    fn add_job(&mut self) -> (String, PathBuf) {
        self.jobs += 1;
        let name = format!("R-{}", self.jobs);
        let folder = self.inbox.join(&name);
        fs::create_dir(&folder).expect("a job");
        fs::write(
            folder.join("relearn.csv"),
            format!("t;a\n0;{}\n", self.jobs),
        )
        .expect("a file");
        fs::write(folder.join("job.toml"), "[job]\n").expect("a file");
        (name, folder)
    }

    fn publish(&mut self, name: &str, fingerprint: &str, files: &[FileFact]) {
        let revision = Revision {
            job: name.into(),
            number: 1,
            token: Revision::new_token(),
            job_number: name.into(),
            fingerprint: fingerprint.into(),
            outcome: String::new(),
            verdict: "open".into(),
            sentence: String::new(),
            asks: Vec::new(),
            set_aside: 0,
            source: baybrief_intake::JobSource::Folder(self.inbox.join(name)),
            shop: None,
            made: SystemTime::now(),
            signature: None,
        };
        let commit = RevisionCommit {
            revision: &revision,
            files,
            rows: &[],
            texts: None,
            events: &[],
            base: None,
            answers: None,
            events_known: 0,
            is_due_again: false,
        };
        let outputs = ["report.pdf", "labour.csv", "case.json"].map(|n| Output::new(n, vec![1]));
        let lock = self.store.lock().expect("the lock");
        self.store.recover(&lock).expect("recovered");
        assert!(
            self.store
                .publish(&lock, &commit, &outputs)
                .expect("published")
        );
    }

    fn next(&mut self, watch: &mut Watch) -> ReadyJob {
        let check = |_: &Path| Completeness::Complete;
        loop {
            let longest = Duration::from_secs(60);
            let event = watch.next(
                self.store.ledger(),
                &check,
                longest,
                &AtomicBool::new(false),
            );
            if let Event::Ready(job) = event.expect("an event") {
                return job;
            }
        }
    }
}

fn options() -> WatchOptions {
    WatchOptions {
        settle: Duration::from_millis(40),
        ..WatchOptions::default()
    }
}

/// From the start of a watch to the first job that is new.
#[divan::bench(args = FINISHED, sample_count = 5, sample_size = 1)]
fn start_to_first_job(bencher: Bencher, finished: usize) {
    let mut shop = Shop::new(finished);
    bencher.bench_local(|| {
        let (name, _) = shop.add_job();
        let _only_one = only_one(shop.store.folder()).expect("alone");
        shop.store.ledger().begin(false).expect("begun");
        let mut watch = Watch::new(&shop.inbox, options()).expect("a watch");
        let job = shop.next(&mut watch);
        assert_eq!(job.name, name);
        let files: Vec<FileFact> = job.entries.iter().map(FileFact::from).collect();
        shop.publish(&job.name, &job.fingerprint, &files);
    });
}

/// New jobs, one after the other, in a watch that runs: found, hashed, published, and the lists of the status page read
/// once.
#[divan::bench(args = FINISHED, sample_count = 5, sample_size = 1)]
fn forty_new_jobs(bencher: Bencher, finished: usize) {
    let mut shop = Shop::new(finished);
    let mut watch = Watch::new(&shop.inbox, options()).expect("a watch");
    shop.add_job();
    let job = shop.next(&mut watch);
    publish(&mut shop, &job);
    bencher.bench_local(|| {
        for _ in 0..NEW {
            shop.add_job();
        }
        for _ in 0..NEW {
            let job = shop.next(&mut watch);
            publish(&mut shop, &job);
            watch.drain_new();
        }
        let ledger = shop.store.ledger();
        ledger.group_sizes().expect("sizes");
        for group in JobGroup::ALL {
            ledger.jobs_in(group, 300).expect("jobs");
        }
    });
}

fn publish(shop: &mut Shop, job: &ReadyJob) {
    let files: Vec<FileFact> = job.entries.iter().map(FileFact::from).collect();
    shop.publish(&job.name, &job.fingerprint, &files);
}

/// SHA-256 of a long recording, in memory.
#[divan::bench(sample_count = 5, sample_size = 1)]
fn digest_of_256_megabytes(bencher: Bencher) {
    let shop = Shop::new(0);
    let folder = shop.inbox.join("long");
    fs::create_dir(&folder).expect("a folder");
    fs::write(folder.join("a.csv"), vec![b'1'; 256_000_000]).expect("a file");
    bencher.bench_local(|| gather(&folder).expect("files"));
}
