//! From verdicts, prices and events to a bill.

mod candidates;

use crate::BillingError;
use crate::hand_over::{HandOver, account, hand_over, open_rows};
use crate::life::{Rules, Settled, settle, track};
use crate::limit::authorisation_limit;
use crate::price_book::PriceBook;
use crate::totals::totals;
use candidates::Collector;
use chrono::{NaiveDate, NaiveDateTime};
use model::labour::{
    HandedRow, Hold, LabourTotals, LineState, PriceRule, StageTotals, Totals, WorkAction,
    WorkEvent, WorkStage,
};
use model::{LabourLine, Problem, ShopFile, Verdict};
use std::collections::BTreeSet;

/// Facts of a job that a bill depends on.
#[derive(Debug, Clone, Copy)]
pub struct BillingInput<'a> {
    /// Identity of the job in the ledger: its name. Identifiers of lines are made of it, not of the number.
    pub job: &'a str,
    /// The shop's number for the job.
    pub number: &'a str,
    /// Day on which the job was opened.
    pub opened: Option<NaiveDate>,
    /// Name of the person who does the work.
    pub technician: Option<&'a str>,
    /// Verdicts, one per examined system.
    pub verdicts: &'a [&'a Verdict],
    /// Hours spent on the diagnosis, as job.toml states them.
    pub diagnosis_hours: Option<f64>,
    /// True where a customer's report is made: with it the diagnosis is done.
    pub is_reported: bool,
    /// True where job.toml could be read whole. Where it could not, nothing is handed over and nothing reversed.
    pub is_job_file_sound: bool,
    /// Events of the job, oldest first.
    pub events: &'a [WorkEvent],
    /// Rows of the job that the billing system has, oldest first.
    pub handed: &'a [HandedRow],
    /// Other jobs that claim the same number.
    pub number_taken_by: &'a [String],
    /// Time, in the shop's time.
    pub now: NaiveDateTime,
}

/// Lines of a job, their sums, and what the ledger and the billing system do not have yet.
#[derive(Debug, Clone, PartialEq)]
pub struct Bill {
    /// Number of the job.
    pub number: String,
    /// Day on which the job was opened.
    pub opened: Option<NaiveDate>,
    /// Every line with its state, in the order of the work; fees last.
    pub lines: Vec<LabourLine>,
    /// Sums of the lines; `None` where the shop gives no rate.
    pub totals: Option<LabourTotals>,
    /// Rows to add to the ledger and to hand over.
    pub rows: Vec<HandedRow>,
    /// Event to add to the ledger; `None` where the newest offer says the same.
    pub offer: Option<WorkEvent>,
    /// Rows that labour.csv shows: the job's whole account, `rows` included.
    pub account: Vec<HandedRow>,
    /// True where the hours of the diagnosis are missing: only the person who did it knows them.
    pub lacks_diagnosis_hours: bool,
    /// Other jobs that claim the same number: rows and signing are held.
    pub number_taken_by: Vec<String>,
    /// Problems for a person: lines that are held, hours that are missing.
    pub problems: Vec<Problem>,
}

/// Makes the bill of a job.
///
/// - The diagnosis was ordered by the call. It is done once the report is made and its hours are stated (in job.toml
///   or by [`complete`](crate::complete)), or at once where it costs a flat fee.
/// - A further diagnosis is offered where a verdict asks for a recording that it is for.
/// - A first step is offered for an established or probable cause; other work for an established cause alone, and no
///   more once a recording proves the repair. Work that needs a teardown is offered only where the verdict carries one.
/// - What was authorised, declined or done stays on the bill at the prices of then, whatever verdict and catalogue say
///   by now; what was billed without an event keeps its price while its hours stay the same.
/// - Parts go with their operation; a fee with the operations that bring it, once a job.
///
/// # Errors
/// When `[billing]` cannot be used. What is wrong with job.toml goes into [`Bill::problems`] instead.
pub fn make_bill(input: &BillingInput<'_>, shop: &ShopFile) -> Result<Bill, BillingError> {
    let corrections = shop.labour_csv.corrections;
    let mut bill = Bill {
        number: input.number.into(),
        opened: input.opened,
        lines: Vec::new(),
        totals: None,
        rows: Vec::new(),
        offer: None,
        account: account(input.handed).into_iter().cloned().collect(),
        lacks_diagnosis_hours: false,
        number_taken_by: input.number_taken_by.to_vec(),
        problems: Vec::new(),
    };
    let Some(book) = PriceBook::read(&shop.billing)? else {
        if input.diagnosis_hours.is_some() || !input.events.is_empty() {
            let message = "The work is not billed: shop.toml has no rate.".into();
            bill.report("shop.toml", "billing.rates", message);
        }
        return Ok(bill);
    };
    let tracks = track(input.events);
    let candidates = Collector::new(input, &book, &tracks, &mut bill).collect();
    let rules = Rules {
        billed_at: shop.billing.billed_at,
        money: book.money,
    };
    let mut settled = settle(candidates, &tracks, rules);
    bill.report_holds(&settled);
    bill.offer = offer(&settled, input);
    if bill.may_hand_over(input) {
        let due: Vec<&LabourLine> = settled
            .iter()
            .filter(|s| s.is_due)
            .map(|s| &s.line)
            .collect();
        let row = HandOver {
            number: input.number,
            opened: input.opened,
            day: input.now.date(),
            corrections,
        };
        bill.rows = hand_over(input.handed, &due, row);
        let all = input.handed.iter().chain(&bill.rows);
        bill.account = account(all).into_iter().cloned().collect();
    }
    mark_billed(&mut settled, input.handed.iter().chain(&bill.rows));
    hold_unbilled(&mut settled, input.number_taken_by);
    bill.lines = settled.into_iter().map(|s| s.line).collect();
    bill.totals = Some(labour_totals(&bill.lines, &book, shop));
    Ok(bill)
}

fn mark_billed<'a>(settled: &mut [Settled], rows: impl IntoIterator<Item = &'a HandedRow>) {
    let open = open_rows(rows);
    for s in settled.iter_mut() {
        if s.is_due && open.contains_key(s.line.line_id.as_str()) {
            s.line.state = LineState::Billed;
        }
    }
}

/// Holds what is due and not billed while another job claims the number.
fn hold_unbilled(settled: &mut [Settled], number_taken_by: &[String]) {
    if number_taken_by.is_empty() {
        return;
    }
    for s in settled.iter_mut() {
        if s.is_due && s.line.state != LineState::Billed {
            let jobs = number_taken_by.to_vec();
            s.line.life.hold = Some(Hold::NumberTaken { jobs });
        }
    }
}

/// The offer that the ledger does not have yet.
fn offer(settled: &[Settled], input: &BillingInput<'_>) -> Option<WorkEvent> {
    let is_offered = |l: &&LabourLine| l.state == LineState::Offered && l.life.hold.is_none();
    let lines: Vec<LabourLine> = settled
        .iter()
        .map(|s| &s.line)
        .filter(is_offered)
        .map(LabourLine::terms)
        .collect();
    let newest = input
        .events
        .iter()
        .rfind(|e| e.action == WorkAction::Offered);
    let known = newest.map_or(&[][..], |e| &e.lines);
    (known != lines).then(|| WorkEvent {
        at: input.now,
        by: input.technician.map(str::to_string),
        action: WorkAction::Offered,
        recorded_by: None,
        note: None,
        lines,
    })
}

fn labour_totals(lines: &[LabourLine], book: &PriceBook, shop: &ShopFile) -> LabourTotals {
    // A line in another currency than today's cannot be added up with the others.
    let sum = |keep: &dyn Fn(&LabourLine) -> bool| {
        let kept = (lines.iter()).filter(|l| l.currency == book.currency && keep(l));
        totals(kept, book.money)
    };
    let of_state = |states: &[LineState]| -> Totals {
        sum(&|l| l.life.hold.is_none() && states.contains(&l.state))
    };
    let stages = WorkStage::ALL.into_iter().filter_map(|stage| {
        let is_in = |l: &LabourLine| l.step.stage() == stage && l.state != LineState::Declined;
        lines.iter().any(is_in).then(|| {
            let offered = sum(&|l| is_in(l) && l.state == LineState::Offered);
            StageTotals {
                stage,
                estimate: sum(&is_in),
                limit: (lines
                    .iter()
                    .any(|l| is_in(l) && l.state == LineState::Offered))
                .then(|| authorisation_limit(&offered, shop, book.money)),
                offered,
            }
        })
    });
    let diagnosis = book.operations.iter().find(|op| op.is_first_diagnosis());
    LabourTotals {
        currency: book.currency.clone(),
        offered: of_state(&[LineState::Offered]),
        authorised: of_state(&[LineState::Authorised]),
        done: of_state(&[LineState::Done, LineState::Billed]),
        held: sum(&|l| l.life.hold.is_some()),
        stages: stages.collect(),
        diagnosis_rate: diagnosis
            .filter(|op| op.rule != PriceRule::FlatFee)
            .map(|op| op.rate),
    }
}

impl Bill {
    fn report(&mut self, file: &str, place: &str, message: String) {
        self.problems.push(Problem {
            file: file.into(),
            place: Some(place.into()),
            message,
        });
    }

    fn report_holds(&mut self, settled: &[Settled]) {
        let mut limits = BTreeSet::new();
        for line in settled.iter().map(|s| &s.line) {
            let place = format!("line {}", line.line);
            match &line.life.hold {
                Some(Hold::BeyondLimit { limit, needed }) => {
                    // Once an authorisation: every later line exceeds it as well.
                    let authorised = line.life.authorised.as_ref();
                    if !limits.insert(authorised.map(|a| (a.at, a.by.clone()))) {
                        continue;
                    }
                    let by = authorised.map_or("", |a| a.by.as_str());
                    let basis = limit.basis;
                    self.report(
                        "labour.csv",
                        &place,
                        format!(
                            "{:?} and what follows it is held: the work comes to {needed} {currency} {basis} with it, and {by} \
                             authorised up to {} {currency} {basis}. Ask, and record the answer with `authorise`.",
                            line.operation, limit.sum, currency = line.currency,
                        ),
                    );
                }
                Some(Hold::NotAuthorised) => self.report(
                    "labour.csv",
                    &place,
                    format!(
                        "{:?} is done without an authorisation and is not billed. Ask, and record the answer with \
                         `authorise`.",
                        line.operation
                    ),
                ),
                Some(Hold::NumberTaken { .. }) | None => {}
            }
        }
    }

    /// Returns whether rows may go out now, and reports why they may not.
    fn may_hand_over(&mut self, input: &BillingInput<'_>) -> bool {
        if let [first, ..] = input.number_taken_by {
            let others = input.number_taken_by.join(", ");
            self.report(
                "job.toml",
                "job.number",
                format!(
                    "{:?} is the number of the jobs {} and {others}: nothing of either is handed over or signed. Give \
                     {} or {first} a number of its own ([job] number), or put the files of one visit into one folder.",
                    input.number, input.job, input.job,
                ),
            );
        }
        if !input.is_job_file_sound {
            let message = "Nothing is handed over or taken back until the file can be read.".into();
            self.report("job.toml", "the whole file", message);
        }
        input.number_taken_by.is_empty() && input.is_job_file_sound
    }
}
