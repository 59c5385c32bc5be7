//! What would change the weight of a cause: every observation of its sheet that was not made, tried one by one.

use crate::evidence::{missing, strongest_of_each_group, weight};
use crate::{ESTABLISHED_DB, PROBABLE_DB};
use model::cause::{AppliedWeight, Change, Effect};
use model::sheets::{CauseRow, WeightRow};

/// Tries each row that does not apply. Within a group only the strongest counts, so a row that a stronger one of its
/// group outweighs changes nothing, and a new observation that contradicts the group's present one stands in for it:
/// the better recording is believed.
pub fn of(
    cause: &CauseRow,
    applied: &[(&WeightRow, AppliedWeight)],
    weight_db: f64,
    complete: bool,
) -> Vec<Change> {
    let now = level(weight_db, complete);
    let mut changes: Vec<Change> = cause
        .rows
        .iter()
        .filter(|row| !applied.iter().any(|(a, _)| a.name == row.name))
        .filter_map(|row| {
            let with = with(row, applied);
            let total: f64 = strongest_of_each_group(&with)
                .iter()
                .map(|w| w.weight_db)
                .sum();
            let then = level(total, missing(cause, &with).is_empty());
            (then != now).then(|| Change {
                row: row.name.clone(),
                effect: then,
                weight_db: total,
                reason: row.reason.clone(),
            })
        })
        .collect();
    changes.sort_by(|a, b| {
        let by = |c: &Change| (c.weight_db - weight_db).abs();
        by(b).total_cmp(&by(a)).then_with(|| a.row.cmp(&b.row))
    });
    changes
}

/// What applies, with one row more: it replaces rows of its group that say the opposite.
fn with<'a>(
    row: &'a WeightRow,
    applied: &[(&'a WeightRow, AppliedWeight)],
) -> Vec<(&'a WeightRow, AppliedWeight)> {
    let contradicts = |other: &WeightRow| {
        row.group.is_some()
            && row.group == other.group
            && (row.weight_db > 0.0) != (other.weight_db > 0.0)
    };
    let mut with: Vec<_> = applied
        .iter()
        .filter(|(other, _)| !contradicts(other))
        .cloned()
        .collect();
    with.push((row, weight(row, None)));
    with
}

/// How far a weight carries by itself. Without its required observations a cause is not named.
fn level(weight_db: f64, complete: bool) -> Effect {
    match weight_db {
        w if w <= -PROBABLE_DB => Effect::RuleOut,
        w if w >= ESTABLISHED_DB && complete => Effect::Establish,
        w if w >= PROBABLE_DB => Effect::MakeProbable,
        _ => Effect::Weaken,
    }
}
