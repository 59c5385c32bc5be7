//! Plugins that crash, hang or take everything: a plain sentence, no findings, and the next call starts afresh.

use crate::fixtures::{c_fixture, host_for, number, one_current, options, rust_fixtures};
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
    workers_end_with_the_host,
    workers_outlive_the_thread_that_started_them,
    a_killed_host_takes_its_busy_worker_along,
    a_library_that_was_replaced_is_not_started_again,
    a_worker_that_ended_between_two_calls_is_replaced,
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
    // Where the worker's walls stand it could start none.
    if host.walls().calls {
        assert_eq!(noise, "", "the fixture started a child");
        return;
    }
    let child = noise
        .trim_start_matches(" (it wrote: child ")
        .trim_end_matches(')');
    let child: u32 = child
        .parse()
        .unwrap_or_else(|_| panic!("the fixture names its child: {noise}"));
    assert_gone(child);
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
    let said = error.to_string();
    let hash = &host.plugins()[plugin].blake3;
    for part in [
        "libsegfault",
        hash,
        "3 times in a row",
        "baybrief plugins --bring-back /",
    ] {
        assert!(said.contains(part), "{said}");
    }
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

/// The process that runs the echo plugin.
fn echo_process(host: &mut Host) -> u32 {
    let echo = number(host, "fixture-echo");
    let findings = host
        .analyze(echo, Some(&one_current()), "{}")
        .expect("findings");
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

/// What this executable does when [`a_killed_host_takes_its_busy_worker_along`] starts it: a host that waits for a
/// plugin in an endless loop.
pub const HOST_TO_BE_KILLED: &str = "host-to-be-killed";

/// See [`HOST_TO_BE_KILLED`].
pub fn be_killed() {
    let (mut host, plugin) = host_for("hangs", |o| o.deadline = Duration::from_secs(60));
    let _ = host.analyze(plugin, Some(&one_current()), "{}");
}

fn a_killed_host_takes_its_busy_worker_along() {
    let this = std::env::current_exe().expect("this executable");
    let mut host = std::process::Command::new(this)
        .arg(HOST_TO_BE_KILLED)
        .spawn()
        .expect("a host");
    // The worker's parent is the host; the plugin's own child looks the same, but has the worker as its parent.
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
    let walled = Host::discover(&options(&rust_fixtures())).walls().calls;
    let child = (!walled).then(|| find(worker));
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
    let plugin = number(&host, "fixture-segfault");
    crash(&mut host, plugin);
    let new = folder.path().join("new");
    std::fs::copy(c_fixture("exits"), &new).expect("a copy");
    std::fs::rename(&new, &library).expect("replaced");
    let error = host
        .analyze(plugin, Some(&one_current()), "{}")
        .expect_err("not run");
    assert!(
        error
            .to_string()
            .contains("was changed since it was found (BLAKE3 then "),
        "{error}"
    );
}

fn a_worker_that_ended_between_two_calls_is_replaced() {
    let (mut host, plugin) = host_for("dies_idle", |_| {});
    // Oftener than a library may crash: what happens between calls spoils no findings.
    for _ in 0..4 {
        assert_eq!(
            host.analyze(plugin, Some(&one_current()), "{}"),
            Ok(Vec::new())
        );
        std::thread::sleep(Duration::from_millis(400));
    }
}
