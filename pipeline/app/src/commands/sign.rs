//! `sign`: a person's word that a report is right.

use crate::arguments::Usage;
use crate::context::AppContext;
use crate::output::say;
use crate::publish::{Task, hand_over, recover};
use crate::status_page;
use anyhow::Result;
use chrono::{Local, Timelike};
use intake::{JobGroup, ResultStore, Revision, Signature};
use std::path::{Path, PathBuf};

/// Newest report of a job.
///
/// # Errors
/// When there is none; names the jobs that there are.
pub fn newest(store: &mut ResultStore, job: &str) -> Result<Revision> {
    if let Some(latest) = store.ledger().latest(job)? {
        return Ok(latest);
    }
    let mut known = Vec::new();
    for group in JobGroup::ALL {
        let jobs = store.ledger().jobs_in(group, MAX_NAMES)?;
        known.extend(jobs.into_iter().map(|j| j.name));
    }
    let known = match known.as_slice() {
        [] => "there is none at all".into(),
        known => format!("there are {}", known.join(", ")),
    };
    Err(Usage(format!("{job}: there is no report of this job; {known}")).into())
}

/// Names of each group that a message lists.
const MAX_NAMES: u32 = 10;

/// Signs the newest report of a job.
pub fn sign(
    job: &str,
    by: &str,
    note: Option<String>,
    out: &Path,
    shop: Option<PathBuf>,
) -> Result<bool> {
    let mut store = ResultStore::open(out, false)?;
    let settings = shop.or(newest(&mut store, job)?.shop);
    let mut context = AppContext::open(settings.as_deref(), false)?;
    let number = sign_newest(job, by, note, &mut store, &mut context)?;
    say!(
        "{job}: report {number} is signed: {}",
        out.join(job).join("report.pdf").display()
    );
    Ok(true)
}

/// Signs the newest report of a job and returns its number.
///
/// # Errors
/// When nobody signs, there is no report, it is signed already, or it would say something else by now.
pub fn sign_newest(
    job: &str,
    by: &str,
    note: Option<String>,
    store: &mut ResultStore,
    context: &mut AppContext,
) -> Result<u32> {
    if by.trim().is_empty() {
        return Err(
            Usage("--by: give the name of the person who reviewed the report".into()).into(),
        );
    }
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
    let kept = store.folder().join(job);
    let kept = kept.join(format!("rev-{}/report.pdf", latest.number));
    if !kept.exists() {
        let message = format!("{job}: there is no report to sign; {}", latest.sentence);
        return Err(Usage(message).into());
    }
    recover(store)?;
    let entries = latest.source.gather()?;
    let task = Task::new(job, latest.source, entries, store)?;
    let now = Local::now().naive_local();
    let signature = Signature {
        by: by.trim().into(),
        at: now.with_nanosecond(0).unwrap_or(now),
        note,
    };
    let finished = task.sign(signature, context)?;
    if !finished.publish(store)? {
        anyhow::bail!("{job}: a newer report was made meanwhile; look at that one, and sign it");
    }
    hand_over(store, &context.settings.shop)?;
    status_page::write(store)?;
    Ok(finished.revision().number)
}
