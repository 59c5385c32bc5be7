//! The examples outside of the workspace: they build, their own tests pass, and the host validates them.

use crate::fixtures::{library, one_current, options, run};
use baybrief_plugin_host::{Host, Outcome, validate};
use std::path::{Path, PathBuf};
use std::process::Command;

crate::tests![
    the_example_in_rust_works,
    the_example_in_c_has_a_makefile_that_works
];

fn example(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../examples")
        .join(name)
}

/// True where the test of the Makefile can run: what it does is tested with the compiler alone, too
/// (`findings::the_example_in_c_works`).
pub fn there_is_make() -> bool {
    Command::new("make").arg("--version").output().is_ok()
}

/// The SDK as cargo built it for this test, newest first; several where it was built in several ways.
fn sdk_builds() -> Vec<PathBuf> {
    let folder = std::env::current_exe().expect("this executable");
    let folder = folder.parent().expect("its folder");
    let files = std::fs::read_dir(folder).expect("the folder").flatten();
    let mut builds: Vec<PathBuf> = files
        .map(|e| e.path())
        .filter(|p| p.extension().is_some_and(|e| e == "rlib"))
        .filter(|p| p.to_string_lossy().contains("libbaybrief_plugin_sdk-"))
        .collect();
    builds.sort_by_key(|p| std::cmp::Reverse(p.metadata().and_then(|m| m.modified()).ok()));
    builds
}

/// Compiles a source of the example against an SDK that was built already: cargo would build it once more.
fn rustc(sdk: &Path, source: &str, arguments: &[&str], out: &Path) -> Result<(), String> {
    let folder = example("plugin-in-rust");
    let dependencies = sdk.parent().expect("its folder").display().to_string();
    let done = Command::new(std::env::var_os("RUSTC").unwrap_or_else(|| "rustc".into()))
        .arg("--edition=2024")
        .args(arguments)
        .arg(format!("--extern=plugin_sdk={}", sdk.display()))
        .arg(format!("-Ldependency={dependencies}"))
        .arg("--out-dir")
        .arg(out)
        .arg(folder.join(source))
        .env("CARGO_PKG_VERSION", "0.1.0")
        .env("CARGO_MANIFEST_DIR", &folder)
        .output()
        .expect("this test needs the compiler that built it, `rustc`, on the PATH");
    match done.status.success() {
        true => Ok(()),
        false => Err(String::from_utf8_lossy(&done.stderr).into()),
    }
}

fn passes(library: &Path) {
    let results = validate(library, 1);
    let bad: Vec<_> = results
        .iter()
        .filter(|r| !matches!(r.outcome, Outcome::Pass | Outcome::Skipped))
        .collect();
    assert!(bad.is_empty(), "{bad:#?}");
}

fn the_example_in_rust_works() {
    let out = tempfile::tempdir().expect("a folder");
    let out = out.path();
    let plugin = [
        "--crate-name=resting_current",
        "--crate-type=cdylib",
        "--crate-type=rlib",
    ];
    let tried: Vec<_> = sdk_builds()
        .into_iter()
        .map(|sdk| (rustc(&sdk, "src/lib.rs", &plugin, out), sdk))
        .collect();
    let (_, sdk) = tried
        .iter()
        .find(|(built, _)| built.is_ok())
        .unwrap_or_else(|| panic!("the example does not compile: {tried:#?}"));
    // Another SDK may have overwritten it since.
    rustc(sdk, "src/lib.rs", &plugin, out).expect("it compiled before");
    let itself = format!(
        "--extern=resting_current={}/libresting_current.rlib",
        out.display()
    );
    rustc(
        sdk,
        "tests/cases.rs",
        &["--test", "--crate-name=cases", &itself],
        out,
    )
    .expect("its tests compile");
    let own = Command::new(out.join("cases"))
        .output()
        .expect("its tests run");
    let said = String::from_utf8_lossy(&own.stdout);
    assert!(own.status.success() && said.contains("2 passed"), "{said}");

    let suffix = std::env::consts::DLL_SUFFIX;
    let file = out.join(format!("libresting_current{suffix}"));
    passes(&file);
    let mut host = Host::discover(&options(&file));
    let findings = run(&mut host, "resting-current", &one_current()).expect("findings");
    assert_eq!(findings[0].value, Some(1.0));
    assert_eq!(
        library(&host, "resting-current").declaration.assets.len(),
        2
    );
}

fn the_example_in_c_has_a_makefile_that_works() {
    let out = tempfile::tempdir().expect("a folder");
    let library = out.path().join("liblowest.so");
    let made = Command::new("make")
        .arg("-C")
        .arg(example("plugin-in-c"))
        .arg(format!("LIBRARY={}", library.display()))
        .output();
    let made = made.expect("the system's make");
    assert!(
        made.status.success(),
        "{}",
        String::from_utf8_lossy(&made.stderr)
    );
    passes(&library);
}
