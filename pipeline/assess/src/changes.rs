//! Observations that would change what is said of a cause: every one of its sheet that was not made, tried one by one.

use crate::weigh::{missing, strongest_of_each_group, weight};
use crate::{ESTABLISHED_DBAN, PROBABLE_DBAN};
use model::cause::{AppliedWeight, Change, Effect};
use model::cause_sheet::{CauseEntry, WeightRow};

/// Tries each row that does not apply. Within a group only the strongest counts, so a row that a stronger one of its
/// group outweighs changes nothing, and a new observation that contradicts the group's present one stands in for it:
/// the better recording is believed.
pub fn changes(
    cause: &CauseEntry,
    applied: &[(&WeightRow, AppliedWeight)],
    weight_dban: f64,
    complete: bool,
) -> Vec<Change> {
    let now = level(weight_dban, complete);
    let mut changes: Vec<Change> = cause
        .rows
        .iter()
        .filter(|row| !applied.iter().any(|(a, _)| a.name == row.name))
        .filter_map(|row| {
            let with = with_row(row, cause, applied);
            let total: f64 = strongest_of_each_group(&with)
                .iter()
                .map(|w| w.weight_dban)
                .sum();
            let then = level(total, missing(cause, &with).is_empty());
            (then != now).then(|| Change {
                row: row.name.clone(),
                effect: then,
                weight_dban: total,
                reason: row.reason.clone(),
            })
        })
        .collect();
    changes.sort_by(|a, b| {
        let by = |c: &Change| (c.weight_dban - weight_dban).abs();
        by(b).total_cmp(&by(a)).then_with(|| a.row.cmp(&b.row))
    });
    changes
}

/// Rows that apply and one more, which replaces rows of its group that say the opposite.
fn with_row<'a>(
    row: &'a WeightRow,
    cause: &CauseEntry,
    applied: &[(&'a WeightRow, AppliedWeight)],
) -> Vec<(&'a WeightRow, AppliedWeight)> {
    let contradicts = |other: &WeightRow| {
        row.group.is_some()
            && row.group == other.group
            && (row.weight_dban > 0.0) != (other.weight_dban > 0.0)
    };
    let mut with: Vec<_> = applied
        .iter()
        .filter(|(other, _)| !contradicts(other))
        .cloned()
        .collect();
    with.push((row, weight(row, cause, None)));
    with
}

/// State that a weight carries by itself. Without its required observations a cause is not named.
fn level(weight_dban: f64, complete: bool) -> Effect {
    match weight_dban {
        w if w <= -PROBABLE_DBAN => Effect::RuleOut,
        w if w >= ESTABLISHED_DBAN && complete => Effect::Establish,
        w if w >= PROBABLE_DBAN => Effect::MakeProbable,
        _ => Effect::Weaken,
    }
}
