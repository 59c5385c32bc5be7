//! Inputs and results of a plugin.

use crate::fixtures::{
    capture, channel, host_for, library, one_current, options, recording_for, role, run, run_with,
    rust_fixtures,
};
use baybrief_fixture_plugins::bits;
use baybrief_plugin_host::{AnalyzeError, Host, HostOptions, LibraryInfo, Scope, Settings};
use model::{Finding, Grade, Samples, TimeAxis};
use plugin_sdk::settings::{ChannelFacts, Code, PriorFinding};
use std::sync::atomic::{AtomicU32, Ordering};
use std::sync::{Arc, Mutex};

crate::tests![
    every_sample_and_word_arrives,
    in_process_gives_the_same,
    numbers_come_back_bit_for_bit,
    workers_stay_warm_and_are_other_processes,
    a_job_gets_findings_and_no_channels,
    who_lacks_a_role_is_not_run_and_not_missed,
    a_refusal_is_no_finding_and_names_its_kinds,
    a_broken_rule_spoils_the_call,
    a_later_minor_version_works,
    the_example_in_c_works,
    progress_arrives,
    a_listener_that_panics_ends_one_run_alone,
    lengths_that_differ_are_refused,
    a_recording_without_samples_is_analysed,
];

const ECHO: &str = "fixture-echo";

fn echo(options: &HostOptions) -> Host {
    let host = Host::discover(options);
    library(&host, ECHO);
    host
}

fn word(finding: &Finding, name: &str) -> String {
    finding
        .arg_str(name)
        .unwrap_or_else(|| panic!("no {name} in {finding:?}"))
        .into()
}

fn mixed() -> model::Capture {
    let odd = vec![
        f32::from_bits(0x7fc0_1234),
        f32::NEG_INFINITY,
        -0.0,
        1.5e-40,
    ];
    let mut voltage = channel(
        "Überspannung \"B\"",
        Some(role("supply-voltage")),
        Samples::I16(vec![-32768, -1, 0, 32767].into()),
    );
    voltage.unit = None;
    voltage.scale = 0.1;
    voltage.offset = f64::NEG_INFINITY;
    let ignored = channel("nobody", None, Samples::F64(vec![0.0; 4].into()));
    let shaft = Samples::F64(vec![f64::NAN, 5e-324, f64::MAX, 0.1].into());
    let mut capture = capture(vec![
        channel("A", Some(role("supply-current")), Samples::F32(odd.into())),
        ignored,
        voltage,
        channel("C", Some(role("input-shaft-1")), shaft),
    ]);
    capture.time = TimeAxis::Listed(vec![0.0, 0.1, 0.3, 7.25].into());
    capture
}

fn settings() -> Settings {
    let teeth = |teeth| ChannelFacts {
        teeth,
        ..ChannelFacts::default()
    };
    Settings {
        channels: vec![teeth(None), teeth(None), teeth(Some(30))],
        ..Settings::default()
    }
}

fn every_sample_and_word_arrives() {
    use plugin_samples::view;
    let mut host = echo(&options(&rust_fixtures()));
    let capture = mixed();
    let findings = run_with(&mut host, ECHO, Some(&capture), &settings()).expect("findings");
    let with_role: Vec<_> = capture
        .channels
        .iter()
        .filter(|c| c.role.is_some())
        .collect();
    assert_eq!(findings.len(), with_role.len());
    for (finding, channel) in findings.iter().zip(with_role) {
        let (format, checksum) = bits(view(&channel.samples));
        assert_eq!(word(finding, "format"), format);
        assert_eq!(
            word(finding, "checksum"),
            checksum,
            "samples of {}",
            channel.name
        );
        assert_eq!(word(finding, "name"), channel.name);
        assert_eq!(finding.arg_f64("scale"), Some(channel.scale));
        assert_eq!(
            word(finding, "offset"),
            format!("{:016x}", channel.offset.to_bits())
        );
        assert_eq!(
            word(finding, "unit"),
            channel.unit.clone().unwrap_or_default()
        );
        assert_eq!(
            finding.subject.as_deref(),
            channel.role.as_ref().map(|r| r.name())
        );
        assert_eq!((finding.start_s, finding.end_s), (Some(0.0), Some(7.25)));
        assert_eq!(
            (finding.value, finding.unit.as_deref()),
            (Some(4.0), Some("count"))
        );
        assert_eq!(
            (finding.plugin.as_str(), finding.file.as_deref()),
            ("fixture-echo", Some("relearn.csv"))
        );
        assert_eq!((finding.grade, finding.id.as_str()), (Grade::Abnormal, ""));
        let quantity = word(finding, "quantity");
        let known = channel.role.as_ref().expect("a role").declaration();
        assert_eq!(quantity, format!("{:?}", known.quantity));
    }
    assert_eq!(
        findings
            .iter()
            .map(|f| f.arg_f64("teeth"))
            .collect::<Vec<_>>(),
        [Some(0.0), Some(0.0), Some(30.0)]
    );
}

/// Samples as the SDK shows them.
mod plugin_samples {
    use plugin_sdk::SampleView;

    pub fn view(samples: &model::Samples) -> SampleView<'_> {
        match samples {
            model::Samples::F32(s) => SampleView::F32(s),
            model::Samples::F64(s) => SampleView::F64(s),
            model::Samples::I16(s) => SampleView::I16(s),
        }
    }
}

/// The same but for what tells processes apart.
fn comparable(mut findings: Vec<Finding>) -> Vec<Finding> {
    for finding in &mut findings {
        finding.args.remove("process");
        finding.args.remove("variables");
    }
    findings
}

fn in_process_gives_the_same() {
    let capture = mixed();
    let mut apart = echo(&options(&rust_fixtures()));
    let direct = HostOptions {
        in_process: true,
        ..options(&rust_fixtures())
    };
    let mut within = echo(&direct);
    let run = |host: &mut Host| run_with(host, ECHO, Some(&capture), &settings());
    let apart = run(&mut apart).expect("from a worker");
    let within = run(&mut within).expect("in process");
    assert_eq!(
        within[0].arg_f64("process"),
        Some(f64::from(std::process::id()))
    );
    assert_eq!(comparable(apart), comparable(within));
}

fn numbers_come_back_bit_for_bit() {
    let mut host = echo(&options(&rust_fixtures()));
    let mut capture = one_current();
    // Neighbouring doubles near 1 and awkward decimals: a reader of decimals that rounds twice mistakes them.
    for scale in [
        0.1 + 0.2,
        1.0 + f64::EPSILON,
        5e-324,
        f64::MIN_POSITIVE.next_down(),
        f64::MAX,
        9007199254740993.0,
    ] {
        capture.channels[0].scale = scale;
        let findings = run(&mut host, ECHO, &capture).expect("findings");
        let back = findings[0].arg_f64("scale").expect("the scale");
        assert_eq!(back.to_bits(), scale.to_bits(), "{scale:e}");
        assert_eq!(findings[0].duration_s, Some(0.1));
        assert_eq!(findings[0].charge_as, Some(1.0 / 3.0));
        assert_eq!(findings[0].arg_f64("charge_as"), Some(1.0 / 3.0));
        assert_eq!(findings[0].limit.as_ref().and_then(|l| l.low), Some(-0.1));
    }
}

fn workers_stay_warm_and_are_other_processes() {
    let mut host = echo(&options(&rust_fixtures()));
    let mut processes = Vec::new();
    for _ in 0..3 {
        let findings = run(&mut host, ECHO, &one_current()).expect("findings");
        processes.push(findings[0].arg_f64("process").expect("a process"));
        assert!(
            findings[0].arg_f64("variables") <= Some(3.0),
            "the environment is not passed on"
        );
    }
    assert!(
        processes.iter().all(|&p| p == processes[0]),
        "{processes:?}"
    );
    assert_ne!(processes[0], f64::from(std::process::id()));
}

fn a_job_gets_findings_and_no_channels() {
    let mut host = Host::discover(&options(&rust_fixtures()));
    let analyzers = &library(&host, "fixture-job").declaration.analyzers;
    let job = analyzers.iter().find(|a| a.id == "fixture-job");
    assert_eq!(job.expect("the analyzer").scope, Scope::Job);
    let settings = Settings {
        findings: vec![PriorFinding::default(); 2],
        codes: vec![Code::default()],
        ..Settings::default()
    };
    let findings = run_with(&mut host, "fixture-job", None, &settings).expect("findings");
    assert_eq!(findings[0].arg_f64("findings"), Some(2.0));
    assert_eq!(findings[0].arg_f64("codes"), Some(1.0));
    assert_eq!(findings[0].file, None);
    let recording = run(&mut host, "fixture-job", &one_current());
    assert_eq!(recording, Ok(Vec::new()), "it does not look at recordings");
}

/// A role that was not recorded is no check that did not run.
fn who_lacks_a_role_is_not_run_and_not_missed() {
    let mut host = echo(&options(&rust_fixtures()));
    let mut capture = one_current();
    let mut count = |capture: &model::Capture| run(&mut host, ECHO, capture).expect("run").len();
    assert_eq!(count(&capture), 1);
    capture.channels[0].role = Some(role("actuator-current-1"));
    assert_eq!(count(&capture), 1);
    capture.channels[0].role = Some(role("input-shaft-1"));
    assert_eq!(count(&capture), 0);
    capture.channels[0].role = None;
    assert_eq!(count(&capture), 0);
}

fn a_refusal_is_no_finding_and_names_its_kinds() {
    let mut host = Host::discover(&options(&rust_fixtures()));
    let id = "fixture-refuses";
    let own = |l: &LibraryInfo| (l.declaration.system == "fixture").then(Settings::default);
    let analysis = host.analyze_capture(&recording_for(id), &own);
    assert_eq!(analysis.findings, []);
    let refused = analysis.not_run.iter().find(|n| n.analyzer == id);
    let refused = refused.expect("not run");
    assert_eq!(
        (refused.library.as_str(), refused.transient),
        ("fixture", false)
    );
    assert_eq!(refused.capture.as_deref(), Some("relearn.csv"));
    assert_eq!(refused.kinds, ["echo"]);
    assert_eq!(
        refused.reason,
        AnalyzeError::Refused {
            analyzer: id.into(),
            reason: "the recording is too short: 1 s, expected at least 5 s".into(),
        }
    );
}

fn a_broken_rule_spoils_the_call() {
    let mut host = Host::discover(&options(&rust_fixtures()));
    let id = "fixture-sends-nan";
    let error = run(&mut host, id, &recording_for(id)).expect_err("spoilt");
    assert_eq!(
        error.to_string(),
        "fixture-sends-nan broke a rule of the plugin interface, so none of its findings count: \
         echo: value is NaN, no finite number"
    );
    for (fixture, said) in [
        ("wrong_thread", "a thread that analyze was not called on"),
        ("bad_findings", "value is NaN"),
        (
            "undeclared_series",
            "the series secret-rate is not declared",
        ),
    ] {
        let (mut host, id) = host_for(fixture, |_| {});
        let error = run(&mut host, &id, &one_current()).expect_err("spoilt");
        assert!(error.to_string().contains(said), "{error}");
    }
}

fn a_later_minor_version_works() {
    let mut host = Host::discover(&options(&crate::fixtures::c_fixture("larger_struct")));
    let findings = run(&mut host, "fixture-larger", &one_current()).expect("findings");
    assert_eq!(
        (findings[0].kind.as_str(), findings[0].value),
        ("later", Some(1.0))
    );
    assert_eq!(findings[0].arg_str("word"), Some("yes"));
}

fn the_example_in_c_works() {
    let library = crate::fixtures::compiled("examples/plugin-in-c/lowest_supply.c");
    let results = baybrief_plugin_host::validate(&library, 1);
    assert!(
        results
            .iter()
            .all(|r| r.outcome == baybrief_plugin_host::Outcome::Pass),
        "{results:#?}"
    );
    let mut host = Host::discover(&options(&library));
    let mut lowest = |samples: Samples, scale: f64| {
        let mut channel = channel("B", Some(role("supply-voltage")), samples);
        channel.scale = scale;
        run(&mut host, "lowest-supply", &capture(vec![channel]))
    };
    // 0.01 V a count; the lowest, 8.5 V, is the third sample, at -0.5 s + 2 * 1 ms.
    let counts = Samples::I16(vec![1260, 1200, 850, 900].into());
    let findings = lowest(counts, 0.01).expect("findings");
    let f = &findings[0];
    assert!(f.value.is_some_and(|v| (v - 8.5).abs() < 1e-12), "{f:?}");
    assert!(
        f.start_s.is_some_and(|t| (t + 0.498).abs() < 1e-12),
        "{f:?}"
    );
    assert_eq!((f.grade, f.unit.as_deref()), (Grade::Abnormal, Some("V")));
    assert_eq!(f.limit.as_ref().and_then(|l| l.low), Some(9.0));
    let missing = Samples::F32(vec![f32::NAN, f32::INFINITY].into());
    let error = lowest(missing, 1.0).expect_err("refused");
    assert!(matches!(error, AnalyzeError::Refused { .. }), "{error:?}");
}

fn progress_arrives() {
    let mut host = echo(&options(&rust_fixtures()));
    let heard = Arc::new(AtomicU32::new(0));
    let last = Arc::new(Mutex::new(String::new()));
    let (count, id) = (Arc::clone(&heard), Arc::clone(&last));
    host.on_progress(move |analyzer, fraction| {
        assert!((0.0..=1.0).contains(&fraction));
        count.fetch_add(1, Ordering::Relaxed);
        id.lock().expect("the id").replace_range(.., analyzer);
    });
    run(&mut host, ECHO, &one_current()).expect("findings");
    // Its begin, and what it said.
    assert_eq!(heard.load(Ordering::Relaxed), 2);
    assert_eq!(*last.lock().expect("the id"), "fixture-echo");
}

fn a_listener_that_panics_ends_one_run_alone() {
    let mut host = echo(&options(&rust_fixtures()));
    host.on_progress(|_, _| panic!("on purpose, by a test"));
    let error = run(&mut host, ECHO, &one_current()).expect_err("did not come to an end");
    assert!(matches!(error, AnalyzeError::Host { .. }), "{error:?}");
    host.on_progress(|_, _| {});
    run(&mut host, ECHO, &one_current()).expect("findings");
}

fn lengths_that_differ_are_refused() {
    let mut host = echo(&options(&rust_fixtures()));
    let mut capture = one_current();
    capture.time = TimeAxis::Listed(vec![0.0].into());
    let error = run(&mut host, ECHO, &capture).expect_err("refused");
    assert!(
        error.to_string().contains("1000 samples for 1 instants"),
        "{error}"
    );
}

fn a_recording_without_samples_is_analysed() {
    let mut host = echo(&options(&rust_fixtures()));
    for samples in [
        Samples::F32(Vec::new().into()),
        Samples::F64(Vec::new().into()),
        Samples::I16(Vec::new().into()),
    ] {
        let empty = capture(vec![channel("A", Some(role("supply-current")), samples)]);
        let findings = run(&mut host, ECHO, &empty).expect("findings");
        assert_eq!((findings[0].value, findings[0].start_s), (Some(0.0), None));
    }
}
