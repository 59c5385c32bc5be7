//! Cost of a call to a plugin beyond the plugin's own work: the aim is less than 10 ms a job.

use baybrief_plugin_host::{Host, HostOptions, LibraryInfo, Settings};
use model::system::{Quantity, RoleDeclaration};
use model::{Capture, Channel, Role, RoleSource, Samples, TimeAxis};
use std::process::ExitCode;
use std::time::Duration;

fn main() -> ExitCode {
    if let Some(code) = baybrief_plugin_host::worker_entry() {
        return code;
    }
    divan::main();
    ExitCode::SUCCESS
}

/// A recording of one current, with this many samples.
fn capture(len: usize) -> Capture {
    Capture {
        file: "relearn.csv".into(),
        started: None,
        time_source: model::TimeSource::File,
        time: TimeAxis::Even {
            start_s: 0.0,
            step_s: 1e-4,
            len,
        },
        channels: vec![Channel {
            name: "A".into(),
            unit: Some("A".into()),
            role: Some(Role::declared(RoleDeclaration {
                name: "fixture-refuses".into(),
                quantity: Quantity::Current,
                unit: "A".into(),
                plot_order: 0,
                names: Default::default(),
                hints: Default::default(),
            })),
            role_source: RoleSource::JobFile,
            scale: 1.0,
            offset: 0.0,
            calibration: model::Calibration::Stated,
            column: None,
            samples: Samples::F32(vec![1.0; len].into()),
        }],
        problems: Vec::new(),
        read_as: String::new(),
    }
}

fn options() -> HostOptions {
    let name = format!(
        "{}baybrief_fixture_plugins{}",
        std::env::consts::DLL_PREFIX,
        std::env::consts::DLL_SUFFIX
    );
    let library = std::env::current_exe()
        .expect("this executable")
        .with_file_name(name);
    HostOptions {
        folders: vec![library],
        deadline: Duration::from_secs(60),
        ..HostOptions::default()
    }
}

/// One warm call of an analyzer that looks at no sample, with the samples handed over.
#[divan::bench(args = [1_000, 1_000_000, 25_000_000])]
fn warm_call(bencher: divan::Bencher<'_, '_>, samples: usize) {
    let mut host = Host::discover(&options());
    let recording = capture(samples);
    let fixture = |l: &LibraryInfo| (l.declaration.system == "fixture").then(Settings::default);
    bencher.bench_local(|| host.analyze_capture(&recording, &fixture));
}

/// Finding and loading the libraries in new workers.
#[divan::bench]
fn discover() -> usize {
    Host::discover(&options()).libraries().len()
}
