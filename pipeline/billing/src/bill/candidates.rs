//! Lines that a job may have: those of the catalogue, then those that events and handed rows know.

use super::{Bill, BillingInput};
use crate::hand_over::open_rows;
use crate::life::{Called, Candidate, Track};
use crate::line_id;
use crate::price::price_work;
use crate::price_book::{MAX_HOURS, PriceBook, PricedFee, PricedOperation, PricedPart};
use crate::rounding::WorkTime;
use model::labour::{Completion, HandedRow, HoursFrom, LineKind, PriceRule, WorkStep};
use model::{Exact, LabourLine, VerdictState};
use rust_decimal::Decimal;
use std::collections::{BTreeMap, BTreeSet};

/// Collects the lines of one job.
pub(super) struct Collector<'a> {
    input: &'a BillingInput<'a>,
    book: &'a PriceBook,
    tracks: &'a BTreeMap<&'a str, Track<'a>>,
    /// Rows that bill a line at present.
    open: BTreeMap<&'a str, &'a HandedRow>,
    bill: &'a mut Bill,
    candidates: Vec<Candidate>,
    /// Lines that are taken off the bill on purpose.
    dropped: BTreeSet<String>,
}

impl<'a> Collector<'a> {
    pub(super) fn new(
        input: &'a BillingInput<'a>,
        book: &'a PriceBook,
        tracks: &'a BTreeMap<&'a str, Track<'a>>,
        bill: &'a mut Bill,
    ) -> Collector<'a> {
        Collector {
            input,
            book,
            tracks,
            open: open_rows(input.handed),
            bill,
            candidates: Vec::new(),
            dropped: BTreeSet::new(),
        }
    }

    /// Returns the lines in the order of the work, numbered; fees last.
    pub(super) fn collect(mut self) -> Vec<Candidate> {
        let book = self.book;
        for op in &book.operations {
            match op.is_first_diagnosis() {
                true => self.add_diagnosis(op),
                false => self.add_work(op),
            }
        }
        for fee in &book.fees {
            self.add_fee(fee);
        }
        self.add_known_lines();
        self.report_job_file();
        let mut candidates = self.candidates;
        candidates.sort_by_key(|c| (c.line.kind == LineKind::Fee, c.line.step));
        for (i, candidate) in candidates.iter_mut().enumerate() {
            candidate.line.line = u32::try_from(i + 1).unwrap_or(u32::MAX);
        }
        candidates
    }

    fn add_diagnosis(&mut self, op: &PricedOperation) {
        let line = self.start_line(op);
        if let Some((completion, terms)) = self.track(&line.line_id).completion() {
            let called = Called {
                done: Some(completion.clone()),
            };
            let terms = terms.clone();
            self.report_other_hours(&terms);
            return self.add_called(op, terms, called);
        }
        let billed = self
            .open
            .get(line.line_id.as_str())
            .map(|row| row.line.clone());
        let done = Completion {
            by: self.input.technician.map(str::to_string),
            at: None,
        };
        // What was billed stays done, whatever became of the files that the report was made from.
        let is_done = self.input.is_reported || billed.is_some();
        let done = || is_done.then(|| done.clone());
        let stated = self.stated_hours();
        match (stated, billed) {
            (Some(hours), _) if hours.is_zero() => {
                self.dropped.insert(line.line_id);
                let message =
                    "The diagnosis is not billed: its time is zero or rounds to nothing.".into();
                self.bill.report("job.toml", "job.diagnosis_hours", message);
            }
            // What was billed keeps its price while its hours stay the same.
            (Some(hours), Some(billed)) if billed.hours == hours.hours() => {
                self.add_called(op, billed, Called { done: done() });
            }
            (Some(hours), _) => {
                let line = self.priced(line, op, hours, HoursFrom::JobFile);
                self.add_called(op, line, Called { done: done() });
            }
            // Hours that are stated no more take nothing back: 0 does.
            (None, Some(billed)) => self.add_called(op, billed, Called { done: done() }),
            (None, None) if op.rule == PriceRule::FlatFee => {
                let hours = self.book.time.round_hours(op.hours.unwrap_or_default());
                let line = self.priced(line, op, hours, self.book.hours_from);
                self.add_called(op, line, Called { done: done() });
            }
            (None, None) => {
                self.ask_for_hours(op);
                let is_priced = op.hours.is_some() || op.rule != PriceRule::PerUnit;
                if is_priced {
                    let hours = self.book.time.round_hours(op.hours.unwrap_or_default());
                    let line = self.priced(line, op, hours, self.book.hours_from);
                    self.add_called(op, line, Called::default());
                }
            }
        }
    }

    /// Hours of job.toml, rounded; `None` where there are none that could be meant.
    fn stated_hours(&mut self) -> Option<WorkTime> {
        let stated = self.input.diagnosis_hours?;
        let hours = Exact::from_float(stated).map(|h| h.0);
        let hours = hours.filter(|h| (Decimal::ZERO..=MAX_HOURS).contains(h));
        if hours.is_none() {
            self.bill.report(
                "job.toml",
                "job.diagnosis_hours",
                format!(
                    "{stated} is not usable, so the diagnosis is not billed by it: expected 0 to {MAX_HOURS} hours, such \
                     as diagnosis_hours = 1.4."
                ),
            );
        }
        hours.map(|h| self.book.time.round_hours(h))
    }

    fn ask_for_hours(&mut self, op: &PricedOperation) {
        self.bill.lacks_diagnosis_hours = true;
        self.bill.report(
            "job.toml",
            "job.diagnosis_hours",
            format!(
                "The diagnosis ({}) is not billed yet: its hours are missing. Write them under [job], such as \
                 diagnosis_hours = 1.4, or record them with `complete`.",
                op.code
            ),
        );
    }

    fn report_other_hours(&mut self, terms: &LabourLine) {
        let Some(stated) = self.stated_hours() else {
            return;
        };
        if stated.hours() != terms.hours {
            self.bill.report(
                "job.toml",
                "job.diagnosis_hours",
                format!(
                    "{} h stand here and {} h were recorded with `complete`: the latter count.",
                    stated.hours(),
                    terms.hours
                ),
            );
        }
    }

    /// Adds the diagnosis with its parts.
    fn add_called(&mut self, op: &PricedOperation, line: LabourLine, called: Called) {
        let parent = line.line_id.clone();
        let mut add = |line| {
            self.candidates.push(Candidate {
                line,
                called: Some(called.clone()),
            });
        };
        add(line);
        for part in &op.parts {
            let line = part_line(self.input, self.book, op, part, &parent);
            let terms = self
                .tracks
                .get(line.line_id.as_str())
                .and_then(|t| t.terms());
            add(terms.cloned().unwrap_or(line));
        }
    }

    fn add_work(&mut self, op: &PricedOperation) {
        let time = self.book.time.round_hours(op.hours.unwrap_or_default());
        let mut is_offered = self.is_offered(op);
        if is_offered && time.is_zero() && op.rule == PriceRule::PerUnit {
            let message = format!(
                "{:?} and its parts are left out: its time rounds to nothing.",
                op.code
            );
            self.bill
                .report("shop.toml", "billing.hours_rounding", message);
            is_offered = false;
        }
        let line = self.start_line(op);
        let parent = line.line_id.clone();
        let line = self.priced(line, op, time, self.book.hours_from);
        self.report_unfounded_teardown(op, &parent);
        self.add_offer(line, is_offered);
        for part in &op.parts {
            let line = part_line(self.input, self.book, op, part, &parent);
            self.add_offer(line, is_offered);
        }
    }

    fn is_offered(&self, op: &PricedOperation) -> bool {
        self.input.verdicts.iter().any(|verdict| {
            if op.step == WorkStep::Diagnosis {
                return verdict.next.iter().any(|next| op.next.contains(&next.step));
            }
            let is_proven = verdict.is_mended();
            let is_sure = verdict.state == VerdictState::Established;
            let is_likely = is_sure || verdict.state == VerdictState::Probable;
            let Some(cause) = &verdict.cause else {
                return false;
            };
            !is_proven
                && (is_sure || (is_likely && op.step == WorkStep::FirstStep))
                && (verdict.teardown || !op.needs_teardown)
                && match op.causes.is_empty() {
                    true => self.book.has_step(verdict.system.as_deref(), op.step),
                    false => op.causes.contains(cause),
                }
        })
    }

    /// A teardown that was authorised while a verdict carried it, and that none carries any more.
    fn report_unfounded_teardown(&mut self, op: &PricedOperation, line_id: &str) {
        let track = self.track(line_id);
        let is_ahead = track.is_authorised() && track.completion().is_none();
        let mut verdicts = self.input.verdicts.iter();
        if op.step == WorkStep::Teardown
            && is_ahead
            && !verdicts.any(|v| v.teardown || v.repair.is_some())
        {
            self.bill.report(
                "labour.csv",
                &format!("operation {}", op.code),
                format!(
                    "{:?} is authorised, but no verdict carries a teardown any more: do not open the unit before the new \
                     report is read.",
                    op.code
                ),
            );
        }
    }

    /// Adds a line as it was agreed, done or billed, else as it is offered.
    fn add_offer(&mut self, line: LabourLine, is_offered: bool) {
        let terms = self.track(&line.line_id).terms();
        let candidate = match (terms, self.open.get(line.line_id.as_str())) {
            (Some(terms), _) => Candidate {
                line: terms.clone(),
                called: None,
            },
            (None, Some(row)) => billed(row),
            (None, None) if is_offered => Candidate { line, called: None },
            (None, None) => return,
        };
        self.candidates.push(candidate);
    }

    fn add_fee(&mut self, fee: &PricedFee) {
        let line = LabourLine {
            line_id: line_id(self.input.job, &[&fee.code, "fee"]),
            operation: fee.code.clone(),
            step: fee.step,
            description: fee.description.clone(),
            rate: fee.price,
            net_amount: self.book.money.round(fee.price),
            currency: self.book.currency.clone(),
            tax: fee.tax.clone(),
            technician: self.input.technician.map(str::to_string),
            kind: LineKind::Fee,
            pieces: Some(Decimal::ONE),
            ..LabourLine::default()
        };
        let brings = |c: &&Candidate| {
            c.line.kind == LineKind::Labour
                && fee.is_brought_by(&c.line.operation)
                && !self.track(&c.line.line_id).is_declined()
        };
        let mut bringing = self.candidates.iter().filter(brings).peekable();
        let is_offered = bringing.peek().is_some();
        match bringing.find_map(|c| c.called.clone()) {
            Some(called) => {
                let terms = self.track(&line.line_id).terms().cloned();
                self.candidates.push(Candidate {
                    line: terms.unwrap_or(line),
                    called: Some(called),
                });
            }
            None => self.add_offer(line, is_offered),
        }
    }

    /// Adds lines of events and handed rows that the catalogue does not have any more: no change of shop.toml takes
    /// agreed or billed work off the bill.
    fn add_known_lines(&mut self) {
        let seen: BTreeSet<&str> = (self.candidates.iter())
            .map(|c| c.line.line_id.as_str())
            .chain(self.dropped.iter().map(String::as_str))
            .collect();
        let agreed = (self.tracks.iter())
            .filter(|(id, _)| !seen.contains(*id))
            .filter_map(|(_, track)| track.terms())
            .map(|terms| Candidate {
                line: terms.clone(),
                called: None,
            });
        let is_new = |(id, _): &(&&str, &&HandedRow)| {
            let is_agreed = self.tracks.get(**id).is_some_and(|t| t.terms().is_some());
            !seen.contains(**id) && !is_agreed
        };
        let rest = self.open.iter().filter(is_new).map(|(_, row)| billed(row));
        let known: Vec<Candidate> = agreed.chain(rest).collect();
        self.candidates.extend(known);
    }

    fn start_line(&self, op: &PricedOperation) -> LabourLine {
        LabourLine {
            line_id: line_id(self.input.job, &[&op.code, op.step.into()]),
            operation: op.code.clone(),
            step: op.step,
            description: op.description.clone(),
            currency: self.book.currency.clone(),
            tax: op.tax.clone(),
            technician: self.input.technician.map(str::to_string),
            ..LabourLine::default()
        }
    }

    fn priced(
        &self,
        line: LabourLine,
        op: &PricedOperation,
        time: WorkTime,
        hours_from: HoursFrom,
    ) -> LabourLine {
        let line = LabourLine { hours_from, ..line };
        price_work(line, op.rule, op.rate, time, self.book.money)
    }

    fn track(&self, line_id: &str) -> &Track<'a> {
        static NONE: Track<'static> = Track::NONE;
        self.tracks.get(line_id).unwrap_or(&NONE)
    }

    fn report_job_file(&mut self) {
        let operations = &self.book.operations;
        if self.input.diagnosis_hours.is_some()
            && !operations.iter().any(PricedOperation::is_first_diagnosis)
        {
            self.bill.report(
                "job.toml",
                "job.diagnosis_hours",
                "The hours are not billed: the catalogue of shop.toml has no operation with step = \"diagnosis\".".into(),
            );
        }
        let is_example = |c: &Candidate| {
            c.line.hours_from == HoursFrom::ExampleCatalogue && !c.line.hours.is_zero()
        };
        if self.candidates.iter().any(is_example) {
            self.bill.report(
                "shop.toml",
                "billing.operation",
                "Hours come from the built-in example catalogue and are invented: put the shop's own operations into shop.toml.".into(),
            );
        }
    }
}

/// A line that was billed without an event: it keeps its price.
fn billed(row: &HandedRow) -> Candidate {
    let done = Completion {
        by: row.line.technician.clone(),
        at: None,
    };
    Candidate {
        line: row.line.clone(),
        called: Some(Called { done: Some(done) }),
    }
}

fn part_line(
    input: &BillingInput<'_>,
    book: &PriceBook,
    op: &PricedOperation,
    part: &PricedPart,
    parent: &str,
) -> LabourLine {
    LabourLine {
        line_id: line_id(input.job, &[&op.code, op.step.into(), "part", &part.number]),
        operation: part.number.clone(),
        step: op.step,
        description: part.description.clone(),
        rate: part.price,
        net_amount: book.money.round(part.pieces * part.price),
        currency: book.currency.clone(),
        tax: part.tax.clone(),
        technician: input.technician.map(str::to_string),
        kind: LineKind::Part,
        pieces: Some(part.pieces),
        parent_id: Some(parent.into()),
        ..LabourLine::default()
    }
}
