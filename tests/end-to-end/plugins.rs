//! Plugins: ours, none, and some that fail.

use crate::bench::{Bench, EXECUTABLE, Results, call, command, said};
use crate::jobs::{drag, evaluation_case, with_job_file};
use baybrief_evaluation::standstill::healthy;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The systems of this repository: folders with a sheet of their own.
fn systems() -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../plugins");
    let entries = std::fs::read_dir(folder).expect("the plugins' folder");
    let systems = entries
        .flatten()
        .filter(|e| e.path().join("system.toml").is_file());
    systems
        .map(|e| e.file_name().to_string_lossy().into_owned())
        .collect()
}

#[test]
fn ours_are_listed_and_each_passes_every_check() {
    let said = call(["plugins"]).ends_with(0);
    let libraries: Vec<&str> = said
        .out
        .lines()
        .filter_map(|l| l.trim().strip_prefix("library "))
        .collect();
    let systems = systems();
    assert_eq!(libraries.len(), systems.len(), "{}", said.out);
    for system in systems {
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
        // How soon it comes back is the machine's affair too: no more than a warning.
        let fine = |l: &&str| l.starts_with("pass") || l.starts_with("warn     cancels-in-time");
        let passed = checked.out.lines().filter(fine).count();
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

/// Compiles a C fixture into a folder and gives the library's path.
pub fn compile(name: &str, folder: &Path) -> PathBuf {
    let library = folder.join(format!("lib{name}{}", std::env::consts::DLL_SUFFIX));
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
        .arg(&library)
        .output();
    let done = done.expect("this test needs the system's C compiler `cc` on the PATH");
    assert!(
        done.status.success(),
        "{}",
        String::from_utf8_lossy(&done.stderr)
    );
    library
}

/// A library from elsewhere may say what it likes: what it claims of itself establishes nothing and opens no unit.
#[test]
fn a_foreign_library_cannot_outweigh_what_was_found() {
    let bench = Bench::new();
    let (files, _) = evaluation_case(healthy, 5);
    let job = bench.job("R-32", &files);
    let (_, alone) = bench.run(&job);
    assert_eq!(alone.at("/verdict/state"), "nothing-found");
    let folder = bench.path("claims");
    std::fs::create_dir(&folder).expect("a folder for plugins");
    compile("overweights", &folder);
    let output = command(bench.run_arguments(&job, "claimed"))
        .env("BAYBRIEF_PLUGINS", &folder)
        .output();
    let done = said(output.expect("the executable starts"));
    let claimed = Results::read(&bench.path("claimed"), &job);
    let seen = claimed.list("/findings").iter();
    assert!(
        seen.clone().any(|f| f["kind"] == "overweight"),
        "its finding is kept: {}",
        done.all()
    );
    let systems = claimed.list("/systems").iter();
    let mut causes = systems.flat_map(|s| s["causes"].as_array().expect("causes"));
    let cause = causes.find(|c| c["cause"] == "everything-broken");
    let cause = cause.unwrap_or_else(|| panic!("its sheet was not read: {}", done.all()));
    let weights = cause["weights"].as_array().expect("its rows").iter();
    let weights = weights.map(|e| e["weight_dban"].as_f64().expect("a weight"));
    assert_eq!(weights.fold(0.0, f64::max), 25.0, "{cause:#}");
    let verdict = claimed.at("/verdict");
    assert_eq!(verdict["teardown"], false, "{verdict:#}");
    assert_ne!(verdict["state"], "established", "{verdict:#}");
}

/// With a built-in library in quarantine nothing is decided, on a job that it decides otherwise: what was not looked at
/// speaks neither for nor against anything.
#[test]
fn a_library_that_does_not_run_leaves_the_verdict_open() {
    let bench = Bench::new();
    let job = bench.job("R-33", &with_job_file(&drag(0, 1)));
    let listed = call(["plugins"]).ends_with(0).out;
    for system in ["recording", "dual-dry-clutch"] {
        let own = listed
            .split("\n")
            .skip_while(|l| !l.starts_with(&format!("{system} ")));
        let hash = own
            .into_iter()
            .find_map(|l| l.trim().strip_prefix("SHA-256"));
        let hash = hash.expect("the library's hash").trim();
        let state = bench.path(&format!("state-{system}"));
        std::fs::create_dir_all(state.join("baybrief")).expect("a folder for state");
        let three = serde_json::json!({"a": 1, "b": 1, "c": 1});
        let record = serde_json::json!({"libraries": {hash: {"crashes": three, "in_a_row": ["a", "b", "c"]}}});
        std::fs::write(
            state.join("baybrief/plugin-crashes.json"),
            record.to_string(),
        )
        .expect("the record");
        let output = command(bench.run_arguments(&job, system))
            .env("XDG_STATE_HOME", &state)
            .output();
        let done = said(output.expect("the executable starts"));
        let results = Results::read(&bench.path(system), &job);
        assert_eq!(results.verdict(), "open", "{system}: {}", done.all());
        done.ends_with(1).says(&["is quarantined", "did not run"]);
    }
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
    let page_one = results.words();
    assert!(page_one.contains("checks did not run"), "{page_one}");
    // A long path is broken over lines.
    let words = results.technician_words().replace([' ', '\u{ad}', '-'], "");
    let (plugin, why) = ("crash_on_load", "crashed while it was loaded");
    {
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
