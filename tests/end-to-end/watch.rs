//! `watch`: a job that arrives slowly, a file that comes late, and the end.

use crate::bench::{Bench, Results, call};
use crate::jobs::{drag, with_job_file};
use crate::plugins::compile;
use crate::service::{Watch, log, wait_until};
use rustix::process::{Pid, Signal, kill_process};
use std::fs::{self, File};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::thread::sleep;
use std::time::{Duration, Instant};

#[test]
fn a_slow_copy_a_late_file_and_the_end() {
    let bench = Bench::new();
    let (inbox, out) = (bench.path("inbox"), bench.path("out"));
    let mut watch = Watch::start(&bench, &["--settle", "3", "--rescan", "0.5"]);

    // The recording grows; meanwhile nothing may be made of it.
    let files = with_job_file(&drag(0, 1));
    let job = inbox.join("R-40");
    fs::create_dir_all(&job).expect("a job folder");
    let case = out.join("R-40/case.json");
    let recording = &files["relearn.csv"];
    let mut file = File::create(job.join("relearn.csv")).expect("a file");
    for part in recording.chunks(recording.len() / 12 + 1) {
        file.write_all(part).expect("a part");
        sleep(Duration::from_millis(400));
        assert!(
            !case.exists(),
            "a file that still grows was taken for whole"
        );
    }
    drop(file);
    wait_until("the report is there", || case.exists());
    let open = Results::read(&out, &job);
    assert_eq!(
        open.verdict(),
        "open",
        "neither selector nor engine is known yet"
    );
    assert!(out.join("R-40/job.toml").exists(), "it is asked for");

    // A late file makes the job be done again.
    fs::write(job.join("job.toml"), &files["job.toml"]).expect("the late file");
    let before = fs::read(&case).ok();
    wait_until("the late file counts", || fs::read(&case).ok() != before);
    let decided = Results::read(&out, &job);
    assert_eq!(decided.verdict(), "established clutch-1-drag teardown");
    assert_eq!(decided.at("/job/revision"), 2);
    let kept = Results::read(&out.join("R-40"), &bench.path("rev-1"));
    assert!(kept.pdf == open.pdf, "the old report is kept");
    assert!(
        !out.join("R-40/job.toml").exists(),
        "what is answered is asked no more"
    );
    assert!(
        watch.0.try_wait().expect("a state").is_none(),
        "the watch ended by itself"
    );

    watch.stop();
    assert!(
        bench.path("inbox/R-40").exists() && fs::read_dir(&job).expect("a folder").count() == 2
    );
}

#[test]
fn a_second_watch_for_the_same_results_is_refused() {
    let bench = Bench::new();
    let watch = Watch::start(&bench, &["--settle", "0.2"]);
    wait_until("the first one watches", || log(&bench).contains("watching"));
    let out = bench.path("out");
    let number = watch.0.id().to_string();
    let second = ["watch".into(), bench.path("inbox"), "--out".into(), out];
    call(second).ends_with(1).says(&["already", &number]);
    watch.stop();
}

#[test]
fn asked_twice_it_ends_at_once() {
    let bench = Bench::new();
    let mut watch = Watch::start(&bench, &["--settle", "0.2"]);
    let job = bench.path("inbox/R-41");
    fs::create_dir_all(&job).expect("a job folder");
    for (name, bytes) in with_job_file(&drag(0, 1)) {
        fs::write(job.join(name), bytes).expect("a file");
    }
    wait_until("the job is begun", || log(&bench).contains("begun"));
    let pid = Pid::from_child(&watch.0);
    kill_process(pid, Signal::TERM).expect("the first signal");
    sleep(Duration::from_millis(100));
    kill_process(pid, Signal::TERM).expect("the second signal");
    let mut status = None;
    let begun = Instant::now();
    wait_until("it ends", || {
        status = watch.0.try_wait().expect("a state");
        status.is_some()
    });
    assert_eq!(status.and_then(|s| s.code()), Some(130));
    assert!(begun.elapsed() < Duration::from_secs(5));
}

/// The share with the results goes away and comes back; a loose job and its answers go on in between.
#[test]
fn results_that_vanish_are_waited_for() {
    let bench = Bench::new();
    let watch = Watch::start(&bench, &["--settle", "0.2", "--rescan", "0.5"]);
    let (inbox, out, away) = (bench.path("inbox"), bench.path("out"), bench.path("away"));
    wait_until("it watches", || out.join("index.html").exists());
    fs::rename(&out, &away).expect("the results go");
    fs::write(inbox.join("R-42_scan.txt"), "P0894 confirmed\n").expect("a loose file");
    wait_until("it says so", || {
        log(&bench).contains("not the folder of results any more")
    });
    assert!(!out.exists(), "it must not make another one in its place");
    fs::rename(&away, &out).expect("they come back");
    let case = out.join("R-42/case.json");
    wait_until("the report is there", || case.exists());
    fs::write(inbox.join("R-42_job.toml"), "[job]\nnumber = \"R-42/7\"\n").expect("words");
    wait_until("the words count", || {
        fs::read_to_string(&case).is_ok_and(|c| c.contains("R-42/7"))
    });
    watch.stop();
}

/// A file where a job's folder of results belongs, and a batch file that is not ours: neither keeps the other jobs
/// from their reports, nor the next start from its work.
#[test]
fn what_stands_in_the_way_of_one_job_holds_up_no_other() {
    let bench = Bench::new();
    let (inbox, out) = (bench.path("inbox"), bench.path("out"));
    let shop = bench.path("shop.toml");
    fs::write(&shop, crate::crash::shop_settings()).expect("the settings");
    let shop = shop.display().to_string();
    let arguments = ["--settle", "0.2", "--rescan", "0.5", "--shop", &shop];
    let drop = |name: &str| {
        let folder = inbox.join(name);
        fs::create_dir_all(&folder).expect("a job folder");
        let words = format!("[job]\nnumber = \"{name}\"\ndiagnosis_hours = 1.0\n");
        fs::write(folder.join("scan.txt"), "P0894 confirmed\n").expect("a scan text");
        fs::write(folder.join("job.toml"), words).expect("a job file");
    };
    let watch = Watch::start(&bench, &arguments);
    wait_until("it watches", || out.join("index.html").exists());
    fs::write(out.join("R-60"), "a note").expect("a file in the way");
    let batch = batch_of_today(&out);
    fs::write(&batch, "somebody's own list\n").expect("a foreign file");
    drop("R-60");
    wait_until("it says so", || {
        log(&bench).contains("R-60: something else is in the place")
    });
    drop("R-61");
    wait_until("the other job is done", || {
        out.join("R-61/case.json").exists()
    });
    wait_until("the rows wait", || {
        log(&bench).contains("not handed over yet")
    });
    watch.stop();

    let watch = Watch::start(&bench, &arguments);
    drop("R-62");
    wait_until("the next start works", || {
        out.join("R-62/case.json").exists()
    });
    fs::remove_file(out.join("R-60")).expect("it goes");
    fs::remove_file(&batch).expect("it goes");
    wait_until("the first job is done", || {
        out.join("R-60/case.json").exists()
    });
    wait_until("the rows are handed over", || {
        fs::read_to_string(&batch).is_ok_and(|rows| rows.lines().count() == 4)
    });
    watch.stop();
}

fn batch_of_today(out: &Path) -> PathBuf {
    out.join(format!("labour-{}.csv", chrono::Local::now().date_naive()))
}

/// What waited and went away waits no more; what only got another time is done all the same.
#[test]
fn nothing_waits_for_ever_that_is_not_there_or_is_done() {
    let bench = Bench::new();
    let (inbox, out) = (bench.path("inbox"), bench.path("out"));
    let watch = Watch::start(&bench, &["--settle", "2", "--rescan", "0.5"]);
    let scan = inbox.join("R-70/scan.txt");
    let status = || call(["status".into(), "--out".into(), out.clone()]).out;
    let drop = |path: &Path| {
        fs::create_dir_all(path.parent().unwrap_or(path)).expect("a job folder");
        fs::write(path, "P0894 confirmed\n").expect("a scan text");
    };
    drop(&scan);
    wait_until("it is done", || status().contains("R-70: report 1, draft"));
    drop(&scan);
    wait_until("it is looked at again", || {
        status().contains("R-70: waiting")
    });
    drop(&inbox.join("R-71/scan.txt"));
    wait_until("another one waits", || status().contains("R-71: waiting"));
    fs::remove_dir_all(inbox.join("R-71")).expect("it goes");
    wait_until("nothing waits any more", || !status().contains("waiting"));
    assert!(status().contains("R-70: report 1, draft") && !status().contains("R-71"));
    watch.stop();
}

/// What of the inbox belongs to no job is not only in the log: a person looks at the status.
#[test]
fn what_belongs_to_no_job_is_said_in_the_status() {
    let bench = Bench::new();
    let (inbox, out) = (bench.path("inbox"), bench.path("out"));
    fs::create_dir_all(&inbox).expect("an inbox");
    let loose = inbox.join("job.toml");
    fs::write(&loose, "[job]\nnumber = \"R-81\"\n").expect("a loose job file");
    fs::create_dir(inbox.join("labour-2026-03-02.csv")).expect("a reserved name");
    let watch = Watch::start(&bench, &["--settle", "0.2", "--rescan", "0.5"]);
    let status = || call(["status".into(), "--out".into(), out.clone()]).out;
    let said = [
        "part of no job: 2",
        "which job does it belong to",
        "labour-2026-03-02.csv",
    ];
    wait_until("it is said", || {
        out.join("index.html").exists() && said.iter().all(|words| status().contains(words))
    });
    wait_until("the page says it", || {
        fs::read_to_string(out.join("index.html")).is_ok_and(|p| p.contains("which job does it"))
    });
    fs::rename(&loose, inbox.join("R-81_job.toml")).expect("it gets its job's name");
    wait_until("it is said no more", || {
        !status().contains("which job does it belong to")
    });
    watch.stop();
}

/// The recorder broke off in its last line: that is waited for shortly, and not as long as for a file that lacks more.
#[test]
fn a_last_line_that_breaks_off_does_not_keep_a_job_waiting() {
    let bench = Bench::new();
    let (inbox, out) = (bench.path("inbox"), bench.path("out"));
    let day = [
        "--settle",
        "0.2",
        "--rescan",
        "0.5",
        "--incomplete-timeout",
        "86400",
    ];
    let watch = Watch::start(&bench, &day);
    let files = with_job_file(&drag(0, 1));
    for (job, cut) in [("R-82", 2), ("R-83", 0)] {
        let folder = inbox.join(job);
        fs::create_dir_all(&folder).expect("a job folder");
        let recording = &files["relearn.csv"];
        let recording = &recording[..recording.trim_ascii_end().len() - cut];
        fs::write(folder.join("job.toml"), &files["job.toml"]).expect("words");
        fs::write(folder.join("relearn.csv"), recording).expect("a recording");
    }
    fs::create_dir_all(inbox.join("R-84")).expect("a job folder");
    fs::write(inbox.join("R-84/empty.csv"), "").expect("a file with nothing in it yet");
    wait_until("both are done", || {
        ["R-82", "R-83"]
            .iter()
            .all(|job| out.join(job).join("case.json").exists())
    });
    assert!(!out.join("R-84").exists(), "that one is waited for");
    watch.stop();
    let cut = Results::read(&out, &bench.path("R-82"));
    assert_eq!(cut.verdict(), "established clutch-1-drag teardown");
}

/// What all loose names begin with need not stand in job.toml: the file stays the one that it was in its folder.
#[test]
fn loose_files_need_no_other_job_file() {
    let bench = Bench::new();
    let (inbox, out) = (bench.path("inbox"), bench.path("out"));
    let watch = Watch::start(&bench, &["--settle", "0.5"]);
    for (name, bytes) in with_job_file(&drag(0, 1)) {
        fs::write(inbox.join(format!("R-80_{name}")), bytes).expect("a loose file");
    }
    wait_until("it is done", || out.join("R-80/case.json").exists());
    watch.stop();
    let results = Results::read(&out, &bench.path("R-80"));
    assert_eq!(results.verdict(), "established clutch-1-drag teardown");
}

/// A library that could not be loaded is looked for again, and the job with it, without a file that changes.
#[test]
fn a_check_that_did_not_run_makes_the_job_due_again() {
    let bench = Bench::new();
    let folder = bench.path("plugins");
    fs::create_dir(&folder).expect("a folder for plugins");
    let crashes = compile("crash_on_load", &folder);
    let shop = bench.path("shop.toml");
    fs::write(&shop, format!("[plugins]\nfolders = [{folder:?}]\n")).expect("the settings");
    let shop = shop.to_string_lossy().into_owned();
    let arguments = ["--settle", "1", "--rescan", "0.5", "--shop", &shop];
    let watch = Watch::start(&bench, &arguments);
    let job = bench.path("inbox/R-45");
    fs::create_dir_all(&job).expect("a job folder");
    for (name, bytes) in with_job_file(&drag(0, 1)) {
        fs::write(job.join(name), bytes).expect("a file");
    }
    let case = bench.path("out/R-45/case.json");
    let not_run = || -> Option<usize> {
        let case: serde_json::Value = serde_json::from_slice(&fs::read(&case).ok()?).ok()?;
        Some(case["not_run"].as_array()?.len())
    };
    wait_until("the report is there", || not_run() == Some(1));
    wait_until("it says so", || {
        log(&bench).contains("it is done again later")
    });
    let better = compile("larger_struct", bench.dir.path());
    fs::rename(better, crashes).expect("a library that works in its place");
    wait_until("all checks ran", || not_run() == Some(0));
    watch.stop();
}
