//! From ranked causes to a conclusion.

use crate::view::View;

use crate::{ESTABLISHED_DBAN, MARGIN_DBAN, PROBABLE_DBAN, next};
use model::cause_sheet::{CauseEntry, CauseSheet, Pattern};
use model::knowledge::System;
use model::system::HealthySet;
use model::{Coverage, Finding, Grade, RankedCause, Verdict, VerdictState};

/// A likelihood ratio of 3, where evidence begins to be worth more than a mention (Kass & Raftery 1995).
const POSITIVE_DBAN: f64 = 4.77;

/// A likelihood ratio of 2: nearer than this two causes fit the recording about equally well.
const TIE_DBAN: f64 = 3.0;

/// Draws the conclusion. `causes` are ranked.
pub fn conclude(
    causes: &[RankedCause],
    coverage: &Coverage,
    view: &View<'_>,
    system: &System,
) -> Verdict {
    let sheet = &system.causes;
    let entry = |name: &str| sheet.causes.iter().find(|c| c.name == name);
    let top = causes
        .first()
        .and_then(|top| Some((top, entry(&top.cause)?)));
    match top {
        Some((top, entry)) if top.weight_dban >= PROBABLE_DBAN => {
            with_cause(top, entry, causes, coverage, view, system)
        }
        top => without_cause(top, causes, coverage, view, system),
    }
}

/// One cause has weight: established, probable, or open where something holds it back.
fn with_cause(
    top: &RankedCause,
    entry: &CauseEntry,
    causes: &[RankedCause],
    coverage: &Coverage,
    view: &View<'_>,
    system: &System,
) -> Verdict {
    let sheet = &system.causes;
    let mut reasons: Vec<String> = Vec::new();
    let held_by = view.inhibitions.iter().filter(|i| i.holds(entry));
    reasons.extend(held_by.map(|i| i.row.reason.clone()));
    if needs_missing_check(entry, view) {
        reasons.push("reason-check-did-not-run".into());
    }
    // A fallback stands where nothing else may be the cause, so it waits for what else is suspected.
    let suspect = suspect_not_tested(&causes[1..], coverage, system).filter(|_| entry.fallback);
    if reasons.is_empty() && suspect.is_some() {
        let reasons = vec!["reason-suspect-not-tested".into()];
        return open(view, suspect, reasons, system);
    }
    if reasons.is_empty() && !top.blocked_by.is_empty() {
        reasons.push("reason-required-missing".into());
    }
    if !reasons.is_empty() {
        return open(view, Some(entry), reasons, system);
    }
    let margin = causes
        .iter()
        .filter(|c| rivals(top, c, sheet))
        .map(|c| top.weight_dban - c.weight_dban.max(0.0))
        .min_by(f64::total_cmp);
    if !top.missing.is_empty() {
        reasons.push("reason-required-missing".into());
    }
    if top.weight_dban < ESTABLISHED_DBAN {
        reasons.push("reason-weight-too-small".into());
    } else if top.missing.is_empty() && calibrated_weight(entry, view) < ESTABLISHED_DBAN {
        reasons.push("reason-not-calibrated".into());
    }
    if margin.is_some_and(|m| m < MARGIN_DBAN) {
        reasons.push("reason-margin-too-small".into());
    }
    let max_state = entry.max_state.unwrap_or(VerdictState::Established);
    let state = match (reasons.is_empty(), max_state) {
        (true, VerdictState::Established) => VerdictState::Established,
        _ if margin.is_none_or(|m| m > TIE_DBAN) => VerdictState::Probable,
        _ => return open(view, Some(entry), reasons, system),
    };
    let established = state == VerdictState::Established;
    if established {
        reasons.push("reason-margin".into());
    }
    let is_second = |c: &&RankedCause| {
        c.cause != top.cause
            && c.weight_dban >= ESTABLISHED_DBAN
            && c.missing.is_empty()
            && c.blocked_by.is_empty()
            && !rivals(top, c, sheet)
    };
    if causes.iter().any(|c| is_second(&c)) {
        reasons.push("reason-second-fault".into());
    }
    Verdict {
        system: None,
        state,
        cause: Some(top.cause.clone()),
        // A library that is not built in opens no unit.
        teardown: established && entry.teardown && !entry.foreign,
        next: match established && !has_narrower(entry, sheet) {
            true => Vec::new(),
            false => next::steps(view, Some(entry), sheet),
        },
        margin_dban: margin,
        reasons,
        clear_first: Vec::new(),
        repair: None,
    }
}

/// True where a check that did not run would have given a required row, or one that speaks against the cause.
fn needs_missing_check(entry: &CauseEntry, view: &View<'_>) -> bool {
    entry.rows.iter().any(|row| {
        let applies = !row.negated && !view.matching(&row.when).is_empty();
        (row.required || row.weight_dban < 0.0) && !applies && view.lacks_check_for(&row.when)
    })
}

/// Weight that a cause has without the findings that rest on numbers of uncalibrated channels.
fn calibrated_weight(entry: &CauseEntry, view: &View<'_>) -> f64 {
    let calibrated = View::new(
        (view.findings.iter().copied())
            .filter(|f| view.is_calibrated(f))
            .collect(),
        view.captures.clone(),
        view.not_run().collect(),
        // Inhibitors were held against all findings already.
        &NO_SHEET,
    );
    let weighed = crate::weigh::weigh(entry, &calibrated);
    match weighed.missing.is_empty() {
        true => weighed.weight_dban,
        false => 0.0,
    }
}

static NO_SHEET: CauseSheet = CauseSheet {
    system: String::new(),
    causes: Vec::new(),
    inhibitors: Vec::new(),
    external: Vec::new(),
    steps: Vec::new(),
};

/// True where the sheet has narrower names for a cause: then even an established one leaves open which of them it is,
/// and the recording that would tell is named.
fn has_narrower(entry: &CauseEntry, sheet: &CauseSheet) -> bool {
    let mut causes = sheet.causes.iter();
    causes.any(|c| c.specializes.contains(&entry.name))
}

/// True for rival explanations: they rest on a common finding, and neither is a wider name for the other. Two faults
/// with evidence of their own may both be there.
fn rivals(top: &RankedCause, other: &RankedCause, sheet: &CauseSheet) -> bool {
    let specializes = |a: &str, b: &str| {
        let mut causes = sheet.causes.iter();
        causes.any(|c| c.name == a && c.specializes.iter().any(|wider| wider == b))
    };
    other.cause != top.cause
        && !specializes(&top.cause, &other.cause)
        && !specializes(&other.cause, &top.cause)
        && other.supporting.iter().any(|f| top.supporting.contains(f))
}

/// No cause has weight: nothing found, where everything that a health verdict rests on was tested; else open.
fn without_cause(
    top: Option<(&RankedCause, &CauseEntry)>,
    causes: &[RankedCause],
    coverage: &Coverage,
    view: &View<'_>,
    system: &System,
) -> Verdict {
    let inhibitions = view.inhibitions.iter().filter(|i| i.holds_healthy());
    let mut reasons: Vec<String> = inhibitions.map(|i| i.row.reason.clone()).collect();
    if view.captures.is_empty() {
        reasons.push("reason-nothing-read".into());
    } else if view.has_unknown_channel() {
        reasons.push("reason-roles-unsure".into());
    }
    if view.findings.iter().any(|f| is_at_limit(f)) {
        reasons.push("reason-at-limit".into());
    }
    if lacks_any_check(view, system) {
        reasons.push("reason-check-did-not-run".into());
    }
    let untested = suspect_not_tested(causes, coverage, system);
    if untested.is_some() {
        reasons.push("reason-suspect-not-tested".into());
    }
    // What belongs to no recording is what a control unit says, not a measurement.
    let is_abnormal = |f: &&Finding| f.grade == Grade::Abnormal && f.file.is_some();
    let abnormal = view.findings.iter().copied().any(|f| is_abnormal(&f));
    let suspect = top.filter(|(c, _)| c.weight_dban >= POSITIVE_DBAN && c.missing.is_empty());
    let was_examined = system
        .sheet
        .examined
        .iter()
        .any(|p| !view.matching(p).is_empty());
    let is_clean = reasons.is_empty() && !abnormal && suspect.is_none() && was_examined;
    let sets = &system.sheet.healthy;
    let is_done = |set: &&HealthySet| set.tested.iter().all(|c| coverage.tested.contains(c));
    let done = sets.iter().find(is_done);
    if is_clean && (done.is_some() || sets.is_empty()) {
        let partial = done.is_some_and(|set| set.partial);
        return Verdict {
            state: VerdictState::NothingFound,
            ..match partial {
                true => Verdict::open(
                    vec!["reason-healthy-in-part".into()],
                    next::for_health(system, coverage, view),
                ),
                false => Verdict::open(vec!["reason-healthy".into()], Vec::new()),
            }
        };
    }
    if is_clean {
        let verdict = open(view, None, vec!["reason-not-all-tested".into()], system);
        return match next::for_health(system, coverage, view) {
            steps if steps.is_empty() => verdict,
            steps => Verdict {
                next: steps,
                ..verdict
            },
        };
    }
    if reasons.is_empty() {
        reasons.push("reason-no-evidence".into());
    }
    let lead = top
        .filter(|_| suspect.is_some() || abnormal)
        .map(|(_, entry)| entry);
    open(view, lead.or(untested), reasons, system)
}

/// Cause that something speaks for, a code mostly, and that no recording could have shown.
fn suspect_not_tested<'s>(
    causes: &[RankedCause],
    coverage: &Coverage,
    system: &'s System,
) -> Option<&'s CauseEntry> {
    let is_tested = |c: &RankedCause| coverage.tested.contains(&c.cause);
    let suspect = causes
        .iter()
        .find(|c| c.weight_dban >= POSITIVE_DBAN && !is_tested(c))?;
    let mut entries = system.causes.causes.iter();
    entries.find(|e| e.name == suspect.cause)
}

/// True where a check that did not run would have given findings that a cause of the system rests on.
fn lacks_any_check(view: &View<'_>, system: &System) -> bool {
    let patterns = system.causes.causes.iter().flat_map(|c| {
        let rows = c.rows.iter().map(|row| &row.when);
        rows.chain(&c.tested_by)
    });
    let inhibitors = system.causes.inhibitors.iter().map(|i| &i.when);
    let mut all = patterns.chain(inhibitors);
    all.any(|p: &Pattern| view.lacks_check_for(p))
}

/// True where a value lies so near its limit that, within its uncertainty (k = 2), it is neither good nor bad.
fn is_at_limit(f: &Finding) -> bool {
    let (Some(value), Some(u), Some(limit)) = (f.value, f.uncertainty, &f.limit) else {
        return false;
    };
    let mut limits = [limit.low, limit.high].into_iter().flatten();
    f.grade == Grade::Normal && limits.any(|l| (value - l).abs() < 2.0 * u)
}

fn open(
    view: &View<'_>,
    lead: Option<&CauseEntry>,
    mut reasons: Vec<String>,
    system: &System,
) -> Verdict {
    if view.has_unknown_channel() && !reasons.iter().any(|r| r == "reason-roles-unsure") {
        reasons.push("reason-roles-unsure".into());
    }
    reasons.dedup();
    let mut steps = next::steps(view, lead, &system.causes);
    if reasons.iter().any(|r| r == "reason-roles-unsure") {
        next::add(&mut steps, "next-state-channels");
    }
    if reasons.iter().any(|r| r == "reason-check-did-not-run") {
        next::add(&mut steps, "next-run-checks-again");
    }
    if lead.is_none() && view.inhibitions.is_empty() {
        for step in next::first_recordings(system, view) {
            next::add(&mut steps, step);
        }
    }
    if steps.is_empty() {
        // Everything was recorded: the same again, from before the complaint shows until after it.
        let last = system.sheet.first_recordings.last();
        let step = last.map_or("next-record-again", |f| f.step.as_str());
        next::add(&mut steps, step);
    }
    Verdict::open(reasons, steps)
}
