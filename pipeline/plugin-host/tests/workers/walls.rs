//! A worker's walls: no file, no network, no other process.

use crate::fixtures::{host_for, number, one_current, options, rust_fixtures};
use baybrief_plugin_host::{Host, HostOptions};
use std::collections::BTreeMap;

crate::tests![
    what_the_walls_claim_is_what_a_plugin_meets,
    walls_are_said_and_there_are_none_in_process,
];

fn what_the_walls_claim_is_what_a_plugin_meets() {
    let (mut host, plugin) = host_for("reaches_out", |_| {});
    let walls = host.walls();
    let findings = host
        .analyze(plugin, Some(&one_current()), "{}")
        .expect("findings");
    let let_do: BTreeMap<&str, bool> = findings
        .iter()
        .map(|f| (f.kind.as_str(), f.value == Some(1.0)))
        .collect();
    assert_eq!(let_do.len(), 12, "{let_do:?}");
    for (ways, refused) in [
        (["reads", "writes", "lists"], walls.paths || walls.calls),
        (["sends", "starts", "becomes"], walls.calls),
        (
            ["loading-sends", "loading-starts", "loading-sends"],
            walls.calls,
        ),
        (
            ["loading-reads", "loading-writes", "loading-reads"],
            walls.paths,
        ),
    ] {
        for way in ways {
            assert_eq!(let_do[way], !refused, "{way}: {walls:?} {let_do:?}");
        }
    }
    assert!(let_do["threads"] && let_do["allocates"], "{let_do:?}");
    // What is known of this system: says so in the test's output where a wall is missing.
    if !(walls.paths && walls.calls) {
        eprintln!("walls are missing here: {walls}");
    }
}

fn walls_are_said_and_there_are_none_in_process() {
    let host = Host::discover(&HostOptions {
        in_process: true,
        ..options(&rust_fixtures())
    });
    number(&host, "fixture-echo");
    assert!(
        host.walls()
            .to_string()
            .starts_with("nothing on this system keeps")
    );
    // The kernel says which of the two it has.
    let workers = Host::discover(&options(&rust_fixtures())).walls();
    let modules = std::fs::read_to_string("/sys/kernel/security/lsm").unwrap_or_default();
    if modules.contains("landlock") {
        assert!(
            workers.paths,
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
