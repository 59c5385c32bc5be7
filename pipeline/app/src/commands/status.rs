//! `status`: all jobs in the terminal, or the lines of work of one.

use super::learn::read_case;
use super::outcome::describe;
use super::sign::newest;
use crate::context::AppContext;
use crate::status_page::{self, count, title};
use anyhow::Result;
use intake::ResultStore;
use model::LabourLine;
use std::path::Path;
use std::time::SystemTime;

/// Prints the jobs, or one job with its lines and their events. Changes nothing.
pub fn status(job: Option<&str>, out: &Path) -> Result<bool> {
    let mut store = ResultStore::open(out, false)?;
    match job {
        Some(job) => one(job, &mut store),
        None => all(&mut store),
    }
}

fn all(store: &mut ResultStore) -> Result<bool> {
    let sections = status_page::read(store, u32::MAX)?;
    if sections.is_empty() {
        println!("There is no job yet.");
    }
    let now = SystemTime::now();
    for section in sections {
        println!(
            "{}: {}",
            title(section.group),
            count(section.size, "job", "jobs")
        );
        for job in &section.jobs {
            let verdict = job.verdict.as_deref().unwrap_or("no verdict yet");
            println!("  {}: {}; {verdict}; {}", job.name, job.state, job.age(now));
            for ask in &job.asks {
                println!("    asked for: {ask}");
            }
        }
    }
    let owed = store.ledger().outcomes_owed()?;
    if !owed.is_empty() {
        println!(
            "Outcome owed, see `outcome JOB`: {}",
            count(owed.len() as u64, "job", "jobs")
        );
    }
    for revision in owed {
        // A recording after the repair says something, a person who looked says more.
        let weaker = match read_case(store, &revision.job, revision.number) {
            Ok(case) if case.verdict.repair.as_ref().is_some_and(|r| r.proven) => {
                "; healthy in the recording after the repair, a weaker confirmation"
            }
            _ => "",
        };
        println!("  {}: {}{weaker}", revision.job, revision.sentence);
    }
    Ok(true)
}

fn one(job: &str, store: &mut ResultStore) -> Result<bool> {
    let latest = newest(store, job)?;
    println!("{job}: report {}, {}", latest.number, latest.sentence);
    for line in lines(store, job, latest.number)? {
        println!("  {}", billing::describe_line(&line));
    }
    for event in store.ledger().work_events(job)? {
        println!("  {}", billing::describe_event(&event));
    }
    let outcomes = store.ledger().outcomes(job)?;
    if !outcomes.is_empty() {
        let context = AppContext::open(latest.shop.as_deref(), false)?;
        for outcome in &outcomes {
            println!("  {}", describe(outcome, &context));
        }
    }
    Ok(true)
}

/// Lines of a job as its report of that number has them.
///
/// # Errors
/// When case.json of the report cannot be read.
pub fn lines(store: &ResultStore, job: &str, number: u32) -> Result<Vec<LabourLine>> {
    Ok(read_case(store, job, number)?.labour)
}
