//! A stall and a dragged shaft of one recording belong to one clutch, or neither part is condemned.

use baybrief_plugin_dual_dry_clutch::Attribution;
use plugin_sdk::settings::PriorFinding;
use plugin_sdk::testing::Bench;
use plugin_sdk::{Grade, Input, Observation, Settings};

/// Subjects of what contradicts, for abnormal findings told as `file kind subject`.
fn contradicted(findings: &[&str]) -> Vec<String> {
    let prior = |told: &&str| {
        let words: Vec<&str> = told.split(' ').collect();
        PriorFinding {
            file: Some(words[0].into()),
            observation: Observation::new(words[1], words[1])
                .about(words[2])
                .grade(Grade::Abnormal),
            ..PriorFinding::default()
        }
    };
    let settings = Settings {
        findings: findings.iter().map(prior).collect(),
        ..Settings::default()
    };
    let input = Input {
        file: "",
        channels: Vec::new(),
        settings,
    };
    let found = Bench::of::<Attribution>().run(&input).unwrap();
    found.into_iter().filter_map(|o| o.subject).collect()
}

#[test]
fn a_stall_of_the_other_clutch_contradicts_a_dragged_shaft() {
    let shaft = "a.csv shaft-turning-at-rest input-shaft-1";
    let other = "a.csv actuation-stall actuator-current-2";
    assert_eq!(contradicted(&[shaft, other]), ["input-shaft-1"]);
    let own = "a.csv actuation-stall actuator-current-1";
    // The clutch's own stall explains the attempt, whatever else stalls.
    for explained in [vec![shaft, own], vec![shaft, own, other]] {
        assert!(contradicted(&explained).is_empty(), "{explained:?}");
    }
    // One clamp on the feed does not say whose stall it is, and another recording may show another operation.
    assert!(contradicted(&[shaft, "a.csv actuation-stall supply-current"]).is_empty());
    assert!(contradicted(&[shaft, "b.csv actuation-stall actuator-current-2"]).is_empty());
}
