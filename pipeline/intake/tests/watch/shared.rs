//! A watch on a thread of its own, and the files that it is given.

use baybrief_intake::{
    Completeness, Event, FileFact, FolderLedger, IntakeError, ReadyJob, Revision, RevisionCommit,
    SqliteLedger, Watch, WatchOptions,
};
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::sync::{Arc, Mutex};
use std::thread::{self, JoinHandle};
use std::time::{Duration, SystemTime};

pub const SETTLE: Duration = Duration::from_millis(800);
/// Long enough for a busy machine; a passing test does not wait for it.
pub const RECEIVE_TIMEOUT: Duration = Duration::from_secs(20);
/// As long as nothing may happen before "nothing happens" is believed.
pub const QUIET: Duration = Duration::from_millis(2000);

pub type Got = Result<ReadyJob, IntakeError>;

/// A watch on its own thread that marks each job as done.
pub struct Bench {
    pub dir: tempfile::TempDir,
    pub got: Receiver<Got>,
    stop: Arc<AtomicBool>,
    watch: Option<JoinHandle<()>>,
}

impl Bench {
    pub fn inbox(&self) -> PathBuf {
        self.dir.path().join("inbox")
    }

    pub fn elsewhere(&self) -> PathBuf {
        self.dir.path().join("elsewhere")
    }

    #[track_caller]
    pub fn job(&self) -> ReadyJob {
        self.got
            .recv_timeout(RECEIVE_TIMEOUT)
            .expect("no job came")
            .expect("an error came instead of a job")
    }

    #[track_caller]
    pub fn error(&self) -> IntakeError {
        self.got
            .recv_timeout(RECEIVE_TIMEOUT)
            .expect("no error came")
            .expect_err("a job came instead of an error")
    }

    #[track_caller]
    pub fn assert_quiet(&self) {
        match self.got.recv_timeout(QUIET) {
            Err(RecvTimeoutError::Timeout) => {}
            other => panic!("expected nothing, got {other:?}"),
        }
    }
}

impl Drop for Bench {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
        if let Some(watch) = self.watch.take() {
            let _ = watch.join();
        }
    }
}

/// A reader that takes every file for complete.
pub fn complete(_: &Path) -> Completeness {
    Completeness::Complete
}

/// Both ways of watching.
pub fn both_ways(scenario: impl Fn(&Bench) + Sync) {
    both_ways_with(complete, scenario);
}

pub fn both_ways_with(check: fn(&Path) -> Completeness, scenario: impl Fn(&Bench) + Sync) {
    let one_way = |poll| {
        let options = WatchOptions { poll, ..quick() };
        scenario(&bench(options, &ledger(), check));
    };
    thread::scope(|s| {
        s.spawn(|| one_way(None));
        s.spawn(|| one_way(Some(Duration::from_millis(100))));
    });
}

pub fn quick() -> WatchOptions {
    WatchOptions {
        settle: SETTLE,
        last_line_timeout: SETTLE * 2,
        incomplete_timeout: SETTLE * 3,
        rescan: Duration::from_millis(500),
        poll: None,
    }
}

/// A ledger in a folder of its own.
pub fn ledger() -> (tempfile::TempDir, Arc<Mutex<SqliteLedger>>) {
    let dir = tempfile::tempdir().unwrap();
    let ledger = SqliteLedger::open(&dir.path().join("ledger.db"), true).unwrap();
    (dir, Arc::new(Mutex::new(ledger)))
}

pub fn bench(
    options: WatchOptions,
    (_, ledger): &(tempfile::TempDir, Arc<Mutex<SqliteLedger>>),
    check: impl Fn(&Path) -> Completeness + Send + 'static,
) -> Bench {
    let dir = tempfile::tempdir().unwrap();
    let inbox = dir.path().join("inbox");
    fs::create_dir(&inbox).unwrap();
    fs::create_dir(dir.path().join("elsewhere")).unwrap();
    let mut watch = Watch::new(&inbox, options).unwrap();
    let stop = Arc::new(AtomicBool::new(false));
    let (stopped, ledger) = (stop.clone(), ledger.clone());
    let (sender, got) = channel();
    let watch = thread::spawn(move || {
        while !stopped.load(Ordering::Relaxed) {
            let mut ledger = ledger.lock().unwrap();
            let wait = Duration::from_millis(100);
            let got = match watch.next(&mut *ledger, &check, wait, &stopped).unwrap() {
                Event::Nothing | Event::Held(_) => continue,
                Event::Notice(notice) => Err(notice),
                Event::Ready(job) => {
                    mark_done(&mut *ledger, &job);
                    Ok(job)
                }
            };
            if sender.send(got).is_err() {
                return;
            }
        }
    });
    Bench {
        dir,
        got,
        stop,
        watch: Some(watch),
    }
}

pub fn mark_done(ledger: &mut dyn FolderLedger, job: &ReadyJob) {
    let latest = ledger.latest(&job.name).unwrap();
    let revision = Revision {
        job: job.name.clone(),
        number: latest.as_ref().map_or(1, |r| r.number + 1),
        token: Revision::new_token(),
        job_number: job.name.clone(),
        fingerprint: job.fingerprint.clone(),
        outcome: String::new(),
        verdict: "open".into(),
        sentence: String::new(),
        asks: Vec::new(),
        set_aside: 0,
        source: job.source.clone(),
        shop: None,
        made: SystemTime::now(),
        signature: None,
    };
    let files: Vec<FileFact> = job.entries.iter().map(FileFact::from).collect();
    let commit = RevisionCommit {
        revision: &revision,
        files: &files,
        rows: &[],
        texts: None,
        events: &[],
        base: latest.as_ref().map(|r| r.token.as_str()),
        answers: None,
        events_known: 0,
        is_due_again: false,
    };
    assert!(ledger.commit(&commit).unwrap());
}

pub fn fill(folder: &Path, files: &[(&str, &[u8])]) {
    fs::create_dir_all(folder).unwrap();
    for (name, content) in files {
        fs::write(folder.join(name), content).unwrap();
    }
}

pub fn paths(job: &ReadyJob) -> Vec<&str> {
    job.entries.iter().map(|e| e.path.as_str()).collect()
}
