//! The evaluator held against cases whose judgement is plain.

use baybrief_casebook::run::judge;
use baybrief_casebook::score::{CodeCount, Outcome, claimed, codes, numbers};
use baybrief_casebook::truth::{Forbidden, Measure, TrueCode, TrueVerdict, Truth, Wanted};
use baybrief_casebook::{calibrate, make_case, summary};
use model::{Case, Finding, Grade, Observation};
use serde_json::json;
use std::collections::BTreeMap;

/// A case.json as the program would write it.
fn said(state: &str, cause: Option<&str>, teardown: bool) -> Case {
    serde_json::from_value(json!({
        "schema": "baybrief.case/1",
        "job": {"number": "1", "opened": null, "technician": null, "reviewed_by": null},
        "customer": {}, "vehicle": {}, "concern": null,
        "files": [], "captures": [],
        "codes": [{"code": "P0716", "failure_type": "64", "status": ["confirmed"], "module": "TCM",
                   "file": "scan.txt", "line": 4}],
        "findings": [{"id": "f1", "plugin": "p", "kind": "actuation", "subject": "supply-current",
            "file": "a.csv", "start_s": 1.01, "end_s": 1.21, "value": 15.2, "uncertainty": 0.1, "unit": "A",
            "limit": null, "grade": "normal", "duration_s": 0.2}],
        "causes": [{"cause": cause.unwrap_or("clutch-1-drag"), "weight_db": 17.0, "for": [], "against": []}],
        "verdict": {"state": state, "cause": cause, "teardown": teardown, "next": []},
        "labour": [], "not_run": [], "plugins": [], "problems": []
    }))
    .expect("matches the schema")
}

fn truth(states: &[&str], causes: &[&str], teardown: &str, expected: &str) -> Truth {
    let strings = |of: &[&str]| of.iter().map(|s| s.to_string()).collect::<Vec<_>>();
    Truth {
        class: "class".into(),
        case: "C-1".into(),
        verdict: TrueVerdict {
            states: strings(states),
            causes: strings(causes),
            teardown: teardown.into(),
            expected: expected.into(),
        },
        true_cause: causes.first().map(|c| c.to_string()),
        ..Default::default()
    }
}

#[test]
fn verdicts() {
    let drag = truth(
        &["established", "probable", "open"],
        &["clutch-2-drag"],
        "allowed",
        "established",
    );
    let jam = truth(
        &["established", "probable"],
        &["actuation-jam"],
        "forbidden",
        "established",
    );
    let none = truth(&["nothing-found"], &[], "forbidden", "nothing-found");
    let unknown = truth(&["open"], &[], "forbidden", "open");
    for (truth, state, cause, teardown, outcome) in [
        (
            &drag,
            "established",
            Some("clutch-2-drag"),
            true,
            Outcome::Right,
        ),
        (
            &drag,
            "probable",
            Some("clutch-2-drag"),
            false,
            Outcome::Right,
        ),
        (
            &drag,
            "probable",
            Some("clutch-2-drag"),
            true,
            Outcome::FalseTeardown,
        ),
        (
            &drag,
            "established",
            Some("clutch-1-drag"),
            true,
            Outcome::FalseTeardown,
        ),
        (
            &drag,
            "established",
            Some("clutch-1-drag"),
            false,
            Outcome::Wrong,
        ),
        (&drag, "open", None, false, Outcome::OpenAllowed),
        (&drag, "nothing-found", None, false, Outcome::Wrong),
        (&jam, "open", None, false, Outcome::Abstained),
        (
            &jam,
            "established",
            Some("actuation-jam"),
            true,
            Outcome::FalseTeardown,
        ),
        (&none, "nothing-found", None, false, Outcome::Right),
        (
            &none,
            "probable",
            Some("clutch-1-drag"),
            false,
            Outcome::Wrong,
        ),
        (&unknown, "open", None, false, Outcome::Right),
        (&unknown, "nothing-found", None, false, Outcome::Wrong),
    ] {
        let got = judge(
            truth,
            Some(said(state, cause, teardown)),
            false,
            Vec::new(),
            0.0,
        )
        .outcome;
        assert_eq!(
            got, outcome,
            "{state} {cause:?} {teardown} for {:?}",
            truth.verdict
        );
    }
    assert_eq!(
        judge(&drag, None, false, Vec::new(), 0.0).outcome,
        Outcome::Crashed
    );
    let panicked = judge(
        &drag,
        Some(said("open", None, false)),
        true,
        Vec::new(),
        0.0,
    );
    assert_eq!(panicked.outcome, Outcome::Crashed);
}

fn wanted(value: f64) -> Measure {
    Measure {
        kinds: vec!["actuation".into()],
        file: "a.csv".into(),
        span: Some([1.0, 1.2]),
        fields: BTreeMap::from([
            ("start_s".to_string(), Wanted::time(1.0, 0.05)),
            ("duration_s".to_string(), Wanted::time(0.25, 0.06)),
            ("value".to_string(), Wanted::value("A", value, 0.5)),
        ]),
        ..Default::default()
    }
}

#[test]
fn measured_values() {
    let case = said("open", None, false);
    let all = numbers(&wanted(15.0), &case.findings);
    assert!(all.iter().all(|n| n.within), "{all:?}");
    let value = all
        .iter()
        .find(|n| n.what == "actuation.value")
        .expect("is there");
    assert!((value.error.expect("was found") - 0.2 / 15.0).abs() < 1e-9);
    let off = numbers(&wanted(20.0), &case.findings);
    assert_eq!(off.iter().filter(|n| n.within).count(), 2);
    let elsewhere = Measure {
        file: "b.csv".into(),
        ..wanted(15.0)
    };
    assert!(
        numbers(&elsewhere, &case.findings)
            .iter()
            .all(|n| !n.within && n.error.is_none())
    );
    let mut milli = case.findings[0].clone();
    milli.value = Some(15_200.0);
    milli.unit = Some("mA".into());
    assert!(numbers(&wanted(15.0), &[milli]).iter().all(|n| n.within));
    let mut unusable = case.findings[0].clone();
    unusable.grade = Grade::Unusable;
    assert!(
        numbers(&wanted(15.0), &[unusable])
            .iter()
            .all(|n| !n.within)
    );
}

#[test]
fn false_claims_and_codes() {
    let forbidden = Forbidden {
        kind: "shaft-turning-at-rest".into(),
        subject: Some("input-shaft-1".into()),
        file: "a.csv".into(),
    };
    let claim = |grade| Finding {
        file: Some("a.csv".into()),
        observation: Observation::new("shaft-turning-at-rest", "")
            .about("input-shaft-1")
            .grade(grade),
        ..Default::default()
    };
    assert!(claimed(&forbidden, &[claim(Grade::Abnormal)]));
    assert!(!claimed(
        &forbidden,
        &[claim(Grade::Normal), claim(Grade::Unusable)]
    ));
    let code = |code: &str, ft: Option<&str>, status: &str| TrueCode {
        code: code.into(),
        failure_type: ft.map(String::from),
        status: vec![status.into()],
        module: None,
        file: String::new(),
    };
    let got = said("open", None, false).codes;
    let both = codes(
        &[
            code("P0716", Some("64"), "confirmed"),
            code("P0700", None, "active"),
        ],
        &got,
    );
    assert_eq!(
        both,
        CodeCount {
            right: 1,
            extra: 0,
            missing: 1,
            status_right: 1
        }
    );
    let other = codes(&[code("P0716", None, "confirmed")], &got);
    assert_eq!(
        other,
        CodeCount {
            right: 0,
            extra: 1,
            missing: 1,
            status_right: 0
        }
    );
    assert!((both.f1() - 2.0 / 3.0).abs() < 1e-12);
}

#[test]
fn tables_are_written() {
    let truth = truth(
        &["established"],
        &["clutch-1-drag"],
        "allowed",
        "established",
    );
    let case = said("established", Some("clutch-1-drag"), true);
    let all = vec![judge(
        &truth,
        Some(case),
        false,
        vec!["report.pdf is missing".into()],
        1.0,
    )];
    let text = summary::markdown(&all);
    for part in [
        "| all",
        "clutch-1-drag 1",
        "15 to 20",
        "1 cases: right 1",
        "C-1: report.pdf",
    ] {
        assert!(text.contains(part), "{part} in\n{text}");
    }
    assert!(calibrate::markdown(&all).contains("## clutch-1-drag"));
}

#[test]
fn a_case_is_the_same_each_time() {
    let (one, two) = (make_case(3, 1), make_case(3, 1));
    assert_eq!(one.folder.files, two.folder.files);
    assert_eq!(one.truth, two.truth);
    assert_ne!(one.folder.files, make_case(4, 1).folder.files);
}
