//! From a verdict and the shop's prices to a bill.

mod writer;

use crate::BillingError;
use crate::price_book::PriceBook;
use crate::totals::totals;
use model::labour::{LabourTotals, LineState, WorkStep};
use model::{LabourLine, Problem, ShopFile, Verdict};

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

/// A job's lines and what they come to.
#[derive(Debug, Clone, PartialEq)]
pub struct Bill {
    /// The job's number.
    pub job: String,
    /// Every line, billable ones and estimates, in the order in which the work is done; fees last.
    pub lines: Vec<LabourLine>,
    /// What they come to; `None` where the shop gives no rate.
    pub totals: Option<LabourTotals>,
    /// What a person should know: hours that could not be billed, codes that the catalogue lacks.
    pub problems: Vec<Problem>,
}

/// Makes the lines of a job.
///
/// - The diagnosis is always a line. Hours of job.toml are billable. Hours of the catalogue are an
///   estimate until authorised. The recordings' span is an estimate, whatever is authorised.
/// - A further diagnosis is an estimate where the verdict asks for a recording that it is for.
/// - Other work is offered as an estimate only for an established cause, and no more once a recording
///   proves the repair. Work that needs a teardown is offered only where the verdict carries one.
/// - What job.toml authorises is billable, whatever the verdict says by now: a recording after the
///   repair must not take the repair off the bill.
/// - Parts go with their operation; a fee with the operations that bring it, once a job.
///
/// `line_id` is made of job number, operation and step (and a part's number), not of the cause: the ids outlive a
/// verdict that changes with a further recording, so that no work is billed twice. The catalogue keeps them unique.
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
    match PriceBook::read(&shop.billing)? {
        Some(book) => {
            writer::write(input, &book, &mut bill);
            bill.totals = Some(labour_totals(&bill.lines, &book));
        }
        None if input.diagnosis_hours.is_some() || !input.authorised.is_empty() => bill.problem(
            "shop.toml",
            "billing.rates",
            "Work of job.toml is not billed: shop.toml has no rate.".into(),
        ),
        None => {}
    }
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
        diagnosis_rate: (book.operations.iter())
            .find(|op| op.is_first_diagnosis())
            .map(|op| op.rate),
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
