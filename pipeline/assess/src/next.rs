//! Recordings and statements to ask for next.

use crate::inhibit::Inhibition;
use crate::view::View;
use model::cause_sheet::{CauseEntry, CauseSheet};
use model::knowledge::System;
use model::verdict::{Coverage, NextRecording};

/// Steps that would decide: first what an inhibitor wants, then what the leading cause still wants.
pub fn steps(view: &View<'_>, lead: Option<&CauseEntry>, sheet: &CauseSheet) -> Vec<NextRecording> {
    let holds = |i: &&Inhibition<'_>| lead.is_none_or(|cause| i.holds(cause));
    let inhibitors = view.inhibitions.iter().filter(holds);
    let of_inhibitors = inhibitors.flat_map(|i| i.row.next.iter());
    // What inhibits is recorded again, whatever it is; what a cause wants, only where it is new.
    let of_lead = lead.into_iter().flat_map(|cause| cause.next.iter());
    let of_lead = of_lead.filter(|step| !is_done(step, view, sheet));
    let mut steps = Vec::new();
    for step in of_inhibitors.chain(of_lead) {
        add(&mut steps, step);
    }
    steps
}

/// Adds a step that is not named yet.
pub fn add(steps: &mut Vec<NextRecording>, step: &str) {
    if !steps.iter().any(|s| s.step == step) {
        steps.push(NextRecording::named(step));
    }
}

/// First step that would test a cause.
pub fn of_cause(cause: &CauseEntry, view: &View<'_>, sheet: &CauseSheet) -> Option<String> {
    let new = cause.next.iter().find(|s| !is_done(s, view, sheet));
    new.or(cause.next.first()).cloned()
}

/// Recordings that every job on the system rests on, where they are missing.
pub fn first_recordings<'s>(
    system: &'s System,
    view: &'s View<'_>,
) -> impl Iterator<Item = &'s str> {
    let first = system.sheet.first_recordings.iter();
    first
        .filter(|f| f.roles.iter().any(|roles| !view.is_usable(roles)))
        .map(|f| f.step.as_str())
}

/// Steps that would test what a health verdict lacks: those of the whole set that lacks least. Without a whole set, those
/// of every cause of which something was recorded.
pub fn for_health(system: &System, coverage: &Coverage, view: &View<'_>) -> Vec<NextRecording> {
    let lacking = |is_wanted: &dyn Fn(&str) -> bool| {
        let mut steps = Vec::new();
        for untested in &coverage.not_tested {
            if let Some(step) = &untested.next
                && is_wanted(&untested.cause)
            {
                add(&mut steps, step);
            }
        }
        steps
    };
    let whole = system.sheet.healthy.iter().filter(|set| !set.partial);
    let least = whole
        .map(|set| lacking(&|cause| set.tested.iter().any(|t| t == cause)))
        .min_by_key(Vec::len);
    let is_begun = |cause: &str| {
        let mut entries = system.causes.causes.iter().filter(|c| c.name == cause);
        entries.any(|c| c.roles.iter().any(|roles| view.is_recorded(roles)))
    };
    least.unwrap_or_else(|| lacking(&is_begun))
}

/// True where a step would only record or show again what is there.
fn is_done(step: &str, view: &View<'_>, sheet: &CauseSheet) -> bool {
    let entry = sheet.steps.iter().find(|s| s.name == step);
    entry.is_some_and(|s| {
        !s.records.is_empty() && s.records.iter().all(|roles| view.is_usable(roles))
            || s.shows.as_ref().is_some_and(|p| view.has_result(p))
    })
}
