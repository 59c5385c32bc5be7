//! A finding's numbers as they are printed: value, limit, source, grade.

use crate::localizer::Localizer;
use model::{Finding, Grade};
use serde::Serialize;

/// A finding's numbers.
#[derive(Serialize)]
pub(super) struct Figures {
    pub(super) value: String,
    limit: String,
    /// A number of the list of sources, from 1.
    source: Option<usize>,
    grade: String,
    abnormal: bool,
}

/// Puts a finding's numbers into words; the source of its limit is added to `sources` where it is new.
pub(super) fn figures(f: &Finding, sources: &mut Vec<String>, localizer: &Localizer) -> Figures {
    // A limit of another quantity than the value's stands in the finding's sentence.
    let is_of_value = |l: &&model::Limit| f.unit.as_ref().is_none_or(|unit| *unit == l.unit);
    let limit = f.limit.as_ref().filter(is_of_value);
    Figures {
        value: f.value.map_or_else(String::new, |v| {
            localizer.measured(v, f.uncertainty, f.unit.as_deref())
        }),
        limit: limit.and_then(|l| localizer.range(l)).unwrap_or_default(),
        source: limit.map(|l| numbered(&localizer.translate(&l.source), sources)),
        grade: localizer.grade(f.grade),
        abnormal: f.grade == Grade::Abnormal,
    }
}

/// The number of a source, from 1; one that is new is added.
fn numbered(source: &str, sources: &mut Vec<String>) -> usize {
    let at = sources.iter().position(|s| s == source);
    at.unwrap_or_else(|| {
        sources.push(source.to_owned());
        sources.len() - 1
    }) + 1
}
