//! Codes against findings. The status rule is that of ISO 14229-1 (bits 0 to 2: failed in this or the last cycle);
//! that a history code and a good measurement do not contradict each other is common practice.

use baybrief_recording_analyzers::Codes;
use plugin_sdk::settings::{Code, PriorFinding};
use plugin_sdk::testing::Bench;
use plugin_sdk::{Grade, Input, Observation, Settings};

fn judged(code: &str, status: &[&str], findings: impl IntoIterator<Item = Observation>) -> String {
    let codes = vec![Code {
        code: code.into(),
        status: status.iter().map(|s| s.to_string()).collect(),
        ..Code::default()
    }];
    let findings = findings
        .into_iter()
        .map(|observation| PriorFinding {
            id: "f1".into(),
            observation,
            ..PriorFinding::default()
        })
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

/// What comes and goes need not have come during the recording; a wheel with an odd tooth may be what the code means.
#[test]
fn a_good_speed_leaves_some_codes_open() {
    let odd = Observation::new("tooth-wheel", "tooth-wheel-extra").about("input-shaft-1");
    let open = "code-not-tested/code-not-tested";
    assert_eq!(judged("P0718", &["active"], speed()), open);
    assert_eq!(
        judged("P0716", &["active"], speed().into_iter().chain([odd])),
        open
    );
    assert_eq!(
        judged("P0716", &["active"], speed()),
        "code-contradicted/code-contradicted"
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

/// Which clutch a circuit code means is the maker's: the current of one actuator contradicts nothing about the other.
#[test]
fn the_current_of_one_actuator_does_not_contradict_the_circuit_of_the_other() {
    let current = |n: u8| {
        Observation::new("actuation", "actuation-clutch")
            .about(&format!("actuator-current-{n}"))
            .value(15.0, 0.2, "A")
    };
    for one in [1, 2] {
        let said = judged("P0900", &["active"], [current(one)]);
        assert_eq!(said, "code-not-tested/code-not-tested");
    }
    let both = judged("P0900", &["active"], [1, 2].map(current));
    assert_eq!(both, "code-contradicted/code-contradicted");
}

#[test]
fn a_manufacturers_code_has_no_general_meaning() {
    assert_eq!(
        judged("P1799", &["active"], speed()),
        "code-not-tested/code-not-known"
    );
}
