//! Series: derived once, handed on to later analyzers, bit for bit.

use crate::fixtures::{library, options, recording_for, run_with, rust_fixtures};
use baybrief_fixture_plugins::GIVEN;
use baybrief_plugin_host::{AnalyzeError, Host, Settings};
use model::Finding;

crate::tests![
    a_series_arrives_bit_for_bit_and_only_where_it_is_an_input,
    series_stay_with_their_recording,
    who_reads_what_was_not_derived_is_not_run,
    a_series_that_is_not_declared_spoils_the_call,
    derived_series_come_back_with_the_findings,
    assets_and_outputs_are_read_with_the_declaration,
];

const GIVES: &str = "fixture-gives";
const TAKES: &str = "fixture-takes";

fn phase(phase: &str) -> Settings {
    Settings {
        phase: Some(phase.into()),
        ..Settings::default()
    }
}

fn kinds(findings: &[Finding]) -> Vec<(&str, &str)> {
    findings
        .iter()
        .map(|f| (f.kind.as_str(), f.subject.as_deref().unwrap_or_default()))
        .collect()
}

const NOTHING: [(&str, &str); 4] = [
    ("no-series", "fixture-speed"),
    ("no-series", "nobody-derives-this"),
    ("no-series", "fixture-phase"),
    ("no-series", "fixture-speed"),
];

fn a_series_arrives_bit_for_bit_and_only_where_it_is_an_input() {
    for in_process in [false, true] {
        let mut options = options(&rust_fixtures());
        options.in_process = in_process;
        let mut host = Host::discover(&options);
        let found = run_with(
            &mut host,
            TAKES,
            Some(&recording_for(GIVES)),
            &phase("before"),
        );
        let found = found.expect("findings");
        let mut expected = NOTHING;
        expected[0].0 = "series";
        assert_eq!(kinds(&found), expected, "in process: {in_process}");
        let bits = GIVEN.iter().map(|v| format!("{:016x}", v.to_bits()));
        let bits = bits.collect::<Vec<_>>().join(" ");
        assert_eq!(found[0].arg_str("bits"), Some(bits.as_str()));
        assert_eq!(
            (found[0].start_s, found[0].end_s),
            (Some(-0.5), Some(-0.48))
        );
        assert_eq!(found[0].arg_str("unit"), Some("rpm"));
    }
}

fn series_stay_with_their_recording() {
    let mut host = Host::discover(&options(&rust_fixtures()));
    let gives = recording_for(GIVES);
    run_with(&mut host, GIVES, Some(&gives), &phase("before")).expect("derived");
    // The same worker, another recording, on which nothing is derived.
    let found = run_with(
        &mut host,
        TAKES,
        Some(&recording_for(TAKES)),
        &phase("before"),
    );
    assert_eq!(kinds(&found.expect("findings")), NOTHING);
}

fn who_reads_what_was_not_derived_is_not_run() {
    let mut host = Host::discover(&options(&rust_fixtures()));
    let recording = recording_for(GIVES);
    let error = run_with(&mut host, TAKES, Some(&recording), &phase("fails"));
    assert_eq!(
        error,
        Err(AnalyzeError::InputMissing {
            analyzer: TAKES.into(),
            series: "fixture-speed".into(),
            from: GIVES.into(),
        })
    );
}

fn a_series_that_is_not_declared_spoils_the_call() {
    let mut host = Host::discover(&options(&rust_fixtures()));
    let recording = recording_for(GIVES);
    let error = run_with(&mut host, GIVES, Some(&recording), &phase("undeclared"));
    let error = error.expect_err("spoilt").to_string();
    assert!(
        error.contains("series fixture-undeclared is not declared"),
        "{error}"
    );
}

fn derived_series_come_back_with_the_findings() {
    let mut host = Host::discover(&options(&rust_fixtures()));
    let own = |_: &_| Some(phase("after"));
    let series = host.analyze_capture(&recording_for(GIVES), &own).series;
    let named = |name: &str| series.iter().find(|s| s.name == name).expect("derived");
    let speed = named("fixture-speed");
    assert_eq!((speed.channel, speed.rows()), (Some(0), GIVEN.len()));
    let table = named("fixture-phase");
    assert_eq!(table.words("phase"), Some(&["after".to_string()][..]));
    assert_eq!(table.counts("number"), Some(&[i64::MIN][..]));
}

fn assets_and_outputs_are_read_with_the_declaration() {
    let host = Host::discover(&options(&rust_fixtures()));
    let declared = &library(&host, GIVES).declaration;
    assert_eq!(declared.asset("causes.toml"), Some("# a cause"));
    assert_eq!(declared.asset("lang/en.ftl"), Some("fixture = Übung"));
    let of = |id: &str| declared.analyzers.iter().find(|a| a.id == id).expect("it");
    let series = &of(GIVES).outputs.series;
    let names: Vec<_> = series.iter().map(|s| s.name.as_str()).collect();
    assert_eq!(names, ["fixture-speed", "fixture-phase"]);
    assert_eq!(series[0].columns[0].unit, "rpm");
    assert_eq!(of(TAKES).inputs, ["fixture-speed", "nobody-derives-this"]);
}
