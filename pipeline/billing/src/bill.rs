//! From a verdict and the shop's prices to labour lines.

use crate::BillingError;
use crate::price_book::{MAX_HOURS, PriceBook, PricedOperation};
use crate::rounding::WorkTime;
use crate::totals::totals;
use model::labour::{HoursFrom, LabourTotals, LineKind, LineState, WorkStep};
use model::{Exact, LabourLine, Problem, ShopFile, Verdict, VerdictState};
use rust_decimal::Decimal;

/// What of a job a bill depends on.
#[derive(Debug, Clone, Copy)]
pub struct BillingInput<'a> {
    /// The job's number.
    pub job: &'a str,
    /// Who does the work.
    pub technician: Option<&'a str>,
    /// The conclusion.
    pub verdict: &'a Verdict,
    /// Hours spent on the diagnosis, as job.toml states them.
    pub diagnosis_hours: Option<f64>,
    /// How long the recordings last together, s. Without other hours it becomes an offer.
    pub recordings_span_s: Option<f64>,
    /// Operation codes that the customer has authorised.
    pub authorised: &'a [String],
}

/// A job's labour lines and what they come to.
#[derive(Debug, Clone, PartialEq)]
pub struct Bill {
    /// The job's number.
    pub job: String,
    /// Every line, billable ones and estimates, in the order in which the work is done.
    pub lines: Vec<LabourLine>,
    /// What they come to; `None` where the shop gives no rate.
    pub totals: Option<LabourTotals>,
    /// What a person should know: hours that could not be billed, codes that the catalogue lacks.
    pub problems: Vec<Problem>,
}

/// Makes the labour lines of a job.
///
/// - The diagnosis is always a line. Hours of job.toml are billable. Hours of the catalogue are an
///   estimate until authorised. The recordings' span is an estimate, whatever is authorised.
/// - Other work is offered as an estimate only for an established cause, and no more once a recording
///   proves the repair. Work that needs a teardown is offered only where the verdict carries one.
/// - What job.toml authorises is billable, whatever the verdict says by now: a recording after the
///   repair must not take the repair off the bill.
///
/// `line_id` is made of job number, operation and step, not of the cause: the ids outlive a verdict that
/// changes with a further recording, so that no work is billed twice. The catalogue keeps operation and
/// step unique.
///
/// # Errors
/// When `[billing]` cannot be used. What is wrong with job.toml goes into [`Bill::problems`] instead.
pub fn lines(input: &BillingInput<'_>, shop: &ShopFile) -> Result<Bill, BillingError> {
    let mut bill = Bill {
        job: input.job.to_string(),
        lines: Vec::new(),
        totals: None,
        problems: Vec::new(),
    };
    let Some(book) = PriceBook::read(&shop.billing)? else {
        if input.diagnosis_hours.is_some() || !input.authorised.is_empty() {
            bill.problem(
                "shop.toml",
                "billing.rates",
                "Work of job.toml is not billed: shop.toml has no rate.".into(),
            );
        }
        return Ok(bill);
    };
    let mut writer = Writer {
        input,
        book: &book,
        bill,
    };
    for op in &book.operations {
        match op.step {
            WorkStep::Diagnosis => writer.diagnosis(op),
            _ => writer.work(op),
        }
    }
    writer.check_job_file();
    let mut bill = writer.bill;
    bill.totals = Some(labour_totals(&bill.lines, &book));
    Ok(bill)
}

fn labour_totals(lines: &[LabourLine], book: &PriceBook) -> LabourTotals {
    let of =
        |keep: &dyn Fn(&LabourLine) -> bool| totals(lines.iter().filter(|l| keep(l)), book.money);
    LabourTotals {
        currency: book.currency.clone(),
        billable: of(&|l| l.state == LineState::Billable),
        estimate: of(&|l| l.state == LineState::Estimate),
        teardown_estimate: of(&|l| {
            l.state == LineState::Estimate
                && matches!(l.step, WorkStep::Teardown | WorkStep::Reassembly)
        }),
    }
}

impl Bill {
    fn problem(&mut self, file: &str, place: &str, message: String) {
        self.problems.push(Problem {
            file: file.into(),
            place: Some(place.into()),
            message,
        });
    }
}

struct Writer<'a> {
    input: &'a BillingInput<'a>,
    book: &'a PriceBook,
    bill: Bill,
}

impl Writer<'_> {
    fn diagnosis(&mut self, op: &PricedOperation) {
        let time = self.book.time;
        if let Some(stated) = self.input.diagnosis_hours {
            let hours = Exact::from_float(stated).map(|h| h.0);
            match hours.filter(|h| (Decimal::ZERO..=MAX_HOURS).contains(h)) {
                Some(h) => {
                    self.push(op, time.round_hours(h), HoursFrom::JobFile, LineState::Billable)
                }
                None => self.bill.problem(
                    "job.toml",
                    "job.diagnosis_hours",
                    format!("{stated} is not usable, so no diagnosis is billed: expected 0 to {MAX_HOURS} hours, such as 1.4."),
                ),
            }
        } else if let Some(h) = op.hours {
            let state = self.state_when_authorised(op);
            self.push(op, time.round_hours(h), self.book.hours_from, state);
        } else if let Some(minutes) = self.input.recordings_span_s.and_then(span_minutes) {
            let state = LineState::Estimate;
            self.push(
                op,
                time.round_minutes(minutes),
                HoursFrom::Recordings,
                state,
            );
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
        self.push(
            op,
            self.book.time.round_hours(hours),
            self.book.hours_from,
            state,
        );
    }

    fn state_when_authorised(&self, op: &PricedOperation) -> LineState {
        match self.input.authorised.contains(&op.code) {
            true => LineState::Billable,
            false => LineState::Estimate,
        }
    }

    fn is_offered(&self, op: &PricedOperation) -> bool {
        let verdict = self.input.verdict;
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

    fn push(
        &mut self,
        op: &PricedOperation,
        time: WorkTime,
        hours_from: HoursFrom,
        state: LineState,
    ) {
        if time.is_zero() {
            let message = format!("{:?} is left out: its time rounds to nothing.", op.code);
            return self
                .bill
                .problem("shop.toml", "billing.hours_rounding", message);
        }
        self.bill.lines.push(LabourLine {
            line_id: line_id(self.input.job, &op.code, op.step),
            line: u32::try_from(self.bill.lines.len() + 1).unwrap_or(u32::MAX),
            operation: op.code.clone(),
            step: op.step,
            description: op.description.clone(),
            hours: time.hours(),
            hours_from,
            rate: op.rate,
            amount: time.price(op.rate, self.book.money),
            currency: self.book.currency.clone(),
            tax: op.tax.clone(),
            technician: self.input.technician.map(str::to_string),
            state,
            kind: LineKind::Labour,
            pieces: None,
        });
    }

    /// What job.toml says and no line took up.
    fn check_job_file(&mut self) {
        let operations = &self.book.operations;
        if self.input.diagnosis_hours.is_some()
            && !operations.iter().any(|op| op.step == WorkStep::Diagnosis)
        {
            self.bill.problem(
                "job.toml",
                "job.diagnosis_hours",
                "The hours are not billed: the catalogue of shop.toml has no operation with step = \"diagnosis\".".into(),
            );
        }
        for code in self.input.authorised {
            if !operations.iter().any(|op| op.code == *code) {
                let known = operations
                    .iter()
                    .map(|op| op.code.as_str())
                    .collect::<Vec<_>>();
                self.bill.problem(
                    "job.toml",
                    "job.authorised",
                    format!("{code:?} is not billed: the catalogue of shop.toml has no such operation; it has: {}.", known.join(", ")),
                );
            }
        }
        if self
            .bill
            .lines
            .iter()
            .any(|l| l.hours_from == HoursFrom::ExampleCatalogue)
        {
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

/// The first 16 hexadecimal digits of BLAKE3 over job, operation and step, each behind its length.
fn line_id(job: &str, operation: &str, step: WorkStep) -> String {
    let mut hasher = blake3::Hasher::new();
    for part in [job, operation, step.name()] {
        hasher.update(&(part.len() as u64).to_le_bytes());
        hasher.update(part.as_bytes());
    }
    hasher.finalize().to_hex().chars().take(16).collect()
}
