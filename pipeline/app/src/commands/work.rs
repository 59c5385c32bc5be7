//! Recording an event of a job's lines, and the report that follows it.

use super::sign::newest;
use super::status::{case, print_lines};
use crate::arguments::{Usage, WorkArguments};
use crate::context::AppContext;
use crate::output::say;
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
        at,
        note,
        out,
        shop,
    } = arguments;
    let mut store = ResultStore::open(&out, false)?;
    let latest = newest(&mut store, &job)?;
    recover(&mut store)?;
    let settings = shop.or(latest.shop.clone());
    let mut context = AppContext::open(settings.as_deref(), false)?;
    let now = Local::now().naive_local();
    let now = now.with_nanosecond(0).unwrap_or(now);
    if let Some(at) = at.filter(|at| *at > now) {
        let at = at.format("%Y-%m-%d %H:%M");
        return Err(Usage(format!(
            "--at {at}: lies ahead; what is not said or done yet is not recorded"
        ))
        .into());
    }
    let named = NamedLines {
        job: &job,
        lines: &case(&store, &job, latest.number)?.labour,
        names: &names,
        shop: &context.settings.shop,
    };
    let statement = Statement {
        by: &by,
        at: at.unwrap_or(now),
        note: note.as_deref(),
    };
    let event = make(named, statement).map_err(|e| Usage(format!("{job}: {e}")))?;
    {
        let _lock = store.lock()?;
        store.ledger().record(&job, &event)?;
    }
    say!("{job}: {}", billing::describe_event(&event));
    let clean = publish(&job, &mut store, &mut context)
        .context("it is recorded, but the report could not be made anew; run the job again")?;
    let number = newest(&mut store, &job)?.number;
    print_lines(&case(&store, &job, number)?);
    Ok(clean)
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
