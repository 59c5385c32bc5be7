//! The fixture libraries: the Rust one lies beside this executable, the C ones are compiled when first asked for.

use baybrief_plugin_host::{AnalyzeError, Host, HostOptions, LibraryInfo, Settings};
use model::system::{Quantity, RoleDeclaration};
use model::{Capture, Channel, Finding, Role, RoleSource, Samples, TimeAxis};
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::{Mutex, PoisonError};
use std::time::Duration;

/// The library of Rust fixtures.
pub fn rust_fixtures() -> PathBuf {
    let name = format!(
        "{}baybrief_fixture_plugins{}",
        std::env::consts::DLL_PREFIX,
        std::env::consts::DLL_SUFFIX
    );
    let beside = std::env::current_exe()
        .expect("this executable")
        .with_file_name(name);
    assert!(beside.is_file(), "{} was not built", beside.display());
    beside
}

/// SHA-256 of a file, hexadecimal.
pub fn sha256(file: &Path) -> String {
    let digest = Sha256::digest(std::fs::read(file).expect("a file that can be read"));
    digest.iter().map(|b| format!("{b:02x}")).collect()
}

/// A C fixture, compiled.
pub fn c_fixture(name: &str) -> PathBuf {
    compiled(&format!("tests/fixture-plugins/c/{name}.c"))
}

/// A library from a C source, given by its path in the repository; compiled once a run.
pub fn compiled(source: &str) -> PathBuf {
    static COMPILED: Mutex<BTreeMap<String, PathBuf>> = Mutex::new(BTreeMap::new());
    let mut compiled = COMPILED.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(path) = compiled.get(source) {
        return path.clone();
    }
    let repository = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let file = repository.join(source);
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("c-fixtures");
    std::fs::create_dir_all(&folder).expect("a folder for the fixtures");
    let name = file.file_stem().expect("a file name").to_string_lossy();
    let library = folder.join(format!("lib{name}{}", std::env::consts::DLL_SUFFIX));
    let done = Command::new("cc")
        .args(["-std=c11", "-Wall", "-Wextra", "-Wpedantic", "-Werror", "-D_DEFAULT_SOURCE"])
        .args(["-fPIC", "-shared", "-fvisibility=hidden", "-pthread", "-I"])
        .arg(repository.join("pipeline/plugin-abi/include"))
        .arg(&file)
        .arg("-o")
        .arg(&library)
        .output()
        .unwrap_or_else(|e| {
            panic!("this test needs the system's C compiler `cc` on the PATH, and it did not start: {e}")
        });
    let said = String::from_utf8_lossy(&done.stderr);
    assert!(done.status.success(), "cc refuses {source}:\n{said}");
    compiled.insert(source.into(), library.clone());
    library
}

/// Options for one library, with a short deadline.
pub fn options(library: &Path) -> HostOptions {
    HostOptions {
        folders: vec![library.into()],
        deadline: Duration::from_secs(20),
        memory_limit_bytes: 1 << 30,
        ..HostOptions::default()
    }
}

/// A host for one C fixture, and the id of its analyzer.
pub fn host_for(name: &str, change: impl FnOnce(&mut HostOptions)) -> (Host, String) {
    let mut options = options(&c_fixture(name));
    change(&mut options);
    let host = Host::discover(&options);
    let id = format!("fixture-{}", name.replace('_', "-"));
    library(&host, &id);
    (host, id)
}

/// The library that has an analyzer.
pub fn library<'a>(host: &'a Host, id: &str) -> &'a LibraryInfo {
    let has = |l: &&LibraryInfo| l.declaration.analyzers.iter().any(|a| a.id == id);
    let found = host.libraries().iter().find(has);
    found.unwrap_or_else(|| panic!("no analyzer {id}; refused: {:#?}", host.refused()))
}

pub type Ran = Result<Vec<Finding>, AnalyzeError>;

/// Runs the library that has an analyzer on a recording, and gives what became of that one.
pub fn run(host: &mut Host, id: &str, capture: &Capture) -> Ran {
    run_with(host, id, Some(capture), &Settings::default())
}

/// The same with settings, or on a job.
pub fn run_with(host: &mut Host, id: &str, capture: Option<&Capture>, settings: &Settings) -> Ran {
    let system = library(host, id).declaration.system.clone();
    let own = |l: &LibraryInfo| (l.declaration.system == system).then(|| settings.clone());
    let analysis = match capture {
        Some(capture) => host.analyze_capture(capture, &own),
        None => host.analyze_job(&own),
    };
    let not_run = analysis.not_run.into_iter().find(|n| n.analyzer == id);
    match not_run {
        Some(not_run) => Err(not_run.reason),
        None => Ok(analysis
            .findings
            .into_iter()
            .filter(|f| f.plugin == id)
            .collect()),
    }
}

/// A role by its name.
pub fn role(name: &str) -> Role {
    let (quantity, unit) = match name {
        n if n.contains("current") => (Quantity::Current, "A"),
        n if n.contains("voltage") => (Quantity::Voltage, "V"),
        _ => (Quantity::ToothSignal, "V"),
    };
    Role::declared(RoleDeclaration {
        name: name.into(),
        quantity,
        unit: unit.into(),
        plot_order: 0,
        names: Default::default(),
        hints: Default::default(),
    })
}

/// A recording that the fixture of that id runs on.
pub fn recording_for(id: &str) -> Capture {
    let samples = Samples::F32(vec![1.0; 1000].into());
    capture(vec![channel("A", Some(role(id)), samples)])
}

/// A channel as a reader and job.toml leave it.
pub fn channel(name: &str, role: Option<Role>, samples: Samples) -> Channel {
    Channel {
        role,
        role_source: RoleSource::JobFile,
        calibration: model::Calibration::Stated,
        ..Channel::recorded(name, Some("A".into()), samples)
    }
}

/// A recording of these channels, evenly sampled.
pub fn capture(channels: Vec<Channel>) -> Capture {
    let len = channels.first().map_or(0, |c| c.samples.len());
    Capture {
        file: "relearn.csv".into(),
        started: None,
        time_source: model::TimeSource::File,
        time: TimeAxis::Even {
            start_s: -0.5,
            step_s: 0.001,
            len,
        },
        channels,
        problems: Vec::new(),
        read_as: String::new(),
    }
}

/// A recording of one current.
pub fn one_current() -> Capture {
    let samples = Samples::F32(vec![1.0; 1000].into());
    capture(vec![channel("A", Some(role("supply-current")), samples)])
}
