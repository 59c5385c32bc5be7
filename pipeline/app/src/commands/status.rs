//! `status`: all jobs in the terminal, or the lines of work of one.

use super::learn::read_case;
use super::outcome::describe;
use super::report::{newest, newest_shop};
use super::run::note;
use super::store;
use crate::arguments::{StoreArguments, Usage};
use crate::context::AppContext;
use crate::output::say;
use crate::status_page::{self, count, title};
use crate::words::{self, phrase, tell};
use crate::work_lines::{describe_event, describe_line, describe_sums};
use anyhow::Result;
use intake::Store;
use model::Case;
use report::localizer::Localizer;
use std::path::Path;
use std::time::SystemTime;

/// Prints the jobs, or one job with its lines and their events, and copies its newest report where that is wanted.
/// Changes nothing else.
pub fn status(job: Option<&str>, fetch: Option<&Path>, place: &StoreArguments) -> Result<bool> {
    let mut store = store::open(place)?;
    let Some(job) = job else {
        return all(&mut *store);
    };
    one(job, &mut *store)?;
    if let Some(folder) = fetch {
        copy_results(job, folder, &mut *store)?;
    }
    Ok(true)
}

/// Copies the files of the newest report into a folder.
fn copy_results(job: &str, folder: &Path, store: &mut dyn Store) -> Result<()> {
    let latest = newest(store, job)?;
    std::fs::create_dir_all(folder)
        .map_err(|e| Usage(format!("--fetch {}: cannot be made: {e}", folder.display())))?;
    for name in store.results(job, latest.number)? {
        let to = folder.join(&name);
        let from = store.result(job, latest.number, &name)?;
        intake::write_atomic(&to, &std::fs::read(from)?)?;
        say!("  {}", to.display());
    }
    Ok(())
}

fn all(store: &mut dyn Store) -> Result<bool> {
    let theme = words::of_shop_file(newest_shop(store)?.as_deref())?;
    let localizer = theme.localizer();
    let sections = status_page::read(store, u32::MAX, localizer)?;
    let refusals = store.ledger().refusals()?;
    if !refusals.is_empty() {
        say!(
            "{}: {}",
            localizer.message("console-refused"),
            refusals.len()
        );
    }
    for text in &refusals {
        say!("  {text}");
    }
    if sections.is_empty() {
        say!("{}", localizer.message("console-jobs-none"));
    }
    let now = SystemTime::now();
    let no_verdict = localizer.message("console-no-verdict");
    for section in sections {
        say!(
            "{}: {}",
            title(section.group, localizer),
            count("console-jobs", section.size, localizer)
        );
        for job in &section.jobs {
            let verdict = job.verdict.as_deref().unwrap_or(&no_verdict);
            let age = job.age(now, localizer);
            say!("  {}: {}; {verdict}; {age}", job.name, job.state);
            for ask in &job.asks {
                say!("    {}", asked_for(ask, localizer));
            }
        }
    }
    let owed = store.ledger().outcomes_owed()?;
    if !owed.is_empty() {
        let owed = count("console-jobs", owed.len() as u64, localizer);
        say!("{}: {owed}", localizer.message("console-owed"));
    }
    for revision in owed {
        // A recording after the repair says something, a person who looked says more.
        let is_weaker = read_case(store, &revision.job, revision.number)
            .is_ok_and(|case| case.verdict.is_mended());
        let weaker = match is_weaker {
            true => format!("; {}", localizer.message("console-owed-weaker")),
            false => String::new(),
        };
        say!("  {}: {}{weaker}", revision.job, revision.sentence);
    }
    Ok(true)
}

fn asked_for(ask: &str, localizer: &Localizer) -> String {
    phrase!(localizer, "console-asked-for", "what" => ask)
}

fn one(job: &str, store: &mut dyn Store) -> Result<bool> {
    let latest = newest(store, job)?;
    let case = read_case(store, job, latest.number)?;
    let shop = store.settings(Some(&latest))?;
    let theme = words::of_shop_file(shop.as_deref())?;
    let localizer = theme.localizer();
    tell!(localizer, "console-report",
        "job" => job,
        "report" => latest.number,
        "sentence" => latest.sentence.as_str(),
    );
    print_lines(&case, localizer);
    for event in store.ledger().work_events(job)? {
        say!("  {}", describe_event(&event, localizer));
    }
    for ask in &latest.asks {
        say!("  {}", asked_for(ask, localizer));
    }
    for problem in &case.problems {
        say!("  {}", note(problem, localizer));
    }
    let outcomes = store.ledger().outcomes(job)?;
    if !outcomes.is_empty() {
        let context = AppContext::open(shop.as_deref(), false)?;
        for outcome in &outcomes {
            say!("  {}", describe(outcome, &context));
        }
    }
    Ok(true)
}

/// Prints the lines of work with their states, and what they come to.
pub fn print_lines(case: &Case, localizer: &Localizer) {
    for line in &case.labour {
        say!("  {}", describe_line(line, localizer));
    }
    let totals = case.labour_totals.iter();
    for sum in totals.flat_map(|t| describe_sums(t, localizer)) {
        say!("  {sum}");
    }
}
