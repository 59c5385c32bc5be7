//! The first page: what failed, how sure, what it is not, what to do, what it costs.

use super::sure::{Sure, sure};
use super::{Fact, advice};
use crate::ReportInput;
use crate::words::{Words, args, number_arg};
use model::verdict::NextRecording;
use model::{Case, Finding, Grade, VerdictState};
use serde::Serialize;

/// Lines in a list of the first page; the rest stands in its own section.
const MOST_LINES: usize = 4;
const MOST_STEPS: usize = 3;

/// The answer.
#[derive(Serialize)]
pub(super) struct Answer {
    /// `fault`, `open` or `good`: which look it gets.
    mood: &'static str,
    /// "Established"
    state: String,
    /// "What failed"
    heading: String,
    headline: String,
    plain: Vec<String>,
    why_heading: String,
    why: Vec<String>,
    sure: Option<Sure>,
    known: Vec<String>,
    unknown: Vec<String>,
    not: Vec<String>,
    /// What no recording has tested.
    untested: Vec<String>,
    todo: Vec<String>,
    next: Vec<String>,
    next_more: Option<String>,
    cost: Vec<Fact>,
}

/// Builds the first page's answer.
pub(super) fn answer(input: &ReportInput<'_>) -> Answer {
    let (case, words) = (input.case, input.stationery.words());
    let kind = Kind::of(case);
    let cause = case.verdict.cause.as_deref();
    let next = next(case, words);
    let weighed = matches!(kind, Kind::Established | Kind::Probable | Kind::Open);
    Answer {
        mood: kind.mood(),
        state: words.say(kind.state()),
        heading: words.say(if case.verdict.repair.is_some() {
            "report-answer-repair"
        } else {
            "report-answer"
        }),
        headline: match (kind.headline(), cause) {
            (Some(key), _) => words.say(key),
            (None, Some(cause)) => words.cause_title(cause),
            (None, None) => words.say("report-answer-open"),
        },
        plain: plain(kind, cause, words),
        why_heading: words.say(if kind == Kind::Open {
            "report-why-open"
        } else {
            "report-why"
        }),
        why: why(case, kind, words),
        sure: if weighed { sure(case, words) } else { None },
        known: if kind == Kind::Open {
            known(case, words)
        } else {
            Vec::new()
        },
        unknown: if kind == Kind::Open {
            unknown(case, words)
        } else {
            Vec::new()
        },
        not: if case.verdict.repair.is_none() {
            not(case, words)
        } else {
            Vec::new()
        },
        untested: if case.verdict.repair.is_none() {
            untested(case, words)
        } else {
            Vec::new()
        },
        todo: todo(input, kind, !next.is_empty()),
        next_more: more(next.len(), MOST_STEPS, "report-next-more", words),
        next: next.into_iter().take(MOST_STEPS).collect(),
        cost: cost(input),
    }
}

/// The kinds of first page.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Established,
    Probable,
    Open,
    NothingFoundInPart,
    NothingFound,
    Mended,
    NotMended,
}

impl Kind {
    fn of(case: &Case) -> Kind {
        match (&case.verdict.repair, case.verdict.state) {
            (Some(repair), _) if repair.proven => Kind::Mended,
            (Some(_), _) => Kind::NotMended,
            (None, VerdictState::Established) => Kind::Established,
            (None, VerdictState::Probable) => Kind::Probable,
            (None, VerdictState::Open) => Kind::Open,
            // Steps are left that would test the rest.
            (None, VerdictState::NothingFound) if !case.verdict.next.is_empty() => {
                Kind::NothingFoundInPart
            }
            (None, VerdictState::NothingFound) => Kind::NothingFound,
        }
    }

    fn mood(self) -> &'static str {
        match self {
            Kind::Established | Kind::NotMended => "fault",
            Kind::Probable | Kind::Open | Kind::NothingFoundInPart => "open",
            Kind::NothingFound | Kind::Mended => "good",
        }
    }

    fn state(self) -> &'static str {
        match self {
            Kind::Established => "state-established",
            Kind::Probable => "state-probable",
            Kind::Open => "state-open",
            Kind::NothingFoundInPart => "state-nothing-found-in-part",
            Kind::NothingFound => "state-nothing-found",
            Kind::Mended => "state-mended",
            Kind::NotMended => "state-not-mended",
        }
    }

    fn headline(self) -> Option<&'static str> {
        match self {
            Kind::Established | Kind::Probable => None,
            Kind::Open => Some("report-answer-open"),
            Kind::NothingFoundInPart => Some("report-answer-nothing-in-part"),
            Kind::NothingFound => Some("report-answer-nothing"),
            Kind::Mended => Some("report-answer-mended"),
            Kind::NotMended => Some("report-answer-not-mended"),
        }
    }
}

fn plain(kind: Kind, cause: Option<&str>, words: &Words) -> Vec<String> {
    let of_cause = cause.and_then(|c| words.cause_plain(c));
    let own = match kind {
        Kind::Established => None,
        Kind::Probable => Some("report-probable-plain"),
        Kind::Open => Some("report-answer-open-plain"),
        Kind::NothingFoundInPart => Some("report-answer-nothing-in-part-plain"),
        Kind::NothingFound => Some("report-answer-nothing-plain"),
        Kind::Mended => Some("report-answer-mended-plain"),
        Kind::NotMended => Some("report-answer-not-mended-plain"),
    };
    let own = own.map(|key| words.say(key));
    match kind {
        // The verdict of a repair may still name the cause found before it.
        Kind::Mended | Kind::NotMended => own.into_iter().collect(),
        _ => of_cause.into_iter().chain(own).collect(),
    }
}

/// Why: the weightiest findings for the cause, else the verdict's own reasons.
fn why(case: &Case, kind: Kind, words: &Words) -> Vec<String> {
    let mut lines: Vec<String> = match kind {
        Kind::Established | Kind::Probable => advice::supporting(case)
            .into_iter()
            .map(|f| words.finding(f))
            .collect(),
        _ => Vec::new(),
    };
    lines.dedup();
    // A report on the repair says nothing of how the cause before it was found.
    let on_repair = |r: &&String| case.verdict.repair.is_none() || r.starts_with("reason-repair");
    let reasons: Vec<&String> = case.verdict.reasons.iter().filter(on_repair).collect();
    if kind != Kind::Established {
        lines.truncate(MOST_LINES.saturating_sub(reasons.len()).max(MOST_LINES / 2));
        lines.extend(reasons.iter().map(|r| words.reason(r)));
    }
    lines.truncate(MOST_LINES);
    lines
}

/// What to record next, in words.
fn next(case: &Case, words: &Words) -> Vec<String> {
    let said = |n: &NextRecording| {
        if n.text.is_empty() {
            words.next(&n.step)
        } else {
            n.text.clone()
        }
    };
    case.verdict.next.iter().map(said).collect()
}

/// All of what to record next, where the first page shows only its beginning.
pub(super) fn next_in_full(case: &Case, words: &Words) -> Vec<String> {
    let steps = next(case, words);
    if steps.len() > MOST_STEPS {
        steps
    } else {
        Vec::new()
    }
}

/// How many lines of a list are left out; `None` when it is shown whole.
fn more(all: usize, shown: usize, key: &str, words: &Words) -> Option<String> {
    let more = all.checked_sub(shown).filter(|&n| n > 0)?;
    Some(words.say_with(key, &args([("count", number_arg(more as f64))])))
}

/// What is known though nothing is decided: what was seen to be wrong, each thing once.
fn known(case: &Case, words: &Words) -> Vec<String> {
    let mut seen: Vec<(&str, Option<&str>)> = Vec::new();
    let abnormal = |f: &&Finding| f.grade == Grade::Abnormal;
    let mut lines = Vec::new();
    for f in case.findings.iter().filter(abnormal) {
        let what = (f.kind.as_str(), f.subject.as_deref());
        if !seen.contains(&what) && lines.len() < MOST_STEPS {
            seen.push(what);
            lines.push(words.finding(f));
        }
    }
    lines
}

/// The explanations that are left.
fn unknown(case: &Case, words: &Words) -> Vec<String> {
    let left: Vec<String> = case
        .causes()
        .iter()
        .filter(|c| !c.ruled_out && c.weight_dban > 0.0)
        .take(MOST_LINES)
        .map(|c| words.cause_title(&c.cause))
        .collect();
    if left.is_empty() {
        return Vec::new();
    }
    vec![words.say_with(
        "report-unknown-causes",
        &args([("list", left.join("; ").into())]),
    )]
}

fn not(case: &Case, words: &Words) -> Vec<String> {
    let ruled_out = case.causes().iter().filter(|c| c.ruled_out);
    let lines: Vec<String> = ruled_out.map(|c| advice::ruled_out_by(c, words)).collect();
    let more = more(lines.len(), MOST_LINES, "report-not-more", words);
    lines.into_iter().take(MOST_LINES).chain(more).collect()
}

/// What no recording has tested, with the reason.
fn untested(case: &Case, words: &Words) -> Vec<String> {
    let coverage = case.lead().map(|s| s.coverage.not_tested.as_slice());
    let verdict = case.verdict.cause.as_deref();
    let lines: Vec<String> = coverage
        .unwrap_or_default()
        .iter()
        .filter(|n| verdict != Some(n.cause.as_str()))
        .map(|n| {
            let a = args([
                ("cause", words.cause_ruled_out(&n.cause).into()),
                ("reason", words.why(&n.why).into()),
            ]);
            words.say_with("report-not-because", &a)
        })
        .collect();
    let more = more(lines.len(), MOST_LINES, "report-not-tested-more", words);
    lines.into_iter().take(MOST_LINES).chain(more).collect()
}

fn todo(input: &ReportInput<'_>, kind: Kind, has_next: bool) -> Vec<String> {
    let (case, words) = (input.case, input.stationery.words());
    match kind {
        Kind::Established if case.verdict.teardown => {
            let section = words.say("report-authorise-teardown");
            let open = words.say_with("report-do-teardown", &args([("section", section.into())]));
            let proof = input.advice.and_then(|a| a.proof.as_ref()).map(|key| {
                words.say_with("report-do-proof", &args([("proof", words.say(key).into())]))
            });
            std::iter::once(open).chain(proof).collect()
        }
        Kind::Established => input
            .advice
            .map(|a| {
                a.repair
                    .iter()
                    .take(MOST_LINES)
                    .map(|k| words.say(k))
                    .collect()
            })
            .unwrap_or_default(),
        Kind::Probable | Kind::Open if has_next => Vec::new(),
        Kind::Probable | Kind::Open | Kind::NotMended => vec![words.say("report-do-not-open")],
        Kind::NothingFoundInPart => vec![words.say("report-do-not-open")],
        Kind::NothingFound => vec![
            words.say("report-do-nothing"),
            words.say("report-next-nothing"),
        ],
        Kind::Mended => vec![words.say("report-do-nothing")],
    }
}

/// What is done, what is estimated, and, where something is left to be recorded, what that costs.
fn cost(input: &ReportInput<'_>) -> Vec<Fact> {
    let words = input.stationery.words();
    let mut facts = Vec::new();
    if let Some(totals) = input.totals {
        for (key, sum) in [
            ("report-cost-done", &totals.done),
            ("report-cost-authorised", &totals.authorised),
            ("report-cost-estimate", &totals.offered),
        ] {
            if sum.gross.is_zero() {
                continue;
            }
            facts.push(Fact {
                label: if sum.tax.is_zero() {
                    words.say(key)
                } else {
                    format!("{}, {}", words.say(key), words.say("report-with-tax"))
                },
                value: words.money(sum.gross, &totals.currency),
            });
        }
    }
    if !input.case.verdict.next.is_empty()
        && let Some(totals) = input.totals
        && let Some(rate) = totals.diagnosis_rate
    {
        let rate = words.money(rate, &totals.currency);
        facts.push(Fact {
            label: words.say("report-cost-next"),
            value: words.say_with("report-cost-next-rate", &args([("rate", rate.into())])),
        });
    }
    facts
}
