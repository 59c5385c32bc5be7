//! `status`: all jobs in the terminal, or the lines of work of one.

use super::learn::read_case;
use super::outcome::describe;
use super::report::newest;
use crate::context::AppContext;
use crate::output::say;
use crate::status_page::{self, REFUSED, count, title};
use anyhow::Result;
use intake::ResultStore;
use model::Case;
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
    let refusals = store.ledger().refusals()?;
    if !refusals.is_empty() {
        say!("{REFUSED}: {}", refusals.len());
    }
    for text in &refusals {
        say!("  {text}");
    }
    if sections.is_empty() {
        say!("There is no job yet.");
    }
    let now = SystemTime::now();
    for section in sections {
        say!(
            "{}: {}",
            title(section.group),
            count(section.size, "job", "jobs")
        );
        for job in &section.jobs {
            let verdict = job.verdict.as_deref().unwrap_or("no verdict yet");
            say!("  {}: {}; {verdict}; {}", job.name, job.state, job.age(now));
            for ask in &job.asks {
                say!("    asked for: {ask}");
            }
        }
    }
    let owed = store.ledger().outcomes_owed()?;
    if !owed.is_empty() {
        say!(
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
        say!("  {}: {}{weaker}", revision.job, revision.sentence);
    }
    Ok(true)
}

fn one(job: &str, store: &mut ResultStore) -> Result<bool> {
    let latest = newest(store, job)?;
    let case = read_case(store, job, latest.number)?;
    say!("{job}: report {}, {}", latest.number, latest.sentence);
    print_lines(&case);
    for event in store.ledger().work_events(job)? {
        say!("  {}", billing::describe_event(&event));
    }
    for ask in &latest.asks {
        say!("  asked for: {ask}");
    }
    for problem in &case.problems {
        say!("  note: {}", crate::context::line(problem));
    }
    let outcomes = store.ledger().outcomes(job)?;
    if !outcomes.is_empty() {
        let context = AppContext::open(latest.shop.as_deref(), false)?;
        for outcome in &outcomes {
            say!("  {}", describe(outcome, &context));
        }
    }
    Ok(true)
}

/// Prints the lines of work with their states, and what they come to.
pub fn print_lines(case: &Case) {
    for line in &case.labour {
        say!("  {}", billing::describe_line(line));
    }
    for sum in case.labour_totals.iter().flat_map(billing::describe_sums) {
        say!("  {sum}");
    }
}
