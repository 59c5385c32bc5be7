//! One job, from its files to its results: acquire, hook up, measure, assess, advise.

mod acquire;
mod advise;
mod conditions;
mod draft;
mod hookup;
mod labour;
mod measure;

use crate::house::House;
use anyhow::{Context, Result};
use intake::JobEntry;
use model::Case;
use std::path::Path;

/// What a job came to.
pub struct Done {
    /// Everything that case.json holds.
    pub case: Case,
    /// Whether no file was set aside.
    pub clean: bool,
}

/// Does one job and writes its results into `out`.
///
/// # Errors
/// When the results cannot be made or written. A file that cannot be read is no error: it is set aside, and the
/// job goes on with the rest.
pub fn run(name: &str, entries: &[JobEntry], out: &Path, house: &mut House) -> Result<Done> {
    let mut files = acquire::read(entries);
    hookup::fill_in(&mut files, &house.hookups);
    for capture in &mut files.captures {
        hookup::apply(
            capture,
            files.job.as_ref(),
            &house.hookups,
            &mut files.problems,
        );
    }
    let mut case = acquire::case(name, &mut files, house);
    measure::run(&mut case, &files, house);
    let assessed = assess::assess(&assess::Evidence {
        findings: &case.findings,
        captures: &case.captures,
        sheet: &house.causes,
    });
    case.causes = assessed.causes;
    case.verdict = assessed.verdict;
    for step in &mut case.verdict.next {
        step.text = house.words().next(&step.step);
    }
    let folder = out.join(name);
    std::fs::create_dir_all(&folder)
        .with_context(|| format!("{}: cannot be made", folder.display()))?;
    advise::write(&mut case, &files, &folder, house)?;
    draft::write(&case, &files, &folder)?;
    let clean = case
        .files
        .iter()
        .all(|f| f.status == model::case::FileStatus::Read);
    Ok(Done { case, clean })
}
