//! What only the technician's report shows: each explanation with all that was weighed, each measurement with all its
//! numbers, and how it was measured.

use super::judged::{Judged, judged};
use super::sure::class;
use crate::words::{Words, args};
use model::cause::{AppliedWeight, Effect};
use model::{Case, Finding, RankedCause};
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// What only the technician's report shows.
#[derive(Serialize)]
pub(super) struct Explained {
    /// "Verdict: ..., 33 dB, 23 dB ahead"
    summary: Vec<String>,
    explanations: Vec<Explanation>,
    recordings: Vec<Recording>,
    sources: Vec<String>,
    methods: Vec<Method>,
}

/// One explanation.
#[derive(Serialize)]
struct Explanation {
    title: String,
    /// Its name in the cause sheet.
    name: String,
    weight: String,
    class: String,
    state: Option<String>,
    is_verdict: bool,
    held_back: Vec<String>,
    speaks_for: Vec<Reason>,
    speaks_against: Vec<Reason>,
    would_change: Vec<Change>,
}

/// An observation that was not made and would change what is said of the explanation.
#[derive(Serialize)]
struct Change {
    weight: String,
    reason: String,
    effect: String,
}

/// One weight.
#[derive(Serialize)]
struct Reason {
    weight: String,
    reason: String,
    /// The finding it rests on, with its measured value.
    finding: Option<String>,
    source: String,
}

/// The measurements of one recording, or of the whole job.
#[derive(Serialize)]
struct Recording {
    title: String,
    rows: Vec<Measurement>,
}

#[derive(Serialize)]
struct Measurement {
    id: String,
    kind: String,
    subject: String,
    /// The finding's words, where there is no value to print.
    text: Option<String>,
    time: String,
    #[serde(flatten)]
    judged: Judged,
}

/// How a plugin measures.
#[derive(Serialize)]
struct Method {
    plugin: String,
    version: String,
    text: String,
}

/// Builds the technician's part.
pub(super) fn explained(case: &Case, words: &Words) -> Explained {
    let mut sources = Vec::new();
    Explained {
        summary: summary(case, words),
        explanations: case
            .causes()
            .iter()
            .map(|c| explanation(c, case, words))
            .collect(),
        recordings: recordings(case, &mut sources, words),
        sources,
        methods: methods(case, words),
    }
}

fn summary(case: &Case, words: &Words) -> Vec<String> {
    case.verdict
        .reasons
        .iter()
        .map(|r| words.reason(r))
        .collect()
}

fn explanation(cause: &RankedCause, case: &Case, words: &Words) -> Explanation {
    let findings: BTreeMap<&str, &Finding> =
        case.findings.iter().map(|f| (f.id.as_str(), f)).collect();
    let reasons = |wanted: &dyn Fn(f64) -> bool| {
        let mut weights: Vec<&AppliedWeight> = cause
            .weights
            .iter()
            .filter(|w| wanted(w.weight_dban))
            .collect();
        weights.sort_by(|a, b| b.weight_dban.abs().total_cmp(&a.weight_dban.abs()));
        weights
            .into_iter()
            .map(|w| reason(w, &findings, words))
            .collect()
    };
    let is_verdict = case.verdict.cause.as_deref() == Some(cause.cause.as_str());
    let named = |key: &str, names: Vec<String>| {
        let list = args([("list", names.join("; ").into())]);
        (!names.is_empty()).then(|| words.say_with(key, &list))
    };
    Explanation {
        title: words.cause_title(&cause.cause),
        name: cause.cause.clone(),
        weight: format!(
            "{} {}",
            words.fixed(cause.weight_dban, 1),
            words.say("report-decibans")
        ),
        class: words.say(&format!("report-word-{}", class(cause.weight_dban))),
        state: if is_verdict {
            Some(words.say("report-tech-is-verdict"))
        } else if cause.ruled_out {
            Some(words.say("report-tech-ruled-out"))
        } else {
            is_explained_away(cause).then(|| words.say("report-tech-explained-away"))
        },
        is_verdict,
        held_back: named("report-tech-missing", missing(cause, words))
            .into_iter()
            .chain(named("report-tech-blocked", blocked_by(cause, words)))
            .collect(),
        speaks_for: reasons(&|w| w >= 0.0),
        speaks_against: reasons(&|w| w < 0.0),
        would_change: cause
            .would_change
            .iter()
            .take(CHANGES)
            .map(|c| Change {
                weight: words.fixed(c.weight_dban, 1),
                reason: words.sheet_reason(&c.reason),
                effect: words.say(&format!("report-tech-{}", effect(c.effect))),
            })
            .collect(),
    }
}

/// Whether its weights do not count for it, because a narrower name for the same thing has them.
fn is_explained_away(cause: &RankedCause) -> bool {
    let sum: f64 = cause.weights.iter().map(|w| w.weight_dban).sum();
    (sum - cause.weight_dban).abs() > 0.05
}

/// What was required and not seen, as the sheet words it; by the row's name where it would change nothing alone.
fn missing(cause: &RankedCause, words: &Words) -> Vec<String> {
    let reason = |row: &String| {
        let change = cause.would_change.iter().find(|c| c.row == *row);
        change.map_or_else(|| row.clone(), |c| words.sheet_reason(&c.reason))
    };
    cause.missing.iter().map(reason).collect()
}

/// What holds an explanation back; a recording that is missing by what it would have been of.
fn blocked_by(cause: &RankedCause, words: &Words) -> Vec<String> {
    let blocks = cause.blocked_by.iter().map(|block| {
        let Some(roles) = block.strip_prefix("not-recorded:") else {
            return block.clone();
        };
        let roles: Vec<String> = roles.split('|').map(|r| words.subject(Some(r))).collect();
        let list = args([("list", roles.join(" / ").into())]);
        words.say_with("report-tech-not-recorded", &list)
    });
    blocks.collect()
}

/// Changes listed for one explanation, strongest first; the rest stand in case.json.
const CHANGES: usize = 3;

fn effect(effect: Effect) -> &'static str {
    match effect {
        Effect::RuleOut => "would-rule-out",
        Effect::Weaken => "would-weaken",
        Effect::MakeProbable => "would-make-probable",
        Effect::Establish => "would-establish",
    }
}

fn reason(w: &AppliedWeight, findings: &BTreeMap<&str, &Finding>, words: &Words) -> Reason {
    let finding = w
        .finding
        .as_deref()
        .and_then(|id| findings.get(id))
        .map(|f| {
            let value = f.value.map_or_else(
                || words.subject(f.subject.as_deref()),
                |v| words.measured(v, f.uncertainty, f.unit.as_deref()),
            );
            format!("{}: {value}", f.id)
        });
    Reason {
        weight: words.fixed(w.weight_dban, 1),
        reason: words.sheet_reason(&w.reason),
        finding,
        source: words.sheet_reason(&w.source),
    }
}

/// The findings by recording, in the order in which they were found; those of the whole job last.
fn recordings(case: &Case, sources: &mut Vec<String>, words: &Words) -> Vec<Recording> {
    let mut files: Vec<Option<&str>> = Vec::new();
    for f in &case.findings {
        if !files.contains(&f.file.as_deref()) {
            files.push(f.file.as_deref());
        }
    }
    files.sort_by_key(Option::is_none);
    files
        .into_iter()
        .map(|file| Recording {
            title: file.map_or_else(|| words.say("report-tech-whole-job"), str::to_owned),
            rows: case
                .findings
                .iter()
                .filter(|f| f.file.as_deref() == file)
                .map(|f| measurement(f, sources, words))
                .collect(),
        })
        .collect()
}

fn measurement(f: &Finding, sources: &mut Vec<String>, words: &Words) -> Measurement {
    Measurement {
        id: f.id.clone(),
        kind: words.kind(&f.kind),
        subject: words.subject(f.subject.as_deref()),
        text: f.value.is_none().then(|| words.finding(f)),
        time: match (f.start_s, f.end_s) {
            (Some(a), Some(b)) => format!("{} – {}", words.fixed(a, 3), words.fixed(b, 3)),
            (Some(a), None) => words.fixed(a, 3),
            _ => String::new(),
        },
        judged: judged(f, sources, words),
    }
}

/// How each plugin that gave a finding measures, where the sentences know it.
fn methods(case: &Case, words: &Words) -> Vec<Method> {
    let used: BTreeSet<&str> = case.findings.iter().map(|f| f.plugin.as_str()).collect();
    case.plugins
        .iter()
        .filter(|p| used.contains(p.id.as_str()))
        .map(|p| Method {
            plugin: p.id.clone(),
            version: p.version.clone(),
            text: words.method(&p.id),
        })
        .collect()
}
