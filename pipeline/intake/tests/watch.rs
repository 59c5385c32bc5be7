//! Jobs that arrive in an inbox, in the ways in which files arrive.
//!
//! Every scenario runs twice: with the operating system's events, and with rescans alone, as on a
//! network share.

use baybrief_intake::{IntakeError, Ledger, MemoryLedger, ReadyJob, Watch, WatchOptions};
use std::fs::{self, File};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::sync::{Arc, Mutex};
use std::thread::{self, JoinHandle};
use std::time::Duration;

const SETTLE: Duration = Duration::from_millis(800);
/// Long enough for a busy machine; a passing test does not wait for it.
const PATIENCE: Duration = Duration::from_secs(20);
/// As long as nothing may happen before "nothing happens" is believed.
const QUIET: Duration = Duration::from_millis(2000);

/// A watch on its own thread that marks each job as done.
struct Bench {
    dir: tempfile::TempDir,
    got: Receiver<Result<ReadyJob, IntakeError>>,
    stop: Arc<AtomicBool>,
    watch: Option<JoinHandle<()>>,
}

impl Bench {
    fn inbox(&self) -> PathBuf {
        self.dir.path().join("inbox")
    }

    fn elsewhere(&self) -> PathBuf {
        self.dir.path().join("elsewhere")
    }

    fn job(&self) -> ReadyJob {
        self.got
            .recv_timeout(PATIENCE)
            .expect("no job came")
            .expect("an error came instead of a job")
    }

    fn error(&self) -> IntakeError {
        self.got
            .recv_timeout(PATIENCE)
            .expect("no error came")
            .expect_err("a job came instead of an error")
    }

    fn assert_quiet(&self) {
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

/// Both ways of watching, with a ledger that the scenario may look at.
fn both_ways(scenario: impl Fn(&Bench)) {
    let rescan = Duration::from_millis(500);
    for poll in [None, Some(Duration::from_millis(100))] {
        scenario(&bench(
            WatchOptions {
                settle: SETTLE,
                rescan,
                poll,
            },
            Arc::default(),
        ));
    }
}

fn bench(options: WatchOptions, ledger: Arc<Mutex<MemoryLedger>>) -> Bench {
    let dir = tempfile::tempdir().unwrap();
    let inbox = dir.path().join("inbox");
    fs::create_dir(&inbox).unwrap();
    fs::create_dir(dir.path().join("elsewhere")).unwrap();
    let mut watch = Watch::new(&inbox, options).unwrap();
    let stop = Arc::new(AtomicBool::new(false));
    let stopped = stop.clone();
    let (sender, got) = channel();
    let watch = thread::spawn(move || {
        loop {
            let before = ledger.lock().unwrap().clone();
            let Some(next) = watch.next(&before, &stopped) else {
                return;
            };
            if let Ok(job) = &next {
                ledger
                    .lock()
                    .unwrap()
                    .mark_done(&job.name, &job.fingerprint)
                    .unwrap();
            }
            if sender.send(next).is_err() {
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

fn fill(folder: &Path, files: &[(&str, &[u8])]) {
    fs::create_dir_all(folder).unwrap();
    for (name, content) in files {
        fs::write(folder.join(name), content).unwrap();
    }
}

fn paths(job: &ReadyJob) -> Vec<&str> {
    job.entries.iter().map(|e| e.path.as_str()).collect()
}

#[test]
fn a_file_that_is_still_growing_is_waited_for() {
    both_ways(|b| {
        let folder = b.inbox().join("R-1");
        fs::create_dir(&folder).unwrap();
        let mut file = File::create(folder.join("relearn.csv")).unwrap();
        for _ in 0..15 {
            file.write_all(&[b'1'; 100]).unwrap();
            thread::sleep(Duration::from_millis(100));
        }
        drop(file);
        let job = b.job();
        assert_eq!((job.name.as_str(), job.entries[0].size), ("R-1", 1500));
        b.assert_quiet();
    });
}

#[test]
fn a_filled_folder_that_is_moved_in_is_read_whole() {
    both_ways(|b| {
        let made = b.elsewhere().join("R-2");
        fill(&made, &[("a.csv", b"1"), ("job.toml", b"")]);
        fill(&made.join("after"), &[("b.csv", b"2")]);
        fs::rename(&made, b.inbox().join("R-2")).unwrap();
        assert_eq!(paths(&b.job()), ["a.csv", "after/b.csv", "job.toml"]);
        b.assert_quiet();
    });
}

#[test]
fn a_folder_made_and_filled_at_once_is_read_whole() {
    both_ways(|b| {
        fill(
            &b.inbox().join("R-3").join("deep"),
            &[("a.csv", b"1"), ("b.csv", b"2")],
        );
        assert_eq!(paths(&b.job()), ["deep/a.csv", "deep/b.csv"]);
    });
}

#[test]
fn two_jobs_at_once_are_both_done_and_loose_files_are_grouped() {
    both_ways(|b| {
        fill(&b.inbox().join("R-5"), &[("a.csv", b"1")]);
        fill(
            &b.inbox(),
            &[
                ("R-4_relearn.csv", b"1"),
                ("R-4_scan.txt", b"2"),
                (".R-4_x.csv", b"3"),
            ],
        );
        let mut jobs = [b.job(), b.job()];
        jobs.sort_by(|x, y| x.name.cmp(&y.name));
        assert_eq!(jobs[0].name, "R-4");
        assert_eq!(paths(&jobs[0]), ["R-4_relearn.csv", "R-4_scan.txt"]);
        assert_eq!(jobs[1].name, "R-5");
        b.assert_quiet();
    });
}

#[test]
fn a_late_file_makes_the_job_ready_again_and_the_same_content_does_not() {
    both_ways(|b| {
        let folder = b.inbox().join("R-6");
        fill(&folder, &[("a.csv", b"1")]);
        let first = b.job().fingerprint;
        fill(&folder, &[("a.csv", b"1"), ("half.csv.part", b"2")]); // new times, a half copy: nothing new
        b.assert_quiet();
        fill(&folder, &[("late.csv", b"2")]);
        let second = b.job();
        assert_eq!(paths(&second), ["a.csv", "late.csv"]);
        assert_ne!(second.fingerprint, first);
        fs::remove_file(folder.join("late.csv")).unwrap();
        assert_eq!(
            b.job().fingerprint,
            first,
            "the outputs of the first content are gone"
        );
    });
}

#[test]
fn what_an_earlier_run_did_is_not_done_again() {
    let options = WatchOptions {
        settle: SETTLE,
        ..WatchOptions::default()
    };
    let ledger = Arc::new(Mutex::new(MemoryLedger::default()));
    let first = bench(options, ledger.clone());
    fill(&first.inbox().join("R-7"), &[("a.csv", b"1")]);
    first.job();
    let second = bench(options, ledger);
    fill(&second.inbox().join("R-7"), &[("a.csv", b"1")]);
    second.assert_quiet();
}

#[test]
fn a_job_that_nobody_marks_as_done_waits_for_new_content() {
    let dir = tempfile::tempdir().unwrap();
    let folder = dir.path().join("R-12");
    fill(&folder, &[("a.csv", b"1")]);
    let options = WatchOptions {
        settle: Duration::from_millis(100),
        rescan: Duration::from_millis(100),
        poll: None,
    };
    let mut watch = Watch::new(dir.path(), options).unwrap();
    let mut next = |patience| {
        let stop = AtomicBool::new(false);
        let (done, ended) = channel::<()>();
        thread::scope(|s| {
            let stop = &stop;
            s.spawn(move || {
                let _ = ended.recv_timeout(patience);
                stop.store(true, Ordering::Relaxed);
            });
            let job = watch.next(&MemoryLedger::default(), stop);
            drop(done);
            job.map(Result::unwrap)
        })
    };
    assert!(next(PATIENCE).is_some());
    fill(&folder, &[("a.csv", b"1")]); // new times
    assert!(next(QUIET).is_none());
    fill(&folder, &[("a.csv", b"2")]);
    assert!(next(PATIENCE).is_some());
}

#[test]
fn events_find_jobs_long_before_the_rescan_and_ready_jobs_follow_at_once() {
    let hour = Duration::from_secs(3600);
    let options = WatchOptions {
        settle: SETTLE,
        rescan: hour,
        poll: None,
    };
    let b = bench(options, Arc::default());
    thread::sleep(SETTLE);
    for job in ["R-13", "R-14", "R-15"] {
        fill(&b.inbox().join(job), &[("a.csv", b"1")]);
    }
    let mut names = [b.job().name, b.job().name, b.job().name];
    names.sort();
    assert_eq!(names, ["R-13", "R-14", "R-15"]);
}

#[test]
fn an_inbox_that_vanishes_is_said_once_and_picked_up_again() {
    both_ways(|b| {
        let away = b.elsewhere().join("inbox");
        fs::rename(b.inbox(), &away).unwrap();
        let error = b.error();
        assert!(matches!(error, IntakeError::InboxGone { .. }), "{error}");
        assert!(error.to_string().contains("inbox"));
        b.assert_quiet();
        fs::rename(&away, b.inbox()).unwrap();
        fill(&b.inbox().join("R-8"), &[("a.csv", b"1")]);
        assert_eq!(b.job().name, "R-8");
    });
    let missing = tempfile::tempdir().unwrap().path().join("inbox");
    assert!(matches!(
        Watch::new(&missing, WatchOptions::default()),
        Err(IntakeError::InboxGone { .. })
    ));
}

#[test]
fn loose_files_never_share_a_name_with_a_folder() {
    both_ways(|b| {
        fill(&b.inbox().join("R-9"), &[("a.csv", b"1")]);
        fill(&b.inbox(), &[("R-9_scan.txt", b"1")]);
        let (x, y) = (
            b.got.recv_timeout(PATIENCE).unwrap(),
            b.got.recv_timeout(PATIENCE).unwrap(),
        );
        let (job, error) = if x.is_ok() { (x, y) } else { (y, x) };
        assert_eq!(paths(&job.unwrap()), ["a.csv"]);
        let error = error.unwrap_err();
        assert!(
            matches!(&error, IntakeError::NameTaken { job, .. } if job == "R-9"),
            "{error}"
        );
        b.assert_quiet();
    });
}

#[cfg(unix)]
#[test]
fn links_in_the_inbox_are_refused_and_links_out_of_a_job_are_set_aside() {
    use std::os::unix::fs::symlink;
    both_ways(|b| {
        fill(&b.elsewhere().join("R-10"), &[("a.csv", b"1")]);
        symlink(b.elsewhere().join("R-10"), b.inbox().join("R-10")).unwrap();
        let error = b.error();
        assert!(matches!(error, IntakeError::LinkInInbox(_)), "{error}");
        fs::create_dir(b.inbox().join("R-11")).unwrap();
        symlink(
            b.elsewhere().join("R-10/a.csv"),
            b.inbox().join("R-11/a.csv"),
        )
        .unwrap();
        let job = b.job();
        assert_eq!(job.name, "R-11");
        assert!(
            job.entries[0]
                .content
                .as_ref()
                .unwrap_err()
                .message
                .contains("link out")
        );
        b.assert_quiet();
    });
}

#[test]
fn the_watch_stops_when_told() {
    let dir = tempfile::tempdir().unwrap();
    let mut watch = Watch::new(dir.path(), WatchOptions::default()).unwrap();
    let stop = AtomicBool::new(false);
    thread::scope(|s| {
        s.spawn(|| {
            thread::sleep(Duration::from_millis(200));
            stop.store(true, Ordering::Relaxed);
        });
        assert!(watch.next(&MemoryLedger::default(), &stop).is_none());
    });
}
