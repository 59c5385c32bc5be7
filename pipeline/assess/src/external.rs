//! Causes of other systems that explain findings of this one: they are cleared first.

use crate::next;
use crate::weigh::capped;
use crate::{OtherVerdict, PROBABLE_DBAN};
use model::cause::AppliedWeight;
use model::cause_sheet::{CauseSheet, ExternalCause, one_of};
use model::{RankedCause, Verdict, VerdictState};

/// External causes of the sheet that other systems' verdicts name.
pub fn named<'a>(sheet: &'a CauseSheet, others: &[OtherVerdict<'_>]) -> Vec<&'a ExternalCause> {
    let is_named = |external: &&ExternalCause| {
        others.iter().any(|other| {
            let state = other.verdict.state;
            let called = matches!(state, VerdictState::Established | VerdictState::Probable);
            let cause = other.verdict.cause.as_deref();
            called
                && other.system == external.system
                && cause.is_some_and(|c| one_of(&external.causes, c))
        })
    };
    sheet.external.iter().filter(is_named).collect()
}

/// Lowers the weight of causes whose evidence they explain as well.
pub fn weigh(causes: &mut [RankedCause], external: &[&ExternalCause]) {
    for cause in causes.iter_mut().filter(|c| c.weight_dban > 0.0) {
        let explaining = external
            .iter()
            .filter(|e| one_of(&e.explains, &cause.cause));
        // Of several only the strongest counts: they may rest on one thing.
        let Some(strongest) = explaining.min_by(|a, b| a.weight_dban.total_cmp(&b.weight_dban))
        else {
            continue;
        };
        let weight = AppliedWeight {
            row: strongest.name.clone(),
            finding: None,
            weight_dban: capped(strongest.weight_dban, &strongest.source, false),
            reason: strongest.reason.clone(),
            source: strongest.source.clone(),
        };
        cause.weight_dban += weight.weight_dban;
        cause.ruled_out = cause.ruled_out && cause.weight_dban <= -PROBABLE_DBAN;
        cause.weights.push(weight);
    }
}

/// Puts what is cleared first before the other steps, where it explains the leading cause.
pub fn clear_first(verdict: &mut Verdict, causes: &[RankedCause], external: &[&ExternalCause]) {
    let named = verdict.cause.as_ref();
    let lead = causes.iter().find(|c| named.is_none_or(|n| c.cause == *n));
    let weights = lead.into_iter().flat_map(|c| &c.weights);
    let explaining = weights.filter_map(|w| external.iter().find(|e| e.name == w.row));
    let mut steps = Vec::new();
    for external in explaining {
        next::add(&mut steps, &external.next);
        if !verdict.clear_first.contains(&external.system) {
            verdict.clear_first.push(external.system.clone());
        }
    }
    if steps.is_empty() {
        return;
    }
    verdict.reasons.push("reason-explained-elsewhere".into());
    for step in std::mem::take(&mut verdict.next) {
        next::add(&mut steps, &step.step);
    }
    verdict.next = steps;
}
