//! A plugin that could not catch its own panics does not compile.

use std::path::{Path, PathBuf};
use std::process::Command;

const PLUGIN: &str = r#"
use plugin_sdk::{Analyzer, Declaration, Input, Output};
pub struct Nothing;
impl Analyzer for Nothing {
    const DECLARATION: Declaration = Declaration { id: ID, name: "Nothing", ..Declaration::EMPTY };
    fn analyze(_: &Input<'_>, _: &mut Output) -> Result<(), String> { Ok(()) }
}
plugin_sdk::export! {
    system: "nothing",
    name: "Nothing",
    vendor: "tests",
    assets: [],
    analyzers: [Nothing],
}
"#;

/// The SDK as cargo built it for this test; several where it was built in several ways.
fn sdk_builds() -> Vec<PathBuf> {
    let folder = std::env::current_exe().expect("this executable");
    let folder = folder.parent().expect("its folder");
    let files = std::fs::read_dir(folder)
        .expect("the folder")
        .flatten()
        .map(|e| e.path());
    let mut builds: Vec<PathBuf> = files
        .filter(|p| p.extension().is_some_and(|e| e == "rlib"))
        .filter(|p| p.to_string_lossy().contains("libbaybrief_plugin_sdk-"))
        .collect();
    let changed = |p: &PathBuf| p.metadata().and_then(|m| m.modified()).ok();
    builds.sort_by_key(|p| std::cmp::Reverse(changed(p)));
    builds
}

/// Compiles [`PLUGIN`]; what the compiler says when it refuses.
fn compile(sdk: &Path, id: &str, panic: &str) -> Result<(), String> {
    let folder = tempfile::tempdir().expect("a folder");
    let source = folder.path().join("plugin.rs");
    std::fs::write(&source, PLUGIN.replace("ID", &format!("{id:?}"))).expect("the source");
    let rustc = std::env::var_os("RUSTC").unwrap_or_else(|| "rustc".into());
    let done = Command::new(rustc)
        .args([
            "--edition=2024",
            "--crate-type=rlib",
            "--crate-name=plugin",
            "-C",
            panic,
            "--extern",
        ])
        .arg(format!("plugin_sdk={}", sdk.display()))
        .arg("-L")
        .arg(format!(
            "dependency={}",
            sdk.parent().expect("its folder").display()
        ))
        .env("CARGO_PKG_VERSION", "0.1.0")
        .arg("--out-dir")
        .arg(folder.path())
        .arg(&source)
        .output()
        .expect("this test needs the compiler that built it, `rustc`, on the PATH");
    if done.status.success() {
        Ok(())
    } else {
        Err(String::from_utf8_lossy(&done.stderr).into())
    }
}

#[test]
fn panic_abort_and_bad_declarations_do_not_compile() {
    let builds = sdk_builds();
    let tried: Vec<_> = builds
        .iter()
        .map(|b| (b, compile(b, "nothing", "panic=unwind")))
        .collect();
    let usable = tried.iter().find(|(_, compiled)| compiled.is_ok());
    let (sdk, _) = usable.unwrap_or_else(|| panic!("a plain plugin does not compile: {tried:#?}"));
    let abort = compile(sdk, "nothing", "panic=abort").expect_err("panic=abort must be refused");
    assert!(
        abort.contains("must be built with panic = \"unwind\""),
        "{abort}"
    );
    let id = compile(sdk, "No Machine Name", "panic=unwind").expect_err("a bad id must be refused");
    assert!(id.contains("Declaration.id must be"), "{id}");
}
