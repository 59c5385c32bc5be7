//! `status`: all jobs in the terminal, or the lines of work of one.

use super::sign::newest;
use crate::status_page::{self, count, title};
use anyhow::{Context, Result};
use intake::ResultStore;
use model::{Case, LabourLine};
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
    Ok(true)
}

/// Lines of a job as its report of that number has them.
///
/// # Errors
/// When case.json of the report cannot be read.
pub fn lines(store: &ResultStore, job: &str, number: u32) -> Result<Vec<LabourLine>> {
    let path = store
        .folder()
        .join(job)
        .join(format!("rev-{number}/case.json"));
    let bytes = std::fs::read(&path).with_context(|| path.display().to_string())?;
    let case: Case = serde_json::from_slice(&bytes).with_context(|| path.display().to_string())?;
    Ok(case.labour)
}
