//! Proposals that a person adopts.

use super::bound::{Change, LearnedBound, rank};
use super::propose::Proposal;
use super::{BasisRange, LearnedSheet, LearnedValue};
use crate::text::{count, percent};
use chrono::NaiveDateTime;
use model::limits_sheet::LimitValue;
use model::system::Bound;

/// A person's adopting.
#[derive(Debug, Clone, Copy)]
pub struct Adoption<'a> {
    /// Person.
    pub by: &'a str,
    /// Time, in the shop's time.
    pub at: NaiveDateTime,
    /// Version of the program.
    pub program: &'a str,
    /// Names of the limits that the person adopts; `None` for all that may move by themselves.
    pub named: Option<&'a [String]>,
    /// Jobs whose odd values the person took for good.
    pub included: &'a [String],
}

/// Words of a person about one limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wording {
    /// The limit was named: it may be narrowed, and widened for few vehicles.
    Named,
    /// Nothing was said of it.
    Unnamed,
}

impl Adoption<'_> {
    fn wording(&self, limit: &str) -> Option<Wording> {
        match self.named {
            None => Some(Wording::Unnamed),
            Some(named) => named.iter().any(|n| n == limit).then_some(Wording::Named),
        }
    }

    /// Next version of the sheet that the proposals speak of, all of one kind of unit and one origin. What they do not
    /// change stays as `present` has it. `None` where nothing is adopted.
    pub fn of(
        &self,
        proposals: &[&Proposal],
        present: Option<&LearnedSheet>,
    ) -> Option<LearnedSheet> {
        let first = proposals.first()?;
        let mut sheet = LearnedSheet {
            key: first.key.clone(),
            version: present.map_or(0, |s| s.version) + 1,
            reverts_to: None,
            by: self.by.into(),
            at: self.at,
            program: self.program.into(),
            origin: first.origin.clone(),
            included: self.included.to_vec(),
            value: present.map(|s| s.value.clone()).unwrap_or_default(),
            curves: present.map(|s| s.curves.clone()).unwrap_or_default(),
        };
        let before = sheet.value.clone();
        for proposal in proposals {
            let wording = self.wording(&proposal.limit);
            let Some(value) = wording.and_then(|w| proposal.adopted(w)) else {
                continue;
            };
            sheet.value.insert(proposal.limit.clone(), value);
        }
        (sheet.value != before).then_some(sheet)
    }
}

impl Proposal {
    /// Value that adopting gives; `None` where the vehicles do not carry it or no bound would move.
    pub fn adopted(&self, wording: Wording) -> Option<LearnedValue> {
        let is_foreign = self.origin.is_some();
        let is_carried = self.is_carried();
        let n = self.vehicles.len();
        let moved: Vec<&LearnedBound> = self
            .bounds
            .iter()
            .filter(|b| is_carried && moves(b, n, wording, is_foreign))
            .collect();
        if moved.is_empty() {
            return None;
        }
        let by_word = moved.iter().any(|b| !b.moves_by_itself(n));
        let mut value = LearnedValue {
            low: self.replaced.low,
            high: self.replaced.high,
            unit: self.replaced.unit.clone(),
            source: String::new(),
            bounds: self.bounds.iter().map(|b| b.side).collect(),
            replaced_low: self.replaced.low,
            replaced_high: self.replaced.high,
            recordings: self.recordings(),
            vehicles: n,
            median: self.median,
            confidence: self.confidence,
            judged: self.judged(),
            by_word,
            months: self.months.clone(),
            basis: self.vehicles.iter().map(|v| v.range.clone()).collect(),
        };
        for bound in moved {
            value.set(bound);
        }
        value.source = self.source(&value);
        Some(value)
    }

    fn source(&self, value: &LearnedValue) -> String {
        let whose = match &self.origin {
            None => "this shop".into(),
            Some(origin) => format!("the shop {} (key {})", origin.name, origin.key),
        };
        let mut text = format!(
            "measured on {} of {} of {whose}, {} to {}; {} coverage at {} confidence (Wilks 1941)",
            count(value.recordings, "recording", "recordings"),
            count(value.vehicles, "vehicle", "vehicles"),
            value.months.0,
            value.months.1,
            percent(crate::statistics::COVERAGE),
            percent(value.confidence),
        );
        if value.judged > 0 {
            text.push_str(&format!(
                "; {} of them called good by the former limit alone",
                value.judged
            ));
        }
        if value.by_word {
            text.push_str("; taken at a person's word");
        }
        text
    }
}

fn moves(bound: &LearnedBound, n: usize, wording: Wording, is_foreign: bool) -> bool {
    match bound.change() {
        Change::Same => false,
        // What another shop found never makes a good unit of one's own a bad one.
        Change::Narrower => wording == Wording::Named && !is_foreign,
        Change::Wider => wording == Wording::Named || bound.moves_by_itself(n),
    }
}

impl LearnedValue {
    fn set(&mut self, bound: &LearnedBound) {
        match bound.side {
            Bound::Low => self.low = Some(bound.value),
            Bound::High => self.high = Some(bound.value),
        }
    }

    /// The limit for a job on this vehicle, whose own values take no part; `None` where the others do not carry it, and
    /// the limit that it replaces stands. `is_foreign`: the values are another shop's.
    pub fn without(&self, vehicle: &str, is_foreign: bool) -> Option<LimitValue> {
        let limit = |low, high, source: String| LimitValue {
            nominal: None,
            low,
            high,
            unit: self.unit.clone(),
            source,
        };
        let others: Vec<BasisRange> = self
            .basis
            .iter()
            .filter(|r| r.vehicle.is_empty() || r.vehicle != vehicle)
            .cloned()
            .collect();
        if others.len() == self.basis.len() {
            return Some(limit(self.low, self.high, self.source.clone()));
        }
        let n = others.len();
        let rank = rank(n, is_foreign, self.bounds.len())?;
        let mut value = LearnedValue {
            low: self.replaced_low,
            high: self.replaced_high,
            ..self.clone()
        };
        let mut has_moved = false;
        for side in &self.bounds {
            let replaced = match side {
                Bound::Low => self.replaced_low?,
                Bound::High => self.replaced_high?,
            };
            let bound = LearnedBound::of(*side, replaced, &others, rank)?;
            let wording = match self.by_word {
                true => Wording::Named,
                false => Wording::Unnamed,
            };
            if moves(&bound, n, wording, is_foreign) {
                value.set(&bound);
                has_moved = true;
            }
        }
        let source = format!("{}; without this vehicle's own", self.source);
        has_moved.then(|| limit(value.low, value.high, source))
    }
}
