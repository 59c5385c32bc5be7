//! One job, from its files to its results: acquire, hook up, measure, assess, advise.

mod acquire;
mod advise;
mod conditions;
mod draft;
mod hookup;
mod labour;
mod measure;
mod problems;
mod sections;

use crate::house::House;
use acquire::Files;
use anyhow::{Context, Result};
use intake::{JobEntry, JobSource, Output, Signature};
use model::Case;
use model::labour::HandedRow;

pub use acquire::{Early, early};
pub use problems::alone as problem_file;

/// A job that was looked at and judged.
pub struct Examined {
    /// Everything that case.json holds, but for what the shop's prices and a review add.
    pub case: Case,
    /// Digest of the case, of the shop's settings and of this program's version: what a person who reviewed the
    /// results has seen, and what the same files would give again.
    pub outcome: String,
    files: Files,
    source: JobSource,
}

/// The results of a job, not written yet.
pub struct Results {
    /// Everything that case.json holds.
    pub case: Case,
    /// The files.
    pub outputs: Vec<Output>,
    /// Labour rows that the billing system does not have yet.
    pub rows: Vec<HandedRow>,
}

/// Reads, measures and judges one job; `early` is what was read of it already.
///
/// # Errors
/// When there is no way to judge. A file that cannot be read is no error: it is set aside, and the job goes on with
/// the rest.
pub fn examine(
    name: &str,
    source: &JobSource,
    entries: &[JobEntry],
    early: Early,
    house: &mut House,
) -> Result<Examined> {
    let mut files = acquire::read(entries, early);
    sections::settle(&mut files);
    hookup::fill_in(&mut files, &house.hookups);
    for capture in &mut files.captures {
        hookup::apply(
            capture,
            files.job.as_ref(),
            &house.hookups,
            &house.roles,
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
    Ok(Examined {
        outcome: outcome(&case, house)?,
        case,
        files,
        source: source.clone(),
    })
}

fn outcome(case: &Case, house: &House) -> Result<String> {
    let seen = (case, &house.shop, env!("CARGO_PKG_VERSION"));
    let text = serde_json::to_vec(&seen).context("case.json")?;
    Ok(blake3::hash(&text).to_hex().to_string())
}

impl Examined {
    /// Makes the results of a revision. `handed`: the labour rows that were handed over before.
    ///
    /// # Errors
    /// When the report cannot be set or the shop's prices cannot be used.
    pub fn results(
        mut self,
        revision: u32,
        review: Option<&Signature>,
        handed: &[HandedRow],
        house: &House,
    ) -> Result<Results> {
        self.case.job.revision = revision;
        self.case.job.reviewed_by = review.map(|r| r.by.clone());
        let (mut outputs, rows) = advise::make(&mut self.case, &self.files, review, handed, house)?;
        let text = |name: &str, text: String| Output::new(name, text.into_bytes());
        outputs.extend(problems::of(&self.case).map(|t| text("problems.txt", t)));
        let draft = draft::of(&self.case, &self.files, &self.source);
        outputs.extend(draft.map(|t| text("job.toml", t)));
        Ok(Results {
            case: self.case,
            outputs,
            rows,
        })
    }
}
