//! The newest report of a job, for verbs that do something with it.

use super::store;
use crate::arguments::{ReportArguments, Usage};
use crate::context::AppContext;
use anyhow::Result;
use chrono::{Local, NaiveDateTime, Timelike};
use intake::{IntakeError, JobGroup, ResultStore, Revision, Store};
use std::path::{Path, PathBuf};

/// The newest report of a job, with what it was made with.
pub struct NewestReport {
    /// The job.
    pub job: String,
    /// Store of the results.
    pub store: Box<dyn Store>,
    /// The report.
    pub revision: Revision,
    /// Settings that were named, else those that the report was made with; the plugins.
    pub context: AppContext,
}

impl NewestReport {
    /// Opens what the arguments name.
    ///
    /// # Errors
    /// When there is no report, or the settings cannot be used.
    pub fn open(arguments: ReportArguments) -> Result<NewestReport> {
        let ReportArguments { job, place, shop } = arguments;
        let mut store = store::open(&place)?;
        let revision = newest(&mut *store, &job)?;
        let settings = match shop {
            Some(shop) => Some(shop),
            None => store.settings(Some(&revision))?,
        };
        Ok(NewestReport {
            context: AppContext::open(settings.as_deref(), false)?,
            job,
            store,
            revision,
        })
    }
}

/// Newest report of a job.
///
/// # Errors
/// When there is none; names the jobs that there are.
pub fn newest(store: &mut dyn Store, job: &str) -> Result<Revision> {
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

/// Settings that one of the newest reports was made with.
///
/// # Errors
/// When the ledger cannot be read.
pub fn newest_shop(store: &mut dyn Store) -> Result<Option<PathBuf>, IntakeError> {
    let mut newest = None;
    for group in JobGroup::ALL {
        let jobs = store.ledger().jobs_in(group, 1)?;
        newest = newest.or(jobs.into_iter().find_map(|job| job.revision));
    }
    store.settings(newest.as_ref())
}

/// Settings that the reports in a folder of results were made with, as far as they are known.
pub fn shop_of(out: &Path) -> Option<PathBuf> {
    newest_shop(&mut ResultStore::open(out, false).ok()?).ok()?
}

/// Names of each group that a message lists.
const MAX_NAMES: u32 = 10;

/// The time in the shop, to the second.
pub fn now() -> NaiveDateTime {
    let now = Local::now().naive_local();
    now.with_nanosecond(0).unwrap_or(now)
}
