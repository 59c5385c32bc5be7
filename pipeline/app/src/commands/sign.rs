//! `sign`: a person's word that a report is right.

use super::report::{NewestReport, newest, now};
use crate::arguments::{ReportArguments, Usage};
use crate::context::AppContext;
use crate::publish::{Task, recover};
use crate::words::tell;
use anyhow::Result;
use intake::{Revision, Signature, Store};

/// Signs the newest report of a job.
pub fn sign(by: &str, note: Option<String>, report: ReportArguments) -> Result<bool> {
    let NewestReport {
        job,
        mut store,
        mut context,
        ..
    } = NewestReport::open(report)?;
    let number = sign_newest(&job, by, note, &mut *store, &mut context)?;
    let path = store.place_of(&job, "report.pdf")?.unwrap_or_default();
    tell!(context.localizer(), "console-signed",
        "job" => job.as_str(),
        "report" => number,
        "path" => path,
    );
    Ok(true)
}

/// Signs the newest report of a job and returns its number.
fn sign_newest(
    job: &str,
    by: &str,
    note: Option<String>,
    store: &mut dyn Store,
    context: &mut AppContext,
) -> Result<u32> {
    if by.trim().is_empty() {
        return Err(
            Usage("--by: give the name of the person who reviewed the report".into()).into(),
        );
    }
    let latest = signable(job, store)?;
    recover(store)?;
    let source = store.source(&latest)?;
    let entries = source.gather()?;
    let task = Task::new(job, source, entries, store)?;
    let finished = task.signed(signature(by, note)).make(context)?;
    if !finished.publish_and_show(store, context)? {
        anyhow::bail!("{job}: a newer report was made meanwhile; look at that one, and sign it");
    }
    Ok(finished.revision().number)
}

/// Newest report of a job, if it can be signed.
///
/// # Errors
/// When there is no report, or it is signed already.
pub fn signable(job: &str, store: &mut dyn Store) -> Result<Revision> {
    let latest = newest(store, job)?;
    if let Some(s) = latest.signature {
        let message = format!(
            "{job}: report {} was signed by {} on {} already",
            latest.number,
            s.by,
            s.at.format("%Y-%m-%d at %H:%M")
        );
        return Err(Usage(message).into());
    }
    let results = store.results(job, latest.number)?;
    if !results.iter().any(|name| name == "report.pdf") {
        let message = format!("{job}: there is no report to sign; {}", latest.sentence);
        return Err(Usage(message).into());
    }
    Ok(latest)
}

/// Signature of a person at this moment.
pub fn signature(by: &str, note: Option<String>) -> Signature {
    Signature {
        by: by.trim().into(),
        at: now(),
        note,
    }
}
