//! Plugins that crash, hang or take everything: a plain sentence, no findings, and the next call starts afresh.

use crate::fixtures::{host_for, number, one_current, options, rust_fixtures};
use baybrief_plugin_host::{AnalyzeError, Host, HostOptions};
use std::time::{Duration, Instant};

crate::tests![
    segmentation_faults,
    writing_to_the_samples,
    exits,
    panics,
    stack_overflows,
    endless_allocation,
    endless_loops_are_killed_with_their_children,
    a_cancelled_plugin_comes_back,
    three_crashes_set_a_library_aside,
    a_healthy_plugin_of_a_crashed_library_runs_again,
];

/// Runs the fixture and returns how it crashed.
fn crash(host: &mut Host, plugin: usize) -> String {
    match host.analyze(plugin, Some(&one_current()), "{}") {
        Err(AnalyzeError::Crashed { how, noise, .. }) => how + &noise,
        other => panic!("expected a crash: {other:?}"),
    }
}

fn crash_of(name: &str) -> String {
    let (mut host, plugin) = host_for(name, |_| {});
    crash(&mut host, plugin)
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
    let plugin = number(&host, id);
    crash(&mut host, plugin)
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
    let (mut host, plugin) = host_for("hangs", |o: &mut HostOptions| {
        o.deadline = Duration::from_secs(1)
    });
    let start = Instant::now();
    let error = host
        .analyze(plugin, Some(&one_current()), "{}")
        .expect_err("stopped");
    let AnalyzeError::TimedOut {
        seconds: 1, noise, ..
    } = error
    else {
        panic!("{error:?}")
    };
    assert!(start.elapsed() < Duration::from_secs(10));
    let child = noise
        .trim_start_matches(" (it wrote: child ")
        .trim_end_matches(')');
    let child: u32 = child
        .parse()
        .unwrap_or_else(|_| panic!("the fixture names its child: {noise}"));
    // Where nobody collects orphans, a dead process stays listed, as a zombie (state Z).
    let gone = || {
        std::fs::read_to_string(format!("/proc/{child}/stat")).map_or(true, |stat| {
            stat.rsplit(')')
                .next()
                .is_some_and(|s| s.trim_start().starts_with('Z'))
        })
    };
    let wait = Instant::now();
    while !gone() && wait.elapsed() < Duration::from_secs(5) {
        std::thread::sleep(Duration::from_millis(10));
    }
    assert!(
        gone(),
        "process {child}, which the plugin started, still runs"
    );
}

fn a_cancelled_plugin_comes_back() {
    let (mut host, plugin) = host_for("cancels", |o| o.deadline = Duration::from_millis(300));
    let error = host
        .analyze(plugin, Some(&one_current()), "{}")
        .expect_err("stopped");
    assert!(matches!(error, AnalyzeError::TimedOut { .. }), "{error:?}");
}

fn three_crashes_set_a_library_aside() {
    let (mut host, plugin) = host_for("segfault", |_| {});
    for _ in 0..3 {
        crash(&mut host, plugin);
    }
    let error = host
        .analyze(plugin, Some(&one_current()), "{}")
        .expect_err("set aside");
    assert!(
        matches!(error, AnalyzeError::SetAside { crashes: 3, .. }),
        "{error:?}"
    );
    assert!(error.to_string().contains("libsegfault"), "{error}");
}

fn a_healthy_plugin_of_a_crashed_library_runs_again() {
    let mut host = Host::discover(&options(&rust_fixtures()));
    let (echo, panics) = (
        number(&host, "fixture-echo"),
        number(&host, "fixture-panics"),
    );
    let process = |host: &mut Host| {
        let findings = host
            .analyze(echo, Some(&one_current()), "{}")
            .expect("findings");
        findings[0].arg_f64("process").expect("a process")
    };
    let before = process(&mut host);
    crash(&mut host, panics);
    assert_ne!(
        process(&mut host),
        before,
        "a worker that saw a panic is not used again"
    );
}
