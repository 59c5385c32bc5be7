//! Contents of the technician's report alone: each explanation with all that was weighed, each measurement with all its
//! numbers, and how it was measured.

use super::certainty::class;
use super::figures::{Figures, figures};
use crate::localizer::{Localizer, args, number_arg};
use model::cause::AppliedWeight;
use model::{Case, Finding, Limit, Observation, RankedCause};
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// Data of the technician's report only.
#[derive(Serialize)]
pub(super) struct Explained {
    /// "Verdict: ..., 33 dB, 23 dB ahead"
    summary: Vec<String>,
    explanations: Vec<Explanation>,
    /// Causes that no recording has tested, with the reason.
    untested: Vec<String>,
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
    /// `None` where nothing that was found has a weight for it.
    weight: Option<String>,
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
    /// The finding it rests on, with its file and measured value.
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
    figures: Figures,
}

/// Method of measurement of a plugin.
#[derive(Serialize)]
struct Method {
    plugin: String,
    version: String,
    text: String,
}

/// Builds the technician's part.
pub(super) fn explained(case: &Case, localizer: &Localizer) -> Explained {
    let mut sources = Vec::new();
    Explained {
        summary: summary(case, localizer),
        explanations: case
            .causes()
            .iter()
            .map(|c| explanation(c, case, localizer))
            .collect(),
        untested: super::answer::untested(case, localizer),
        recordings: recordings(case, &mut sources, localizer),
        sources,
        methods: methods(case, localizer),
    }
}

fn summary(case: &Case, localizer: &Localizer) -> Vec<String> {
    case.verdict
        .reasons
        .iter()
        .map(|r| localizer.reason(r))
        .collect()
}

fn explanation(cause: &RankedCause, case: &Case, localizer: &Localizer) -> Explanation {
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
            .map(|w| reason(w, &findings, localizer))
            .collect()
    };
    let is_verdict = case.verdict.cause.as_deref() == Some(cause.cause.as_str());
    let named = |key: &str, names: Vec<String>| {
        // Some are whole sentences.
        let names: Vec<&str> = names.iter().map(|n| n.trim_end_matches('.')).collect();
        let list = args([("list", names.join("; ").into())]);
        (!names.is_empty()).then(|| localizer.message_with(key, &list))
    };
    Explanation {
        title: localizer.cause_title(&cause.cause),
        name: cause.cause.clone(),
        weight: (!cause.weights.is_empty()).then(|| {
            format!(
                "{} {}",
                localizer.fixed(cause.weight_dban, 1),
                localizer.message("report-decibans")
            )
        }),
        class: match cause.weights.is_empty() {
            true => localizer.message("report-band-none"),
            false => localizer.message(&format!("report-band-{}", class(cause.weight_dban))),
        },
        state: if is_verdict {
            Some(localizer.message("report-tech-is-verdict"))
        } else if cause.ruled_out {
            Some(localizer.message("report-tech-ruled-out"))
        } else {
            is_explained_away(cause).then(|| localizer.message("report-tech-explained-away"))
        },
        is_verdict,
        held_back: named("report-tech-missing", missing(cause, localizer))
            .into_iter()
            .chain(named("report-tech-blocked", blocked_by(cause, localizer)))
            .collect(),
        speaks_for: reasons(&|w| w >= 0.0),
        speaks_against: reasons(&|w| w < 0.0),
        would_change: cause
            .would_change
            .iter()
            .take(CHANGES)
            .map(|c| Change {
                weight: localizer.fixed(c.weight_dban, 1),
                reason: localizer.translate(&c.reason),
                effect: localizer.message(&format!("report-tech-would-{}", c.effect)),
            })
            .collect(),
    }
}

/// True if its weights do not count for it, because a narrower name for the same thing has them.
fn is_explained_away(cause: &RankedCause) -> bool {
    let sum: f64 = cause.weights.iter().map(|w| w.weight_dban).sum();
    (sum - cause.weight_dban).abs() > 0.05
}

/// Required observations that were not made, in the words of the sheet; alternatives of one reason once.
fn missing(cause: &RankedCause, localizer: &Localizer) -> Vec<String> {
    let mut reasons = Vec::new();
    for reason in cause.missing.iter().map(|m| localizer.translate(&m.reason)) {
        if !reasons.contains(&reason) {
            reasons.push(reason);
        }
    }
    reasons
}

/// Obstacles of an explanation; a missing recording by its subject.
fn blocked_by(cause: &RankedCause, localizer: &Localizer) -> Vec<String> {
    let blocks = cause.blocked_by.iter().map(|block| {
        let Some(roles) = block.strip_prefix("not-recorded:") else {
            return localizer.reason(&format!("reason-{block}"));
        };
        let roles: Vec<String> = roles
            .split('|')
            .map(|r| localizer.subject(Some(r)))
            .collect();
        let list = args([("list", roles.join(" / ").into())]);
        localizer.message_with("report-tech-not-recorded", &list)
    });
    blocks.collect()
}

/// Changes listed for one explanation, strongest first; the rest stand in case.json.
const CHANGES: usize = 3;

fn reason(w: &AppliedWeight, findings: &BTreeMap<&str, &Finding>, localizer: &Localizer) -> Reason {
    let finding = w
        .finding
        .as_deref()
        .and_then(|id| findings.get(id))
        .map(|f| {
            let value = f.value.map_or_else(
                || localizer.subject(f.subject.as_deref()),
                |v| localizer.measured(v, f.uncertainty, f.unit.as_deref()),
            );
            match &f.file {
                Some(file) => format!("{}, {file}: {value}", f.id),
                None => format!("{}: {value}", f.id),
            }
        });
    Reason {
        weight: localizer.fixed(w.weight_dban, 1),
        reason: localizer.translate(&w.reason),
        finding,
        source: localizer.translate(&w.source),
    }
}

/// The findings by recording, in the order in which they were found; those of the whole job last.
fn recordings(case: &Case, sources: &mut Vec<String>, localizer: &Localizer) -> Vec<Recording> {
    let mut files: Vec<Option<&str>> = Vec::new();
    for f in &case.findings {
        if !files.contains(&f.file.as_deref()) {
            files.push(f.file.as_deref());
        }
    }
    files.sort_by_key(Option::is_none);
    let is_on_code = |f: &&Finding| {
        f.file.is_none()
            && case
                .codes
                .iter()
                .any(|c| f.subject.as_ref() == Some(&c.code))
    };
    let on_codes = case.findings.iter().filter(is_on_code);
    let on_codes: BTreeSet<&str> = on_codes.map(|f| f.id.as_str()).collect();
    files
        .into_iter()
        .map(|file| Recording {
            title: file.map_or_else(|| localizer.message("report-tech-whole-job"), str::to_owned),
            rows: groups(case.findings.iter().filter(|f| f.file.as_deref() == file))
                .into_iter()
                .flat_map(|group| rows(&group, sources, localizer))
                .map(|mut row| {
                    // What is found on a trouble code stands beside the code.
                    if on_codes.contains(row.id.as_str()) {
                        row.text = None;
                    }
                    row
                })
                .collect(),
        })
        .collect()
}

/// Events of one kind from which on they stand in one row.
const MANY: usize = 3;

/// Findings that differ in time and value alone, together; in the order of the first of each.
fn groups<'f>(findings: impl Iterator<Item = &'f Finding>) -> Vec<Vec<&'f Finding>> {
    let is_equal = |a: &Finding, b: &Finding| {
        a.value.is_some()
            && (&a.kind, &a.subject, &a.message) == (&b.kind, &b.subject, &b.message)
            && (&a.unit, &a.limit, a.grade) == (&b.unit, &b.limit, b.grade)
    };
    let mut groups: Vec<Vec<&Finding>> = Vec::new();
    for f in findings {
        match groups.iter_mut().find(|g| is_equal(g[0], f)) {
            Some(group) => group.push(f),
            None => groups.push(vec![f]),
        }
    }
    groups
}

fn rows(group: &[&Finding], sources: &mut Vec<String>, localizer: &Localizer) -> Vec<Measurement> {
    let (Some(first), Some(last)) = (group.first(), group.last()) else {
        return Vec::new();
    };
    if group.len() < MANY {
        let each = group.iter();
        return each.map(|f| measurement(f, sources, localizer)).collect();
    }
    let values = || group.iter().filter_map(|f| f.value);
    let range = localizer.range(&Limit {
        low: Some(values().fold(f64::INFINITY, f64::min)),
        high: Some(values().fold(f64::NEG_INFINITY, f64::max)),
        unit: first.unit.clone().unwrap_or_default(),
        source: String::new(),
    });
    let a = args([
        ("count", number_arg(group.len() as f64)),
        ("range", range.unwrap_or_default().into()),
    ]);
    let all = Finding {
        observation: Observation {
            end_s: last.end_s.or(last.start_s),
            ..first.observation.clone()
        },
        ..(*first).clone()
    };
    let mut row = measurement(&all, sources, localizer);
    row.id = format!("{} … {}", first.id, last.id);
    row.figures.value = localizer.message_with("report-tech-group", &a);
    vec![row]
}

fn measurement(f: &Finding, sources: &mut Vec<String>, localizer: &Localizer) -> Measurement {
    Measurement {
        id: f.id.clone(),
        kind: localizer.kind(&f.kind),
        subject: localizer.subject(f.subject.as_deref()),
        text: f.value.is_none().then(|| localizer.finding(f)),
        time: match (f.start_s, f.end_s) {
            (Some(a), Some(b)) => format!("{} – {}", localizer.fixed(a, 3), localizer.fixed(b, 3)),
            (Some(a), None) => localizer.fixed(a, 3),
            _ => String::new(),
        },
        figures: figures(f, sources, localizer),
    }
}

/// Measuring method of each plugin that gave a finding, where the sentences know it.
fn methods(case: &Case, localizer: &Localizer) -> Vec<Method> {
    let used: BTreeSet<&str> = case.findings.iter().map(|f| f.plugin.as_str()).collect();
    case.plugins
        .iter()
        .filter(|p| used.contains(p.id.as_str()))
        .map(|p| Method {
            plugin: p.id.clone(),
            version: p.version.clone(),
            text: localizer.method(&p.id),
        })
        .collect()
}
