//! The bill of a job and the files that the billing system gets.

use super::acquire::Acquired;
use crate::context::AppContext;
use anyhow::Result;
use billing::{Bill, BillingError, BillingInput, DraftInput, Export, OrderInput, Phrase};
use fluent_bundle::{FluentArgs, FluentValue};
use intake::Output;
use model::labour::{HandedRow, OrderTexts};
use model::shop_file::LabourAfter;
use model::{Case, Problem};

/// The bill of a job and its files, not written yet.
pub struct Labour {
    /// The lines and what they come to.
    pub bill: Bill,
    new: Vec<HandedRow>,
    csv: Vec<u8>,
    order: String,
    draft: Option<Vec<u8>>,
}

/// Makes the bill, puts it into the case, and makes the files. `handed` are the rows that were handed over before;
/// where shop.toml wants a signature first, nothing new is handed over without one.
///
/// # Errors
/// When shop.toml cannot be used. What keeps a file from being made is a problem of the case: the report must not be
/// lost for it.
pub fn make(
    case: &mut Case,
    acquired: &Acquired,
    context: &AppContext,
    handed: &[HandedRow],
    signed: bool,
) -> Result<Labour> {
    let job = acquired.job.clone().unwrap_or_default().job;
    let span: f64 = case.captures.iter().map(|c| c.end_s - c.start_s).sum();
    let bill = billing::lines(
        &BillingInput {
            job: &case.job.number,
            technician: case.job.technician.as_deref(),
            verdict: &case.verdict,
            diagnosis_hours: job.diagnosis_hours,
            recordings_span_s: (span > 0.0).then_some(span),
            authorised: &job.authorised,
        },
        &context.settings.shop,
    )?;
    let texts = order_texts(case, &bill, context);
    let map = &context.settings.shop.labour_csv;
    let waits = context.settings.shop.billing.labour_after == LabourAfter::Sign && !signed;
    let new = match waits {
        true => Vec::new(),
        false => billing::hand_over(handed, &bill.lines, map.corrections),
    };
    let export = Export {
        job: &bill.job,
        opened: case.job.opened,
        texts: Some(&texts),
        rows: &billing::account(handed.iter().chain(&new)),
    };
    let csv = billing::labour_csv(&export, map);
    let draft = billing::invoice_draft(&DraftInput {
        bill: &bill,
        opened: case.job.opened,
        shop: &context.settings.shop,
        customer: &case.customer,
        note: &context.localizer().say("order-draft"),
        texts: Some(&texts),
    });
    let order = billing::order_file(&texts, &say(context));
    case.labour = bill.lines.clone();
    case.labour_totals = bill.totals.clone();
    case.problems.extend(bill.problems.iter().cloned());
    case.order = Some(texts);
    let csv = made("labour.csv", csv, case);
    Ok(Labour {
        draft: made("invoice_draft.xml", draft, case)
            .flatten()
            .filter(|_| !waits),
        order,
        bill,
        // What could not be written was not handed over.
        new: if csv.is_some() { new } else { Vec::new() },
        csv: csv.unwrap_or_default(),
    })
}

impl Labour {
    /// The files, behind those of the job that are made already, and the new rows.
    pub fn into_files(self, mut files: Vec<Output>) -> (Vec<Output>, Vec<HandedRow>) {
        files.push(Output::new("labour.csv", self.csv));
        files.push(Output::new("repair_order.txt", self.order.into_bytes()));
        files.extend(self.draft.map(|xml| Output::new("invoice_draft.xml", xml)));
        (files, self.new)
    }
}

/// What was made; else the reason becomes a problem of the case.
fn made<T>(file: &str, result: Result<T, BillingError>, case: &mut Case) -> Option<T> {
    match result {
        Ok(made) => Some(made),
        Err(e) => {
            case.problems.push(Problem {
                file: file.into(),
                place: None,
                message: e.to_string(),
            });
            None
        }
    }
}

fn order_texts(case: &Case, bill: &Bill, context: &AppContext) -> OrderTexts {
    let words = context.localizer();
    let named = case.verdict.cause.as_deref();
    let ranked = case.verdict_cause();
    // The weights say which findings tell most.
    let mut weights: Vec<_> = ranked.map_or_else(Vec::new, |c| c.weights.iter().collect());
    weights.sort_by(|a, b| b.weight_dban.total_cmp(&a.weight_dban));
    let evidence: Vec<String> = weights
        .iter()
        .filter(|w| w.weight_dban > 0.0)
        .filter_map(|w| {
            case.findings
                .iter()
                .find(|f| Some(&f.id) == w.finding.as_ref())
        })
        .map(|finding| words.finding(finding))
        .collect();
    billing::order_texts(
        &OrderInput {
            concern: case.concern.as_deref(),
            codes: &case.codes,
            verdict: &case.verdict,
            cause: named.map(|c| words.cause_title(c)).as_deref(),
            evidence: &evidence,
            lines: &bill.lines,
        },
        &say(context),
    )
}

fn say(context: &AppContext) -> impl Fn(Phrase<'_>) -> String + '_ {
    |phrase| {
        let arguments: FluentArgs<'_> = (phrase.arguments.iter())
            .map(|(name, text)| (*name, FluentValue::from(*text)))
            .collect();
        context.localizer().say_with(phrase.key, &arguments)
    }
}
