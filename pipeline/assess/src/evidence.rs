//! Rows of the cause sheets held against findings.

use crate::{JUDGEMENT_CAP_DB, changes};
use model::case::CaptureRecord;
use model::cause::AppliedWeight;
use model::sheets::{BlockerRow, CauseRow, CauseSheet, Pattern, WeightRow};
use model::{Finding, Grade, RankedCause};
use std::collections::BTreeMap;

/// The part of a job that is looked at.
pub struct View<'a> {
    pub findings: Vec<&'a Finding>,
    pub captures: Vec<&'a CaptureRecord>,
}

/// A blocker that applies, with the finding that it rests on.
pub struct Block<'a> {
    pub row: &'a BlockerRow,
    pub finding: &'a Finding,
}

fn one_of(wanted: &str, given: &str) -> bool {
    wanted.split('|').any(|w| w == given)
}

fn matches(p: &Pattern, f: &Finding) -> bool {
    one_of(&p.kind, &f.kind)
        && p.grade.is_none_or(|g| g == f.grade)
        && p.subject
            .as_ref()
            .is_none_or(|s| f.subject.as_ref().is_some_and(|x| one_of(s, x)))
        && p.message.as_ref().is_none_or(|m| one_of(m, &f.message))
}

impl<'a> View<'a> {
    fn matching(&self, p: &Pattern) -> Vec<&'a Finding> {
        let found: Vec<&Finding> = self
            .findings
            .iter()
            .copied()
            .filter(|f| matches(p, f))
            .collect();
        if found.len() < p.at_least.unwrap_or(1) {
            Vec::new()
        } else {
            found
        }
    }

    /// Whether a channel of one of these roles (alternatives with `|`) was recorded and is fit for use somewhere.
    pub fn sees(&self, roles: &str) -> bool {
        self.captures.iter().any(|c| {
            c.channels
                .iter()
                .filter_map(|ch| ch.role.as_deref())
                .any(|role| one_of(roles, role) && !self.unusable(&c.file, role))
        })
    }

    fn unusable(&self, file: &str, role: &str) -> bool {
        self.findings.iter().any(|f| {
            f.kind == "signal-quality"
                && f.grade == Grade::Unusable
                && f.message != "quality-teeth-unknown"
                && f.file.as_deref() == Some(file)
                && f.subject.as_deref().is_none_or(|s| s == role)
        })
    }
}

/// The blockers that apply.
pub fn blockers<'a>(view: &View<'a>, sheet: &'a CauseSheet) -> Vec<Block<'a>> {
    sheet
        .blockers
        .iter()
        .filter_map(|row| {
            view.matching(&row.when)
                .first()
                .map(|finding| Block { row, finding })
        })
        .collect()
}

impl Block<'_> {
    /// Whether this blocker holds a cause back.
    pub fn holds(&self, cause: &CauseRow) -> bool {
        match self.row.blocks.as_str() {
            _ if cause.residual => true,
            "all" => true,
            "role" => self
                .finding
                .subject
                .as_ref()
                .is_some_and(|s| cause.roles.iter().any(|r| one_of(r, s))),
            causes => one_of(causes, &cause.name),
        }
    }
}

/// One cause with all its weights.
pub fn weigh(cause: &CauseRow, view: &View<'_>, blocks: &[Block<'_>]) -> RankedCause {
    let applied: Vec<(&WeightRow, AppliedWeight)> = cause
        .rows
        .iter()
        .filter_map(|r| Some((r, apply(r, view)?)))
        .collect();
    let kept = strongest_of_each_group(&applied);
    let missing = missing(cause, &applied);
    let mut supporting = Vec::new();
    let mut against = Vec::new();
    for (row, weight) in &applied {
        // Every finding that a row rests on is named, also where a stronger row of the group counts.
        let ids = if row.absent {
            Vec::new()
        } else {
            view.matching(&row.when)
        };
        let list = if weight.weight_db >= 0.0 {
            &mut supporting
        } else {
            &mut against
        };
        for f in ids {
            if !list.contains(&f.id) {
                list.push(f.id.clone());
            }
        }
    }
    let mut blocked_by: Vec<String> = blocks
        .iter()
        .filter(|b| b.holds(cause))
        .map(|b| b.row.name.clone())
        .collect();
    for roles in &cause.roles {
        if !view.sees(roles) {
            blocked_by.push(format!("not-recorded:{roles}"));
        }
    }
    let weight_db: f64 = kept.iter().map(|w| w.weight_db).sum();
    RankedCause {
        cause: cause.name.clone(),
        weight_db,
        supporting,
        against,
        ruled_out: weight_db <= -crate::PROBABLE_DB,
        would_change: changes::of(cause, &applied, weight_db, missing.is_empty()),
        weights: kept,
        missing,
        blocked_by,
    }
}

fn apply(row: &WeightRow, view: &View<'_>) -> Option<AppliedWeight> {
    if row
        .unless
        .as_ref()
        .is_some_and(|p| !view.matching(p).is_empty())
    {
        return None;
    }
    let found = view.matching(&row.when);
    let finding = match row.absent {
        false => Some(found.first()?.id.clone()),
        true => {
            let seen_by = row.seen_by.as_deref()?;
            if !found.is_empty() || !view.sees(seen_by) {
                return None;
            }
            None
        }
    };
    Some(weight(row, finding))
}

/// A row's weight as it counts: judgement is capped.
pub(super) fn weight(row: &WeightRow, finding: Option<String>) -> AppliedWeight {
    let weight_db = if row.source.contains("judgement") {
        row.weight_db.clamp(-JUDGEMENT_CAP_DB, JUDGEMENT_CAP_DB)
    } else {
        row.weight_db
    };
    AppliedWeight {
        row: row.name.clone(),
        finding,
        weight_db,
        reason: row.reason.clone(),
        source: row.source.clone(),
    }
}

/// Rows of one group rest on the same observation: the one with the largest weight, either way, counts.
pub(super) fn strongest_of_each_group(
    applied: &[(&WeightRow, AppliedWeight)],
) -> Vec<AppliedWeight> {
    let mut kept: Vec<AppliedWeight> = Vec::new();
    let mut at: BTreeMap<&str, usize> = BTreeMap::new();
    for (row, weight) in applied {
        match row.group.as_deref().and_then(|g| at.get(g).copied()) {
            Some(i) if kept[i].weight_db.abs() >= weight.weight_db.abs() => {}
            Some(i) => kept[i] = weight.clone(),
            None => {
                if let Some(g) = row.group.as_deref() {
                    at.insert(g, kept.len());
                }
                kept.push(weight.clone());
            }
        }
    }
    kept
}

/// Required rows that did not apply. Required rows of one group are alternatives.
pub(super) fn missing(cause: &CauseRow, applied: &[(&WeightRow, AppliedWeight)]) -> Vec<String> {
    cause
        .rows
        .iter()
        .filter(|r| r.required)
        .filter(|r| {
            !applied.iter().any(|(a, _)| {
                a.name == r.name || (a.required && a.group.is_some() && a.group == r.group)
            })
        })
        .map(|r| r.name.clone())
        .collect()
}

/// A cause whose required rows are all there takes the evidence of the wider names that it includes: they are no
/// rivals of it.
pub fn explain_away(causes: &mut [RankedCause], sheet: &CauseSheet) {
    let taken: Vec<String> = sheet
        .causes
        .iter()
        .filter(|row| {
            causes.iter().any(|c| {
                c.cause == row.name && c.missing.is_empty() && c.weight_db >= crate::PROBABLE_DB
            })
        })
        .flat_map(|row| row.includes.iter().cloned())
        .collect();
    for c in causes.iter_mut().filter(|c| taken.contains(&c.cause)) {
        c.weight_db = c.weight_db.min(0.0);
    }
}
