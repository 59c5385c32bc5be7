//! Jobs that arrive in an inbox, in the ways in which files arrive.
//!
//! Every scenario runs twice: with the operating system's events, and with rescans alone, as on a
//! network share.

use baybrief_intake::{
    Event, FileFact, IntakeError, Ledger, Made, ReadyJob, Revision, SqliteLedger, Watch,
    WatchOptions,
};
use chrono::NaiveDate;
use std::fs::{self, File};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::sync::{Arc, Mutex};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant, SystemTime};

const SETTLE: Duration = Duration::from_millis(800);
/// Long enough for a busy machine; a passing test does not wait for it.
const PATIENCE: Duration = Duration::from_secs(20);
/// As long as nothing may happen before "nothing happens" is believed.
const QUIET: Duration = Duration::from_millis(2000);

type Got = Result<ReadyJob, IntakeError>;

/// A watch on its own thread that marks each job as done.
struct Bench {
    dir: tempfile::TempDir,
    got: Receiver<Got>,
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

    #[track_caller]
    fn job(&self) -> ReadyJob {
        self.got
            .recv_timeout(PATIENCE)
            .expect("no job came")
            .expect("an error came instead of a job")
    }

    #[track_caller]
    fn error(&self) -> IntakeError {
        self.got
            .recv_timeout(PATIENCE)
            .expect("no error came")
            .expect_err("a job came instead of an error")
    }

    #[track_caller]
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

/// Both ways of watching.
fn both_ways(scenario: impl Fn(&Bench) + Sync) {
    both_ways_with(|_| None, scenario);
}

fn both_ways_with(unfinished: fn(&Path) -> Option<String>, scenario: impl Fn(&Bench) + Sync) {
    let one_way = |poll| {
        let options = WatchOptions { poll, ..quick() };
        scenario(&bench(options, &ledger(), unfinished));
    };
    thread::scope(|s| {
        s.spawn(|| one_way(None));
        s.spawn(|| one_way(Some(Duration::from_millis(100))));
    });
}

fn quick() -> WatchOptions {
    WatchOptions {
        settle: SETTLE,
        patience: SETTLE * 3,
        rescan: Duration::from_millis(500),
        poll: None,
    }
}

/// A ledger in a folder of its own.
fn ledger() -> (tempfile::TempDir, Arc<Mutex<SqliteLedger>>) {
    let dir = tempfile::tempdir().unwrap();
    let ledger = SqliteLedger::open(&dir.path().join("ledger.db"), true).unwrap();
    (dir, Arc::new(Mutex::new(ledger)))
}

fn bench(
    options: WatchOptions,
    (_, ledger): &(tempfile::TempDir, Arc<Mutex<SqliteLedger>>),
    unfinished: impl Fn(&Path) -> Option<String> + Send + 'static,
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
            let got = match watch
                .next(&mut *ledger, &unfinished, wait, &stopped)
                .unwrap()
            {
                Event::Nothing => continue,
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

fn mark_done(ledger: &mut dyn Ledger, job: &ReadyJob) {
    let number = ledger
        .latest(&job.name)
        .unwrap()
        .map_or(1, |r| r.number + 1);
    let revision = Revision {
        job: job.name.clone(),
        number,
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
    let made = Made {
        revision: &revision,
        files: &files,
        rows: &[],
        day: NaiveDate::default(),
    };
    ledger.commit(&made).unwrap();
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
        assert_eq!(
            (job.name.as_str(), job.entries[0].stamp.size),
            ("R-1", 1500)
        );
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
    let ledger = ledger();
    let first = bench(quick(), &ledger, |_| None);
    fill(&first.inbox().join("R-7"), &[("a.csv", b"1")]);
    first.job();
    let second = bench(quick(), &ledger, |_| None);
    fill(&second.inbox().join("R-7"), &[("a.csv", b"1")]);
    second.assert_quiet();
}

#[test]
fn a_job_that_is_given_back_comes_again_by_itself_and_later_each_time() {
    let (inbox, (_dir, ledger)) = (tempfile::tempdir().unwrap(), ledger());
    fill(&inbox.path().join("R-12"), &[("a.csv", b"1")]);
    let mut watch = Watch::new(inbox.path(), quick()).unwrap();
    let mut next = |give_back: bool, longest| {
        let event = watch.next(
            &mut *ledger.lock().unwrap(),
            &|_| None,
            longest,
            &AtomicBool::new(false),
        );
        if give_back {
            watch.give_back("R-12");
        }
        matches!(event.unwrap(), Event::Ready(_))
    };
    let begun = Instant::now();
    assert!(next(true, PATIENCE) && next(true, PATIENCE) && next(false, PATIENCE));
    assert!(
        begun.elapsed() >= SETTLE * 4,
        "settle, one pause, a double one"
    );
    assert!(!next(false, QUIET), "nobody gave it back");
}

#[test]
fn the_job_that_came_first_is_served_first() {
    let (inbox, (_dir, ledger)) = (tempfile::tempdir().unwrap(), ledger());
    for job in ["R-3", "R-1", "R-2"] {
        fill(&inbox.path().join(job), &[("a.csv", b"1")]);
        thread::sleep(Duration::from_millis(20));
    }
    let mut watch = Watch::new(inbox.path(), quick()).unwrap();
    let mut names = Vec::new();
    while names.len() < 3 {
        let event = watch.next(
            &mut *ledger.lock().unwrap(),
            &|_| None,
            PATIENCE,
            &AtomicBool::new(false),
        );
        if names.is_empty() {
            let waiting: Vec<String> = watch.news().into_iter().map(|n| n.name).collect();
            assert_eq!(
                waiting,
                ["R-1", "R-2"],
                "the job at hand does not wait any more"
            );
        }
        match event.unwrap() {
            Event::Ready(job) => names.push(job.name),
            other => panic!("{other:?}"),
        }
    }
    assert_eq!(names, ["R-3", "R-1", "R-2"]);
}

/// Size and time stand still, but the reader misses the end: wait for it, though not for ever.
#[test]
fn a_file_that_its_reader_misses_the_end_of_is_waited_for() {
    both_ways_with(no_tail, |b| {
        let folder = b.inbox().join("R-16");
        fill(&folder, &[("relearn.wav", b"head")]);
        let notice = b.error();
        assert!(matches!(notice, IntakeError::Unfinished { .. }), "{notice}");
        assert!(notice.to_string().contains("relearn.wav"));
        fill(&folder, &[("relearn.wav", b"head tail")]);
        assert_eq!(b.job().entries[0].stamp.size, 9);
        fill(&b.inbox().join("R-17"), &[("relearn.wav", b"head")]);
        b.error();
        let begun = Instant::now();
        assert_eq!(b.job().name, "R-17");
        assert!(begun.elapsed() >= SETTLE, "it was not given its time");
    });
}

fn no_tail(path: &Path) -> Option<String> {
    let content = fs::read(path).ok()?;
    (!content.ends_with(b"tail")).then(|| "there is no tail".into())
}

#[test]
fn events_find_jobs_long_before_the_rescan_and_ready_jobs_follow_at_once() {
    let options = WatchOptions {
        rescan: Duration::from_secs(3600),
        ..quick()
    };
    let b = bench(options, &ledger(), |_| None);
    thread::sleep(SETTLE);
    for job in ["R-13", "R-14", "R-15"] {
        fill(&b.inbox().join(job), &[("a.csv", b"1")]);
    }
    let mut names = [b.job().name, b.job().name, b.job().name];
    names.sort();
    assert_eq!(names, ["R-13", "R-14", "R-15"]);
}

#[test]
fn another_folder_in_the_inboxs_place_is_said_and_watched() {
    both_ways(|b| {
        fill(&b.inbox().join("R-18"), &[("a.csv", b"1")]);
        b.job();
        let other = b.elsewhere().join("other");
        fill(&other.join("R-19"), &[("a.csv", b"1")]);
        fs::rename(b.inbox(), b.elsewhere().join("old")).unwrap();
        fs::rename(&other, b.inbox()).unwrap();
        let notice = loop {
            match b.error() {
                IntakeError::InboxGone { .. } => {} // between the two renames
                notice => break notice,
            }
        };
        assert!(matches!(notice, IntakeError::InboxReplaced(_)), "{notice}");
        assert_eq!(b.job().name, "R-19");
        fill(&b.inbox().join("R-20"), &[("a.csv", b"1")]);
        assert_eq!(b.job().name, "R-20", "what comes later is seen too");
    });
}

#[test]
fn a_loose_job_file_belongs_to_no_job() {
    both_ways(|b| {
        fill(&b.inbox(), &[("job.toml", b"")]);
        let notice = b.error();
        assert!(
            matches!(notice, IntakeError::HomelessJobFile(_)),
            "{notice}"
        );
        fill(&b.inbox(), &[("R-21_job.toml", b"")]);
        assert_eq!(paths(&b.job()), ["R-21_job.toml"]);
    });
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
    let (inbox, (_dir, ledger)) = (tempfile::tempdir().unwrap(), ledger());
    let mut watch = Watch::new(inbox.path(), WatchOptions::default()).unwrap();
    let stop = AtomicBool::new(false);
    thread::scope(|s| {
        s.spawn(|| {
            thread::sleep(Duration::from_millis(200));
            stop.store(true, Ordering::Relaxed);
        });
        let mut ledger = ledger.lock().unwrap();
        let event = watch.next(&mut *ledger, &|_| None, PATIENCE, &stop);
        assert!(matches!(event.unwrap(), Event::Nothing));
    });
}
