//! Codes against findings. The status rule is that of ISO 14229-1 (bits 0 to 2: failed in this or the last cycle);
//! that a history code and a good measurement do not contradict each other is common practice.

use baybrief_recording_analyzers::Codes;
use plugin_sdk::settings::{Code, PriorFinding};
use plugin_sdk::testing::Bench;
use plugin_sdk::{Grade, Input, Observation, Settings};

fn judged(code: &str, status: &[&str], finding: Option<Observation>) -> String {
    let codes = vec![Code {
        code: code.into(),
        status: status.iter().map(|s| s.to_string()).collect(),
        ..Code::default()
    }];
    let findings = finding
        .map(|observation| PriorFinding {
            id: "f1".into(),
            observation,
            ..PriorFinding::default()
        })
        .into_iter()
        .collect();
    let settings = Settings {
        codes,
        findings,
        ..Settings::default()
    };
    let o = Bench::of::<Codes>()
        .run(&Input {
            file: "",
            channels: Vec::new(),
            settings,
        })
        .unwrap();
    o[0].kind.clone() + "/" + &o[0].message
}

fn speed() -> Option<Observation> {
    Some(
        Observation::new("shaft-speed", "shaft-speed")
            .about("input-shaft-1")
            .value(400.0, 1.0, "rpm"),
    )
}

#[test]
fn a_present_code_and_a_good_measurement_contradict_each_other() {
    assert_eq!(
        judged("P0717", &["active"], speed()),
        "code-contradicted/code-contradicted"
    );
    assert_eq!(
        judged("P0717", &["confirmed"], speed()),
        "code-not-tested/code-not-tested"
    );
    assert_eq!(
        judged("P0717", &["history"], speed()),
        "code-not-tested/code-history"
    );
}

#[test]
fn a_measured_fault_bears_a_code_out() {
    let fault = Observation::new("sensor-fault", "sensor-dropouts")
        .about("input-shaft-1")
        .grade(Grade::Abnormal);
    assert_eq!(
        judged("P0718", &["confirmed"], Some(fault.clone())),
        "code-supported/code-supported"
    );
    assert_eq!(
        judged("P0718", &["history"], Some(fault.clone())),
        "code-not-tested/code-history"
    );
    // The other shaft's sensor is not what the code speaks of.
    assert_eq!(
        judged("P2767", &["confirmed"], Some(fault)),
        "code-not-tested/code-not-tested"
    );
}

#[test]
fn a_manufacturers_code_has_no_general_meaning() {
    assert_eq!(
        judged("P1799", &["active"], speed()),
        "code-not-tested/code-not-known"
    );
}
