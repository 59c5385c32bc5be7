//! Weighing against arithmetic. A deciban is 10 log10 of the likelihood ratio (I. J. Good): independent ratios multiply,
//! decibans add; 20:1 is 13.01 dB, 150:1 is 21.76 dB (Kass and Raftery 1995 name them strong and very strong).

use baybrief_assess::{ESTABLISHED_DB, Evidence, JUDGEMENT_CAP_DB, PROBABLE_DB, assess};
use model::case::{CaptureRecord, ChannelRecord};
use model::cause::Effect;
use model::sheets::{CauseRow, CauseSheet, Pattern, StepRow, WeightRow};
use model::{Finding, Grade, Observation, RoleSource, VerdictState};

fn db(ratio: f64) -> f64 {
    10.0 * ratio.log10()
}

fn finding(id: &str, kind: &str) -> Finding {
    Finding {
        id: id.into(),
        file: Some("a.csv".into()),
        observation: Observation::new(kind, kind).grade(Grade::Abnormal),
        ..Finding::default()
    }
}

fn row(name: &str, kind: &str, weight_db: f64) -> WeightRow {
    WeightRow {
        name: name.into(),
        when: Pattern {
            kind: kind.into(),
            ..Pattern::default()
        },
        weight_db,
        reason: format!("{name} speaks"),
        source: "measured on nothing: a test".into(),
        ..WeightRow::default()
    }
}

fn cause(name: &str, rows: Vec<WeightRow>) -> CauseRow {
    CauseRow {
        name: name.into(),
        rows,
        ..CauseRow::default()
    }
}

fn recorded() -> Vec<CaptureRecord> {
    vec![CaptureRecord {
        file: "a.csv".into(),
        channels: vec![ChannelRecord {
            name: "A".into(),
            role: Some("supply-current".into()),
            role_source: RoleSource::JobFile,
            unit: Some("A".into()),
            scale: 1.0,
            offset: 0.0,
            calibrated: true,
        }],
        phase: None,
        selector: None,
        engine: None,
        rate_hz: None,
        samples: 100,
        start_s: 0.0,
        end_s: 1.0,
    }]
}

fn judged(findings: &[Finding], causes: Vec<CauseRow>) -> baybrief_assess::Assessment {
    assess(&Evidence {
        findings,
        captures: &recorded(),
        sheet: &CauseSheet {
            causes,
            ..CauseSheet::default()
        },
    })
}

#[test]
fn likelihood_ratios_multiply() {
    assert!((db(20.0) - PROBABLE_DB).abs() < 0.005 && (db(150.0) - ESTABLISHED_DB).abs() < 0.005);
    let two = vec![row("one", "x", db(20.0)), row("two", "y", db(7.5))];
    let a = judged(
        &[finding("f1", "x"), finding("f2", "y")],
        vec![cause("fault", two)],
    );
    assert!((a.causes[0].weight_db - db(150.0)).abs() < 1e-9);
}

#[test]
fn rows_of_one_observation_count_once() {
    let mut rows = vec![row("one", "x", 8.0), row("two", "y", 11.0)];
    for r in &mut rows {
        r.group = Some("same".into());
    }
    let a = judged(
        &[finding("f1", "x"), finding("f2", "y")],
        vec![cause("fault", rows)],
    );
    assert_eq!(a.causes[0].weight_db, 11.0);
    // Both findings are named all the same.
    assert_eq!(a.causes[0].supporting, ["f1", "f2"]);
}

#[test]
fn judgement_is_capped_and_measurement_is_not() {
    let mut capped = row("one", "x", 60.0);
    capped.source = "judgement".into();
    let a = judged(&[finding("f1", "x")], vec![cause("fault", vec![capped])]);
    assert_eq!(a.causes[0].weight_db, JUDGEMENT_CAP_DB);
    let a = judged(
        &[finding("f1", "x")],
        vec![cause("fault", vec![row("one", "x", 60.0)])],
    );
    assert_eq!(a.causes[0].weight_db, 60.0);
}

#[test]
fn what_was_not_recorded_speaks_neither_way() {
    let silent = |seen_by: &str| WeightRow {
        absent: true,
        seen_by: Some(seen_by.into()),
        ..row("quiet", "x", -20.0)
    };
    let weight =
        |seen_by| judged(&[], vec![cause("fault", vec![silent(seen_by)])]).causes[0].weight_db;
    assert_eq!(weight("supply-current"), -20.0);
    assert_eq!(weight("output-shaft"), 0.0);
}

#[test]
fn an_established_cause_keeps_its_distance_from_a_rival() {
    let causes = |rival: f64| {
        vec![
            cause("fault", vec![row("one", "x", 24.0)]),
            cause("rival", vec![row("one", "x", rival)]),
        ]
    };
    let state = |rival| judged(&[finding("f1", "x")], causes(rival)).verdict.state;
    assert_eq!(state(10.9), VerdictState::Established);
    assert_eq!(state(11.1), VerdictState::Probable);
    assert_eq!(state(22.0), VerdictState::Open);
}

/// What would change it: the required observation would establish the cause, its opposite would rule it out.
/// The guard band of ISO 14253-1 (from memory): a value is good only where it is so beyond its uncertainty.
#[test]
fn a_value_at_its_limit_is_not_called_healthy() {
    let slip = |value: f64| {
        let limit = model::Limit {
            low: None,
            high: Some(12.0),
            unit: "%".into(),
            source: "a test".into(),
        };
        let mut measured = finding("f1", "shift");
        measured.grade = Grade::Normal;
        measured.value = Some(value);
        measured.uncertainty = Some(0.15);
        measured.limit = Some(limit);
        judged(
            &[measured],
            vec![cause("fault", vec![row("one", "x", 8.0)])],
        )
        .verdict
    };
    assert_eq!(slip(11.5).state, VerdictState::NothingFound);
    let near = slip(12.1);
    assert_eq!(near.state, VerdictState::Open);
    assert!(near.reasons.iter().any(|r| r == "reason-at-limit"));
}

#[test]
fn what_would_change_the_verdict_is_said() {
    let mut proof = row("proof", "x", 24.0);
    proof.required = true;
    proof.group = Some("motion".into());
    let mut rest = row("rest", "y", -22.0);
    rest.group = Some("motion".into());
    let sheet = || {
        vec![cause(
            "fault",
            vec![proof.clone(), rest.clone(), row("code", "z", 3.0)],
        )]
    };
    let changes = |findings: &[Finding]| {
        judged(findings, sheet()).causes[0]
            .would_change
            .iter()
            .map(|c| (c.row.clone(), c.effect))
            .collect::<Vec<_>>()
    };
    assert_eq!(
        changes(&[]),
        [
            ("proof".to_string(), Effect::Establish),
            ("rest".to_string(), Effect::RuleOut)
        ]
    );
    assert_eq!(
        changes(&[finding("f1", "x")]),
        [("rest".to_string(), Effect::RuleOut)]
    );
    assert_eq!(
        changes(&[finding("f1", "y")]),
        [("proof".to_string(), Effect::Establish)]
    );
}

/// A step that would only record again what is there is not named.
#[test]
fn the_next_step_tells_something_new() {
    let sheet = CauseSheet {
        causes: vec![CauseRow {
            next: vec!["next-feed".into(), "next-shaft".into()],
            ..cause("fault", vec![row("one", "x", 15.0)])
        }],
        steps: vec![StepRow {
            name: "next-feed".into(),
            records: vec!["supply-current".into()],
        }],
        ..CauseSheet::default()
    };
    let verdict = assess(&Evidence {
        findings: &[finding("f1", "x")],
        captures: &recorded(),
        sheet: &sheet,
    })
    .verdict;
    let steps: Vec<&str> = verdict.next.iter().map(|n| n.step.as_str()).collect();
    assert_eq!(steps, ["next-shaft"]);
}
