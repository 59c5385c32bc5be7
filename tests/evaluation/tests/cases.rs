//! The cases themselves: each class makes what its name says.

use baybrief_evaluation::case::{CaseSpec, case_name};
use baybrief_evaluation::classes::CLASSES;
use baybrief_evaluation::measures::actuations;
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
    // Every class once, and those whose fault is in one of two like parts again: which of them is chance.
    let twofold = ["drag-stall", "slip", "jam-own", "sensor-dead"];
    let twofold = twofold.map(|name| {
        CLASSES
            .iter()
            .position(|c| c.0 == name)
            .expect("is a class")
    });
    let again = (2..8).flat_map(|seed| twofold.map(|number| (seed, number)));
    for (seed, number) in (0..CLASSES.len()).map(|n| (1, n)).chain(again) {
        let case = CaseSpec::numbered(seed, number, &[]).make("C-1");
        let truth = &case.truth;
        assert_eq!(truth.class, CLASSES[number].0);
        causes.extend(truth.verdict.causes.clone());
        assert!(
            truth.verdict.states.contains(&truth.verdict.expected),
            "{truth:?}"
        );
        let told = truth.measures.iter().map(|m| &m.file);
        let told = told.chain(truth.forbidden_findings.iter().map(|f| &f.file));
        let told = told.chain(truth.messages.iter().map(|(file, _)| file));
        for file in told.chain(&truth.readable) {
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
fn a_case_is_the_same_each_time() {
    let spec = CaseSpec::numbered(3, 1, &[]);
    let (one, two) = (spec.make("C-1"), spec.make("C-1"));
    assert_eq!(one.folder.files, two.folder.files);
    assert_eq!(one.truth, two.truth);
    let other = CaseSpec::numbered(4, 1, &[]).make("C-1");
    assert_ne!(one.folder.files, other.folder.files);
}

/// A case is told by its file: what a search keeps gives the same bytes later.
#[test]
fn a_regression_case_survives_its_file() {
    let mut spec = CaseSpec::numbered(9, 0, &["drag-stall".to_string()]);
    spec.overrides.insert("drag share".into(), 0.25);
    spec.note = "wrong: said open".into();
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("case.toml");
    std::fs::write(&file, toml::to_string(&spec).expect("is TOML")).expect("is written");
    let read = CaseSpec::read(&file).expect("is read");
    assert_eq!(read, spec);
    let case = read.make("C-1");
    let share = case
        .truth
        .parameters
        .iter()
        .find(|d| d.name == "drag share");
    assert_eq!(share.expect("is drawn").value, "0.4000");
    std::fs::write(&file, "class = 'no-such'\nseed = 1\n").expect("is written");
    let error = CaseSpec::read(&file).expect_err("an unknown class");
    assert!(
        format!("{error:#}").contains("no class no-such"),
        "{error:#}"
    );
}

#[test]
fn no_two_cases_share_a_name() {
    let names: BTreeSet<String> = (0..2000).map(case_name).collect();
    assert_eq!(names.len(), 2000);
}

/// An actuation starts and ends where the load passes 15 % of its peak.
#[test]
fn edges_of_an_actuation() {
    let mut bench = Bench::new(10_000.0, 1.5);
    bench.order(0.5, Clutch1, 1.0);
    let traces = bench.run();
    let all = actuations(&traces);
    assert_eq!(all.len(), 1);
    let one = all[0];
    let (first, last) = (traces.index(one.start_s), traces.index(one.end_s));
    assert!(traces.load[first - 1] <= 0.15 * one.peak && traces.load[first] > 0.15 * one.peak);
    assert!(traces.load[last] > 0.15 * one.peak && traces.load[last + 1] <= 0.15 * one.peak);
    assert!(!one.stalled && (0.1..0.3).contains(&(one.end_s - one.start_s)));
}
