//! Built-in libraries, which lie beside this executable, and those from elsewhere.

use crate::fixtures::{
    c_fixture, capture, channel, library, one_current, options, role, rust_fixtures,
};
use baybrief_plugin_host::{Host, HostOptions, Settings};
use model::Samples;
use std::collections::BTreeSet;

crate::tests![
    what_came_with_the_executable_is_built_in,
    a_foreign_library_may_not_use_built_in_names,
    one_worker_a_library_and_every_series_once,
];

fn systems(host: &Host) -> Vec<&str> {
    let libraries = host.libraries().iter();
    libraries.map(|l| l.declaration.system.as_str()).collect()
}

fn what_came_with_the_executable_is_built_in() {
    let host = Host::discover(&options(&rust_fixtures()));
    let systems = systems(&host);
    assert_eq!(systems[..1], ["recording"], "what others read runs first");
    for known in [
        "dual-dry-clutch",
        "speed-sensor",
        "start-and-charge",
        "fixture",
    ] {
        assert!(
            systems.contains(&known),
            "{systems:?}; {:?}",
            host.refused()
        );
    }
    for l in host.libraries() {
        assert_eq!(
            l.foreign,
            l.declaration.system == "fixture",
            "{}",
            l.declaration.system
        );
    }
}

fn a_foreign_library_may_not_use_built_in_names() {
    let file = c_fixture("takes_a_name");
    let host = Host::discover(&options(&file));
    let refused = host.refused().iter().find(|r| r.path == file);
    let refused = refused.expect("refused");
    assert_eq!(
        refused.reason,
        "its kind signal-quality has the name of a built-in one; a plugin from elsewhere adds and replaces nothing"
    );
    // The library of a system that is built in, from elsewhere.
    let own = Host::discover(&HostOptions::default());
    let recording = &library(&own, "signal-quality").path;
    let folder = tempfile::tempdir().expect("a folder");
    let copy = folder
        .path()
        .join(format!("libcopy{}", std::env::consts::DLL_SUFFIX));
    let mut bytes = std::fs::read(recording).expect("the library");
    bytes.push(0);
    std::fs::write(&copy, bytes).expect("another build");
    let host = Host::discover(&options(&copy));
    let copy = copy.canonicalize().expect("its true path");
    let refused = host
        .refused()
        .iter()
        .find(|r| r.path == copy)
        .expect("refused");
    assert!(
        refused
            .reason
            .starts_with("its system recording has the name"),
        "{refused:?}"
    );
    assert!(library(&host, "signal-quality").path != copy);
}

/// Everything that a series could be derived from, once: however many libraries and analyzers read it.
fn one_worker_a_library_and_every_series_once() {
    let mut host = Host::discover(&HostOptions::default());
    let tooth = |hz: f64| -> Samples {
        let at = |i: usize| (i as f64 / 5_000.0 * hz + 0.002 * (i as f64 / 900.0).sin()).fract();
        Samples::F32(
            (0..30_000)
                .map(|i| if at(i) < 0.5 { 4.8 } else { 0.3 })
                .collect::<Vec<f32>>()
                .into(),
        )
    };
    let level = |v: f32| -> Samples {
        let noise = |i: usize| (i * 7919 % 13) as f32 * 0.003;
        Samples::F32(
            (0..30_000)
                .map(|i| v + noise(i))
                .collect::<Vec<f32>>()
                .into(),
        )
    };
    let mut recording = capture(vec![
        channel("A", Some(role("supply-current")), level(1.0)),
        channel("B", Some(role("supply-voltage")), level(13.9)),
        channel("C", Some(role("input-shaft-1")), tooth(210.0)),
        channel("D", Some(role("input-shaft-2")), tooth(330.0)),
        channel("E", Some(role("output-shaft")), tooth(120.0)),
        channel("F", Some(role("engine-speed")), tooth(400.0)),
    ]);
    if let model::TimeAxis::Even { step_s, .. } = &mut recording.time {
        *step_s = 2e-4;
    }
    let analysis = host.analyze_capture(&recording, &|_| Some(Settings::default()));
    assert_eq!(analysis.not_run, []);
    let keys: Vec<_> = analysis
        .series
        .iter()
        .map(|s| (&s.name, s.channel))
        .collect();
    let once: BTreeSet<_> = keys.iter().collect();
    assert_eq!(keys.len(), once.len(), "{keys:?}");
    let count = |name: &str| keys.iter().filter(|(n, _)| *n == name).count();
    assert_eq!(
        [
            "current-pulses",
            "tooth-segments",
            "tooth-rates",
            "state-levels",
            "engine-state"
        ]
        .map(count),
        [1, 4, 4, 1, 1]
    );
    let readers = host
        .libraries()
        .iter()
        .flat_map(|l| &l.declaration.analyzers);
    let readers = readers.filter(|a| a.inputs.iter().any(|i| i == "tooth-segments"));
    assert!(readers.count() >= 5, "there is something to share");
    assert_eq!(host.workers(), host.libraries().len());
    assert!(analysis.findings.iter().any(|f| f.plugin == "shaft-motion"));
    // Of one recording nothing stays for the next.
    let next = host.analyze_capture(&one_current(), &|_| Some(Settings::default()));
    assert!(next.series.iter().all(|s| s.name != "tooth-segments"));
}
