//! Coverage: which causes the recordings could have shown. A part is cleared only by a test that it could have failed.

use crate::next;
use crate::view::View;
use model::Grade;
use model::cause_sheet::{CauseEntry, CauseSheet, Pattern};
use model::verdict::{Coverage, NotTested};

/// Causes that were tested and causes that were not, in the order of the sheet.
pub fn coverage(view: &View<'_>, sheet: &CauseSheet) -> Coverage {
    let mut coverage = Coverage::default();
    // What is left when nothing else is found is tested by everything else.
    let examined = sheet.causes.iter().filter(|c| view.may_have(c));
    for cause in examined.filter(|c| !c.fallback) {
        if is_tested(cause, view) {
            coverage.tested.push(cause.name.clone());
        } else {
            coverage.not_tested.push(NotTested {
                cause: cause.name.clone(),
                why: why(cause, view).into(),
                next: next::of_cause(cause, view, sheet),
            });
        }
    }
    coverage
}

/// True where a finding was made that would have shown the cause. A cause that names no test is tested by any of its
/// rows.
pub fn is_tested(cause: &CauseEntry, view: &View<'_>) -> bool {
    match cause.tested_by.as_slice() {
        [] => cause.rows.iter().any(|row| view.has_result(&row.when)),
        tests => tests.iter().any(|pattern| view.has_result(pattern)),
    }
}

/// Reason why a cause was not tested.
fn why<'c>(cause: &'c CauseEntry, view: &View<'_>) -> &'c str {
    let tests: Vec<&Pattern> = match cause.tested_by.as_slice() {
        [] => cause.rows.iter().map(|row| &row.when).collect(),
        tests => tests.iter().collect(),
    };
    let graded = |grade| {
        let of_grade = |p: &&Pattern| {
            let pattern = Pattern {
                grade: Some(grade),
                message: None,
                ..(*p).clone()
            };
            view.findings.iter().any(|f| pattern.matches(f))
        };
        tests.iter().any(of_grade)
    };
    let roles = || cause.roles.iter();
    if tests.iter().any(|p| view.lacks_check_for(p)) {
        "check-did-not-run"
    } else if view.captures.is_empty() || roles().any(|r| !view.is_recorded(r)) {
        "not-recorded"
    } else if roles().any(|r| !view.is_usable(r)) {
        "recording-not-fit"
    } else if graded(Grade::Unreadable) {
        "not-readable"
    } else if graded(Grade::NotTested) || cause.untested.is_none() {
        "not-shown-in-any-recording"
    } else {
        cause.untested.as_deref().unwrap_or_default()
    }
}
