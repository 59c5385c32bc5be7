//! The evaluation held against cases whose result is plain.

use baybrief_evaluation::evaluate::{Evaluated, compare};
use baybrief_evaluation::program::Answer;
use baybrief_evaluation::said::{Said, SaidFinding};
use baybrief_evaluation::score::{CodeCount, Outcome, claimed, codes, numbers};
use baybrief_evaluation::search::margin;
use baybrief_evaluation::truth::{Forbidden, Measure, TrueCode, TrueVerdict, Truth, Wanted};
use baybrief_evaluation::{calibrate, summary};
use serde_json::{Value, json};
use std::collections::BTreeMap;

/// A case.json of either schema as the program would write it.
fn case_json(schema: u8, state: &str, cause: Option<&str>, teardown: bool) -> Value {
    let name = cause.unwrap_or("clutch-1-drag");
    let mut case = json!({
        "schema": format!("baybrief.case/{schema}"),
        "job": {"number": "1", "opened": null, "technician": null, "reviewed_by": null},
        "files": [{"path": "a.csv", "sha256": null, "kind": "capture", "status": "read",
                   "message": "CSV, comma"},
                  {"path": "b.csv", "sha256": null, "kind": "unknown", "status": "set-aside",
                   "message": "no rows of numbers"}],
        "codes": [{"code": "P0716", "failure_type": "64", "status": ["confirmed"], "module": "TCM",
                   "file": "scan.txt", "line": 4}],
        "findings": [{"id": "f1", "plugin": "p", "kind": "actuation", "subject": "supply-current",
            "file": "a.csv", "start_s": 1.01, "end_s": 1.21, "value": 15.2, "uncertainty": 0.1, "unit": "A",
            "limit": null, "grade": "normal", "duration_s": 0.2}],
        "verdict": {"state": state, "cause": cause, "teardown": teardown, "next": []},
    });
    if schema == 1 {
        case["causes"] = json!([{"cause": name, "weight_db": 17.0, "for": [], "against": []}]);
    } else {
        case["verdict"]["system"] = json!("dual-dry-clutch");
        case["systems"] = json!([{"system": "dual-dry-clutch", "limits": "dual-dry-clutch",
            "verdict": {"state": state, "cause": cause, "teardown": teardown, "next": []},
            "causes": [{"cause": name, "weight_dban": 17.0,
                        "weights": [{"row": "turns", "weight_dban": 24.0, "reason": "r", "source": "s"}]}],
            "coverage": {"tested": ["clutch-1-drag", "actuation-jam"],
                         "not_tested": [{"cause": "shaft-sensor-1-fault", "why": "no-pulse", "next": "n"}]}}]);
    }
    case
}

fn said_in(schema: u8, state: &str, cause: Option<&str>, teardown: bool) -> Said {
    let text = case_json(schema, state, cause, teardown).to_string();
    Said::parse(text.as_bytes()).expect("is a case")
}

fn said(state: &str, cause: Option<&str>, teardown: bool) -> Said {
    said_in(1, state, cause, teardown)
}

fn answer(said: Said) -> Answer {
    Answer {
        said: Ok(said),
        problems: Vec::new(),
        seconds: 0.0,
    }
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
        for schema in [1, 2] {
            let got = compare(
                truth.clone(),
                answer(said_in(schema, state, cause, teardown)),
            );
            assert_eq!(
                got.outcome, outcome,
                "{state} {cause:?} {teardown} for {:?}",
                truth.verdict
            );
        }
    }
    let crashed = Answer {
        said: Err("the program panicked".into()),
        problems: Vec::new(),
        seconds: 0.0,
    };
    assert_eq!(compare(drag, crashed).outcome, Outcome::Crashed);
}

#[test]
fn unreadable_answers_are_errors() {
    let mut unknown = case_json(1, "open", None, false);
    unknown["schema"] = json!("baybrief.case/9");
    let mut state = case_json(1, "certain", None, false);
    state["verdict"]["state"] = json!("certain");
    for case in [unknown, state, json!([1])] {
        assert!(Said::parse(case.to_string().as_bytes()).is_err(), "{case}");
    }
}

/// What nothing tested must not be listed as tested; files that can be read must be; messages must say their words.
#[test]
fn clearances_files_and_messages() {
    let mut truth = truth(&["open"], &[], "forbidden", "open");
    truth.untested_causes = vec!["clutch-1-drag".into(), "shaft-sensor-1-fault".into()];
    truth.readable = vec!["a.csv".into(), "b.csv".into(), "c.csv".into()];
    truth.messages = vec![
        ("a.csv".into(), "comma".into()),
        ("a.csv".into(), "taken as seconds".into()),
    ];
    let e = compare(truth, answer(said_in(2, "open", None, false)));
    assert_eq!(e.false_clearances, ["clutch-1-drag"]);
    assert_eq!(
        e.refused,
        ["b.csv: no rows of numbers", "c.csv: not listed"]
    );
    assert_eq!(e.problems, ["a.csv: message lacks \"taken as seconds\""]);
    assert_eq!(e.outcome, Outcome::Right);
}

/// 17 decibans for the right cause leave 17 + 40 to an unlisted rival, and 13.01 + 40 to a false probable; for the
/// wrong one nothing is left.
#[test]
fn margins() {
    let drag = truth(
        &["established"],
        &["clutch-1-drag"],
        "allowed",
        "established",
    );
    let of = |truth: &Truth, state, cause| {
        let e: Evaluated = compare(truth.clone(), answer(said(state, Some(cause), false)));
        margin(&e)
    };
    assert!((of(&drag, "established", "clutch-1-drag") - 53.01).abs() < 1e-9);
    assert!((of(&drag, "established", "clutch-2-drag") - (-40.0 - 17.0 - 100.0)).abs() < 1e-9);
    let forbidden = truth(&["open"], &[], "forbidden", "open");
    let e = compare(
        forbidden,
        answer(said("established", Some("clutch-1-drag"), true)),
    );
    assert!((margin(&e) - (13.01 - 17.0 - 200.0)).abs() < 1e-9);
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
    let milli = SaidFinding {
        value: Some(15_200.0),
        unit: Some("mA".into()),
        ..case.findings[0].clone()
    };
    assert!(numbers(&wanted(15.0), &[milli]).iter().all(|n| n.within));
    for grade in ["unusable", "unreadable", "not-tested"] {
        let no_claim = SaidFinding {
            grade: grade.into(),
            ..case.findings[0].clone()
        };
        assert!(
            numbers(&wanted(15.0), &[no_claim])
                .iter()
                .all(|n| !n.within)
        );
    }
}

#[test]
fn false_claims_and_codes() {
    let forbidden = Forbidden {
        kind: "shaft-turning-at-rest".into(),
        subject: Some("input-shaft-1".into()),
        file: "a.csv".into(),
    };
    let claim = |grade: &str| SaidFinding {
        kind: "shaft-turning-at-rest".into(),
        subject: Some("input-shaft-1".into()),
        file: Some("a.csv".into()),
        grade: grade.into(),
        ..Default::default()
    };
    assert!(claimed(&forbidden, &[claim("abnormal")]));
    assert!(!claimed(
        &forbidden,
        &[
            claim("normal"),
            claim("unusable"),
            claim("unreadable"),
            claim("not-tested")
        ]
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
    let mut answer = answer(said("established", Some("clutch-1-drag"), true));
    answer.problems = vec!["report.pdf is missing".into()];
    let all = vec![compare(truth, answer)];
    let text = summary::markdown(&all);
    for part in [
        "| all",
        "clutch-1-drag 1",
        "13.01 to 21.76",
        "Causes said at 20:1 or more: 1 of 1 right",
        "**working point**",
        "1 cases: right 1",
        "C-1: report.pdf",
    ] {
        assert!(text.contains(part), "{part} in\n{text}");
    }
}

/// A row is counted where its cause was tested or it applied: here in one case with the cause, and not in the two without,
/// of which one did not test it.
#[test]
fn rows_are_counted() {
    let case = |true_cause: Option<&str>, applies: bool, tested: bool| {
        let mut case = case_json(2, "open", None, false);
        let system = &mut case["systems"][0];
        if !applies {
            system["causes"][0]["weights"] = json!([]);
        }
        if !tested {
            system["coverage"]["tested"] = json!([]);
        }
        let said = Said::parse(case.to_string().as_bytes()).expect("is a case");
        let mut truth = truth(&["open"], &[], "forbidden", "open");
        truth.true_cause = true_cause.map(String::from);
        compare(truth, answer(said))
    };
    let all = [
        case(Some("clutch-1-drag"), true, true),
        case(None, false, true),
        case(None, false, false),
    ];
    let text = calibrate::markdown(&all, &[]);
    let row = text.lines().find(|l| l.contains("clutch-1-drag/turns"));
    let cells: Vec<&str> = row.expect("is counted").split('|').map(str::trim).collect();
    assert_eq!(cells[2..5], ["1 of 1", "0 of 1", "+24.0"]);
    assert_eq!(cells[7], "unchecked");
}

/// A row whose real share lies far from the simulated one proves nothing and is refused; the file itself can be used.
#[test]
fn checked_evidence() {
    let row = |real: &str| {
        format!(
            "[[checked]]\nrows = ['a/b']\nwhat = 'x'\nsimulated = [95, 100]\nreal = {real}\nagainst = 'x'\n"
        )
    };
    assert_eq!(
        calibrate::checked(&row("[33, 36]")).expect("agree")[0].real,
        [33, 36]
    );
    let error = calibrate::checked(&row("[12, 36]")).expect_err("disagree");
    assert!(error.to_string().contains("do not agree"), "{error}");
    assert!(calibrate::checked(include_str!("../checked.toml")).is_ok());
}
