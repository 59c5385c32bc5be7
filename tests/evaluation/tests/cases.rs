//! The cases themselves: each class makes what its name says.

use baybrief_casebook::measures::hits;
use baybrief_casebook::{case_name, classes::CLASSES, make_case};
use model::JobFile;
use simulator::bench::Bench;
use simulator::traces::Mechanism::Clutch1;
use std::collections::BTreeSet;

/// The fifteen causes of the first cause sheet that some class must put in or allow.
const CAUSES: [&str; 15] = [
    "clutch-1-drag",
    "clutch-2-drag",
    "clutch-1-slip",
    "clutch-2-slip",
    "clutch-actuator-jam",
    "clutch-actuator-1-jam",
    "clutch-actuator-2-jam",
    "gear-actuator-jam",
    "actuation-jam",
    "actuator-open-circuit",
    "supply-weak",
    "shaft-sensor-1-fault",
    "shaft-sensor-2-fault",
    "double-engagement",
    "relearn-not-completed",
];

#[test]
fn every_cause_is_made_and_every_file_is_told() {
    let mut causes = BTreeSet::new();
    // Every class once, and the class whose fault is in one of two like parts again: which of them is chance.
    let all = 0..CLASSES.len();
    let own = all
        .clone()
        .find(|&n| CLASSES[n].0 == "jam-own")
        .expect("is a class");
    let again = (2..6).map(|seed| (seed, own));
    for (seed, number) in all.map(|n| (1, n)).chain(again) {
        let case = make_case(seed, number);
        let truth = &case.truth;
        assert_eq!(truth.class, CLASSES[number].0);
        causes.extend(truth.verdict.causes.clone());
        assert!(
            truth.verdict.states.contains(&truth.verdict.expected),
            "{truth:?}"
        );
        let told = truth.measures.iter().map(|m| &m.file);
        for file in told.chain(truth.forbidden_findings.iter().map(|f| &f.file)) {
            assert!(
                case.folder.files.contains_key(file),
                "{file} of {}",
                truth.class
            );
        }
        for m in truth.measures.iter().filter_map(|m| m.span) {
            assert!(m[0] <= m[1], "{m:?} of {}", truth.class);
        }
        if let Some(text) = case.folder.files.get("job.toml") {
            let text = String::from_utf8(text.clone()).expect("is UTF-8");
            let job: JobFile = toml::from_str(&text).expect("is a job file");
            assert!(
                job.captures
                    .iter()
                    .all(|c| case.folder.files.contains_key(&c.file))
            );
        }
    }
    for cause in CAUSES {
        assert!(causes.contains(cause), "{cause} occurs in no case");
    }
}

#[test]
fn no_two_cases_share_a_name() {
    let names: BTreeSet<String> = (0..2000).map(case_name).collect();
    assert_eq!(names.len(), 2000);
}

/// A hit starts and ends where the load passes 15 % of its peak.
#[test]
fn edges_of_a_hit() {
    let mut bench = Bench::new(10_000.0, 1.5);
    bench.order(0.5, Clutch1, 1.0);
    let traces = bench.run();
    let all = hits(&traces);
    assert_eq!(all.len(), 1);
    let hit = all[0];
    let (first, last) = (traces.index(hit.start_s), traces.index(hit.end_s));
    assert!(traces.load[first - 1] <= 0.15 * hit.peak && traces.load[first] > 0.15 * hit.peak);
    assert!(traces.load[last] > 0.15 * hit.peak && traces.load[last + 1] <= 0.15 * hit.peak);
    assert!(!hit.stalled && (0.1..0.3).contains(&(hit.end_s - hit.start_s)));
}
