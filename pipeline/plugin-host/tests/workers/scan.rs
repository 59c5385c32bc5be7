//! Finding libraries and refusing those that break the interface's rules.

use crate::fixtures::{c_fixture, options, rust_fixtures};
use baybrief_plugin_host::{Host, HostOptions};
use std::path::Path;
use std::time::Duration;

crate::tests![
    descriptors_are_read,
    libraries_that_break_rules_are_refused,
    the_first_folder_has_the_plugin,
    a_missing_folder_is_named,
    libraries_that_never_load_do_not_keep_the_others,
];

fn descriptors_are_read() {
    let library = rust_fixtures();
    let host = Host::discover(&options(&library));
    let echo = host
        .plugins()
        .iter()
        .find(|p| p.id == "fixture-echo")
        .expect("the plugin");
    assert_eq!(
        (echo.name.as_str(), echo.version.as_str()),
        ("Fixture", "1.2.3")
    );
    assert_eq!(echo.vendor, "baybrief tests");
    assert_eq!(echo.needs, ["supply-current|actuator-current-1"]);
    assert_eq!(echo.uses, ["supply-voltage", "input-shaft-1"]);
    assert_eq!(echo.path, library.canonicalize().expect("its true path"));
    let hash = blake3::hash(&std::fs::read(&library).expect("the library"));
    assert_eq!(echo.blake3, hash.to_hex().as_str());
    let all = host
        .plugins()
        .iter()
        .filter(|p| p.path == echo.path)
        .count();
    assert_eq!(all, 8);
    let ids: Vec<&str> = host.plugins().iter().map(|p| p.id.as_str()).collect();
    let ours: Vec<&str> = ids
        .iter()
        .copied()
        .filter(|id| id.starts_with("fixture-"))
        .collect();
    assert_eq!(
        ours[ours.len() - 2..],
        ["fixture-z-gives-tracks", "fixture-takes-tracks"],
        "who takes runs after who gives"
    );
    assert!(ours[..ours.len() - 1].is_sorted());
}

/// The reason why a library was refused.
fn reason(library: &Path) -> String {
    let host = Host::discover(&options(library));
    let library = library.canonicalize().expect("its true path");
    let refused = host.refused().iter().find(|r| r.path == library);
    assert!(!host.plugins().iter().any(|p| p.path == library));
    refused
        .unwrap_or_else(|| panic!("{} was not refused", library.display()))
        .reason
        .clone()
}

fn libraries_that_break_rules_are_refused() {
    for (name, said) in [
        (
            "wrong_major",
            "it was made for version 0 of the plugin interface",
        ),
        (
            "small_struct",
            "plugin 0: analysis_descriptor has struct_size 96, version 1.0 needs at least 104",
        ),
        (
            "crash_on_load",
            "it crashed while it was loaded: it aborted (SIGABRT)",
        ),
        (
            "bad_text",
            "plugin 0: name is not UTF-8 (first wrong byte at 4)",
        ),
        (
            "endless_list",
            "it has more than 64 plugins, or no end to its list",
        ),
    ] {
        let reason = reason(&c_fixture(name));
        assert!(reason.starts_with(said), "{name}: {reason}");
    }
    let folder = tempfile::tempdir().expect("a folder");
    let text = folder
        .path()
        .join(format!("libnotes{}", std::env::consts::DLL_SUFFIX));
    std::fs::write(&text, "no library").expect("a file");
    let reason = reason(&text);
    assert!(
        reason.starts_with("the system cannot load it: "),
        "{reason}"
    );
}

fn the_first_folder_has_the_plugin() {
    let folder = tempfile::tempdir().expect("a folder");
    let suffix = std::env::consts::DLL_SUFFIX;
    let place = |name: &str, fixture: &str| {
        let file = folder.path().join(name).join(format!("libsame{suffix}"));
        std::fs::create_dir_all(file.parent().expect("its folder")).expect("a folder");
        std::fs::copy(c_fixture(fixture), &file).expect("a copy");
        file.canonicalize().expect("its true path")
    };
    let first = place("first", "segfault");
    let copy = place("copy", "segfault");
    // The same plugin again, in another build: the bytes differ at the end.
    let other = place("other", "segfault");
    let mut bytes = std::fs::read(&other).expect("the library");
    bytes.push(0);
    std::fs::write(&other, bytes).expect("another build");
    let folders = ["first", "copy", "other"]
        .map(|f| folder.path().join(f))
        .to_vec();
    let host = Host::discover(&HostOptions {
        folders,
        ..HostOptions::default()
    });
    let found: Vec<_> = host
        .plugins()
        .iter()
        .filter(|p| p.id == "fixture-segfault")
        .collect();
    assert_eq!(found.iter().map(|p| &p.path).collect::<Vec<_>>(), [&first]);
    let refused: Vec<_> = host.refused().iter().map(|r| &r.path).collect();
    assert!(
        refused.contains(&&other) && !refused.contains(&&copy),
        "{refused:?}"
    );
}

fn a_missing_folder_is_named() {
    let missing = Path::new("/no/such/folder");
    let host = Host::discover(&options(missing));
    let refused = host
        .refused()
        .iter()
        .find(|r| r.path == missing)
        .expect("refused");
    assert!(
        refused
            .reason
            .starts_with("this folder for plugins cannot be read"),
        "{}",
        refused.reason
    );
}

fn libraries_that_never_load_do_not_keep_the_others() {
    let good = rust_fixtures();
    let hangs = c_fixture("hang_on_load");
    let mut options = options(&hangs);
    options.folders.push(good);
    options.deadline = Duration::from_secs(3);
    let host = Host::discover(&options);
    let refused = host
        .refused()
        .iter()
        .find(|r| r.path == hangs)
        .expect("refused");
    assert_eq!(refused.reason, "it did not finish loading");
    assert!(host.plugins().iter().any(|p| p.id == "fixture-echo"));
}
