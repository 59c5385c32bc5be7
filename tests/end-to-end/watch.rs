//! `watch`: a job that arrives slowly, a file that comes late, and the end.

use crate::bench::{Bench, Results, command};
use crate::jobs::{drag, with_job_file};
use rustix::process::{Pid, Signal, kill_process};
use std::fs::{self, File};
use std::io::Write;
use std::process::{Child, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

/// Long enough for a busy machine; a passing test does not wait for it.
const PATIENCE: Duration = Duration::from_secs(90);

/// A watch that ends with its test, whatever happens.
struct Watch(Child);

impl Drop for Watch {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

#[track_caller]
fn wait_until(what: &str, mut is_so: impl FnMut() -> bool) {
    let begun = Instant::now();
    while !is_so() {
        assert!(begun.elapsed() < PATIENCE, "waited too long until {what}");
        sleep(Duration::from_millis(50));
    }
}

#[test]
fn a_slow_copy_a_late_file_and_the_end() {
    let bench = Bench::new();
    let (inbox, out) = (bench.path("inbox"), bench.path("out"));
    fs::create_dir(&inbox).expect("an inbox");
    let arguments = ["watch".into(), inbox.clone(), "--out".into(), out.clone()];
    let mut child = command(arguments);
    let child = child.args(["--settle", "3", "--rescan", "0.5"]);
    let child = child.stdout(Stdio::null()).stderr(Stdio::null()).spawn();
    let mut watch = Watch(child.expect("the watch starts"));

    // The recording grows; meanwhile nothing may be made of it.
    let files = with_job_file(&drag(0, 1));
    let job = inbox.join("R-40");
    fs::create_dir(&job).expect("a job folder");
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

    // A late file makes the job be done again.
    fs::write(job.join("job.toml"), &files["job.toml"]).expect("the late file");
    let before = fs::read(&case).ok();
    wait_until("the late file counts", || fs::read(&case).ok() != before);
    let decided = Results::read(&out, &job);
    assert_eq!(decided.verdict(), "established clutch-1-drag teardown");
    assert!(
        watch.0.try_wait().expect("a state").is_none(),
        "the watch ended by itself"
    );

    let pid = Pid::from_child(&watch.0);
    kill_process(pid, Signal::TERM).expect("the signal is sent");
    let mut status = None;
    wait_until("the watch ends", || {
        status = watch.0.try_wait().expect("a state");
        status.is_some()
    });
    assert_eq!(
        status.and_then(|s| s.code()),
        Some(0),
        "asked to end, it ends well"
    );
    assert!(
        bench.path("inbox/R-40").exists() && fs::read_dir(&job).expect("a folder").count() == 2
    );
}
