//! The safety messages.

use super::advice::mended;
use crate::ReportInput;
use crate::localizer::Caution;

/// Safety messages of a report, worst first. A repair that is proven leaves nothing to be done.
pub(crate) fn cautions(input: &ReportInput<'_>) -> Vec<Caution> {
    if mended(input.case) {
        return Vec::new();
    }
    let localizer = input.theme.localizer();
    let mut cautions: Vec<Caution> = input
        .cautions
        .iter()
        .map(|k| localizer.caution(k))
        .collect();
    cautions.sort_by_key(|c| c.level);
    cautions
}
