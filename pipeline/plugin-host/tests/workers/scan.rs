//! Finding libraries and refusing those that break the interface's rules.

use crate::fixtures::{c_fixture, library, options, rust_fixtures, sha256};
use baybrief_plugin_host::{Host, HostOptions};
use std::path::Path;
use std::time::Duration;

crate::tests![
    declarations_are_read,
    libraries_that_break_rules_are_refused,
    the_first_folder_has_the_library,
    a_missing_folder_is_named,
    libraries_that_never_load_do_not_keep_the_others,
];

fn declarations_are_read() {
    let file = rust_fixtures();
    let host = Host::discover(&options(&file));
    let found = library(&host, "fixture-echo");
    let declared = &found.declaration;
    assert_eq!(
        (declared.system.as_str(), declared.name.as_str()),
        ("fixture", "Fixture")
    );
    assert_eq!(declared.vendor, "baybrief tests");
    assert_eq!(found.path, file.canonicalize().expect("its true path"));
    assert_eq!(found.sha256, sha256(&file));
    assert!(
        found.foreign,
        "it was named, and did not come with this executable"
    );
    let ids: Vec<&str> = declared.analyzers.iter().map(|a| a.id.as_str()).collect();
    assert_eq!(
        ids,
        [
            "fixture-echo",
            "fixture-job",
            "fixture-refuses",
            "fixture-panics",
            "fixture-overflows",
            "fixture-sends-nan",
            "fixture-gives",
            "fixture-takes"
        ],
        "in declared order"
    );
    let echo = &declared.analyzers[0];
    assert_eq!(echo.needs, ["supply-current|actuator-current-1"]);
    assert_eq!(echo.uses, ["supply-voltage", "input-shaft-1"]);
}

/// The reason why a library was refused.
fn reason(library: &Path) -> String {
    let host = Host::discover(&options(library));
    let library = library.canonicalize().expect("its true path");
    let refused = host.refused().iter().find(|r| r.path == library);
    assert!(!host.libraries().iter().any(|l| l.path == library));
    refused
        .unwrap_or_else(|| panic!("{} was not refused", library.display()))
        .reason
        .clone()
}

fn libraries_that_break_rules_are_refused() {
    for (name, said) in [
        (
            "wrong_major",
            "it was made for version 1 of the plugin interface",
        ),
        (
            "small_struct",
            "analyzer 0: analysis_analyzer has struct_size ",
        ),
        (
            "crash_on_load",
            "it crashed while it was loaded: it aborted (SIGABRT)",
        ),
        ("bad_text", "name is not UTF-8 (first wrong byte at 4)"),
        (
            "long_list",
            "analyzers has 65 entries, at most 64 are allowed",
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

fn the_first_folder_has_the_library() {
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
    // The same library again, in another build: the bytes differ at the end.
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
        .libraries()
        .iter()
        .filter(|l| l.declaration.system == "fixture-segfault")
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
    library(&host, "fixture-echo");
}
