//! Libraries that are loaded at all: owner and mode, pins, quarantine.

use crate::fixtures::{c_fixture, library, one_current, options, run, run_with, sha256};
use baybrief_plugin_host::{Host, HostOptions, Settings, pin, unquarantine};
use model::Samples;
use std::fs::Permissions;
use std::os::unix::fs::PermissionsExt;
use std::path::{Path, PathBuf};
use std::time::Duration;

crate::tests![
    a_library_that_others_may_write_to_is_not_loaded,
    a_pinned_library_that_was_changed_is_refused_with_both_hashes,
    a_library_that_keeps_crashing_stays_in_quarantine_until_it_is_released,
    a_library_that_never_loads_is_not_waited_for_again,
    a_good_run_ends_the_row,
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
    let (folder, file) = installed("prints");
    let options = options(folder.path());
    let pinned = pin(&options).expect("pinned");
    let ours = pinned.iter().find(|p| p.path == file).expect("the library");
    let first = ours.sha256.clone();
    assert_eq!(first, sha256(&file));
    let lines = std::fs::read_to_string(folder.path().join("plugins.sha256")).expect("the file");
    assert_eq!(
        lines,
        format!("{first}  libone{}\n", std::env::consts::DLL_SUFFIX)
    );
    library(&Host::discover(&options), "fixture-prints");

    std::fs::copy(c_fixture("aborts"), &file).expect("another");
    let second = sha256(&file);
    let said = reason(&Host::discover(&options), &file);
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
    let changed = again.iter().find(|p| p.path == file).expect("the library");
    assert_eq!(
        (changed.before.as_ref(), &changed.sha256),
        (Some(&first), &second)
    );
    let host = Host::discover(&options);
    library(&host, "fixture-aborts");
    library(&host, "fixture-nan");

    std::fs::write(folder.path().join("plugins.sha256"), "no pin\n").expect("spoilt");
    let said = reason(&Host::discover(&options), &file);
    assert!(
        said.contains("plugins.sha256, cannot be used: line 1: expected a hash"),
        "{said}"
    );
}

/// Runs an analyzer in a host of its own, on a recording of its own for each number.
fn crash(options: &HostOptions, id: &str, number: u8) -> String {
    let mut host = Host::discover(options);
    let mut recording = one_current();
    recording.channels[0].samples = Samples::F32(vec![f32::from(number); 1000].into());
    run(&mut host, id, &recording)
        .expect_err("a crash")
        .to_string()
}

fn a_library_that_keeps_crashing_stays_in_quarantine_until_it_is_released() {
    let (folder, file) = installed("aborts");
    let log = folder.path().join("state").join("plugin-crashes.json");
    let options = HostOptions {
        crash_log: Some(log.clone()),
        ..options(&file)
    };
    // Each in a run of its own.
    for number in 0..3 {
        let said = crash(&options, "fixture-aborts", number);
        assert!(said.contains("it aborted (SIGABRT)"), "{said}");
    }
    let said = crash(&options, "fixture-aborts", 3);
    assert!(
        said.contains("is quarantined") && said.contains("--unquarantine"),
        "{said}"
    );
    let quarantined = |options: &HostOptions| {
        let host = Host::discover(options);
        host.quarantined(library(&host, "fixture-aborts"))
    };
    assert_eq!(quarantined(&options), Some(3));
    assert!(unquarantine(&log, &file).expect("the log"), "it was there");
    assert_eq!(quarantined(&options), None);
    assert!(!unquarantine(&log, &file).expect("the log"), "no more");
    for number in 0..3 {
        crash(&options, "fixture-aborts", number);
    }
    // Another build is another library.
    let mut bytes = std::fs::read(&file).expect("the library");
    bytes.push(0);
    std::fs::write(&file, bytes).expect("another build");
    let said = crash(&options, "fixture-aborts", 9);
    assert!(said.contains("it aborted (SIGABRT)"), "{said}");
}

fn a_library_that_never_loads_is_not_waited_for_again() {
    let (folder, library) = installed("hang_on_load");
    let options = HostOptions {
        crash_log: Some(folder.path().join("plugin-crashes.json")),
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
        said.contains("3 times in a row while it was loaded and is quarantined"),
        "{said}"
    );
}

fn a_good_run_ends_the_row() {
    let (folder, library) = installed("moody");
    let options = HostOptions {
        crash_log: Some(folder.path().join("plugin-crashes.json")),
        ..options(&library)
    };
    let mut host = Host::discover(&options);
    let mut number = 0;
    for _ in 0..3 {
        for phase in ["crash", "crash", "before"] {
            number += 1;
            let mut recording = one_current();
            recording.channels[0].samples = Samples::F32(vec![number as f32; 1000].into());
            let settings = Settings {
                phase: Some(phase.into()),
                ..Settings::default()
            };
            let result = run_with(&mut host, "fixture-moody", Some(&recording), &settings);
            assert_eq!(result.is_ok(), phase != "crash", "{result:?}");
        }
    }
}
