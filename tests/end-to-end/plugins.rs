//! Plugins: ours, none, and some that fail.

use crate::bench::{Bench, EXECUTABLE, Results, call, command, said};
use crate::jobs::{drag, with_job_file};
use std::path::{Path, PathBuf};
use std::process::Command;

#[test]
fn ours_are_listed_and_each_passes_every_check() {
    let said = call(["plugins"]).ends_with(0);
    let libraries: Vec<&str> = said
        .out
        .lines()
        .filter_map(|l| l.trim().strip_prefix("library "))
        .collect();
    assert_eq!(libraries.len(), 4, "{}", said.out);
    for system in [
        "recording",
        "dual-dry-clutch",
        "speed-sensor",
        "start-and-charge",
    ] {
        assert!(
            said.out
                .lines()
                .any(|l| l.starts_with(&format!("{system} "))),
            "{system}: {}",
            said.out
        );
    }
    for library in libraries {
        let checked = call(["plugins", "--validate", library]).ends_with(0);
        let passed = checked
            .out
            .lines()
            .filter(|l| l.starts_with("pass"))
            .count();
        assert!(
            passed > 5 && passed == checked.out.lines().count(),
            "{library}:\n{}",
            checked.out
        );
    }
}

#[test]
fn a_library_that_is_no_plugin_fails_its_check() {
    let bench = Bench::new();
    let file = bench.path("libnone.so");
    std::fs::write(&file, "no library").expect("a file");
    call(["plugins".into(), "--validate".into(), file])
        .ends_with(1)
        .says(&["FAIL"]);
}

/// Alone in a folder the executable finds no plugin: nothing was looked at, so nothing is cleared.
#[test]
fn without_plugins_nothing_is_decided() {
    let bench = Bench::new();
    let job = bench.job("R-30", &with_job_file(&drag(0, 1)));
    let alone = bench.path("alone");
    std::fs::create_dir(&alone).expect("an empty folder");
    let executable = alone.join("baybrief");
    std::fs::copy(EXECUTABLE, &executable).expect("a copy of the executable");
    let call = |arguments: &[PathBuf]| {
        let output = Command::new(&executable)
            .args(arguments)
            .env_remove("BAYBRIEF_PLUGINS")
            .output();
        said(output.expect("the copy starts"))
    };
    let done = call(&bench.run_arguments(&job, "out"));
    let results = Results::read(&bench.path("out"), &job);
    assert_eq!(results.verdict(), "open");
    assert!(results.list("/findings").is_empty());
    let reason = results.at("/not_run/0/reason").as_str().expect("a reason");
    assert!(reason.contains("no analysis plugin was found"), "{reason}");
    done.says(&["no analysis plugin was found"]);
    call(&["plugins".into()])
        .ends_with(1)
        .says(&["No plugin was found"]);
}

/// A folder with the fixtures that panic, crash, refuse or break a rule, and two from C: one follows a null pointer,
/// one dies while it is loaded.
fn failing(bench: &Bench) -> PathBuf {
    let folder = bench.path("failing");
    std::fs::create_dir(&folder).expect("a folder for plugins");
    let beside = std::env::current_exe().expect("this executable");
    let rust = format!(
        "libbaybrief_fixture_plugins{}",
        std::env::consts::DLL_SUFFIX
    );
    std::fs::copy(beside.with_file_name(&rust), folder.join(&rust)).expect("the fixtures' library");
    for name in ["segfault", "crash_on_load"] {
        compile(name, &folder);
    }
    folder
}

fn compile(name: &str, folder: &Path) {
    let repository = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let done = Command::new("cc")
        .args([
            "-std=c11",
            "-D_DEFAULT_SOURCE",
            "-fPIC",
            "-shared",
            "-fvisibility=hidden",
            "-I",
        ])
        .arg(repository.join("pipeline/plugin-abi/include"))
        .arg(repository.join(format!("tests/fixture-plugins/c/{name}.c")))
        .arg("-o")
        .arg(folder.join(format!("lib{name}{}", std::env::consts::DLL_SUFFIX)))
        .output();
    let done = done.expect("this test needs the system's C compiler `cc` on the PATH");
    assert!(
        done.status.success(),
        "{}",
        String::from_utf8_lossy(&done.stderr)
    );
}

#[test]
fn plugins_that_fail_are_named_and_the_others_decide() {
    let bench = Bench::new();
    let job = bench.job("R-31", &with_job_file(&drag(0, 1)));
    let folder = failing(&bench);
    let output = command(bench.run_arguments(&job, "out"))
        .env("BAYBRIEF_PLUGINS", &folder)
        .output();
    let done = said(output.expect("the executable starts"));
    let results = Results::read(&bench.path("out"), &job);
    assert_eq!(
        results.verdict(),
        "established clutch-1-drag teardown",
        "{}",
        done.all()
    );
    // A long path is broken over lines.
    let words = results.words().replace([' ', '\u{ad}', '-'], "");
    for (plugin, why) in [("crash_on_load", "crashed while it was loaded")] {
        let not_run = results
            .list("/not_run")
            .iter()
            .find(|n| n["plugin"].to_string().contains(plugin));
        let not_run = not_run.unwrap_or_else(|| panic!("{plugin}: {:#}", results.at("/not_run")));
        assert!(not_run["reason"].to_string().contains(why), "{not_run:#}");
        assert!(
            words.contains(&plugin.replace('-', "")),
            "the report does not say that {plugin} did not run"
        );
        let theirs = results
            .list("/findings")
            .iter()
            .filter(|f| f["plugin"] == plugin)
            .count();
        assert_eq!(theirs, 0, "findings of {plugin} count though it failed");
    }
}
