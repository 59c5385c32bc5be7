//! From ranked causes to a conclusion, and to what would decide an open one.

use crate::evidence::{Block, View};
use crate::{ESTABLISHED_DB, MARGIN_DB, PROBABLE_DB};
use model::sheets::{CauseRow, CauseSheet};
use model::verdict::NextRecording;
use model::{Finding, Grade, RankedCause, Verdict, VerdictState};

/// A likelihood ratio of 3, where evidence begins to be worth more than a mention (Kass & Raftery 1995).
const POSITIVE_DB: f64 = 4.77;

/// Draws the conclusion. `causes` are sorted, heaviest first.
pub fn conclude(
    causes: &[RankedCause],
    view: &View<'_>,
    blocks: &[Block<'_>],
    sheet: &CauseSheet,
) -> Verdict {
    let row = |name: &str| sheet.causes.iter().find(|c| c.name == name);
    let Some((top, top_row)) = causes.first().and_then(|t| Some((t, row(&t.cause)?))) else {
        return open(view, blocks, None, vec!["reason-no-evidence".into()], sheet);
    };
    let margin = causes
        .iter()
        .filter(|c| rivals(top, c, sheet))
        .map(|c| top.weight_db - c.weight_db.max(0.0))
        .min_by(f64::total_cmp);
    if top.weight_db < PROBABLE_DB {
        return without_cause(view, blocks, top, top_row, sheet);
    }
    let mut reasons = Vec::new();
    if !top.blocked_by.is_empty() {
        reasons.extend(
            blocks
                .iter()
                .filter(|b| b.holds(top_row))
                .map(|b| b.row.reason.clone()),
        );
        if reasons.is_empty() {
            reasons.push("reason-required-missing".into());
        }
        return open(view, blocks, Some(top_row), reasons, sheet);
    }
    if !top.missing.is_empty() {
        reasons.push("reason-required-missing".into());
    }
    if top.weight_db < ESTABLISHED_DB {
        reasons.push("reason-weight-too-small".into());
    }
    if margin.is_some_and(|m| m < MARGIN_DB) {
        reasons.push("reason-margin-too-small".into());
    }
    let at_most = top_row.at_most.unwrap_or(VerdictState::Established);
    let state = match (reasons.is_empty(), at_most) {
        (true, VerdictState::Established) => VerdictState::Established,
        _ if margin.is_none_or(|m| m > 3.0) => VerdictState::Probable,
        _ => return open(view, blocks, Some(top_row), reasons, sheet),
    };
    if state == VerdictState::Established {
        reasons.push("reason-margin".into());
    }
    let second = |c: &&RankedCause| {
        c.cause != top.cause
            && c.weight_db >= ESTABLISHED_DB
            && c.missing.is_empty()
            && c.blocked_by.is_empty()
    };
    if causes.iter().any(|c| second(&c) && !rivals(top, c, sheet)) {
        reasons.push("reason-second-fault".into());
    }
    Verdict {
        state,
        cause: Some(top.cause.clone()),
        teardown: state == VerdictState::Established && top_row.teardown,
        next: if state == VerdictState::Established && !has_narrower(top_row, sheet) {
            Vec::new()
        } else {
            next(view, blocks, Some(top_row), sheet)
        },
        margin_db: margin,
        reasons,
        repair: None,
    }
}

/// Whether the sheet has narrower names for a cause: then even an established one leaves open which of them it is,
/// and the recording that would tell is named.
fn has_narrower(row: &CauseRow, sheet: &CauseSheet) -> bool {
    sheet.causes.iter().any(|c| c.includes.contains(&row.name))
}

/// Whether two causes are rival explanations: they rest on a common finding, and neither is a wider name for the
/// other. Two faults with evidence of their own may both be there.
fn rivals(top: &RankedCause, other: &RankedCause, sheet: &CauseSheet) -> bool {
    let includes = |a: &str, b: &str| {
        sheet
            .causes
            .iter()
            .any(|c| c.name == a && c.includes.iter().any(|i| i == b))
    };
    other.cause != top.cause
        && !includes(&top.cause, &other.cause)
        && !includes(&other.cause, &top.cause)
        && other.supporting.iter().any(|f| top.supporting.contains(f))
}

/// No cause has weight: nothing found, if the recordings could have shown something and did; else open.
fn without_cause(
    view: &View<'_>,
    blocks: &[Block<'_>],
    top: &RankedCause,
    top_row: &CauseRow,
    sheet: &CauseSheet,
) -> Verdict {
    let suspected = top.weight_db >= POSITIVE_DB && top.missing.is_empty();
    let mut reasons: Vec<String> = blocks
        .iter()
        .filter(|b| b.row.blocks != "residual")
        .map(|b| b.row.reason.clone())
        .collect();
    if view.captures.is_empty() {
        reasons.push("reason-nothing-read".into());
    } else if has_unknown_channel(view) {
        reasons.push("reason-roles-unsure".into());
    }
    let abnormal = view
        .findings
        .iter()
        .any(|f| f.grade == Grade::Abnormal && !f.kind.starts_with("code-"));
    if view.findings.iter().any(|f| at_its_limit(f)) {
        reasons.push("reason-at-limit".into());
    }
    if reasons.is_empty() && !abnormal && !suspected && saw_work(view) {
        return Verdict {
            state: VerdictState::NothingFound,
            cause: None,
            teardown: false,
            next: Vec::new(),
            margin_db: None,
            reasons: vec!["reason-healthy".into()],
            repair: None,
        };
    }
    if reasons.is_empty() {
        reasons.push("reason-no-evidence".into());
    }
    let lead = (suspected || abnormal).then_some(top_row);
    open(view, blocks, lead, reasons, sheet)
}

/// Whether a value lies so near its limit that, within its uncertainty (k = 2), it is neither good nor bad.
fn at_its_limit(f: &Finding) -> bool {
    let (Some(value), Some(u), Some(limit)) = (f.value, f.uncertainty, &f.limit) else {
        return false;
    };
    f.grade == Grade::Normal
        && [limit.low, limit.high]
            .iter()
            .flatten()
            .any(|l| (value - l).abs() < 2.0 * u)
}

/// Whether a channel's role is not known. What it would show is not known either.
fn has_unknown_channel(view: &View<'_>) -> bool {
    view.captures
        .iter()
        .any(|c| c.channels.iter().any(|ch| ch.role.is_none()))
}

/// Whether the gearbox was seen at work: an actuation, a held gear, or a shift. A recording of nothing shows
/// nothing.
fn saw_work(view: &View<'_>) -> bool {
    view.findings
        .iter()
        .any(|f| matches!(f.kind.as_str(), "actuation" | "gear-ratio" | "shift"))
}

fn open(
    view: &View<'_>,
    blocks: &[Block<'_>],
    lead: Option<&CauseRow>,
    mut reasons: Vec<String>,
    sheet: &CauseSheet,
) -> Verdict {
    if has_unknown_channel(view) && !reasons.iter().any(|r| r == "reason-roles-unsure") {
        reasons.push("reason-roles-unsure".into());
    }
    reasons.dedup();
    let mut steps = next(view, blocks, lead, sheet);
    let mut add = |step: &str| {
        if !steps.iter().any(|s| s.step == step) {
            steps.push(NextRecording {
                step: step.into(),
                text: String::new(),
            });
        }
    };
    if reasons.iter().any(|r| r == "reason-roles-unsure") {
        add("next-state-channels");
    }
    // What every such job rests on, where it is missing.
    if !view.captures.is_empty() && lead.is_none() && blocks.is_empty() {
        if !view.sees("supply-current") {
            add("next-record-supply-current");
        }
        if !view.sees("input-shaft-1") || !view.sees("input-shaft-2") {
            add("next-record-both-shafts");
        }
    }
    if steps.is_empty() {
        steps.push(NextRecording {
            step: "next-record-whole-relearn".into(),
            text: String::new(),
        });
    }
    Verdict {
        state: VerdictState::Open,
        cause: None,
        teardown: false,
        next: steps,
        margin_db: None,
        reasons,
        repair: None,
    }
}

/// What would decide: first what blocks, then what the leading cause still wants.
fn next(
    view: &View<'_>,
    blocks: &[Block<'_>],
    lead: Option<&CauseRow>,
    sheet: &CauseSheet,
) -> Vec<NextRecording> {
    let known = |step: &str| {
        let row = sheet.steps.iter().find(|s| s.name == step);
        row.is_some_and(|s| s.records.iter().all(|r| view.sees(r)))
    };
    let blocked = blocks
        .iter()
        .filter(|b| lead.is_none_or(|l| b.holds(l)))
        .flat_map(|b| b.row.next.iter());
    let wanted = lead.into_iter().flat_map(|l| l.next.iter());
    let mut steps: Vec<NextRecording> = Vec::new();
    // What blocks is recorded again, whatever it is; what a cause wants, only where it is new.
    for step in blocked.chain(wanted.filter(|s| !known(s))) {
        if !steps.iter().any(|s| s.step == *step) {
            steps.push(NextRecording {
                step: step.clone(),
                text: String::new(),
            });
        }
    }
    steps
}
