//! The first page: what failed, how sure, what it is not, what to do, what it costs.

use super::certainty::{Certainty, certainty};
use super::{Fact, advice};
use crate::ReportInput;
use crate::localizer::{Localizer, args, number_arg};
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
    tone: &'static str,
    /// "Established"
    state: String,
    /// "What failed"
    heading: String,
    headline: String,
    plain: Vec<String>,
    why_heading: String,
    why: Vec<String>,
    certainty: Option<Certainty>,
    known: Vec<String>,
    unknown: Vec<String>,
    not: Vec<String>,
    /// Causes that no recording has tested.
    untested: Vec<String>,
    /// Says that checks did not run.
    not_run: Option<String>,
    /// Verdicts on the other systems that were examined.
    others: Vec<String>,
    todo: Vec<String>,
    next: Vec<String>,
    next_more: Option<String>,
    cost: Vec<Fact>,
}

/// Builds the first page's answer.
pub(super) fn answer(input: &ReportInput<'_>) -> Answer {
    let (case, localizer) = (input.case, input.theme.localizer());
    let kind = Kind::of(case);
    let cause = case.verdict.cause.as_deref();
    let next = next(case, localizer);
    let weighed = matches!(kind, Kind::Established | Kind::Probable | Kind::Open);
    Answer {
        tone: kind.tone(),
        state: localizer.message(kind.state()),
        heading: localizer.message(if case.verdict.repair.is_some() {
            "report-answer-repair"
        } else {
            "report-answer"
        }),
        headline: match (kind.headline(), cause) {
            (Some(key), _) => localizer.message(key),
            (None, Some(cause)) => localizer.cause_title(cause),
            (None, None) => localizer.message("report-answer-open"),
        },
        plain: plain(kind, cause, localizer),
        why_heading: localizer.message(if kind == Kind::Open {
            "report-why-open"
        } else {
            "report-why"
        }),
        why: why(case, kind, localizer),
        certainty: if weighed {
            certainty(case, localizer)
        } else {
            None
        },
        known: if kind == Kind::Open {
            known(case, localizer)
        } else {
            Vec::new()
        },
        unknown: if kind == Kind::Open {
            unknown(case, localizer)
        } else {
            Vec::new()
        },
        not: if case.verdict.repair.is_none() {
            not(case, localizer)
        } else {
            Vec::new()
        },
        untested: if case.verdict.repair.is_none() {
            some_untested(case, localizer)
        } else {
            Vec::new()
        },
        not_run: not_run(case, localizer),
        others: others(case, localizer),
        todo: todo(input, kind, !next.is_empty()),
        next_more: more(next.len(), MOST_STEPS, "report-next-more", localizer),
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

    fn tone(self) -> &'static str {
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

fn plain(kind: Kind, cause: Option<&str>, localizer: &Localizer) -> Vec<String> {
    let of_cause = cause.and_then(|c| localizer.cause_plain(c));
    let own = match kind {
        Kind::Established => None,
        Kind::Probable => Some("report-probable-plain"),
        Kind::Open => Some("report-answer-open-plain"),
        Kind::NothingFoundInPart => Some("report-answer-nothing-in-part-plain"),
        Kind::NothingFound => Some("report-answer-nothing-plain"),
        Kind::Mended => Some("report-answer-mended-plain"),
        Kind::NotMended => Some("report-answer-not-mended-plain"),
    };
    let own = own.map(|key| localizer.message(key));
    match kind {
        // The verdict of a repair may still name the cause found before it.
        Kind::Mended | Kind::NotMended => own.into_iter().collect(),
        _ => of_cause.into_iter().chain(own).collect(),
    }
}

/// Why: the weightiest findings for the cause, else the verdict's own reasons.
fn why(case: &Case, kind: Kind, localizer: &Localizer) -> Vec<String> {
    let mut lines: Vec<String> = match kind {
        Kind::Established | Kind::Probable => advice::supporting(case)
            .into_iter()
            .map(|f| localizer.finding(f))
            .collect(),
        _ => Vec::new(),
    };
    lines.dedup();
    // A report on the repair says nothing of how the cause before it was found.
    let on_repair = |r: &&String| case.verdict.repair.is_none() || r.starts_with("reason-repair");
    let reasons: Vec<&String> = case.verdict.reasons.iter().filter(on_repair).collect();
    if kind != Kind::Established {
        lines.truncate(MOST_LINES.saturating_sub(reasons.len()).max(MOST_LINES / 2));
        lines.extend(reasons.iter().map(|r| localizer.reason(r)));
    }
    lines.truncate(MOST_LINES);
    lines
}

/// Recordings to make next, in words.
fn next(case: &Case, localizer: &Localizer) -> Vec<String> {
    let said = |n: &NextRecording| {
        if n.text.is_empty() {
            localizer.next(&n.step)
        } else {
            n.text.clone()
        }
    };
    case.verdict.next.iter().map(said).collect()
}

/// All of what to record next, where the first page shows only its beginning.
pub(super) fn next_in_full(case: &Case, localizer: &Localizer) -> Vec<String> {
    let steps = next(case, localizer);
    if steps.len() > MOST_STEPS {
        steps
    } else {
        Vec::new()
    }
}

/// Number of lines that are left out; `None` when the list is shown whole.
fn more(all: usize, shown: usize, key: &str, localizer: &Localizer) -> Option<String> {
    let more = all.checked_sub(shown).filter(|&n| n > 0)?;
    Some(localizer.message_with(key, &args([("count", number_arg(more as f64))])))
}

/// Abnormal observations where nothing is decided, each once.
fn known(case: &Case, localizer: &Localizer) -> Vec<String> {
    let mut seen: Vec<(&str, Option<&str>)> = Vec::new();
    let abnormal = |f: &&Finding| f.grade == Grade::Abnormal;
    let mut lines = Vec::new();
    for f in case.findings.iter().filter(abnormal) {
        let what = (f.kind.as_str(), f.subject.as_deref());
        if !seen.contains(&what) && lines.len() < MOST_STEPS {
            seen.push(what);
            lines.push(localizer.finding(f));
        }
    }
    lines
}

/// The explanations that are left.
fn unknown(case: &Case, localizer: &Localizer) -> Vec<String> {
    let left: Vec<String> = case
        .causes()
        .iter()
        .filter(|c| !c.ruled_out && c.weight_dban > 0.0)
        .take(MOST_LINES)
        .map(|c| localizer.cause_title(&c.cause))
        .collect();
    if left.is_empty() {
        return Vec::new();
    }
    vec![localizer.message_with(
        "report-unknown-causes",
        &args([("list", left.join("; ").into())]),
    )]
}

fn not(case: &Case, localizer: &Localizer) -> Vec<String> {
    let ruled_out = case.causes().iter().filter(|c| c.ruled_out);
    let lines: Vec<String> = ruled_out
        .map(|c| advice::ruled_out_by(c, localizer))
        .collect();
    let more = more(lines.len(), MOST_LINES, "report-not-more", localizer);
    lines.into_iter().take(MOST_LINES).chain(more).collect()
}

/// Causes that no recording has tested, with the reason.
pub(super) fn untested(case: &Case, localizer: &Localizer) -> Vec<String> {
    let coverage = case.lead().map(|s| s.coverage.not_tested.as_slice());
    let verdict = case.verdict.cause.as_deref();
    coverage
        .unwrap_or_default()
        .iter()
        .filter(|n| verdict != Some(n.cause.as_str()))
        .map(|n| {
            let a = args([
                ("cause", localizer.cause_ruled_out(&n.cause).into()),
                ("reason", localizer.why(&n.why).into()),
            ]);
            localizer.message_with("report-not-because", &a)
        })
        .collect()
}

/// As many of them as the first page has room for.
fn some_untested(case: &Case, localizer: &Localizer) -> Vec<String> {
    let lines = untested(case, localizer);
    let more = more(lines.len(), MOST_LINES, "report-not-tested-more", localizer);
    lines.into_iter().take(MOST_LINES).chain(more).collect()
}

fn not_run(case: &Case, localizer: &Localizer) -> Option<String> {
    let count = number_arg(case.not_run.len() as f64);
    (!case.not_run.is_empty())
        .then(|| localizer.message_with("report-not-run", &args([("count", count)])))
}

/// Verdicts on the systems that do not lead: "Starter: no fault found".
fn others(case: &Case, localizer: &Localizer) -> Vec<String> {
    let lead = case.verdict.system.as_deref();
    let others = case.systems.iter().filter(|s| lead != Some(&s.system));
    others
        .map(|s| {
            let state = localizer.message(match s.verdict.state {
                VerdictState::Established => "state-established",
                VerdictState::Probable => "state-probable",
                VerdictState::Open => "state-open",
                VerdictState::NothingFound if s.verdict.next.is_empty() => "state-nothing-found",
                VerdictState::NothingFound => "state-nothing-found-in-part",
            });
            let cause = s.verdict.cause.as_deref();
            let cause = cause.map(|c| format!(": {}", localizer.cause_title(c)));
            let name = localizer.system(&s.system);
            format!("{name}: {state}{}", cause.unwrap_or_default())
        })
        .collect()
}

fn todo(input: &ReportInput<'_>, kind: Kind, has_next: bool) -> Vec<String> {
    let (case, localizer) = (input.case, input.theme.localizer());
    match kind {
        Kind::Established if case.verdict.teardown => {
            let section = localizer.message("report-authorise-teardown");
            let open =
                localizer.message_with("report-do-teardown", &args([("section", section.into())]));
            let proof = input.advice.and_then(|a| a.proof.as_ref()).map(|key| {
                localizer.message_with(
                    "report-do-proof",
                    &args([("proof", localizer.message(key).into())]),
                )
            });
            std::iter::once(open).chain(proof).collect()
        }
        Kind::Established => input
            .advice
            .map(|a| {
                a.repair
                    .iter()
                    .take(MOST_LINES)
                    .map(|k| localizer.message(k))
                    .collect()
            })
            .unwrap_or_default(),
        Kind::Probable | Kind::Open if has_next => Vec::new(),
        Kind::Probable | Kind::Open | Kind::NotMended => {
            vec![localizer.message("report-do-not-open")]
        }
        Kind::NothingFoundInPart => vec![localizer.message("report-do-not-open")],
        Kind::NothingFound => vec![
            localizer.message("report-do-nothing"),
            localizer.message("report-next-nothing"),
        ],
        Kind::Mended => vec![localizer.message("report-do-nothing")],
    }
}

/// Work done, its estimate and, where something is left to be recorded, the cost of that.
fn cost(input: &ReportInput<'_>) -> Vec<Fact> {
    let localizer = input.theme.localizer();
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
                    localizer.message(key)
                } else {
                    format!(
                        "{}, {}",
                        localizer.message(key),
                        localizer.message("report-with-tax")
                    )
                },
                value: localizer.money(sum.gross, &totals.currency),
            });
        }
    }
    if !input.case.verdict.next.is_empty()
        && let Some(totals) = input.totals
        && let Some(rate) = totals.diagnosis_rate
    {
        let rate = localizer.money(rate, &totals.currency);
        facts.push(Fact {
            label: localizer.message("report-cost-next"),
            value: localizer.message_with("report-cost-next-rate", &args([("rate", rate.into())])),
        });
    }
    facts
}
