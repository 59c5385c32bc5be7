//! Jobs that arrive in an inbox, in the ways in which files arrive.
//!
//! Every scenario runs twice: with the operating system's events, and with rescans alone, as on a
//! network share.

mod failures;
mod shared;

use baybrief_intake::{
    Completeness, Event, FolderLedger, IntakeError, JobNote, JobState, Watch, WatchOptions,
};
use shared::*;
use std::fs::{self, File};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::{Duration, Instant};

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
    let first = bench(quick(), &ledger, complete);
    fill(&first.inbox().join("R-7"), &[("a.csv", b"1")]);
    first.job();
    let second = bench(quick(), &ledger, complete);
    fill(&second.inbox().join("R-7"), &[("a.csv", b"1")]);
    second.assert_quiet();
}

#[test]
fn a_job_that_is_requeued_comes_again_by_itself_and_later_each_time() {
    let (inbox, (_dir, ledger)) = (tempfile::tempdir().unwrap(), ledger());
    fill(&inbox.path().join("R-12"), &[("a.csv", b"1")]);
    let mut watch = Watch::new(inbox.path(), quick()).unwrap();
    let mut next = |requeue: bool, longest| {
        let event = watch.next(
            &mut *ledger.lock().unwrap(),
            &complete,
            longest,
            &AtomicBool::new(false),
        );
        if requeue {
            watch.requeue("R-12");
        }
        matches!(event.unwrap(), Event::Ready(_))
    };
    let begun = Instant::now();
    assert!(
        next(true, RECEIVE_TIMEOUT) && next(true, RECEIVE_TIMEOUT) && next(false, RECEIVE_TIMEOUT)
    );
    assert!(
        begun.elapsed() >= SETTLE * 4,
        "settle, one pause, a double one"
    );
    assert!(!next(false, QUIET), "nobody requeued it");
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
            &complete,
            RECEIVE_TIMEOUT,
            &AtomicBool::new(false),
        );
        if names.is_empty() {
            let waiting: Vec<String> = watch.drain_new().into_iter().map(|n| n.name).collect();
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
        assert!(matches!(notice, IntakeError::Incomplete { .. }), "{notice}");
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

fn no_tail(path: &Path) -> Completeness {
    let content = fs::read(path).unwrap_or_default();
    match content.as_slice() {
        c if c.ends_with(b"tail") => Completeness::Complete,
        c if c.ends_with(b"tai") => Completeness::LastLine("a letter is missing".into()),
        _ => Completeness::Incomplete("there is no tail".into()),
    }
}

/// Complete but for the end of the last line: waited for shortly, and not reported.
#[test]
fn the_end_of_a_last_line_is_waited_for_shortly() {
    let options = WatchOptions {
        incomplete_timeout: Duration::from_secs(3600),
        ..quick()
    };
    let b = bench(options, &ledger(), no_tail);
    let begun = Instant::now();
    fill(
        &b.inbox().join("R-17"),
        &[("a.csv", b"tail"), ("b.csv", b"tai")],
    );
    assert_eq!(b.job().name, "R-17");
    assert!(begun.elapsed() >= SETTLE * 2, "it was not given its time");
}

/// Ends the service by a fault of its own while it is worked on: alone the next time, held the time after.
#[test]
fn a_job_that_ended_the_service_twice_is_held_until_its_files_change() {
    let dir = tempfile::tempdir().unwrap();
    let (inbox, _) = over_one_job(dir.path());
    let (_dir, ledger) = ledger();
    let ledger = &mut *ledger.lock().unwrap();
    let next = |ledger: &mut dyn FolderLedger| {
        let mut watch = Watch::new(&inbox, quick()).unwrap();
        let event = watch.next(ledger, &complete, RECEIVE_TIMEOUT, &AtomicBool::new(false));
        event.unwrap()
    };
    let work_on = |ledger: &mut dyn FolderLedger, crashes: u32| {
        let Event::Ready(job) = next(ledger) else {
            panic!("not handed out")
        };
        assert_eq!(job.crashes, crashes);
        let note = JobNote {
            name: job.name,
            source: job.source,
            arrived: job.arrived,
            state: JobState::Working,
            fingerprint: Some(job.fingerprint),
        };
        ledger.note(&[note]).unwrap();
    };
    work_on(ledger, 0);
    // Killed from outside: nobody's fault.
    ledger.begin(false).unwrap();
    work_on(ledger, 0);
    ledger.begin(true).unwrap();
    work_on(ledger, 1);
    ledger.begin(true).unwrap();
    let Event::Held(note) = next(ledger) else {
        panic!("handed out")
    };
    assert_eq!(note.name, "R-1");
    assert!(matches!(&note.state, JobState::Held(why) if why.contains("2 times")));
    ledger.note(&[note]).unwrap();
    ledger.begin(false).unwrap();
    assert!(matches!(next(ledger), Event::Held(_)), "after every start");
    fill(&inbox.join("R-1"), &[("a.csv", b"2")]);
    work_on(ledger, 0);
}

#[test]
fn events_find_jobs_long_before_the_rescan_and_ready_jobs_follow_at_once() {
    let options = WatchOptions {
        rescan: Duration::from_secs(3600),
        ..quick()
    };
    let b = bench(options, &ledger(), complete);
    thread::sleep(SETTLE);
    for job in ["R-13", "R-14", "R-15"] {
        fill(&b.inbox().join(job), &[("a.csv", b"1")]);
    }
    let mut names = [b.job().name, b.job().name, b.job().name];
    names.sort();
    assert_eq!(names, ["R-13", "R-14", "R-15"]);
}

/// An inbox with the job R-1, and a watch that the test itself asks.
fn over_one_job(dir: &Path) -> (PathBuf, Watch) {
    let inbox = dir.join("inbox");
    fill(&inbox.join("R-1"), &[("a.csv", b"1")]);
    let watch = Watch::new(&inbox, quick()).unwrap();
    (inbox, watch)
}

/// Condition for the end of a wait: its event, new jobs and removed ones.
type IsSo<'a> = &'a dyn Fn(&Event, &[String], &[String]) -> bool;

/// What waited and went away, or is again as it was done, waits no more.
#[test]
fn jobs_that_leave_are_told() {
    let dir = tempfile::tempdir().unwrap();
    let (inbox, mut watch) = over_one_job(dir.path());
    let (_dir, ledger) = ledger();
    let ledger = &mut *ledger.lock().unwrap();
    let mut until = |watch: &mut Watch, is_so: IsSo| {
        let begun = Instant::now();
        loop {
            assert!(begun.elapsed() < RECEIVE_TIMEOUT);
            let wait = Duration::from_millis(50);
            let event = watch.next(ledger, &complete, wait, &AtomicBool::new(false));
            let event = event.unwrap();
            if let Event::Ready(job) = &event {
                mark_done(ledger, job);
            }
            let news: Vec<String> = watch.drain_new().into_iter().map(|n| n.name).collect();
            if is_so(&event, &news, &watch.drain_removed()) {
                return;
            }
        }
    };
    until(&mut watch, &|event, _, _| matches!(event, Event::Ready(_)));
    // The same content with another time.
    fill(&inbox.join("R-1"), &[("a.csv", b"1")]);
    until(&mut watch, &|_, news, _| news.contains(&"R-1".into()));
    until(&mut watch, &|event, _, left| {
        assert!(!matches!(event, Event::Ready(_)), "nothing is done twice");
        left == ["R-1"]
    });
    fill(&inbox.join("R-2"), &[("a.csv", b"1")]);
    until(&mut watch, &|_, news, _| news.contains(&"R-2".into()));
    fs::remove_dir_all(inbox.join("R-2")).unwrap();
    until(&mut watch, &|_, _, left| left == ["R-2"]);
    assert!(!watch.requeue("R-2"));
}

/// A caller that can take no job still hears what came.
#[test]
fn a_look_hands_out_no_job() {
    let dir = tempfile::tempdir().unwrap();
    let (_, mut watch) = over_one_job(dir.path());
    let (_dir, ledger) = ledger();
    let ledger = &mut *ledger.lock().unwrap();
    watch.poll(ledger, &complete).unwrap();
    let news = watch.drain_new();
    assert_eq!(news.len(), 1);
    assert_eq!(news[0].state, JobState::Waiting);
    thread::sleep(SETTLE);
    watch.poll(ledger, &complete).unwrap();
    let event = watch.next(ledger, &complete, RECEIVE_TIMEOUT, &AtomicBool::new(false));
    assert!(matches!(event.unwrap(), Event::Ready(_)));
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
        let event = watch.next(&mut *ledger, &complete, RECEIVE_TIMEOUT, &stop);
        assert!(matches!(event.unwrap(), Event::Nothing));
    });
}
