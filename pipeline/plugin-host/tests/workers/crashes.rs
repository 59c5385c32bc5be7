//! Plugins that crash, hang or take everything: a plain sentence, no findings, and the next call starts afresh.

use crate::fixtures::{
    c_fixture, host_for, library, one_current, options, recording_for, run, rust_fixtures,
};
use baybrief_plugin_host::{AnalyzeError, Host, HostOptions};
use model::{Capture, Samples};
use std::time::{Duration, Instant};

crate::tests![
    segmentation_faults,
    writing_to_the_samples,
    exits,
    panics,
    stack_overflows,
    endless_allocation,
    endless_loops_are_killed_with_their_children,
    a_cancelled_analyzer_comes_back,
    three_recordings_in_a_row_quarantine_a_library,
    the_same_recording_again_quarantines_no_library,
    an_analyzer_whose_worker_died_is_run_once_more,
    absurd_time_axes_are_handed_to_nobody,
    a_healthy_analyzer_of_a_crashed_library_runs_again,
    workers_end_with_the_host,
    workers_outlive_the_thread_that_started_them,
    a_killed_host_takes_its_busy_worker_along,
    a_library_that_was_replaced_is_not_started_again,
    a_worker_that_ended_between_two_calls_is_replaced,
];

/// Runs the fixture and returns how it crashed.
fn crash(host: &mut Host, id: &str, recording: &Capture) -> String {
    match run(host, id, recording) {
        Err(AnalyzeError::Crashed { how, output, .. }) => how + &output,
        other => panic!("expected a crash: {other:?}"),
    }
}

fn crash_of(name: &str) -> String {
    let (mut host, id) = host_for(name, |_| {});
    crash(&mut host, &id, &one_current())
}

fn segmentation_faults() {
    let how = crash_of("segfault");
    assert_eq!(how, "it used memory that is not its own (SIGSEGV)");
}

fn writing_to_the_samples() {
    let how = crash_of("writes_samples");
    assert_eq!(how, "it used memory that is not its own (SIGSEGV)");
}

fn exits() {
    assert_eq!(crash_of("exits"), "it ended its process with exit code 0");
}

fn rust_crash(id: &str) -> String {
    let mut host = Host::discover(&options(&rust_fixtures()));
    crash(&mut host, id, &recording_for(id))
}

fn panics() {
    assert_eq!(rust_crash("fixture-panics"), "panicked: no channel 1");
}

fn stack_overflows() {
    let how = rust_crash("fixture-overflows");
    assert!(how.contains("SIGABRT") || how.contains("SIGSEGV"), "{how}");
    assert!(how.contains("overflowed its stack"), "{how}");
}

fn endless_allocation() {
    let start = Instant::now();
    let how = crash_of("allocates");
    // malloc returns a null pointer at the limit, and the fixture does not look.
    assert!(how.contains("SIGSEGV"), "{how}");
    assert!(
        start.elapsed() < Duration::from_secs(15),
        "ended by the memory limit, not by the deadline"
    );
}

fn endless_loops_are_killed_with_their_children() {
    let (mut host, id) = host_for("hangs", |o: &mut HostOptions| {
        o.deadline = Duration::from_secs(1)
    });
    let start = Instant::now();
    let error = run(&mut host, &id, &one_current()).expect_err("stopped");
    let AnalyzeError::TimedOut {
        seconds: 1, output, ..
    } = error
    else {
        panic!("{error:?}")
    };
    assert!(start.elapsed() < Duration::from_secs(10));
    // Where the worker's sandbox stands it could start none.
    if host.sandbox().calls {
        assert_eq!(output, "", "the fixture started a child");
        return;
    }
    let child = output
        .trim_start_matches(" (it wrote: child ")
        .trim_end_matches(')');
    let child: u32 = child
        .parse()
        .unwrap_or_else(|_| panic!("the fixture names its child: {output}"));
    assert_gone(child);
}

fn a_cancelled_analyzer_comes_back() {
    let (mut host, id) = host_for("cancels", |o| o.deadline = Duration::from_millis(300));
    let error = run(&mut host, &id, &one_current()).expect_err("stopped");
    assert!(matches!(error, AnalyzeError::TimedOut { .. }), "{error:?}");
    assert!(error.is_transient());
}

/// A recording of its own content for each number.
fn recording(number: u8) -> Capture {
    let mut recording = one_current();
    recording.channels[0].samples = Samples::F32(vec![f32::from(number); 1000].into());
    recording
}

fn three_recordings_in_a_row_quarantine_a_library() {
    let (mut host, id) = host_for("segfault", |_| {});
    for number in 0..3 {
        crash(&mut host, &id, &recording(number));
    }
    let error = run(&mut host, &id, &recording(9)).expect_err("quarantined");
    assert!(
        matches!(error, AnalyzeError::Quarantined { inputs: 3, .. }),
        "{error:?}"
    );
    let said = error.to_string();
    let hash = &library(&host, &id).sha256;
    for part in [
        "libsegfault",
        hash,
        "3 recordings in a row",
        "baybrief plugins --unquarantine /",
    ] {
        assert!(said.contains(part), "{said}");
    }
}

fn the_same_recording_again_quarantines_no_library() {
    let (mut host, id) = host_for("segfault", |_| {});
    for _ in 0..3 {
        crash(&mut host, &id, &recording(1));
    }
    let error = run(&mut host, &id, &recording(1)).expect_err("not run again");
    assert!(
        matches!(error, AnalyzeError::InputQuarantined { times: 3, .. }),
        "{error:?}"
    );
    crash(&mut host, &id, &recording(2));
}

/// Once is chance: the worker may have been killed by anybody.
fn an_analyzer_whose_worker_died_is_run_once_more() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut options = options(&c_fixture("once"));
    options.crash_log = Some(folder.path().join("crashes.json"));
    let mut host = Host::discover(&options);
    for _ in 0..4 {
        let findings = run(&mut host, "fixture-once", &one_current()).expect("findings");
        assert_eq!(findings.len(), 1);
    }
    assert!(
        !folder.path().join("crashes.json").exists(),
        "nothing is on record"
    );
}

/// What a recorder cannot have made switches nothing off.
fn absurd_time_axes_are_handed_to_nobody() {
    let mut host = Host::discover(&options(&rust_fixtures()));
    for number in 0..4 {
        let mut recording = recording(number);
        recording.time = model::TimeAxis::Even {
            start_s: 0.0,
            step_s: 1e-300,
            len: 1000,
        };
        let error = run(&mut host, "fixture-echo", &recording).expect_err("unusable");
        assert!(
            matches!(error, AnalyzeError::UnusableInput { .. }),
            "{error:?}"
        );
        assert!(
            error.to_string().contains("check the time column's unit"),
            "{error}"
        );
    }
    run(&mut host, "fixture-echo", &one_current()).expect("findings");
}

fn a_healthy_analyzer_of_a_crashed_library_runs_again() {
    let mut host = Host::discover(&options(&rust_fixtures()));
    let before = echo_process(&mut host);
    crash(
        &mut host,
        "fixture-overflows",
        &recording_for("fixture-overflows"),
    );
    assert_ne!(echo_process(&mut host), before, "a worker that died");
}

/// Waits for a process to end. Where nobody collects orphans, a dead one stays listed as a zombie (state Z).
fn assert_gone(process: u32) {
    let gone = || {
        std::fs::read_to_string(format!("/proc/{process}/stat")).map_or(true, |stat| {
            stat.rsplit(')')
                .next()
                .is_some_and(|rest| rest.trim_start().starts_with('Z'))
        })
    };
    let wait = Instant::now();
    while !gone() && wait.elapsed() < Duration::from_secs(10) {
        std::thread::sleep(Duration::from_millis(10));
    }
    assert!(gone(), "process {process} still runs");
}

/// The process that runs the echo.
fn echo_process(host: &mut Host) -> u32 {
    let findings = run(host, "fixture-echo", &one_current()).expect("findings");
    findings[0].arg_f64("process").expect("a process") as u32
}

fn workers_end_with_the_host() {
    let mut host = Host::discover(&options(&rust_fixtures()));
    let worker = echo_process(&mut host);
    drop(host);
    assert_gone(worker);
}

fn workers_outlive_the_thread_that_started_them() {
    let start = || {
        let mut host = Host::discover(&options(&rust_fixtures()));
        let worker = echo_process(&mut host);
        (host, worker)
    };
    let (mut host, worker) = std::thread::spawn(start)
        .join()
        .expect("the thread ends well");
    std::thread::sleep(Duration::from_millis(50));
    assert_eq!(echo_process(&mut host), worker);
}

/// Argument of this executable when [`a_killed_host_takes_its_busy_worker_along`] starts it: a host that waits for a
/// plugin in an endless loop.
pub const HOST_TO_BE_KILLED: &str = "host-to-be-killed";

/// See [`HOST_TO_BE_KILLED`].
pub fn be_killed() {
    let (mut host, id) = host_for("hangs", |o| o.deadline = Duration::from_secs(60));
    let _ = run(&mut host, &id, &one_current());
}

fn a_killed_host_takes_its_busy_worker_along() {
    let this = std::env::current_exe().expect("this executable");
    let mut host = std::process::Command::new(this)
        .arg(HOST_TO_BE_KILLED)
        .spawn()
        .expect("a host");
    // The worker's parent is the host; the library's own child looks the same, but has the worker as its parent.
    let busy = |of: u32| {
        let all = std::fs::read_dir("/proc").expect("processes").flatten();
        let mut all = all.filter_map(|e| e.file_name().to_str()?.parse::<u32>().ok());
        all.find(|process| {
            let read = |what: &str| {
                std::fs::read_to_string(format!("/proc/{process}/{what}")).unwrap_or_default()
            };
            let parent = read("stat")
                .rsplit(')')
                .next()
                .and_then(|rest| rest.split_whitespace().nth(1)?.parse().ok());
            parent == Some(of) && read("cmdline").contains("plugin-worker")
        })
    };
    let start = Instant::now();
    let find = |of: u32| loop {
        match busy(of) {
            Some(process) => break process,
            None if start.elapsed() > Duration::from_secs(20) => panic!("{of} has no child"),
            None => std::thread::sleep(Duration::from_millis(10)),
        }
    };
    let worker = find(host.id());
    let confined = Host::discover(&options(&rust_fixtures())).sandbox().calls;
    let child = (!confined).then(|| find(worker));
    host.kill().expect("killed");
    host.wait().expect("waited for");
    assert_gone(worker);
    child.into_iter().for_each(assert_gone);
}

fn a_library_that_was_replaced_is_not_started_again() {
    let folder = tempfile::tempdir().expect("a folder");
    let library = folder
        .path()
        .join(format!("libreplaced{}", std::env::consts::DLL_SUFFIX));
    std::fs::copy(c_fixture("segfault"), &library).expect("a copy");
    let mut host = Host::discover(&options(&library));
    crash(&mut host, "fixture-segfault", &one_current());
    let new = folder.path().join("new");
    std::fs::copy(c_fixture("exits"), &new).expect("a copy");
    std::fs::rename(&new, &library).expect("replaced");
    let error = run(&mut host, "fixture-segfault", &one_current()).expect_err("not run");
    assert!(
        error
            .to_string()
            .contains("was changed since it was found (SHA-256 then "),
        "{error}"
    );
}

fn a_worker_that_ended_between_two_calls_is_replaced() {
    let (mut host, id) = host_for("dies_idle", |_| {});
    // Oftener than a library may crash: what happens between calls spoils no findings.
    for _ in 0..4 {
        assert_eq!(run(&mut host, &id, &one_current()), Ok(Vec::new()));
        std::thread::sleep(Duration::from_millis(400));
    }
}
