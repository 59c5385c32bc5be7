//! Proving libraries against the interface: each bad fixture fails in its own check.

use crate::fixtures::c_fixture;
use baybrief_plugin_host::{CheckResult, Outcome, check};
use std::path::Path;

crate::tests![
    a_good_library_passes_every_check,
    each_fault_is_found_by_its_check,
    a_careless_library_is_told_so,
    a_file_that_is_not_there,
];

fn outcome<'a>(results: &'a [CheckResult], name: &str) -> &'a CheckResult {
    results
        .iter()
        .find(|r| r.name == name)
        .unwrap_or_else(|| panic!("no check {name}"))
}

fn a_good_library_passes_every_check() {
    let results = check(&c_fixture("larger_struct"));
    assert_eq!(results.len(), 13);
    assert!(
        results.iter().all(|r| r.outcome == Outcome::Pass),
        "{results:#?}"
    );
}

fn each_fault_is_found_by_its_check() {
    for (fixture, name, expected) in [
        ("crash_on_load", "loads", Outcome::Crashed),
        ("wrong_major", "exports-symbol", Outcome::Fail),
        ("small_struct", "descriptor-sizes", Outcome::Fail),
        ("endless_list", "descriptor-sizes", Outcome::Fail),
        ("bad_text", "strings-utf8", Outcome::Fail),
        ("shifting", "descriptor-stable", Outcome::Fail),
        ("segfault", "empty-capture", Outcome::Crashed),
        ("exits", "empty-capture", Outcome::Crashed),
        ("bad_findings", "empty-capture", Outcome::Fail),
    ] {
        let results = check(&c_fixture(fixture));
        assert_eq!(results.len(), 13);
        let found = outcome(&results, name);
        assert_eq!(found.outcome, expected, "{fixture}: {results:#?}");
    }
}

fn a_careless_library_is_told_so() {
    let results = check(&c_fixture("careless"));
    assert_eq!(outcome(&results, "roles-known").outcome, Outcome::Warn);
    assert_eq!(
        outcome(&results, "synthetic-capture-twice").outcome,
        Outcome::Fail
    );
    let silent = outcome(&results, "stdout-silent");
    assert_eq!(silent.outcome, Outcome::Fail);
    assert!(
        silent.sentence.contains("hellohello"),
        "{}",
        silent.sentence
    );
    assert_eq!(outcome(&results, "nan-and-infinity").outcome, Outcome::Pass);
}

fn a_file_that_is_not_there() {
    let results = check(Path::new("/no/such/library.so"));
    assert_eq!(outcome(&results, "loads").outcome, Outcome::Fail);
    assert!(results[1..].iter().all(|r| r.outcome == Outcome::Skipped));
}
