//! Recording an event of a job's lines, and the report that follows it.

use super::sign::newest;
use super::status::lines;
use crate::arguments::{Usage, WorkArguments};
use crate::context::AppContext;
use crate::publish::{Task, hand_over, recover};
use crate::status_page;
use anyhow::{Context, Result};
use billing::{NamedLines, Statement, WorkError};
use chrono::{Local, Timelike};
use intake::ResultStore;
use model::labour::WorkEvent;

/// Records the event that `make` makes of the lines of the newest report, and makes the report anew. The event stands
/// even where that fails.
pub fn record(
    arguments: WorkArguments,
    make: impl FnOnce(NamedLines<'_>, Statement<'_>) -> Result<WorkEvent, WorkError>,
) -> Result<bool> {
    let WorkArguments {
        job,
        lines: names,
        by,
        note,
        out,
        shop,
    } = arguments;
    let mut store = ResultStore::open(&out, false)?;
    let settings = shop.or(newest(&mut store, &job)?.shop);
    let mut context = AppContext::open(settings.as_deref(), false)?;
    let step = Step {
        job: &job,
        names: &names,
        by: &by,
        note: note.as_deref(),
    };
    let (event, clean) = step.record(make, &mut store, &mut context)?;
    println!("{job}: {}", billing::describe_event(&event));
    let number = newest(&mut store, &job)?.number;
    for line in lines(&store, &job, number)? {
        println!("  {}", billing::describe_line(&line));
    }
    Ok(clean)
}

/// A step of lines of work that somebody states.
pub struct Step<'a> {
    /// The job.
    pub job: &'a str,
    /// Operation codes, line numbers or stages; none for what is usual for the step.
    pub names: &'a [String],
    /// Who gave their word, or did the work.
    pub by: &'a str,
    /// Anything to be kept with it.
    pub note: Option<&'a str>,
}

impl Step<'_> {
    /// Records the event that `make` makes of the lines of the newest report, and makes the report anew. Returns
    /// whether nothing was set aside in it.
    ///
    /// # Errors
    /// When the step is not possible, or the report cannot be made anew; then the event stands all the same.
    pub fn record(
        &self,
        make: impl FnOnce(NamedLines<'_>, Statement<'_>) -> Result<WorkEvent, WorkError>,
        store: &mut ResultStore,
        context: &mut AppContext,
    ) -> Result<(WorkEvent, bool)> {
        let job = self.job;
        let latest = newest(store, job)?;
        recover(store)?;
        let now = Local::now().naive_local();
        let named = NamedLines {
            job,
            lines: &lines(store, job, latest.number)?,
            names: self.names,
            shop: &context.settings.shop,
        };
        let statement = Statement {
            by: self.by,
            at: now.with_nanosecond(0).unwrap_or(now),
            note: self.note,
        };
        let event = make(named, statement).map_err(|e| Usage(format!("{job}: {e}")))?;
        {
            let _lock = store.lock()?;
            store.ledger().record(job, &event)?;
        }
        let clean = publish(job, store, context)
            .context("it is recorded, but the report could not be made anew; run the job again")?;
        Ok((event, clean))
    }
}

/// Makes the report anew; on top of what somebody else may publish meanwhile.
fn publish(job: &str, store: &mut ResultStore, context: &mut AppContext) -> Result<bool> {
    for _ in 0..3 {
        let latest = newest(store, job)?;
        let entries = latest.source.gather()?;
        let finished = Task::new(job, latest.source, entries, store)?.make(context)?;
        if finished.publish(store)? {
            hand_over(store, &context.settings.shop)?;
            status_page::write(store)?;
            return Ok(finished.clean);
        }
    }
    anyhow::bail!("somebody else does the same job over and over; stop the other one first")
}
