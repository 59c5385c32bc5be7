//! The lines of a bill, one operation after the other.

use super::{Bill, BillingInput};
use crate::price_book::{MAX_HOURS, PriceBook, PricedFee, PricedOperation};
use crate::rounding::WorkTime;
use model::labour::{HoursFrom, LineKind, LineState, WorkStep};
use model::{Exact, LabourLine, VerdictState};
use rust_decimal::Decimal;

/// Writes the lines into a bill that has none.
pub(super) fn write(input: &BillingInput<'_>, book: &PriceBook, bill: &mut Bill) {
    let mut writer = Writer { input, book, bill };
    for op in &book.operations {
        match op.is_first_diagnosis() {
            true => writer.diagnosis(op),
            false => writer.work(op),
        }
    }
    for fee in &book.fees {
        writer.fee(fee);
    }
    writer.check_job_file();
}

struct Writer<'a> {
    input: &'a BillingInput<'a>,
    book: &'a PriceBook,
    bill: &'a mut Bill,
}

impl Writer<'_> {
    fn diagnosis(&mut self, op: &PricedOperation) {
        let time = self.book.time;
        if let Some(stated) = self.input.diagnosis_hours {
            let hours = Exact::from_float(stated).map(|h| h.0);
            match hours.filter(|h| (Decimal::ZERO..=MAX_HOURS).contains(h)) {
                Some(h) => self.operation(op, time.round_hours(h), HoursFrom::JobFile, LineState::Billable),
                None => self.bill.problem(
                    "job.toml",
                    "job.diagnosis_hours",
                    format!("{stated} is not usable, so no diagnosis is billed: expected 0 to {MAX_HOURS} hours, such as 1.4."),
                ),
            }
        } else if let Some(h) = op.hours {
            let state = self.state_when_authorised(op);
            self.operation(op, time.round_hours(h), self.book.hours_from, state);
        } else if let Some(minutes) = self.input.recordings_span_s.and_then(span_minutes) {
            let time = time.round_minutes(minutes);
            let message = format!(
                "The diagnosis is only offered, with the {} h that the recordings last: write the hours spent here to bill them.",
                time.hours()
            );
            self.bill
                .problem("job.toml", "job.diagnosis_hours", message);
            self.operation(op, time, HoursFrom::Recordings, LineState::Estimate);
        }
    }

    fn work(&mut self, op: &PricedOperation) {
        let Some(hours) = op.hours else { return };
        let state = self.state_when_authorised(op);
        if state == LineState::Estimate && !self.is_offered(op) {
            return;
        }
        if state == LineState::Billable && op.needs_teardown && !self.is_teardown_founded() {
            self.bill.problem(
                "job.toml",
                "job.authorised",
                format!("{:?} needs a teardown and is billed because it is authorised here, but the verdict carries no teardown.", op.code),
            );
        }
        let time = self.book.time.round_hours(hours);
        self.operation(op, time, self.book.hours_from, state);
    }

    fn state_when_authorised(&self, op: &PricedOperation) -> LineState {
        match self.input.authorised.contains(&op.code) {
            true => LineState::Billable,
            false => LineState::Estimate,
        }
    }

    fn is_offered(&self, op: &PricedOperation) -> bool {
        let verdict = self.input.verdict;
        if op.step == WorkStep::Diagnosis {
            return verdict.next.iter().any(|next| op.next.contains(&next.step));
        }
        let proven = verdict.repair.as_ref().is_some_and(|r| r.proven);
        let Some(cause) = verdict
            .cause
            .as_ref()
            .filter(|_| verdict.state == VerdictState::Established)
        else {
            return false;
        };
        !proven
            && (verdict.teardown || !op.needs_teardown)
            && (op.causes.is_empty() || op.causes.contains(cause))
    }

    /// A teardown stands in the verdict, or lies behind a recording made after the repair.
    fn is_teardown_founded(&self) -> bool {
        self.input.verdict.teardown || self.input.verdict.repair.is_some()
    }

    fn operation(
        &mut self,
        op: &PricedOperation,
        time: WorkTime,
        hours_from: HoursFrom,
        state: LineState,
    ) {
        if time.is_zero() {
            let message = format!(
                "{:?} and its parts are left out: its time rounds to nothing.",
                op.code
            );
            return self
                .bill
                .problem("shop.toml", "billing.hours_rounding", message);
        }
        let money = self.book.money;
        self.push(LabourLine {
            line_id: self.line_id(&[&op.code, op.step.name()]),
            operation: op.code.clone(),
            step: op.step,
            description: op.description.clone(),
            hours: time.hours(),
            hours_from,
            rate: op.rate,
            amount: time.price(op.rate, money),
            tax: op.tax.clone(),
            state,
            ..LabourLine::default()
        });
        for part in &op.parts {
            self.push(LabourLine {
                line_id: self.line_id(&[&op.code, op.step.name(), "part", &part.number]),
                operation: part.number.clone(),
                step: op.step,
                description: part.description.clone(),
                hours_from: self.book.hours_from,
                rate: part.price,
                amount: money.round(part.pieces * part.price),
                tax: part.tax.clone(),
                state,
                kind: LineKind::Part,
                pieces: Some(part.pieces),
                ..LabourLine::default()
            });
        }
    }

    fn fee(&mut self, fee: &PricedFee) {
        let brings = |line: &&LabourLine| {
            line.kind == LineKind::Labour
                && (fee.operations.is_empty() || fee.operations.contains(&line.operation))
        };
        let states = self.bill.lines.iter().filter(brings).map(|l| l.state);
        // Billable as soon as one of its operations is.
        let Some(state) = states.min_by_key(|s| *s != LineState::Billable) else {
            return;
        };
        self.push(LabourLine {
            line_id: self.line_id(&[&fee.code, "fee"]),
            operation: fee.code.clone(),
            step: fee.step,
            description: fee.description.clone(),
            rate: fee.price,
            amount: self.book.money.round(fee.price),
            tax: fee.tax.clone(),
            state,
            kind: LineKind::Fee,
            pieces: Some(Decimal::ONE),
            ..LabourLine::default()
        });
    }

    /// Adds a line, with what is the same on every line of the job.
    fn push(&mut self, line: LabourLine) {
        self.bill.lines.push(LabourLine {
            line: u32::try_from(self.bill.lines.len() + 1).unwrap_or(u32::MAX),
            currency: self.book.currency.clone(),
            technician: self.input.technician.map(str::to_string),
            ..line
        });
    }

    /// The first 16 hexadecimal digits of BLAKE3 over job and parts, each behind its length.
    fn line_id(&self, parts: &[&str]) -> String {
        let mut hasher = blake3::Hasher::new();
        for part in [self.input.job].iter().chain(parts) {
            hasher.update(&(part.len() as u64).to_le_bytes());
            hasher.update(part.as_bytes());
        }
        hasher.finalize().to_hex().chars().take(16).collect()
    }

    /// What job.toml says and no line took up.
    fn check_job_file(&mut self) {
        let operations = &self.book.operations;
        if self.input.diagnosis_hours.is_some()
            && !operations.iter().any(PricedOperation::is_first_diagnosis)
        {
            self.bill.problem(
                "job.toml",
                "job.diagnosis_hours",
                "The hours are not billed: the catalogue of shop.toml has no operation with step = \"diagnosis\".".into(),
            );
        }
        for code in self.input.authorised {
            if !operations.iter().any(|op| op.code == *code) {
                let known: Vec<&str> = operations.iter().map(|op| op.code.as_str()).collect();
                self.bill.problem(
                    "job.toml",
                    "job.authorised",
                    format!("{code:?} is not billed: the catalogue of shop.toml has no such operation; it has: {}.", known.join(", ")),
                );
            }
        }
        let is_example = |l: &LabourLine| l.hours_from == HoursFrom::ExampleCatalogue;
        if self.bill.lines.iter().any(is_example) {
            self.bill.problem(
                "shop.toml",
                "billing.operation",
                "Hours come from the built-in example catalogue and are invented: put the shop's own operations into shop.toml.".into(),
            );
        }
    }
}

/// Seconds to minutes, to the millisecond; `None` for what is no length of time.
fn span_minutes(seconds: f64) -> Option<Decimal> {
    let longest = 3600.0 * 1000.0;
    (seconds > 0.0 && seconds <= longest)
        .then(|| Decimal::new((seconds * 1000.0).round() as i64, 3) / Decimal::from(60))
}
