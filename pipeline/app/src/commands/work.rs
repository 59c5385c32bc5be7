//! `authorise`, `decline`, `complete`: an event of a job's lines is recorded, and the report that follows it made.

use super::learn::read_case;
use super::report::{NewestReport, newest, now};
use super::status::print_lines;
use crate::arguments::{AuthoriseArguments, How, Usage, WorkArguments};
use crate::context::AppContext;
use crate::output::say;
use crate::publish::{Task, recover};
use crate::work_lines::{describe_event, describe_refusal};
use anyhow::{Context, Result};
use billing::{NamedLines, Statement, WorkError};
use chrono::NaiveDateTime;
use intake::Store;
use model::ShopFile;
use model::labour::{SumBasis, SumLimit, WorkEvent};
use report::localizer::Localizer;
use rust_decimal::Decimal;

/// Records what a customer agreed to, up to which sum.
pub fn authorise(arguments: AuthoriseArguments) -> Result<bool> {
    let basis = match arguments.basis.net {
        true => SumBasis::Net,
        false => SumBasis::Gross,
    };
    let limit = arguments.up_to.map(|sum| SumLimit { sum, basis });
    record(arguments.work, |named, statement| {
        billing::authorise(named, arguments.how.into(), limit, statement)
    })
}

/// Records what a customer does not want, or no longer wants.
pub fn decline(work: WorkArguments, how: How) -> Result<bool> {
    record(work, |named, statement| {
        billing::decline(named, how.into(), statement)
    })
}

/// Records work as done, or takes such a record back.
pub fn complete(work: WorkArguments, hours: Option<Decimal>, undo: bool) -> Result<bool> {
    record(work, |named, statement| match undo {
        true => billing::reopen(named, statement),
        false => billing::complete(named, hours, statement),
    })
}

/// Records the event that `make` makes of the lines of the newest report, and makes the report anew. The event stands
/// even where that fails.
fn record(
    arguments: WorkArguments,
    make: impl FnOnce(NamedLines<'_>, Statement<'_>) -> Result<WorkEvent, WorkError>,
) -> Result<bool> {
    let NewestReport {
        job,
        mut store,
        mut context,
        ..
    } = NewestReport::open(arguments.report)?;
    let step = Step {
        job: &job,
        names: &arguments.lines,
        by: &arguments.by,
        recorded_by: None,
        note: arguments.note.as_deref(),
        at: arguments.at,
    };
    let event = step.record(
        make,
        &mut *store,
        &context.settings.shop,
        context.localizer(),
    )?;
    say!("{job}: {}", describe_event(&event, context.localizer()));
    let clean = publish(&job, &mut *store, &mut context)?;
    let number = newest(&mut *store, &job)?.number;
    print_lines(&read_case(&mut *store, &job, number)?, context.localizer());
    Ok(clean)
}

/// A step of lines of work that somebody states.
pub struct Step<'a> {
    /// The job.
    pub job: &'a str,
    /// Operation codes, line numbers or stages; none for what is usual for the step.
    pub names: &'a [String],
    /// Name of the person who gave their word, or did the work.
    pub by: &'a str,
    /// Name of the person who records it, where somebody else said it.
    pub recorded_by: Option<&'a str>,
    /// Anything to be kept with it.
    pub note: Option<&'a str>,
    /// When that was; now where it is left out.
    pub at: Option<NaiveDateTime>,
}

impl Step<'_> {
    /// Records the event that `make` makes of the lines of the newest report.
    ///
    /// # Errors
    /// When the step lies ahead or is not possible.
    pub fn record(
        &self,
        make: impl FnOnce(NamedLines<'_>, Statement<'_>) -> Result<WorkEvent, WorkError>,
        store: &mut dyn Store,
        shop: &ShopFile,
        localizer: &Localizer,
    ) -> Result<WorkEvent> {
        let job = self.job;
        let latest = newest(store, job)?;
        recover(store)?;
        let now = now();
        if let Some(at) = self.at.filter(|at| *at > now) {
            let at = at.format("%Y-%m-%d %H:%M");
            let message =
                format!("--at {at}: lies ahead; what is not said or done yet is not recorded");
            return Err(Usage(message).into());
        }
        let events_known = store.ledger().work_events(job)?.len();
        let named = NamedLines {
            job,
            lines: &read_case(store, job, latest.number)?.labour,
            names: self.names,
            shop,
        };
        let statement = Statement {
            by: self.by,
            at: self.at.unwrap_or(now),
            recorded_by: self.recorded_by,
            note: self.note,
        };
        let event = make(named, statement).map_err(|e| {
            let why = describe_refusal(&e, localizer);
            Usage(format!("{job}: {why}"))
        })?;
        match store.ledger().record(job, &event, events_known)? {
            true => Ok(event),
            false => {
                let why = localizer.message("console-refused-moved");
                Err(Usage(format!("{job}: {why}")).into())
            }
        }
    }
}

/// Makes the report anew after a step was recorded; on top of what somebody else may publish meanwhile. Returns
/// whether nothing was set aside in it.
///
/// # Errors
/// When it cannot be made; the step stands all the same.
fn publish(job: &str, store: &mut dyn Store, context: &mut AppContext) -> Result<bool> {
    publish_anew(job, store, context)
        .context("it is recorded, but the report could not be made anew; run the job again")
}

fn publish_anew(job: &str, store: &mut dyn Store, context: &mut AppContext) -> Result<bool> {
    for _ in 0..3 {
        let latest = newest(store, job)?;
        let source = store.source(&latest)?;
        let entries = source.gather()?;
        let finished = Task::new(job, source, entries, store)?.make(context)?;
        if finished.publish_and_show(store, context)? {
            return Ok(finished.clean);
        }
    }
    anyhow::bail!("somebody else does the same job over and over; stop the other one first")
}
