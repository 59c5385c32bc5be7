//! Lines by the names that people give them.

use super::{NamedLines, WorkError};
use model::LabourLine;
use model::labour::{LineKind, LineState, WorkStage};
use std::collections::BTreeSet;

/// Lines of a job that names mean.
pub(super) struct Selection<'a> {
    named: &'a NamedLines<'a>,
    /// Indices of the lines that are named, without their parts and fees.
    chosen: BTreeSet<usize>,
}

impl<'a> Selection<'a> {
    /// Finds the lines of the names.
    ///
    /// # Errors
    /// [`WorkError::UnknownLine`] for a name that no line has.
    pub(super) fn new(named: &'a NamedLines<'a>) -> Result<Selection<'a>, WorkError> {
        let mut chosen = BTreeSet::new();
        for name in named.names {
            let found = find(named.lines, name.trim());
            if found.is_empty() {
                return Err(WorkError::UnknownLine {
                    name: name.clone(),
                    known: known(named.lines),
                });
            }
            chosen.extend(found);
        }
        Ok(Selection { named, chosen })
    }

    /// Lines of the job that pass.
    pub(super) fn keep(&self, passes: &dyn Fn(&LabourLine) -> bool) -> Vec<&'a LabourLine> {
        let passing = self.named.lines.iter().filter(|l| passes(l));
        passing.collect()
    }

    /// Named lines that pass, with their parts and with the fees that they bring.
    pub(super) fn named(&self, passes: &dyn Fn(&LabourLine) -> bool) -> Vec<&'a LabourLine> {
        let lines = self.named.lines;
        let chosen: Vec<&LabourLine> = (self.chosen.iter())
            .map(|i| &lines[*i])
            .filter(|l| passes(l))
            .collect();
        let goes_along = |line: &LabourLine| match line.kind {
            LineKind::Labour => false,
            LineKind::Part => chosen
                .iter()
                .any(|c| line.parent_id.as_ref() == Some(&c.line_id)),
            LineKind::Fee => line.life.done.is_none(),
        };
        let is_meant = |line: &&LabourLine| {
            let is_chosen = chosen.iter().any(|c| c.line_id == line.line_id);
            is_chosen
                || (passes(line)
                    && goes_along(line)
                    && (line.kind != LineKind::Fee || self.is_brought(line, &chosen)))
        };
        lines.iter().filter(is_meant).collect()
    }

    /// Named lines that pass, but for fees that come with other work all the same: what is authorised or done stands.
    pub(super) fn declined(&self, passes: &dyn Fn(&LabourLine) -> bool) -> Vec<&'a LabourLine> {
        let named = self.named(passes);
        let is_named = |line: &LabourLine| named.iter().any(|n| n.line_id == line.line_id);
        let standing: Vec<&LabourLine> = self.keep(&|l| {
            !is_named(l) && !matches!(l.state, LineState::Offered | LineState::Declined)
        });
        let stands = |line: &LabourLine| {
            line.kind == LineKind::Fee
                && line.life.authorised.is_some()
                && self.is_brought(line, &standing)
        };
        let lines = named.iter().copied().filter(|l| !stands(l));
        lines.collect()
    }

    /// Named lines that are done, with the fees that nothing else that is done brings.
    pub(super) fn reopened(&self) -> Vec<&'a LabourLine> {
        let is_done = |l: &LabourLine| l.life.done.is_some();
        let named = self.named(&is_done);
        let is_named = |line: &LabourLine| named.iter().any(|n| n.line_id == line.line_id);
        let others = self.keep(&|l| is_done(l) && !is_named(l));
        self.keep(&|l| {
            let is_left_alone = || {
                l.kind == LineKind::Fee
                    && is_done(l)
                    && self.is_brought(l, &named)
                    && !self.is_brought(l, &others)
            };
            is_named(l) || is_left_alone()
        })
    }

    fn is_brought(&self, fee: &LabourLine, chosen: &[&LabourLine]) -> bool {
        let fees = &self.named.shop.billing.fees;
        fees.iter().filter(|f| f.code == fee.operation).any(|f| {
            chosen.iter().any(|c| {
                c.kind == LineKind::Labour
                    && (f.operations.is_empty() || f.operations.contains(&c.operation))
            })
        })
    }
}

fn find(lines: &[LabourLine], name: &str) -> Vec<usize> {
    let by = |is: &dyn Fn(&LabourLine) -> bool| -> Vec<usize> {
        let all = lines.iter().enumerate().filter(|(_, l)| is(l));
        all.map(|(i, _)| i).collect()
    };
    let by_code = by(&|l| l.kind != LineKind::Part && l.operation == name);
    if !by_code.is_empty() {
        return by_code;
    }
    if let Ok(stage) = name.parse::<WorkStage>() {
        return by(&|l| l.kind != LineKind::Part && l.step.stage() == stage);
    }
    let Ok(number) = name.parse::<u32>() else {
        return Vec::new();
    };
    // A part means the work that it goes with.
    let parent = lines.iter().find(|l| l.line == number && number > 0);
    let id = parent.map(|l| l.parent_id.as_ref().unwrap_or(&l.line_id));
    by(&|l| Some(&l.line_id) == id)
}

fn known(lines: &[LabourLine]) -> String {
    let mut names: Vec<String> = Vec::new();
    for line in lines.iter().filter(|l| l.kind != LineKind::Part) {
        names.push(line.operation.clone());
    }
    for stage in WorkStage::ALL {
        if lines.iter().any(|l| l.step.stage() == stage) {
            names.push(stage.to_string());
        }
    }
    names.dedup();
    match names.is_empty() {
        true => "none".into(),
        false => names.join(", "),
    }
}
