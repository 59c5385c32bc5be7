//! Rows of the cause sheets held against findings.

use crate::view::View;
use crate::{ESTABLISHED_DBAN, JUDGEMENT_CAP_DBAN, PROBABLE_DBAN, changes, coverage};
use model::RankedCause;
use model::cause::{AppliedWeight, MissingRow};
use model::cause_sheet::{CauseEntry, CauseSheet, WeightRow};
use std::collections::BTreeMap;

/// One cause with all its weights.
pub fn weigh(cause: &CauseEntry, view: &View<'_>) -> RankedCause {
    let applied: Vec<(&WeightRow, AppliedWeight)> = cause
        .rows
        .iter()
        .filter_map(|row| Some((row, apply(row, cause, view)?)))
        .collect();
    let kept = strongest_of_each_group(&applied);
    let missing = missing(cause, &applied);
    let mut supporting = Vec::new();
    let mut against = Vec::new();
    for (row, weight) in &applied {
        // Every finding that a row rests on is named, also where a stronger row of the group counts.
        let ids = match row.negated {
            true => Vec::new(),
            false => view.matching(&row.when),
        };
        let list = match weight.weight_dban >= 0.0 {
            true => &mut supporting,
            false => &mut against,
        };
        for f in ids {
            if !list.contains(&f.id) {
                list.push(f.id.clone());
            }
        }
    }
    let held_by = view.inhibitions.iter().filter(|i| i.holds(cause));
    let unfit = cause.roles.iter().filter(|roles| !view.is_usable(roles));
    let blocked_by: Vec<String> = held_by
        .map(|i| i.row.name.clone())
        .chain(unfit.map(|roles| format!("not-recorded:{roles}")))
        .collect();
    let weight_dban: f64 = kept.iter().map(|w| w.weight_dban).sum();
    RankedCause {
        cause: cause.name.clone(),
        weight_dban,
        supporting,
        against,
        // A part is cleared only by a test that it could have failed, and not while something else leaves it open.
        ruled_out: weight_dban <= -PROBABLE_DBAN
            && blocked_by.is_empty()
            && coverage::is_tested(cause, view),
        would_change: changes::changes(cause, &applied, weight_dban, missing.is_empty()),
        weights: kept,
        missing,
        blocked_by,
    }
}

fn apply(row: &WeightRow, cause: &CauseEntry, view: &View<'_>) -> Option<AppliedWeight> {
    let applies_beside = |p| view.matching(p).is_empty();
    if !row.unless.as_ref().is_none_or(applies_beside) {
        return None;
    }
    let found = view.matching(&row.when);
    let finding = match row.negated {
        false => Some(found.first()?.id.clone()),
        true => {
            let (observable_on, alive) = (row.observable_on.as_deref()?, row.alive.as_ref()?);
            let would_be_seen = view.is_usable(observable_on)
                && !view.matching(alive).is_empty()
                && !view.lacks_check_for(&row.when);
            (found.is_empty() && would_be_seen).then_some(None)?
        }
    };
    Some(weight(row, cause, finding))
}

/// A row's weight as it counts: judgement is capped, and so is whatever a library claims that is not built in.
pub fn weight(row: &WeightRow, cause: &CauseEntry, finding: Option<String>) -> AppliedWeight {
    AppliedWeight {
        row: row.name.clone(),
        finding,
        weight_dban: capped(row.weight_dban, &row.source, cause.foreign),
        reason: row.reason.clone(),
        source: row.source.clone(),
    }
}

/// A weight as it counts, by its source and whether its cause comes from a library that is not built in.
pub fn capped(weight_dban: f64, source: &str, foreign: bool) -> f64 {
    match foreign || source.contains("judgement") {
        true => weight_dban.clamp(-JUDGEMENT_CAP_DBAN, JUDGEMENT_CAP_DBAN),
        false => weight_dban,
    }
}

/// Rows of one group rest on the same observation: the one with the largest weight, either way, counts.
pub fn strongest_of_each_group(applied: &[(&WeightRow, AppliedWeight)]) -> Vec<AppliedWeight> {
    let mut kept: Vec<AppliedWeight> = Vec::new();
    let mut at: BTreeMap<&str, usize> = BTreeMap::new();
    for (row, weight) in applied {
        match row.group.as_deref().and_then(|g| at.get(g).copied()) {
            Some(i) if kept[i].weight_dban.abs() >= weight.weight_dban.abs() => {}
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

/// Required rows that do not apply. Required rows of one group are alternatives.
pub fn missing(cause: &CauseEntry, applied: &[(&WeightRow, AppliedWeight)]) -> Vec<MissingRow> {
    let is_met = |row: &WeightRow| {
        applied.iter().any(|(a, _)| {
            a.name == row.name || (a.required && a.group.is_some() && a.group == row.group)
        })
    };
    let required = cause.rows.iter().filter(|row| row.required);
    required
        .filter(|row| !is_met(row))
        .map(|row| MissingRow {
            row: row.name.clone(),
            reason: row.reason.clone(),
        })
        .collect()
}

/// A cause whose required rows all apply inherits the evidence of the causes it specializes; those are not rivals.
pub fn explain_away(causes: &mut [RankedCause], sheet: &CauseSheet) {
    let is_called = |entry: &&CauseEntry| {
        causes.iter().any(|c| {
            c.cause == entry.name && c.missing.is_empty() && c.weight_dban >= PROBABLE_DBAN
        })
    };
    let called = sheet.causes.iter().filter(is_called);
    let wider: Vec<String> = called.flat_map(|e| e.specializes.iter().cloned()).collect();
    for c in causes.iter_mut().filter(|c| wider.contains(&c.cause)) {
        c.weight_dban = c.weight_dban.min(0.0);
    }
}

/// Sorts by weight. A fallback stands behind every cause that may be called by evidence of its own.
pub fn rank(causes: &mut [RankedCause], sheet: &CauseSheet) {
    let is_fallback = |c: &RankedCause| {
        let mut entries = sheet.causes.iter();
        c.weight_dban < ESTABLISHED_DBAN && entries.any(|e| e.name == c.cause && e.fallback)
    };
    let is_called =
        |c: &RankedCause| !is_fallback(c) && c.weight_dban >= PROBABLE_DBAN && c.missing.is_empty();
    causes.sort_by(|a, b| {
        is_called(b)
            .cmp(&is_called(a))
            .then_with(|| b.weight_dban.total_cmp(&a.weight_dban))
            .then_with(|| a.cause.cmp(&b.cause))
    });
}
