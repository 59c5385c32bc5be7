//! Tracks: derived once, handed on to later plugins, bit for bit.

use crate::fixtures::{
    c_fixture, capture, channel, host_for, number, one_current, options, rust_fixtures,
};
use baybrief_fixture_plugins::GIVEN;
use baybrief_plugin_host::{AnalyzeError, Host};
use model::{Finding, Role, Samples};

crate::tests![
    a_track_arrives_bit_for_bit_and_only_where_it_is_taken,
    tracks_stay_with_their_recording_and_settings,
    a_giver_that_fails_gives_nothing,
    a_track_that_is_not_listed_spoils_the_call,
    texts_are_read_with_the_descriptor,
    a_plugin_built_against_the_first_version_works,
];

const SETTINGS: &str = r#"{"phase":"before"}"#;

struct Pair {
    host: Host,
    gives: usize,
    takes: usize,
}

fn pair(change: impl FnOnce(&mut baybrief_plugin_host::HostOptions)) -> Pair {
    let mut options = options(&rust_fixtures());
    change(&mut options);
    let host = Host::discover(&options);
    let (gives, takes) = (
        number(&host, "fixture-z-gives-tracks"),
        number(&host, "fixture-takes-tracks"),
    );
    Pair { host, gives, takes }
}

fn kinds(findings: &[Finding]) -> Vec<(&str, &str)> {
    findings
        .iter()
        .map(|f| (f.kind.as_str(), f.subject.as_deref().unwrap_or_default()))
        .collect()
}

const NOTHING: [(&str, &str); 3] = [
    ("no-track", "fixture-rpm"),
    ("no-track", "nobody-gives-this"),
    ("no-track", "fixture-phase"),
];

fn a_track_arrives_bit_for_bit_and_only_where_it_is_taken() {
    for in_process in [false, true] {
        let mut p = pair(|o| o.in_process = in_process);
        let recording = one_current();
        let taken = |p: &mut Pair| {
            p.host
                .analyze(p.takes, Some(&recording), SETTINGS)
                .expect("findings")
        };
        assert_eq!(kinds(&taken(&mut p)), NOTHING, "nobody gave anything yet");
        p.host
            .analyze(p.gives, Some(&recording), SETTINGS)
            .expect("given");
        let found = taken(&mut p);
        let mut expected = NOTHING;
        expected[0].0 = "track";
        assert_eq!(kinds(&found), expected, "in process: {in_process}");
        let bits: Vec<String> = GIVEN
            .iter()
            .map(|v| format!("{:016x}", v.to_bits()))
            .collect();
        assert_eq!(found[0].arg_str("bits"), Some(bits.join(" ").as_str()));
        assert_eq!(
            (found[0].start_s, found[0].end_s),
            (Some(-0.5), Some(-0.48))
        );
        assert_eq!(found[0].arg_str("unit"), Some("rpm"));
    }
}

fn tracks_stay_with_their_recording_and_settings() {
    let mut p = pair(|_| {});
    let recording = one_current();
    let give = |p: &mut Pair| {
        p.host
            .analyze(p.gives, Some(&recording), SETTINGS)
            .expect("given");
    };
    give(&mut p);
    let other = capture(vec![channel(
        "A",
        Some(Role::SupplyCurrent),
        Samples::F32(vec![1.0; 1000].into()),
    )]);
    let found = p
        .host
        .analyze(p.takes, Some(&other), SETTINGS)
        .expect("findings");
    assert_eq!(kinds(&found), NOTHING, "another recording");
    give(&mut p);
    let found = p
        .host
        .analyze(p.takes, Some(&recording), r#"{"phase":"after"}"#)
        .expect("findings");
    assert_eq!(
        kinds(&found),
        NOTHING,
        "the same recording with other settings"
    );
}

fn a_giver_that_fails_gives_nothing() {
    let mut p = pair(|_| {});
    let (recording, settings) = (one_current(), r#"{"phase":"fails"}"#);
    let error = p
        .host
        .analyze(p.gives, Some(&recording), settings)
        .expect_err("told to");
    assert!(matches!(error, AnalyzeError::Refused { .. }), "{error:?}");
    let found = p
        .host
        .analyze(p.takes, Some(&recording), settings)
        .expect("findings");
    assert_eq!(kinds(&found), NOTHING);
}

fn a_track_that_is_not_listed_spoils_the_call() {
    let mut p = pair(|_| {});
    let error = p
        .host
        .analyze(p.gives, Some(&one_current()), r#"{"phase":"unlisted"}"#)
        .expect_err("spoilt");
    let said = "hands on the track fixture-unlisted, which its descriptor does not list in gives";
    assert!(error.to_string().contains(said), "{error}");
    let (mut host, plugin) = host_for("unlisted_track", |_| {});
    let error = host
        .analyze(plugin, Some(&one_current()), "{}")
        .expect_err("spoilt");
    assert!(error.to_string().contains("secret-rpm"), "{error}");
}

fn texts_are_read_with_the_descriptor() {
    let p = pair(|_| {});
    let info = &p.host.plugins()[p.gives];
    assert_eq!(info.gives, ["fixture-rpm", "fixture-phase"]);
    let texts: Vec<_> = info
        .texts
        .iter()
        .map(|t| (t.name.as_str(), t.body.as_str()))
        .collect();
    assert_eq!(
        texts,
        [
            ("causes.toml", "# a cause"),
            ("lang/en.ftl", "fixture = Übung")
        ]
    );
    assert_eq!(
        p.host.plugins()[p.takes].takes,
        ["fixture-rpm", "nobody-gives-this"]
    );
}

fn a_plugin_built_against_the_first_version_works() {
    let (mut host, plugin) = host_for("earlier_struct", |_| {});
    let info = &host.plugins()[plugin];
    assert!(
        info.gives.is_empty() && info.takes.is_empty() && info.texts.is_empty(),
        "{info:?}"
    );
    let findings = host
        .analyze(plugin, Some(&one_current()), "{}")
        .expect("findings");
    assert_eq!(
        (findings[0].kind.as_str(), findings[0].value),
        ("earlier", Some(1.0))
    );
    let results = baybrief_plugin_host::check(&c_fixture("earlier_struct"), 1);
    let bad: Vec<_> = results
        .iter()
        .filter(|r| r.outcome != baybrief_plugin_host::Outcome::Pass)
        .collect();
    assert!(bad.is_empty(), "{bad:#?}");
}
