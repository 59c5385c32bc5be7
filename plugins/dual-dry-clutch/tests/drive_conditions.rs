//! Selector and commanded clutches: what nobody says is not known. Weights are judgement.

use baybrief_plugin_dual_dry_clutch::DriveConditions;
use baybrief_recording_analyzers::{ConditionsKnown, DerivedSeries};
use plugin_sdk::testing::{Bench, channel};
use plugin_sdk::{Input, Settings};

#[test]
fn what_nobody_says_is_not_known() {
    let x = vec![0.3f32; 4_000];
    let input = Input {
        file: "test",
        channels: vec![channel("input-shaft-1", &x, 1_000.0)],
        settings: Settings::default(),
    };
    let bench = Bench::of::<DriveConditions>()
        .after::<DerivedSeries>()
        .after::<ConditionsKnown>();
    let all = bench.run(&input).unwrap();
    let selector = all.iter().find(|o| o.kind == "condition-selector").unwrap();
    assert_eq!(
        (selector.message.as_str(), selector.value),
        ("condition-selector-unknown", Some(0.5))
    );
    assert!(
        all.iter()
            .any(|o| o.message == "condition-commanded-unknown")
    );
}
