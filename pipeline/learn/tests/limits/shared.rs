//! Invented jobs on an invented unit.

use baybrief_learn::known_good::{Sample, samples};
use baybrief_learn::{Job, UnitKey};
use chrono::NaiveDateTime;
use model::cause_sheet::Pattern;
use model::limits_sheet::LimitValue;
use model::outcome::{Found, Outcome, Said};
use model::system::{Bound, LearnableLimit};
use model::{Case, VerdictState};
use serde_json::json;

/// The limit of the invented pump: its run time.
pub const LIMIT: &str = "run-time";

pub fn at(day: u32) -> NaiveDateTime {
    let day = chrono::NaiveDate::from_ymd_opt(2026, 3, day).expect("a day");
    day.and_hms_opt(9, 0, 0).expect("a time")
}

/// A job on a vehicle whose pump runs for these times, s, before and after a repair.
pub fn job(name: &str, vin: &str, before: &[f64], after: &[f64]) -> Job {
    let finding = |file: &str, i: usize, value: f64| {
        json!({
            "id": format!("{file}-{i}"), "plugin": "pump", "file": file, "kind": "run", "subject": "motor",
            "start_s": 1.0, "end_s": 2.0, "value": value, "uncertainty": 0.01, "unit": "s", "limit": null,
            "grade": if value > 2.0 { "abnormal" } else { "normal" }
        })
    };
    let values = before.iter().map(|v| ("before.csv", v));
    let values = values.chain(after.iter().map(|v| ("after.csv", v)));
    let findings: Vec<_> = values
        .enumerate()
        .map(|(i, (file, v))| finding(file, i, *v))
        .collect();
    let capture = |file: &str, phase: &str| {
        json!({
            "file": file, "phase": phase, "selector": null, "engine": {"value": "running", "source": "job.toml"},
            "rate_hz": 1000.0, "samples": 10, "start_s": 0.0, "end_s": 1.0, "channels": []
        })
    };
    let repair =
        json!({"proven": !after.is_empty() && after.iter().all(|v| *v <= 2.0), "compared": []});
    let verdict = json!({
        "state": "established", "cause": "pump-worn", "teardown": true, "next": [],
        "repair": if after.is_empty() { json!(null) } else { repair }
    });
    let case = json!({
        "schema": "baybrief.case/2",
        "job": {"number": name, "opened": null, "technician": null, "reviewed_by": null},
        "customer": {}, "vehicle": {"vin": vin, "make": "Sample Works", "model": "One", "unit": "pump-9"},
        "concern": null, "files": [],
        "captures": [capture("before.csv", "before"), capture("after.csv", "after")],
        "codes": [], "findings": findings,
        "systems": [{
            "system": "pump", "limits": "pump-9", "unit_named": true, "verdict": verdict, "causes": [],
            "coverage": {"tested": ["pump-worn"], "not_tested": []}
        }],
        "verdict": verdict, "labour": [], "not_run": [], "plugins": [], "problems": []
    });
    let case: Case = serde_json::from_value(case).expect("a case");
    Job {
        name: name.into(),
        case,
        outcomes: Vec::new(),
        month: "2026-03".into(),
    }
}

pub fn found(mut job: Job, found: Found, is_mended: bool) -> Job {
    job.outcomes.push(Outcome {
        at: at(2),
        by: "A. Technician".into(),
        system: "pump".into(),
        found,
        is_mended,
        part: None,
        photo: None,
        note: None,
        said: Said {
            revision: 1,
            state: VerdictState::Established,
            cause: Some("pump-worn".into()),
        },
    });
    job
}

/// A healthy job on a vehicle of its own.
pub fn healthy(number: usize, values: &[f64]) -> Job {
    let job = job(&format!("J-{number}"), &format!("VIN{number}"), values, &[]);
    found(job, Found::Healthy, false)
}

/// Values spread evenly over a range, one for each of `n` vehicles, in a scattered order.
pub fn spread(n: usize, low: f64, high: f64) -> Vec<Job> {
    (0..n)
        .map(|i| {
            let place = ((i * 7919) % n) as f64 / (n - 1).max(1) as f64;
            healthy(i, &[low + (high - low) * place])
        })
        .collect()
}

pub fn learnable(bounds: &[Bound]) -> Vec<LearnableLimit> {
    vec![LearnableLimit {
        limit: LIMIT.into(),
        when: Pattern {
            kind: "run".into(),
            ..Pattern::default()
        },
        bounds: bounds.to_vec(),
    }]
}

pub fn samples_of(jobs: &[Job]) -> Vec<Sample> {
    let learnable = learnable(&[]);
    jobs.iter()
        .flat_map(|job| samples(job, &job.case.systems[0], &learnable))
        .collect()
}

/// The limit that stands without anything learned: 2 s at most.
pub fn standing(_: &UnitKey, limit: &str) -> Option<LimitValue> {
    (limit == LIMIT).then(|| LimitValue {
        high: Some(2.0),
        unit: "s".into(),
        source: "invented".into(),
        ..LimitValue::default()
    })
}
