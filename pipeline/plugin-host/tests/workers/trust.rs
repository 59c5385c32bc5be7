//! Which libraries are loaded at all: owner and mode, pins, and those that were set aside.

use crate::fixtures::{c_fixture, number, one_current, options};
use baybrief_plugin_host::{Host, HostOptions, bring_back, pin};
use std::fs::Permissions;
use std::os::unix::fs::PermissionsExt;
use std::path::{Path, PathBuf};
use std::time::Duration;

crate::tests![
    a_library_that_others_may_write_to_is_not_loaded,
    a_pinned_library_that_was_changed_is_refused_with_both_hashes,
    a_library_that_keeps_crashing_stays_aside_until_it_is_brought_back,
    a_library_that_never_loads_is_not_waited_for_again,
    a_good_run_forgives_what_was_before,
];

/// A folder with a copy of a fixture.
fn installed(fixture: &str) -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().expect("a folder");
    let library = folder
        .path()
        .join(format!("libone{}", std::env::consts::DLL_SUFFIX));
    std::fs::copy(c_fixture(fixture), &library).expect("a copy");
    std::fs::set_permissions(&library, Permissions::from_mode(0o755)).expect("a mode");
    let library = library.canonicalize().expect("its true path");
    (folder, library)
}

fn reason(host: &Host, library: &Path) -> String {
    let refused = host.refused().iter().find(|r| r.path == library);
    refused
        .unwrap_or_else(|| panic!("{} was not refused", library.display()))
        .reason
        .clone()
}

fn a_library_that_others_may_write_to_is_not_loaded() {
    let (folder, library) = installed("crash_on_load");
    std::fs::set_permissions(folder.path(), Permissions::from_mode(0o777)).expect("a mode");
    let host = Host::discover(&options(folder.path()));
    let said = reason(&host, &library);
    assert!(
        said.starts_with("others may write to /") && said.contains("chmod go-w"),
        "{said}"
    );
    assert!(!said.contains("crashed"), "it was loaded: {said}");
}

fn a_pinned_library_that_was_changed_is_refused_with_both_hashes() {
    let (folder, library) = installed("prints");
    let options = options(folder.path());
    let pinned = pin(&options).expect("pinned");
    let ours = pinned
        .iter()
        .find(|p| p.path == library)
        .expect("the library");
    let first = ours.blake3.clone();
    assert_eq!(
        first,
        blake3::hash(&std::fs::read(&library).expect("the library"))
            .to_hex()
            .as_str()
    );
    let lines = std::fs::read_to_string(folder.path().join("plugins.b3")).expect("the file");
    assert_eq!(
        lines,
        format!("{first}  libone{}\n", std::env::consts::DLL_SUFFIX)
    );
    number(&Host::discover(&options), "fixture-prints");

    std::fs::copy(c_fixture("aborts"), &library).expect("another");
    let second = blake3::hash(&std::fs::read(&library).expect("the library"))
        .to_hex()
        .to_string();
    let said = reason(&Host::discover(&options), &library);
    assert!(
        said.contains(&first) && said.contains(&second) && said.contains("--pin"),
        "{said}"
    );

    // One that came later is not loaded either.
    let later = folder
        .path()
        .join(format!("liblater{}", std::env::consts::DLL_SUFFIX));
    std::fs::copy(c_fixture("nan"), &later).expect("a copy");
    let said = reason(
        &Host::discover(&options),
        &later.canonicalize().expect("its true path"),
    );
    assert!(
        said.starts_with("it is not among the pinned libraries"),
        "{said}"
    );

    let again = pin(&options).expect("pinned");
    let changed = again
        .iter()
        .find(|p| p.path == library)
        .expect("the library");
    assert_eq!(
        (changed.before.as_ref(), &changed.blake3),
        (Some(&first), &second)
    );
    let host = Host::discover(&options);
    number(&host, "fixture-aborts");
    number(&host, "fixture-nan");

    std::fs::write(folder.path().join("plugins.b3"), "no pin\n").expect("spoilt");
    let said = reason(&Host::discover(&options), &library);
    assert!(
        said.contains("plugins.b3, cannot be used: line 1: expected a hash"),
        "{said}"
    );
}

fn crash(options: &HostOptions, id: &str) -> String {
    let mut host = Host::discover(options);
    let plugin = number(&host, id);
    let error = host
        .analyze(plugin, Some(&one_current()), "{}")
        .expect_err("a crash");
    error.to_string()
}

fn a_library_that_keeps_crashing_stays_aside_until_it_is_brought_back() {
    let (folder, library) = installed("aborts");
    let record = folder.path().join("state").join("plugin-crashes.json");
    let options = HostOptions {
        crash_record: Some(record.clone()),
        ..options(&library)
    };
    // Each in a run of its own.
    for _ in 0..3 {
        let said = crash(&options, "fixture-aborts");
        assert!(said.contains("it aborted (SIGABRT)"), "{said}");
    }
    let said = crash(&options, "fixture-aborts");
    assert!(
        said.contains("is set aside") && said.contains("--bring-back"),
        "{said}"
    );
    let aside = |options: &HostOptions| {
        let host = Host::discover(options);
        host.set_aside(&host.plugins()[number(&host, "fixture-aborts")])
    };
    assert_eq!(aside(&options), Some(3));
    assert!(
        bring_back(&record, &library).expect("the record"),
        "it was set aside"
    );
    assert_eq!(aside(&options), None);
    assert!(
        !bring_back(&record, &library).expect("the record"),
        "and is no more"
    );
    let said = crash(&options, "fixture-aborts");
    assert!(said.contains("it aborted (SIGABRT)"), "{said}");
    // Another build is another library.
    for _ in 0..2 {
        crash(&options, "fixture-aborts");
    }
    let mut bytes = std::fs::read(&library).expect("the library");
    bytes.push(0);
    std::fs::write(&library, bytes).expect("another build");
    let said = crash(&options, "fixture-aborts");
    assert!(said.contains("it aborted (SIGABRT)"), "{said}");
}

fn a_library_that_never_loads_is_not_waited_for_again() {
    let (folder, library) = installed("hang_on_load");
    let options = HostOptions {
        crash_record: Some(folder.path().join("plugin-crashes.json")),
        deadline: Duration::from_millis(300),
        ..options(&library)
    };
    for _ in 0..3 {
        assert_eq!(
            reason(&Host::discover(&options), &library),
            "it did not finish loading"
        );
    }
    let said = reason(&Host::discover(&options), &library);
    assert!(
        said.contains("3 times in a row while it was loaded and is set aside"),
        "{said}"
    );
}

fn a_good_run_forgives_what_was_before() {
    let (folder, library) = installed("moody");
    let options = HostOptions {
        crash_record: Some(folder.path().join("plugin-crashes.json")),
        ..options(&library)
    };
    let mut host = Host::discover(&options);
    let plugin = number(&host, "fixture-moody");
    for _ in 0..3 {
        for settings in ["crash", "crash", "{}"] {
            let result = host.analyze(plugin, Some(&one_current()), settings);
            assert_eq!(result.is_ok(), settings == "{}", "{result:?}");
        }
    }
}
