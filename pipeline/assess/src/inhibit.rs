//! Inhibitors: what holds a verdict open, whatever the weights say.

use crate::view::matching;
use model::Finding;
use model::cause_sheet::{CauseEntry, CauseSheet, Inhibitor, one_of};

/// An inhibitor that applies, with the findings that it rests on.
pub struct Inhibition<'a> {
    pub row: &'a Inhibitor,
    pub findings: Vec<&'a Finding>,
}

/// Inhibitors that apply.
pub fn inhibitions<'a>(findings: &[&'a Finding], sheet: &'a CauseSheet) -> Vec<Inhibition<'a>> {
    let applied = sheet.inhibitors.iter().map(|row| Inhibition {
        row,
        findings: matching(findings, &row.when),
    });
    applied.filter(|i| !i.findings.is_empty()).collect()
}

impl Inhibition<'_> {
    /// True where it holds a cause back.
    pub fn holds(&self, cause: &CauseEntry) -> bool {
        match self.row.blocks.as_str() {
            _ if cause.fallback => true,
            "all" => true,
            "role" => self.findings.iter().any(|f| {
                let subject = f.subject.as_ref();
                subject.is_some_and(|s| cause.roles.iter().any(|r| one_of(r, s)))
            }),
            causes => one_of(causes, &cause.name),
        }
    }

    /// True where a health verdict is held open.
    pub fn holds_healthy(&self) -> bool {
        self.row.blocks != "fallback"
    }

    /// True where it makes a channel of this file and role unfit for use.
    pub fn spoils(&self, file: &str, role: &str) -> bool {
        matches!(self.row.blocks.as_str(), "all" | "role")
            && self.findings.iter().any(|f| {
                f.file.as_deref() == Some(file) && f.subject.as_deref().is_none_or(|s| s == role)
            })
    }
}
