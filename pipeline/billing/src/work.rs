//! Events that people record: work is authorised, declined, done, or was not done after all.
//!
//! Each function makes an event from the lines as a person saw them in the newest report. The ledger adds it, and the
//! next bill follows it.

mod select;

use crate::limit::authorisation_limit;
use crate::price::{price_work, reprice};
use crate::price_book::{MAX_HOURS, PriceBook, PricedOperation};
use crate::totals::totals;
use crate::{BillingError, line_id};
use chrono::NaiveDateTime;
use model::labour::{
    ConsentMethod, Hold, HoursFrom, LineKind, LineState, PriceRule, SumBasis, SumLimit, Totals,
    WorkAction, WorkEvent, WorkStage,
};
use model::{LabourLine, ShopFile};
use rust_decimal::Decimal;
use select::Selection;

/// A job's lines as its newest report has them, and the names of those that a person means: operation codes, line
/// numbers or stages (`first-step`, `teardown`, `repair`). Parts go with their work, fees with what brings them.
#[derive(Debug, Clone, Copy)]
pub struct NamedLines<'a> {
    /// Identity of the job in the ledger: its name.
    pub job: &'a str,
    /// All lines of the job.
    pub lines: &'a [LabourLine],
    /// Names; empty for the usual ones of the step.
    pub names: &'a [String],
    /// Prices, and the fees' operations.
    pub shop: &'a ShopFile,
}

/// Person and time of an event.
#[derive(Debug, Clone, Copy)]
pub struct Statement<'a> {
    /// Name of the person whose word or work it is.
    pub by: &'a str,
    /// Time, in the shop's time.
    pub at: NaiveDateTime,
    /// Name of the person who records it, where somebody else said it.
    pub recorded_by: Option<&'a str>,
    /// Remark of the person who records it.
    pub note: Option<&'a str>,
}

/// Reason why an event cannot be recorded.
#[derive(Debug, thiserror::Error)]
pub enum WorkError {
    /// A name that no line has.
    #[error("{name:?} is no line of this job; there are {known}")]
    UnknownLine {
        /// The name.
        name: String,
        /// Names that there are.
        known: String,
    },
    /// Nothing that the event could be about.
    #[error("there is nothing to {action}: {why}")]
    NothingToDo {
        /// The command.
        action: &'static str,
        /// Reason.
        why: String,
    },
    /// Several stages that are authorised apart.
    #[error("stages are authorised apart; name the ones that the customer means with --lines: {0}")]
    SeveralStages(String),
    /// A sum that is none.
    #[error("--up-to {sum}: {why}")]
    WrongSum {
        /// The sum.
        sum: Decimal,
        /// Expectation.
        why: String,
    },
    /// Hours that cannot be meant.
    #[error("--hours {hours}: {why}")]
    WrongHours {
        /// The hours.
        hours: Decimal,
        /// Expectation.
        why: String,
    },
    /// A diagnosis without hours.
    #[error(
        "{operation}: only the person who did the diagnosis knows its hours; give them with --hours, such as --hours 1.4"
    )]
    MissingHours {
        /// Code of the operation.
        operation: String,
    },
    /// Work that nobody has authorised.
    #[error(
        "{0} is not authorised: ask the customer, and record the answer with `authorise` first"
    )]
    NotAuthorised(String),
    /// Work that exceeds the authorised sum.
    #[error(
        "{operation} is held: it comes to {needed} {currency} {limit_basis} with what was authorised beside it, and the customer said up to {limit} {currency}; ask, and record the answer with `authorise` first"
    )]
    BeyondLimit {
        /// Code of the operation.
        operation: String,
        /// Sum that is needed.
        needed: Decimal,
        /// Sum that was authorised.
        limit: Decimal,
        /// Net or gross.
        limit_basis: SumBasis,
        /// Currency of both, ISO 4217.
        currency: String,
    },
    /// A blank name.
    #[error("--by: give the name of the person")]
    NoName,
    /// Prices that cannot be used.
    #[error(transparent)]
    Billing(#[from] BillingError),
}

/// Authorises lines, up to a sum for all of them together. Without names: what the one stage offers that waits;
/// without a sum: that of `[report.authorisation]`, which the report states.
///
/// An authorisation of lines that have one replaces it: so is it raised or cut back.
///
/// # Errors
/// When the lines are unknown, done already, or of several stages that were not named, or the sum is none.
pub fn authorise(
    named: NamedLines<'_>,
    how: ConsentMethod,
    limit: Option<SumLimit>,
    statement: Statement<'_>,
) -> Result<WorkEvent, WorkError> {
    const ACTION: &str = "authorise";
    let book = read_book(named.shop, ACTION)?;
    let selection = Selection::new(&named)?;
    let waits = |l: &LabourLine| matches!(l.state, LineState::Offered) || l.life.hold.is_some();
    let may_be = |l: &LabourLine| l.life.done.is_none() || l.life.hold.is_some();
    let lines = match named.names.is_empty() {
        true => {
            let waiting = selection.keep(&|l| waits(l) && !is_first_diagnosis(l, &named, &book));
            one_stage(&waiting, &book)?;
            waiting
        }
        false => selection.named(&may_be),
    };
    if lines.is_empty() {
        return Err(nothing(ACTION, &named));
    }
    let estimate = totals(lines.iter().copied(), book.money);
    let limit = match limit {
        None => authorisation_limit(&estimate, named.shop, book.money),
        Some(limit) => check_limit(limit, &book)?,
    };
    event(
        WorkAction::Authorised { how, limit },
        statement,
        terms(&lines),
    )
}

/// Declines lines, or withdraws their authorisation. Without names: everything that is offered.
///
/// # Errors
/// When the lines are unknown or done already.
pub fn decline(
    named: NamedLines<'_>,
    how: ConsentMethod,
    statement: Statement<'_>,
) -> Result<WorkEvent, WorkError> {
    const ACTION: &str = "decline";
    let book = read_book(named.shop, ACTION)?;
    let selection = Selection::new(&named)?;
    let may_be = |l: &LabourLine| l.life.done.is_none() && !is_first_diagnosis(l, &named, &book);
    let lines = match named.names.is_empty() {
        true => selection.keep(&|l| l.state == LineState::Offered && may_be(l)),
        false => selection.declined(&may_be),
    };
    if lines.is_empty() {
        return Err(nothing(ACTION, &named));
    }
    event(WorkAction::Declined { how }, statement, terms(&lines))
}

/// Records lines as done, with the hours that they took where they are not those that were agreed. Without names:
/// everything that is authorised. The diagnosis needs no authorisation, and always its hours.
///
/// # Errors
/// When the lines are unknown, not authorised or held, or the hours belong to more than one line.
pub fn complete(
    named: NamedLines<'_>,
    hours: Option<Decimal>,
    statement: Statement<'_>,
) -> Result<WorkEvent, WorkError> {
    const ACTION: &str = "complete";
    let book = read_book(named.shop, ACTION)?;
    let diagnosis = diagnosis_line(&named, &book);
    let all: Vec<LabourLine> = named.lines.iter().cloned().chain(diagnosis).collect();
    let named = NamedLines {
        lines: &all,
        ..named
    };
    let selection = Selection::new(&named)?;
    let is_open = |l: &LabourLine| l.life.done.is_none() || hours.is_some();
    let lines = match named.names.is_empty() {
        true => selection.keep(&|l| {
            l.life.authorised.is_some() && l.life.done.is_none() && l.life.hold.is_none()
        }),
        false => selection.named(&is_open),
    };
    if lines.is_empty() {
        return Err(nothing(ACTION, &named));
    }
    for line in &lines {
        let is_called = is_first_diagnosis(line, &named, &book);
        check_may_be_done(line, is_called, hours.is_some())?;
    }
    let mut done = terms(&lines);
    if let Some(hours) = hours {
        set_hours(&mut done, hours, &book)?;
    }
    for line in &mut done {
        line.technician = Some(statement.by.trim().into());
    }
    event(WorkAction::Done, statement, done)
}

/// Takes back a record of completion.
///
/// # Errors
/// When no line is named, or the lines are unknown or not done.
pub fn reopen(named: NamedLines<'_>, statement: Statement<'_>) -> Result<WorkEvent, WorkError> {
    const ACTION: &str = "take back";
    let selection = Selection::new(&named)?;
    let lines = match named.names.is_empty() {
        true => Vec::new(),
        false => selection.reopened(),
    };
    if lines.is_empty() {
        return Err(nothing(ACTION, &named));
    }
    event(WorkAction::Reopened, statement, terms(&lines))
}

/// Sum of lines, net and gross, each tax taken once.
///
/// # Errors
/// When `[billing]` cannot be used.
pub fn sum_lines(lines: &[&LabourLine], shop: &ShopFile) -> Result<Totals, WorkError> {
    let book = read_book(shop, "add up")?;
    Ok(totals(lines.iter().copied(), book.money))
}

fn read_book(shop: &ShopFile, action: &'static str) -> Result<PriceBook, WorkError> {
    PriceBook::read(&shop.billing)?.ok_or_else(|| WorkError::NothingToDo {
        action,
        why: "shop.toml has no rate, so no work has a price".into(),
    })
}

fn event(
    action: WorkAction,
    statement: Statement<'_>,
    lines: Vec<LabourLine>,
) -> Result<WorkEvent, WorkError> {
    let by = statement.by.trim();
    if by.is_empty() {
        return Err(WorkError::NoName);
    }
    Ok(WorkEvent {
        at: statement.at,
        by: Some(by.into()),
        action,
        recorded_by: statement.recorded_by.map(str::to_string),
        note: statement.note.map(str::to_string),
        lines,
    })
}

fn terms(lines: &[&LabourLine]) -> Vec<LabourLine> {
    lines.iter().map(|l| l.terms()).collect()
}

fn nothing(action: &'static str, named: &NamedLines<'_>) -> WorkError {
    let states: Vec<String> = (named.lines.iter())
        .filter(|l| l.kind == LineKind::Labour)
        .map(|l| format!("{} is {}", l.operation, l.state))
        .collect();
    WorkError::NothingToDo {
        action,
        why: match states.is_empty() {
            true => "the job has no lines of work".into(),
            false => states.join(", "),
        },
    }
}

/// Work of several stages needs to be named: they are authorised apart.
fn one_stage(lines: &[&LabourLine], book: &PriceBook) -> Result<(), WorkError> {
    let stages = WorkStage::ALL.into_iter().filter_map(|stage| {
        let of_stage = lines.iter().copied().filter(|l| l.step.stage() == stage);
        let sums = totals(of_stage.clone(), book.money);
        let text = format!("{} ({} {} gross)", stage, sums.gross, book.currency);
        (of_stage.count() > 0).then_some(text)
    });
    let stages: Vec<String> = stages.collect();
    match stages.len() {
        0 | 1 => Ok(()),
        _ => Err(WorkError::SeveralStages(stages.join(", "))),
    }
}

fn check_limit(limit: SumLimit, book: &PriceBook) -> Result<SumLimit, WorkError> {
    let wrong = |why: &str| WorkError::WrongSum {
        sum: limit.sum,
        why: why.into(),
    };
    if limit.sum <= Decimal::ZERO {
        return Err(wrong("expected more than 0"));
    }
    if limit.sum.normalize().scale() > book.money.digits {
        return Err(wrong(&format!(
            "{} has {} decimals",
            book.currency, book.money.digits
        )));
    }
    let sum = book.money.round(limit.sum);
    Ok(SumLimit { sum, ..limit })
}

fn check_may_be_done(line: &LabourLine, is_called: bool, has_hours: bool) -> Result<(), WorkError> {
    let operation = line.operation.clone();
    if is_called && line.kind == LineKind::Labour && !has_hours {
        let is_stated = matches!(line.hours_from, HoursFrom::JobFile | HoursFrom::Completion);
        return match is_stated || line.price_rule == PriceRule::FlatFee {
            true => Ok(()),
            false => Err(WorkError::MissingHours { operation }),
        };
    }
    match (&line.life.hold, line.state) {
        (Some(Hold::BeyondLimit { limit, needed }), LineState::Offered) => {
            Err(WorkError::BeyondLimit {
                operation,
                needed: *needed,
                limit: limit.sum,
                limit_basis: limit.basis,
                currency: line.currency.clone(),
            })
        }
        (_, LineState::Offered | LineState::Declined) if !is_called => {
            Err(WorkError::NotAuthorised(operation))
        }
        _ => Ok(()),
    }
}

/// Gives the one line of work the hours that it took.
fn set_hours(lines: &mut [LabourLine], hours: Decimal, book: &PriceBook) -> Result<(), WorkError> {
    let wrong = |why: &str| WorkError::WrongHours {
        hours,
        why: why.into(),
    };
    if !(Decimal::ZERO..=MAX_HOURS).contains(&hours) || hours.is_zero() {
        return Err(wrong(&format!(
            "expected more than 0 and at most {MAX_HOURS}"
        )));
    }
    let mut work = lines.iter_mut().filter(|l| l.kind == LineKind::Labour);
    let (Some(line), None) = (work.next(), work.next()) else {
        return Err(wrong("belongs to one line: name it with --lines"));
    };
    let time = book.time.round_hours(hours);
    if time.is_zero() {
        return Err(wrong("rounds to nothing by hours_rounding of shop.toml"));
    }
    *line = LabourLine {
        hours_from: HoursFrom::Completion,
        ..reprice(line, time, book.money)
    };
    Ok(())
}

fn is_first_diagnosis(line: &LabourLine, named: &NamedLines<'_>, book: &PriceBook) -> bool {
    let Some(op) = first_diagnosis(book) else {
        return false;
    };
    let id = line_id(named.job, &[&op.code, op.step.into()]);
    line.line_id == id || line.parent_id.as_ref() == Some(&id)
}

fn first_diagnosis(book: &PriceBook) -> Option<&PricedOperation> {
    book.operations.iter().find(|op| op.is_first_diagnosis())
}

/// The diagnosis, where it has no line yet because its hours are missing.
fn diagnosis_line(named: &NamedLines<'_>, book: &PriceBook) -> Option<LabourLine> {
    let op = first_diagnosis(book)?;
    let id = line_id(named.job, &[&op.code, op.step.into()]);
    if named.lines.iter().any(|l| l.line_id == id) {
        return None;
    }
    let line = LabourLine {
        line_id: id,
        operation: op.code.clone(),
        step: op.step,
        description: op.description.clone(),
        currency: book.currency.clone(),
        tax: op.tax.clone(),
        ..LabourLine::default()
    };
    let time = book.time.round_hours(op.hours.unwrap_or_default());
    Some(price_work(line, op.rule, op.rate, time, book.money))
}
