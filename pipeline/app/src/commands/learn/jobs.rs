//! Jobs of the ledger with their newest cases and their outcomes.

use crate::output::say_error;
use anyhow::{Context, Result};
use chrono::{DateTime, Local};
use intake::{JobGroup, Revision, Store};
use learn::Job;
use model::Case;

/// Case of a report.
///
/// # Errors
/// When it cannot be read.
pub fn read_case(store: &mut dyn Store, job: &str, number: u32) -> Result<Case> {
    let path = store.result(job, number, "case.json")?;
    let bytes = std::fs::read(&path).with_context(|| path.display().to_string())?;
    serde_json::from_slice(&bytes).with_context(|| path.display().to_string())
}

/// All jobs that have a report, as [`history`] gives them, without the place of their files.
///
/// # Errors
/// When the ledger cannot be read.
pub fn jobs(store: &mut dyn Store) -> Result<Vec<Job>> {
    let jobs = history(store)?.into_iter();
    Ok(jobs.map(|(job, _)| job).collect())
}

/// All jobs that have a report, in the order of their names, with the place of their files. A case that cannot be read,
/// as one of an older version, is said and left out.
///
/// # Errors
/// When the ledger cannot be read.
pub fn history(store: &mut dyn Store) -> Result<Vec<(Job, Revision)>> {
    let mut outcomes = store.ledger().all_outcomes()?;
    let mut revisions = Vec::new();
    for group in JobGroup::ALL {
        let jobs = store.ledger().jobs_in(group, u32::MAX)?;
        revisions.extend(jobs.into_iter().filter_map(|j| j.revision));
    }
    revisions.sort_by(|a, b| a.job.cmp(&b.job));
    let mut jobs = Vec::new();
    for revision in revisions {
        let case = match read_case(store, &revision.job, revision.number) {
            Ok(case) => case,
            Err(e) => {
                say_error!("{}: left out: {e:#}", revision.job);
                continue;
            }
        };
        let job = Job {
            name: revision.job.clone(),
            outcomes: outcomes.remove(&revision.job).unwrap_or_default(),
            month: DateTime::<Local>::from(revision.made)
                .format("%Y-%m")
                .to_string(),
            case,
        };
        jobs.push((job, revision));
    }
    Ok(jobs)
}
