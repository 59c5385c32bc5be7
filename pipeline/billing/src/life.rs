//! State of each line as a pure function of the events about it.
//!
//! - The newest authorisation of a line is in force until it is declined. What is done under an authorisation can be
//!   declined no more; a record of completion can be taken back.
//! - All lines under one authorisation come to its limit at most. They count in the order in which they were done,
//!   then stage by stage (closing before the repair), so that nothing that is done later can take the sum away from
//!   what was done before; from the first that exceeds the limit they are held. Work counts together with its parts,
//!   opening together with closing.
//! - A line is due for the billing system when it is authorised within the limit, and done or, where the shop bills
//!   so, authorised alone. The diagnosis is ordered by the call itself.

use crate::rounding::Money;
use crate::totals::{sum_on, totals};
use model::LabourLine;
use model::labour::{
    Completion, Consent, Hold, LineLife, LineState, SumLimit, WorkAction, WorkEvent, WorkStage,
};
use model::shop_file::BilledAt;
use std::collections::BTreeMap;

/// Events about one line, folded in their order.
#[derive(Debug, Clone, Default)]
pub(crate) struct Track<'e> {
    authorised: Option<Authorised>,
    declined: Option<Consent>,
    done: Option<Done>,
    /// Refusal of work that was recorded as done: it counts once that record is taken back.
    late_refusal: Option<Consent>,
    /// Terms of the newest authorisation, refusal or completion.
    agreed: Option<&'e LabourLine>,
    worked: Option<&'e LabourLine>,
}

#[derive(Debug, Clone)]
struct Authorised {
    /// Index of the event: all lines of one event share its limit.
    event: usize,
    consent: Consent,
    limit: SumLimit,
}

#[derive(Debug, Clone)]
struct Done {
    event: usize,
    completion: Completion,
}

impl<'e> Track<'e> {
    /// Track of a line that no event is about.
    pub(crate) const NONE: Track<'static> = Track {
        authorised: None,
        declined: None,
        done: None,
        late_refusal: None,
        agreed: None,
        worked: None,
    };

    /// Terms that the line has by its events: as it was done, else as it was agreed; `None` when it was only offered.
    pub(crate) fn terms(&self) -> Option<&'e LabourLine> {
        self.worked.or(self.agreed)
    }

    /// Completion in force with the terms of the work.
    pub(crate) fn completion(&self) -> Option<(&Completion, &'e LabourLine)> {
        Some((&self.done.as_ref()?.completion, self.worked?))
    }

    /// Returns whether an authorisation is in force.
    pub(crate) fn is_authorised(&self) -> bool {
        self.authorised.is_some()
    }

    /// Returns whether it was declined and not authorised since.
    pub(crate) fn is_declined(&self) -> bool {
        self.declined.is_some()
    }

    fn apply(&mut self, index: usize, event: &WorkEvent, line: &'e LabourLine) {
        let consent = |how, limit| Consent {
            by: event.by.clone().unwrap_or_default(),
            at: event.at,
            how,
            limit,
            note: event.note.clone(),
        };
        match event.action {
            WorkAction::Offered => {}
            WorkAction::Authorised { how, limit } => {
                self.authorised = Some(Authorised {
                    event: index,
                    consent: consent(how, Some(limit)),
                    limit,
                });
                (self.declined, self.late_refusal) = (None, None);
                self.agreed = Some(line);
            }
            WorkAction::Declined { how } if self.authorised.is_some() && self.done.is_some() => {
                self.late_refusal = Some(consent(how, None));
            }
            WorkAction::Declined { how } => {
                self.authorised = None;
                self.declined = Some(consent(how, None));
                self.agreed = Some(line);
            }
            WorkAction::Done => {
                self.done = Some(Done {
                    event: index,
                    completion: Completion {
                        by: event.by.clone(),
                        at: Some(event.at),
                    },
                });
                self.worked = Some(line);
            }
            WorkAction::Reopened => {
                (self.done, self.worked) = (None, None);
                if let Some(refusal) = self.late_refusal.take() {
                    (self.authorised, self.declined) = (None, Some(refusal));
                }
            }
        }
    }
}

/// Folds the events, oldest first, by line.
pub(crate) fn track(events: &[WorkEvent]) -> BTreeMap<&str, Track<'_>> {
    let mut tracks: BTreeMap<&str, Track<'_>> = BTreeMap::new();
    for (index, event) in events.iter().enumerate() {
        for line in &event.lines {
            let track = tracks.entry(line.line_id.as_str()).or_default();
            track.apply(index, event, line);
        }
    }
    tracks
}

/// A line before its state is known.
#[derive(Debug, Clone)]
pub(crate) struct Candidate {
    pub(crate) line: LabourLine,
    /// Work that was ordered by the call itself and needs no authorisation: the diagnosis with its parts and fees.
    pub(crate) called: Option<Called>,
}

/// Work that was ordered by the call itself.
#[derive(Debug, Clone, Default)]
pub(crate) struct Called {
    /// Completion, once the hours are stated and the report is published.
    pub(crate) done: Option<Completion>,
}

/// Rules that decide when a line is due.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Rules {
    pub(crate) billed_at: BilledAt,
    pub(crate) money: Money,
}

/// A line with its state.
#[derive(Debug, Clone)]
pub(crate) struct Settled {
    pub(crate) line: LabourLine,
    /// Due for the billing system.
    pub(crate) is_due: bool,
}

/// Gives each line its state, in the order of the work. A line that is billed already is `Done` or `Authorised` here.
pub(crate) fn settle(
    candidates: Vec<Candidate>,
    tracks: &BTreeMap<&str, Track<'_>>,
    rules: Rules,
) -> Vec<Settled> {
    let nothing = Track::default();
    let of = |line: &LabourLine| tracks.get(line.line_id.as_str()).unwrap_or(&nothing);
    let lines: Vec<&LabourLine> = candidates.iter().map(|c| &c.line).collect();
    let mut holds = beyond_limits(&lines, &of, rules.money);
    let settled = candidates.iter().zip(&mut holds).map(|(candidate, hold)| {
        let track = of(&candidate.line);
        let called = candidate.called.as_ref();
        let done = (track.done.as_ref().map(|d| &d.completion))
            .or_else(|| called.and_then(|c| c.done.as_ref()));
        let may_be_done = track.authorised.is_some() || called.is_some();
        if done.is_some() && !may_be_done {
            *hold = Some(Hold::NotAuthorised);
        }
        let state = match (done, &track.authorised, &hold) {
            (Some(_), ..) => LineState::Done,
            (None, Some(_), None) => LineState::Authorised,
            (None, Some(_), Some(_)) => LineState::Offered,
            (None, None, _) if track.is_declined() && called.is_none() => LineState::Declined,
            (None, None, _) => LineState::Offered,
        };
        let is_agreed = track.authorised.is_some() && rules.billed_at == BilledAt::Authorised;
        Settled {
            is_due: hold.is_none() && may_be_done && (done.is_some() || is_agreed),
            line: LabourLine {
                state,
                life: LineLife {
                    authorised: track.authorised.as_ref().map(|a| a.consent.clone()),
                    declined: track.declined.clone().filter(|_| called.is_none()),
                    done: done.cloned(),
                    hold: hold.take(),
                },
                ..candidate.line.clone()
            },
        }
    });
    settled.collect()
}

/// Place of a line under its authorisation: completion (`usize::MAX` while it is not done), stage, position in the job.
type Rank = (usize, WorkStage, usize);

/// Returns for each line whether it exceeds the limit of its authorisation.
fn beyond_limits<'t>(
    lines: &[&LabourLine],
    of: &dyn Fn(&LabourLine) -> &'t Track<'t>,
    money: Money,
) -> Vec<Option<Hold>> {
    let mut holds = vec![None; lines.len()];
    // Lines by authorisation, in the order in which they count.
    let mut groups: BTreeMap<usize, (SumLimit, Vec<Rank>)> = BTreeMap::new();
    for (position, line) in lines.iter().enumerate() {
        let track = of(line);
        if let Some(a) = &track.authorised {
            let order = track.done.as_ref().map_or(usize::MAX, |d| d.event);
            let (_, members) = groups.entry(a.event).or_insert((a.limit, Vec::new()));
            members.push((order, line.step.stage(), position));
        }
    }
    for (limit, mut members) in groups.into_values() {
        members.sort_unstable();
        let mut units: Vec<(usize, String, Vec<usize>)> = Vec::new();
        for (order, _, position) in members {
            let name = unit(lines[position], order);
            match units.iter_mut().find(|(o, n, _)| (*o, n) == (order, &name)) {
                Some((.., positions)) => positions.push(position),
                None => units.push((order, name, vec![position])),
            }
        }
        let mut counted: Vec<&LabourLine> = Vec::new();
        let mut is_exhausted = false;
        for (.., positions) in units {
            counted.extend(positions.iter().map(|p| lines[*p]));
            let needed = sum_on(&totals(counted.iter().copied(), money), limit.basis);
            is_exhausted |= needed > limit.sum;
            if is_exhausted {
                for position in positions {
                    holds[position] = Some(Hold::BeyondLimit { limit, needed });
                }
            }
        }
    }
    holds
}

/// Name of what counts together: work with its parts; opening with closing as long as they are not done.
fn unit(line: &LabourLine, order: usize) -> String {
    match line.step.stage() {
        WorkStage::Teardown if order == usize::MAX => WorkStage::Teardown.to_string(),
        _ => line
            .parent_id
            .clone()
            .unwrap_or_else(|| line.line_id.clone()),
    }
}

#[cfg(test)]
mod tests;
