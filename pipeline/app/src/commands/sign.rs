//! `sign`: a person's word that a report is right.

use super::report::{NewestReport, newest, now};
use crate::arguments::{ReportArguments, Usage};
use crate::context::AppContext;
use crate::output::say;
use crate::publish::{Task, hand_over, recover};
use crate::status_page;
use crate::words::fluent_args;
use anyhow::Result;
use intake::{ResultStore, Signature};

/// Signs the newest report of a job.
pub fn sign(by: &str, note: Option<String>, report: ReportArguments) -> Result<bool> {
    let NewestReport {
        job,
        mut store,
        mut context,
        ..
    } = NewestReport::open(report)?;
    let number = sign_newest(&job, by, note, &mut store, &mut context)?;
    let path = store.folder().join(&job).join("report.pdf");
    let arguments = fluent_args![
        "job" => job.as_str(),
        "report" => number,
        "path" => path.display().to_string(),
    ];
    let localizer = context.localizer();
    say!("{}", localizer.message_with("console-signed", &arguments));
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
    let signature = Signature {
        by: by.trim().into(),
        at: now(),
        note,
    };
    let finished = task.sign(signature, context)?;
    if !finished.publish(store)? {
        anyhow::bail!("{job}: a newer report was made meanwhile; look at that one, and sign it");
    }
    hand_over(store, &context.settings.shop)?;
    status_page::write(store, context.localizer())?;
    Ok(finished.revision().number)
}
