//! The bill of a job and the files that the billing system gets.

use super::acquire::Acquired;
use crate::context::AppContext;
use anyhow::Result;
use billing::{Bill, BillingError, BillingInput, DraftInput, Export, OrderInput, Phrase};
use chrono::NaiveDateTime;
use fluent_bundle::{FluentArgs, FluentValue};
use intake::Output;
use model::labour::{HandedRow, OrderTexts, WorkEvent};
use model::party::Parties;
use model::{Case, Problem, Verdict};

/// The bill of a job and its files, not written yet.
pub struct Labour {
    /// The lines and what they come to.
    pub bill: Bill,
    csv: Vec<u8>,
    order: String,
    draft: Option<Vec<u8>>,
}

/// Facts of the ledger that a bill depends on.
#[derive(Debug, Clone, Copy)]
pub struct LedgerFacts<'a> {
    /// Rows that were handed over before, oldest first.
    pub handed: &'a [HandedRow],
    /// Events of the job, oldest first.
    pub events: &'a [WorkEvent],
    /// Other jobs that claim the same number.
    pub number_taken_by: &'a [String],
    /// Time, in the shop's time.
    pub now: NaiveDateTime,
}

/// Makes the bill of the job with this name in the ledger, puts it into the case, and makes the files.
///
/// # Errors
/// When shop.toml cannot be used. What keeps a file from being made is a problem of the case: the report must not be
/// lost for it.
pub fn make(
    name: &str,
    case: &mut Case,
    acquired: &Acquired,
    context: &AppContext,
    ledger: LedgerFacts<'_>,
) -> Result<Labour> {
    let job = acquired.job.clone().unwrap_or_default();
    let shop = &context.settings.shop;
    // Of which system a verdict is decides which steps of work it has.
    let named: Vec<Verdict> = (case.systems.iter())
        .map(|s| Verdict {
            system: Some(s.system.clone()),
            ..s.verdict.clone()
        })
        .collect();
    let mut verdicts: Vec<&Verdict> = named.iter().collect();
    if verdicts.is_empty() {
        verdicts.push(&case.verdict);
    }
    let mut bill = billing::make_bill(
        &BillingInput {
            job: name,
            number: &case.job.number,
            opened: case.job.opened,
            technician: case.job.technician.as_deref(),
            verdicts: &verdicts,
            diagnosis_hours: job.job.diagnosis_hours,
            is_reported: acquired.has_evidence,
            is_job_file_sound: acquired.job_errors.is_empty(),
            events: ledger.events,
            handed: ledger.handed,
            number_taken_by: ledger.number_taken_by,
            now: ledger.now,
        },
        shop,
    )?;
    let texts = order_texts(case, &bill, context);
    let export = Export {
        texts: Some(&texts),
        rows: &bill.account.iter().collect::<Vec<_>>(),
    };
    let csv = billing::labour_csv(&export, shop);
    let draft = billing::invoice_draft(&DraftInput {
        bill: &bill,
        shop,
        parties: &Parties::new(&shop.shop, &case.client, &case.customer),
        note: &context.localizer().message("order-draft"),
        texts: Some(&texts),
    });
    let order = billing::order_file(&texts, &message(context));
    case.labour = bill.lines.clone();
    case.labour_totals = bill.totals.clone();
    case.problems.extend(bill.problems.iter().cloned());
    case.order = Some(texts);
    let csv = made("labour.csv", csv, case);
    if csv.is_none() {
        // What could not be written was not handed over.
        bill.rows.clear();
    }
    Ok(Labour {
        draft: made("invoice_draft.xml", draft, case).flatten(),
        order,
        bill,
        csv: csv.unwrap_or_default(),
    })
}

impl Labour {
    /// Returns the files, behind those of the job that are made already, and the bill.
    pub fn into_files(self, mut files: Vec<Output>) -> (Vec<Output>, Bill) {
        files.push(Output::new("labour.csv", self.csv));
        files.push(Output::new("repair_order.txt", self.order.into_bytes()));
        files.extend(self.draft.map(|xml| Output::new("invoice_draft.xml", xml)));
        (files, self.bill)
    }
}

/// Returns the document; else the reason becomes a problem of the case.
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
    let localizer = context.localizer();
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
        .map(|finding| localizer.finding(finding))
        .collect();
    let mut texts = billing::order_texts(
        &OrderInput {
            concern: case.concern.as_deref(),
            codes: &case.codes,
            verdict: &case.verdict,
            cause: named.map(|c| localizer.cause_title(c)).as_deref(),
            evidence: &evidence,
            lines: &bill.lines,
        },
        &message(context),
    );
    // A conclusion drawn without them is not the whole one.
    if !case.not_run.is_empty() {
        let count = FluentValue::from(case.not_run.len());
        let arguments = FluentArgs::from_iter([("count", count)]);
        texts.cause.push(' ');
        texts
            .cause
            .push_str(&localizer.message_with("report-not-run", &arguments));
    }
    texts
}

fn message(context: &AppContext) -> impl Fn(Phrase<'_>) -> String + '_ {
    |phrase| {
        let arguments: FluentArgs<'_> = (phrase.arguments.iter())
            .map(|(name, text)| (*name, FluentValue::from(*text)))
            .collect();
        context.localizer().message_with(phrase.key, &arguments)
    }
}
