//! The part of a job that is looked at, and what in it is fit for use.

use crate::inhibit::{Inhibition, inhibitions};
use model::Finding;
use model::case::{CaptureRecord, ChannelRecord, NotRun};
use model::cause_sheet::{CauseEntry, CauseSheet, Pattern, one_of};

/// The part of a job that is looked at.
pub struct View<'a> {
    pub findings: Vec<&'a Finding>,
    pub captures: Vec<&'a CaptureRecord>,
    not_run: Vec<&'a NotRun>,
    /// Inhibitors that apply.
    pub inhibitions: Vec<Inhibition<'a>>,
}

impl<'a> View<'a> {
    pub fn new(
        findings: Vec<&'a Finding>,
        captures: Vec<&'a CaptureRecord>,
        not_run: Vec<&'a NotRun>,
        sheet: &'a CauseSheet,
    ) -> View<'a> {
        View {
            inhibitions: inhibitions(&findings, sheet),
            findings,
            captures,
            not_run,
        }
    }

    /// Checks that did not run.
    pub fn not_run(&self) -> impl Iterator<Item = &'a NotRun> {
        self.not_run.iter().copied()
    }

    /// Findings that a pattern speaks of; none where there are fewer than it wants.
    pub fn matching(&self, pattern: &Pattern) -> Vec<&'a Finding> {
        matching(&self.findings, pattern)
    }

    /// True where a finding that a pattern speaks of came to a result.
    pub fn has_result(&self, pattern: &Pattern) -> bool {
        self.matching(pattern).iter().any(|f| f.grade.is_result())
    }

    /// True where a channel of one of these roles (alternatives with `|`) was recorded and is fit for use somewhere.
    pub fn is_usable(&self, roles: &str) -> bool {
        self.channels_of(roles)
            .any(|(file, role)| !self.inhibitions.iter().any(|i| i.spoils(file, role)))
    }

    /// True where a channel of one of these roles was recorded, fit for use or not.
    pub fn is_recorded(&self, roles: &str) -> bool {
        self.channels_of(roles).next().is_some()
    }

    /// False for a cause that the kind of unit recorded cannot have.
    pub fn may_have(&self, cause: &CauseEntry) -> bool {
        let other = cause
            .other_kind
            .as_deref()
            .is_some_and(|r| self.is_recorded(r));
        !other || cause.roles.iter().any(|r| self.is_recorded(r))
    }

    fn channels_of<'s>(&'s self, roles: &'s str) -> impl Iterator<Item = (&'a str, &'a str)> + 's {
        self.captures.iter().flat_map(move |c| {
            let names = c.channels.iter().filter_map(|ch| ch.role.as_deref());
            names
                .filter(|role| one_of(roles, role))
                .map(|role| (c.file.as_str(), role))
        })
    }

    /// True where a channel's role is not known: what it would show is not known either.
    pub fn has_unknown_channel(&self) -> bool {
        self.captures
            .iter()
            .any(|c| c.channels.iter().any(|ch| ch.role.is_none()))
    }

    /// False where a finding rests on numbers of a channel that nobody has calibrated.
    pub fn is_calibrated(&self, finding: &Finding) -> bool {
        self.channel(finding).is_none_or(|c| c.calibrated)
    }

    fn channel(&self, finding: &Finding) -> Option<&'a ChannelRecord> {
        let (file, subject) = (finding.file.as_ref()?, finding.subject.as_ref()?);
        let capture = self.captures.iter().find(|c| c.file == *file)?;
        capture
            .channels
            .iter()
            .find(|ch| ch.role.as_ref() == Some(subject))
    }

    /// True where a check that did not run would have given findings of a kind of this pattern.
    pub fn lacks_check_for(&self, pattern: &Pattern) -> bool {
        let kinds = || self.not_run.iter().flat_map(|n| &n.kinds);
        pattern.kinds().any(|wanted| kinds().any(|k| k == wanted))
    }
}

/// Findings that a pattern speaks of; none where there are fewer than it wants.
pub fn matching<'a>(findings: &[&'a Finding], pattern: &Pattern) -> Vec<&'a Finding> {
    let found: Vec<&Finding> = findings
        .iter()
        .copied()
        .filter(|f| pattern.matches(f))
        .collect();
    match found.len() < pattern.at_least.unwrap_or(1) {
        true => Vec::new(),
        false => found,
    }
}
