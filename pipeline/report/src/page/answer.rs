//! The first page: what failed, how sure, what it is not, what to do, what it costs.

use super::advice;
use super::certainty::{Certainty, certainty};
use crate::localizer::{Caution, Localizer, args, number_arg};
use crate::{Audience, ReportInput};
use model::verdict::{NextRecording, NotTested};
use model::{Case, Finding, Grade, VerdictState};
use serde::Serialize;

/// Lines in a list of the first page; the rest stands in its own section.
const MOST_LINES: usize = 3;
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
    /// Cautions for the driver, before the key is turned.
    driver: Vec<Caution>,
    why_heading: String,
    why: Vec<String>,
    /// Certainty in words.
    sure: Option<String>,
    /// The same on the published scale, for the technician.
    certainty: Option<Certainty>,
    /// Abnormal observations where nothing is decided.
    known: Vec<String>,
    /// Explanations that are left, in one sentence.
    unknown: Vec<String>,
    /// Causes that were tested and cleared, in one sentence.
    cleared: Option<String>,
    /// Causes that no recording has tested, in one sentence.
    untested: Option<String>,
    /// Says that checks did not run.
    not_run: Option<String>,
    /// Verdicts on the other systems that were examined.
    others: Vec<String>,
    todo: Vec<String>,
    next: Vec<String>,
    next_more: Option<String>,
}

/// Builds the first page's answer.
pub(super) fn answer(input: &ReportInput<'_>, audience: Audience) -> Answer {
    let (case, localizer) = (input.case, input.theme.localizer());
    let kind = Kind::of(case);
    let cause = case.verdict.cause.as_deref();
    let next = next(case, audience, localizer);
    let weighed = matches!(kind, Kind::Established | Kind::Probable | Kind::Open);
    let is_open = kind == Kind::Open;
    let on_fault = case.verdict.repair.is_none();
    Answer {
        tone: kind.tone(),
        state: localizer.message(kind.state()),
        heading: localizer.message(kind.heading()),
        headline: match (kind.headline(), cause) {
            (Some(key), _) => localizer.message(key),
            (None, Some(cause)) => localizer.cause_title(cause),
            (None, None) => localizer.message("report-answer-open"),
        },
        plain: plain(kind, cause, localizer),
        driver: driver(input, kind),
        why_heading: localizer.message(if is_open {
            "report-why-open"
        } else {
            "report-why"
        }),
        why: why(case, kind, localizer),
        sure: kind.sure().map(|key| localizer.message(key)),
        certainty: weighed.then(|| certainty(case, localizer)).flatten(),
        known: if is_open {
            known(case, localizer)
        } else {
            Vec::new()
        },
        unknown: if is_open {
            unknown(case, localizer)
        } else {
            Vec::new()
        },
        cleared: on_fault.then(|| cleared(case, localizer)).flatten(),
        untested: on_fault
            .then(|| untested_in_short(case, localizer))
            .flatten(),
        not_run: not_run(case, localizer),
        others: others(case, localizer),
        todo: todo(input, kind, !next.is_empty()),
        next_more: more(next.len(), MOST_STEPS, "report-next-more", localizer),
        next: next.into_iter().take(MOST_STEPS).collect(),
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

    fn sure(self) -> Option<&'static str> {
        match self {
            Kind::Established => Some("report-sure-established"),
            Kind::Probable => Some("report-sure-probable"),
            _ => None,
        }
    }

    /// True where a fault is known or suspected.
    fn is_fault(self) -> bool {
        matches!(
            self,
            Kind::Established | Kind::Probable | Kind::Open | Kind::NotMended
        )
    }

    fn heading(self) -> &'static str {
        match self {
            Kind::Established | Kind::Probable => "report-answer",
            Kind::Open | Kind::NothingFoundInPart | Kind::NothingFound => "report-answer-finding",
            Kind::Mended | Kind::NotMended => "report-answer-repair",
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

/// Safety messages for the driver, worst first. Where no sheet has one, a fault still asks for care.
fn driver(input: &ReportInput<'_>, kind: Kind) -> Vec<Caution> {
    let localizer = input.theme.localizer();
    let mut cautions: Vec<Caution> = input.driver.iter().map(|k| localizer.caution(k)).collect();
    if cautions.is_empty() && kind.is_fault() {
        cautions.push(localizer.caution("driver-ask"));
    }
    cautions.sort_by_key(|c| c.level);
    cautions
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

/// Why: the weightiest measurements for the cause, else the verdict's own reasons.
fn why(case: &Case, kind: Kind, localizer: &Localizer) -> Vec<String> {
    let is_measured = |f: &&Finding| {
        case.captures
            .iter()
            .any(|c| f.file.as_ref() == Some(&c.file))
    };
    let mut lines: Vec<String> = match kind {
        Kind::Established | Kind::Probable => advice::supporting(case)
            .into_iter()
            .filter(is_measured)
            .map(|f| localizer.finding_plain(f))
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
    // What the headline says already adds nothing.
    let said = plain(kind, case.verdict.cause.as_deref(), localizer);
    lines.retain(|line| !said.contains(line));
    lines.truncate(MOST_LINES);
    lines
}

/// Recordings to make next, in words that those who read the report need; what sounds alike for them once.
fn next(case: &Case, audience: Audience, localizer: &Localizer) -> Vec<String> {
    let said = |n: &NextRecording| match audience {
        Audience::Customer => localizer.next_plain(&n.step),
        Audience::Technician => localizer.next(&n.step),
    };
    let mut steps: Vec<String> = Vec::new();
    for step in case.verdict.next.iter().map(said) {
        if !steps.contains(&step) {
            steps.push(step);
        }
    }
    steps
}

/// All of what to record next, where the first page shows only its beginning.
pub(super) fn next_in_full(case: &Case, audience: Audience, localizer: &Localizer) -> Vec<String> {
    let steps = next(case, audience, localizer);
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
            lines.push(localizer.finding_plain(f));
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
    listed("report-unknown-causes", left, localizer)
        .into_iter()
        .collect()
}

/// Names of causes in a sentence that takes their `list`; `None` without any.
fn listed(key: &str, names: Vec<String>, localizer: &Localizer) -> Option<String> {
    let list = args([("list", names.join("; ").into())]);
    (!names.is_empty()).then(|| localizer.message_with(key, &list))
}

fn cleared(case: &Case, localizer: &Localizer) -> Option<String> {
    let names = case.causes().iter().filter(|c| c.ruled_out);
    let names = names.map(|c| localizer.cause_ruled_out(&c.cause)).collect();
    listed("report-cleared", names, localizer)
}

/// Causes that no recording has tested, with the reason; nothing once there is a recording after the repair, which may
/// have shown what those before it did not.
pub(super) fn untested(case: &Case, localizer: &Localizer) -> Vec<String> {
    let on_fault = case.verdict.repair.is_none();
    not_tested(case)
        .filter(|_| on_fault)
        .map(|n| {
            let a = args([
                ("cause", localizer.cause_ruled_out(&n.cause).into()),
                ("reason", localizer.why(&n.why).into()),
            ]);
            localizer.message_with("report-not-because", &a)
        })
        .collect()
}

fn not_tested(case: &Case) -> impl Iterator<Item = &NotTested> {
    let coverage = case.lead().map(|s| s.coverage.not_tested.as_slice());
    let verdict = case.verdict.cause.as_deref();
    let others = coverage.unwrap_or_default().iter();
    others.filter(move |n| verdict != Some(n.cause.as_str()))
}

fn untested_in_short(case: &Case, localizer: &Localizer) -> Option<String> {
    let names = not_tested(case).map(|n| localizer.cause_ruled_out(&n.cause));
    listed("report-untested", names.collect(), localizer)
}

fn not_run(case: &Case, localizer: &Localizer) -> Option<String> {
    let count = number_arg(case.not_run.len() as f64);
    (!case.not_run.is_empty())
        .then(|| localizer.message_with("report-not-run", &args([("count", count)])))
}

/// Verdicts on the systems that do not lead, those that are cleared first before the others: "Starter: no fault found".
fn others(case: &Case, localizer: &Localizer) -> Vec<String> {
    let lead = case.verdict.system.as_deref();
    let others = case.systems.iter().filter(|s| lead != Some(&s.system));
    let mut others: Vec<_> = others.collect();
    others.sort_by_key(|s| !case.verdict.clear_first.contains(&s.system));
    others
        .into_iter()
        .map(|s| {
            let state = match s.verdict.state {
                VerdictState::NothingFound if !s.verdict.next.is_empty() => {
                    localizer.message("state-nothing-found-in-part")
                }
                state => localizer.message(&format!("state-{state}")),
            };
            let cause = s.verdict.cause.as_deref();
            let cause = cause.map(|c| format!(": {}", localizer.cause_title(c)));
            let name = localizer.system(&s.system);
            format!("{name}: {state}{}", cause.unwrap_or_default())
        })
        .collect()
}

fn todo(input: &ReportInput<'_>, kind: Kind, has_next: bool) -> Vec<String> {
    let localizer = input.theme.localizer();
    match kind {
        // The steps of the work stand in their own table.
        Kind::Established => Vec::new(),
        Kind::Probable | Kind::Open if has_next => Vec::new(),
        Kind::Probable | Kind::Open | Kind::NotMended | Kind::NothingFoundInPart => {
            vec![localizer.message("report-do-not-open")]
        }
        Kind::NothingFound => vec![
            localizer.message("report-do-nothing"),
            localizer.message("report-next-nothing"),
        ],
        Kind::Mended => vec![
            localizer.message("report-do-nothing"),
            localizer.message("report-do-drive-again"),
        ],
    }
}

impl Answer {
    /// Running text of the answer.
    pub(super) fn prose(&self) -> impl Iterator<Item = &String> {
        let driver = self.driver.iter().map(|c| &c.text);
        (self.plain.iter().chain(driver))
            .chain(self.known.iter().chain(&self.why).chain(&self.sure))
            .chain(self.unknown.iter().chain(&self.not_run))
            .chain(self.todo.iter().chain(&self.next))
    }
}
