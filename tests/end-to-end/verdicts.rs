//! Verdicts, with report, labour lines and case.json, one job for each kind of answer.

use crate::bench::{Bench, Results};
use crate::jobs::evaluation_case;
use baybrief_evaluation::draft::Draft;
use baybrief_evaluation::params::Params;
use baybrief_evaluation::{decoys, jams, standstill};

const DRAFT_MARK: &str = "DRAFT: no person has checked it yet";

/// Runs a case of the evaluation set, in which every file can be read.
#[track_caller]
fn run(make: fn(&mut Params) -> Draft, seed: u64) -> (Results, Vec<String>) {
    let (files, causes) = evaluation_case(make, seed);
    let bench = Bench::new();
    let job = bench.job("R-7", &files);
    let (said, results) = bench.run(&job);
    said.ends_with(0);
    println!("{}; next {:?}", results.verdict(), results.next());
    assert!(results.list("/files").iter().all(|f| f["status"] == "read"));
    assert_eq!(results.list("/files").len(), files.len());
    assert!(
        results.list("/not_run").is_empty(),
        "{:#}",
        results.at("/not_run")
    );
    (results, causes)
}

/// The report carries its draft mark and says these words.
#[track_caller]
fn report_says(results: &Results, wanted: &[&str]) {
    let words = results.words();
    for w in wanted.iter().chain(&[DRAFT_MARK]) {
        assert!(words.contains(w), "{w:?} is not in the report:\n{words}");
    }
}

#[test]
fn a_dragging_clutch_is_established_and_needs_a_teardown() {
    for seed in [1, 2] {
        let (results, causes) = run(standstill::drag_stall, seed);
        assert_eq!(
            results.verdict(),
            format!("established {} teardown", causes[0])
        );
        let clutch = if causes[0] == "clutch-1-drag" { 1 } else { 2 };
        let title = format!("Clutch {clutch} does not release");
        report_says(
            &results,
            &[&title, "Established", "What is opened, and why"],
        );
        assert!(
            results
                .list("/labour")
                .iter()
                .any(|l| l["step"] == "teardown")
        );
    }
}

/// A jam of unknown place: whatever the state, the report names the recording that tells which motor it is.
#[track_caller]
fn names_the_telling_recording(results: &Results) {
    if results.verdict().starts_with("established") {
        report_says(results, &["record each motor's own current"]);
    } else {
        let telling = "next-record-own-actuator-current";
        assert!(results.next().contains(&telling), "{:?}", results.next());
        report_says(results, &["on its own wire"]);
    }
}

#[test]
fn a_jam_on_the_feed_is_a_jam_of_unknown_place() {
    let (results, _) = run(jams::jam_feed, 3);
    let sure = ["established actuation-jam", "probable actuation-jam"];
    assert!(sure.contains(&&*results.verdict()), "{}", results.verdict());
    names_the_telling_recording(&results);
    report_says(&results, &["A mechanism inside the gearbox is jammed"]);
}

#[test]
fn a_jam_with_own_clamps_names_the_actuator() {
    let (results, causes) = run(jams::jam_own, 4);
    // Established where the recording shows the shaft of that clutch to be free as well.
    let sure = ["established", "probable"].map(|state| format!("{state} {}", causes[0]));
    assert!(sure.contains(&results.verdict()), "{}", results.verdict());
    let number = if causes[0].contains('1') { 1 } else { 2 };
    report_says(
        &results,
        &[&format!("The actuator of clutch {number} is jammed")],
    );
}

/// With one clamp on the feed, and with one on each clutch's own wire as well.
#[test]
fn an_open_circuit_is_mended_outside() {
    for own in [false, true] {
        let seed = (1..)
            .find(|&seed| Params::new(seed).chance("own clamps", 0.5) == own)
            .expect("some seed has it so");
        let (results, _) = run(jams::open_circuit, seed);
        let roles = results.at("/captures/0/channels").to_string();
        assert_eq!(roles.contains("actuator-current-1"), own);
        let sure = [
            "established actuator-open-circuit",
            "probable actuator-open-circuit",
        ];
        assert!(sure.contains(&&*results.verdict()), "{}", results.verdict());
        report_says(&results, &["An actuator is not connected"]);
    }
}

#[test]
fn a_healthy_relearn_shows_nothing() {
    let (results, _) = run(standstill::healthy, 7);
    assert_eq!(results.verdict(), "nothing-found");
    assert!(results.next().is_empty());
    report_says(&results, &["No fault found"]);
}

/// What looks like a dragging clutch and is none: whatever else is said, no teardown and no drag.
#[test]
fn what_only_looks_like_a_drag_is_none() {
    let decoys: [fn(&mut Params) -> Draft; 5] = [
        decoys::engine_off,
        decoys::selector_d,
        |p| decoys::pick_up(p, decoys::PickUp::Copy),
        |p| decoys::pick_up(p, decoys::PickUp::Ignition),
        |p| decoys::pick_up(p, decoys::PickUp::Pwm),
    ];
    for (make, seed) in decoys.into_iter().zip(10..) {
        let (results, _) = run(make, seed);
        let verdict = results.verdict();
        assert!(
            !verdict.contains("teardown") && !verdict.contains("drag"),
            "{verdict}"
        );
        assert!(!results.words().contains("What is opened, and why"));
        report_says(&results, &[]);
    }
}

#[test]
fn a_shaft_that_was_not_recorded_is_not_at_rest() {
    for seed in [20, 120] {
        let (results, _) = run(standstill::one_shaft, seed);
        let verdict = results.verdict();
        let careful = [
            "open",
            "probable actuation-jam",
            "established actuation-jam",
        ];
        assert!(careful.contains(&&*verdict), "{verdict}");
        names_the_telling_recording(&results);
    }
}

#[test]
fn the_same_recording_after_the_repair_proves_it() {
    let (results, causes) = run(standstill::after_repair, 21);
    assert_eq!(results.verdict(), format!("established {}", causes[0]));
    assert_eq!(results.at("/verdict/repair/proven"), true);
    let compared = results.list("/verdict/repair/compared");
    assert!(
        compared.iter().any(|c| c["outcome"] == "mended"),
        "{compared:#?}"
    );
    report_says(&results, &["Repair confirmed", "Before and after"]);
}
