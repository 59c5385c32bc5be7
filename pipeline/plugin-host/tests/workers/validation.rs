//! Validating libraries against the interface: each bad fixture fails in its own check.

use crate::fixtures::{c_fixture, rust_fixtures};
use baybrief_plugin_host::{CheckResult, Outcome};
use std::path::Path;

crate::tests![
    a_good_library_passes_every_check,
    each_fault_is_found_by_its_check,
    a_careless_library_is_told_so,
    a_file_that_is_not_there,
    seeds_are_reproducible,
];

const CHECKS: usize = 18;

fn check(library: &Path) -> Vec<CheckResult> {
    let results = baybrief_plugin_host::validate(library, 1);
    assert_eq!(results.len(), CHECKS);
    for r in &results {
        let sentence = r.sentence.as_str();
        assert!(
            sentence.ends_with('.') && sentence.starts_with(|c: char| !c.is_whitespace()),
            "{r:?} is no sentence"
        );
    }
    results
}

fn outcome<'a>(results: &'a [CheckResult], name: &str) -> &'a CheckResult {
    results
        .iter()
        .find(|r| r.name == name)
        .unwrap_or_else(|| panic!("no check {name}"))
}

fn a_good_library_passes_every_check() {
    let results = check(&c_fixture("larger_struct"));
    // Where the system cannot watch a library's calls, that is said.
    let unwatched = |r: &CheckResult| {
        r.outcome == Outcome::Skipped
            && r.sentence.contains("cannot watch")
            && !cfg!(target_os = "linux")
    };
    let fine = |r: &CheckResult| r.outcome == Outcome::Pass || unwatched(r);
    assert!(results.iter().all(fine), "{results:#?}");
}

/// Every named way of failing: the check that finds it, how that goes, and what its sentence says.
const FAULTS: &[(&str, &str, Outcome, &str)] = &[
    (
        "crash_on_load",
        "loads",
        Outcome::Crashed,
        "it aborted (SIGABRT)",
    ),
    ("hang_on_load", "loads", Outcome::Fail, "No answer within"),
    (
        "wrong_major",
        "exports-symbol",
        Outcome::Fail,
        "made for version 1",
    ),
    (
        "small_struct",
        "declaration-sizes",
        Outcome::Fail,
        "version 2.0 needs at least",
    ),
    (
        "long_list",
        "declaration-sizes",
        Outcome::Fail,
        "at most 64 are allowed",
    ),
    ("bad_text", "strings-utf8", Outcome::Fail, "is not UTF-8"),
    (
        "shifting",
        "declaration-stable",
        Outcome::Fail,
        "another declaration each time",
    ),
    ("segfault", "empty-capture", Outcome::Crashed, "SIGSEGV"),
    ("aborts", "empty-capture", Outcome::Crashed, "SIGABRT"),
    ("exits", "empty-capture", Outcome::Crashed, "exit code 0"),
    (
        "hangs",
        "empty-capture",
        Outcome::Fail,
        "did not come back and was killed",
    ),
    ("allocates", "empty-capture", Outcome::Crashed, "SIGSEGV"),
    (
        "small_finding",
        "empty-capture",
        Outcome::Fail,
        "has struct_size 64",
    ),
    ("nan", "empty-capture", Outcome::Fail, "value is NaN"),
    (
        "million",
        "empty-capture",
        Outcome::Fail,
        "more than 100000 findings",
    ),
    (
        "bad_words",
        "empty-capture",
        Outcome::Fail,
        "subject is not UTF-8",
    ),
    (
        "bad_findings",
        "empty-capture",
        Outcome::Fail,
        "value is NaN",
    ),
    (
        "undeclared_series",
        "empty-capture",
        Outcome::Fail,
        "secret-rate is not declared",
    ),
    (
        "writes_samples",
        "synthetic-capture-twice",
        Outcome::Crashed,
        "SIGSEGV",
    ),
    (
        "lies",
        "needs-suffice",
        Outcome::Fail,
        "needs supply-current, and refuses",
    ),
    (
        "opens",
        "opens-no-file",
        Outcome::Fail,
        "opens, makes or removes a file",
    ),
    (
        "connects",
        "opens-no-connection",
        Outcome::Fail,
        "opens a connection",
    ),
    (
        "forks",
        "starts-no-process",
        Outcome::Fail,
        "starts another process",
    ),
    (
        "signals",
        "signals-nobody",
        Outcome::Fail,
        "signals another process",
    ),
    (
        "sets_limits",
        "keeps-its-limits",
        Outcome::Fail,
        "sets a limit of its own",
    ),
    (
        "writes_on_load",
        "opens-no-file",
        Outcome::Fail,
        "While it is loaded, the library opens, makes or removes a file",
    ),
    (
        "forks_on_load",
        "starts-no-process",
        Outcome::Fail,
        "While it is loaded, the library starts another process",
    ),
    ("prints", "stdout-silent", Outcome::Fail, "all is well"),
];

fn each_fault_is_found_by_its_check() {
    // Several at a time: some wait for a deadline.
    let next = std::sync::atomic::AtomicUsize::new(0);
    let table = std::sync::Mutex::new(Vec::new());
    std::thread::scope(|scope| {
        for _ in 0..4 {
            scope.spawn(|| {
                while let Some(&(fixture, name, expected, said)) =
                    FAULTS.get(next.fetch_add(1, std::sync::atomic::Ordering::Relaxed))
                {
                    let results = check(&c_fixture(fixture));
                    table
                        .lock()
                        .expect("no panic")
                        .push((fixture, name, expected, said, results));
                }
            });
        }
    });
    for (fixture, name, expected, said, results) in table.into_inner().expect("no panic") {
        let found = outcome(&results, name);
        assert_eq!(found.outcome, expected, "{fixture}: {results:#?}");
        assert!(
            found.sentence.contains(said),
            "{fixture}: {}",
            found.sentence
        );
        // The checks before it pass: it fails in one named way, not in all.
        let before = results.iter().take_while(|r| r.name != name);
        for r in before {
            assert_eq!(r.outcome, Outcome::Pass, "{fixture}: {r:?}");
        }
    }
    // Panics need the SDK.
    let results = check(&rust_fixtures());
    let found = outcome(&results, "empty-capture");
    assert_eq!(found.outcome, Outcome::Crashed, "{results:#?}");
    assert!(
        found.sentence.contains("panicked: no channel 1"),
        "{}",
        found.sentence
    );
}

fn seeds_are_reproducible() {
    let library = c_fixture("moody");
    let one = baybrief_plugin_host::validate(&library, 7);
    assert_eq!(one, baybrief_plugin_host::validate(&library, 7));
    let random = outcome(&one, "random-captures");
    assert_eq!(
        random.sentence,
        "8 random recordings are handled (seeds 7 to 14)."
    );
}

fn a_careless_library_is_told_so() {
    let results = check(&c_fixture("careless"));
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
