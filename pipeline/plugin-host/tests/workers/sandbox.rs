//! A worker's sandbox: no file, no network, no other process, and no way out of it.

use crate::fixtures::{host_for, library, one_current, options, run, rust_fixtures};
use baybrief_plugin_host::{Host, HostOptions, Landlock};
use std::collections::BTreeMap;

crate::tests![
    what_the_sandbox_claims_is_what_a_library_meets,
    the_sandbox_is_described_and_there_is_none_in_process,
];

fn what_the_sandbox_claims_is_what_a_library_meets() {
    let (mut host, id) = host_for("reaches_out", |_| {});
    let sandbox = host.sandbox();
    let paths = sandbox.paths != Landlock::Absent;
    let findings = run(&mut host, &id, &one_current()).expect("findings");
    let let_do: BTreeMap<&str, bool> = findings
        .iter()
        .map(|f| (f.kind.as_str(), f.value == Some(1.0)))
        .collect();
    assert_eq!(let_do.len(), 20, "{let_do:?}");
    let reading: &[&str] = &["reads", "lists", "thread-reads"];
    let writing: &[&str] = &["writes", "thread-writes", "loading-writes"];
    let calling: &[&str] = &[
        "sends",
        "starts",
        "becomes",
        "loading-sends",
        "loading-starts",
        "signals",
        "by-descriptor",
        "looks-into",
        "limits",
        "unties",
    ];
    for (ways, refused) in [
        (reading, paths || sandbox.calls),
        (writing, paths || sandbox.calls),
        (calling, sandbox.calls),
        (&["loading-reads"], paths),
        (&["inherits"], true),
    ] {
        for way in ways {
            assert_eq!(let_do[way], !refused, "{way}: {sandbox:?} {let_do:?}");
        }
    }
    assert!(let_do["threads"] && let_do["allocates"], "{let_do:?}");
    // Says so in the test's output where something is missing on this system.
    if !(sandbox.paths == Landlock::Full && sandbox.calls) {
        eprintln!("this system's sandbox: {sandbox}");
    }
}

fn the_sandbox_is_described_and_there_is_none_in_process() {
    let host = Host::discover(&HostOptions {
        in_process: true,
        ..options(&rust_fixtures())
    });
    library(&host, "fixture-echo");
    assert!(
        host.sandbox()
            .to_string()
            .starts_with("nothing on this system keeps")
    );
    // The kernel says which of the two it has.
    let workers = Host::discover(&options(&rust_fixtures())).sandbox();
    let modules = std::fs::read_to_string("/sys/kernel/security/lsm").unwrap_or_default();
    if modules.contains("landlock") {
        assert!(
            workers.paths != Landlock::Absent,
            "{workers:?}, though the kernel has {modules}"
        );
    }
    let processor = ["x86_64", "aarch64", "riscv64"].contains(&std::env::consts::ARCH);
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    if processor && status.contains("Seccomp_filters:") {
        assert!(
            workers.calls,
            "{workers:?}, though the kernel has seccomp filters"
        );
    }
}
