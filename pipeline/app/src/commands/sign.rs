//! `sign`: a person's word that a report is right.

use crate::arguments::Usage;
use crate::context::AppContext;
use crate::publish::{Task, hand_over, recover};
use crate::status_page;
use anyhow::Result;
use chrono::{Local, Timelike};
use intake::{Outbox, Signature};
use std::path::{Path, PathBuf};

/// Signs the newest report of a job.
pub fn sign(
    job: &str,
    by: String,
    note: Option<String>,
    out: &Path,
    shop: Option<PathBuf>,
) -> Result<bool> {
    if by.trim().is_empty() {
        return Err(
            Usage("--by: give the name of the person who reviewed the report".into()).into(),
        );
    }
    let mut outbox = Outbox::open(out, false)?;
    let Some(latest) = outbox.ledger().latest(job)? else {
        let known = outbox.ledger().overview()?;
        let known: Vec<&str> = known.iter().map(|j| j.name.as_str()).collect();
        let known = match known.as_slice() {
            [] => "there is none at all".into(),
            known => format!("there are {}", known.join(", ")),
        };
        return Err(Usage(format!("{job}: there is no report of this job; {known}")).into());
    };
    if let Some(s) = latest.signature {
        let message = format!(
            "{job}: report {} was signed by {} on {} already",
            latest.number,
            s.by,
            s.at.format("%Y-%m-%d at %H:%M")
        );
        return Err(Usage(message).into());
    }
    let settings = shop.or(latest.shop);
    let mut context = AppContext::open(settings.as_deref(), false)?;
    recover(&mut outbox)?;
    let entries = latest.source.gather()?;
    let task = Task::new(job, latest.source, entries, &mut outbox)?;
    let now = Local::now().naive_local();
    let signature = Signature {
        by: by.trim().into(),
        at: now.with_nanosecond(0).unwrap_or(now),
        note,
    };
    let finished = task.sign(signature, &mut context)?;
    if !finished.publish(&mut outbox)? {
        anyhow::bail!("{job}: a newer report was made meanwhile; look at that one, and sign it");
    }
    hand_over(&mut outbox, &context.settings.shop)?;
    status_page::write(&mut outbox)?;
    println!(
        "{job}: report {} is signed: {}",
        finished.revision().number,
        out.join(job).join("report.pdf").display()
    );
    Ok(true)
}
