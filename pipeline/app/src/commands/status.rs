//! `status`: all jobs, in the terminal.

use crate::status_page::{self, Shelf, View, count};
use anyhow::Result;
use intake::Outbox;
use std::path::Path;
use std::time::SystemTime;

/// Prints the jobs. Changes nothing.
pub fn status(out: &Path) -> Result<bool> {
    let views = status_page::read(&mut Outbox::open(out, false)?)?;
    if views.is_empty() {
        println!("There is no job yet.");
    }
    let now = SystemTime::now();
    for shelf in Shelf::ALL {
        let jobs: Vec<&View> = views.iter().filter(|v| v.shelf == shelf).collect();
        if jobs.is_empty() {
            continue;
        }
        println!("{}: {}", shelf.title(), count(jobs.len(), "job", "jobs"));
        for job in jobs {
            let verdict = job.verdict.as_deref().unwrap_or("no verdict yet");
            println!("  {}: {}; {verdict}; {}", job.name, job.state, job.age(now));
            for ask in &job.asks {
                println!("    asked for: {ask}");
            }
        }
    }
    Ok(true)
}
