//! A shaft is known of only where one of its recordings proves its channel alive.

use baybrief_plugin_dual_dry_clutch::ShaftsUntested;
use plugin_sdk::settings::PriorFinding;
use plugin_sdk::testing::Bench;
use plugin_sdk::{Grade, Input, Observation, Settings};

fn subjects(findings: &[(&str, &str, Grade)]) -> Vec<String> {
    let prior = |(kind, subject, grade): &(&str, &str, Grade)| PriorFinding {
        observation: Observation::new(
            kind,
            if *grade == Grade::NotTested {
                "shaft-silent"
            } else {
                "other"
            },
        )
        .about(subject)
        .grade(*grade),
        ..PriorFinding::default()
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
    let found = Bench::of::<ShaftsUntested>().run(&input).unwrap();
    assert!(found.iter().all(|o| o.grade == Grade::NotTested));
    found.into_iter().filter_map(|o| o.subject).collect()
}

#[test]
fn one_recording_that_proves_a_channel_is_enough() {
    let silent = |n| ("shaft-at-rest", n, Grade::NotTested);
    let (one, two) = ("input-shaft-1", "input-shaft-2");
    assert_eq!(subjects(&[silent(one), silent(two)]), [one, two]);
    let turns = ("shaft-turning", one, Grade::Normal);
    assert_eq!(subjects(&[silent(one), turns, silent(two)]), [two]);
    // Pulses that nobody can read prove nothing, and what was not recorded is not asked for.
    let unreadable = ("rotation-refused", one, Grade::Unreadable);
    assert_eq!(subjects(&[silent(one), unreadable]), [one]);
    assert!(subjects(&[]).is_empty());
}
