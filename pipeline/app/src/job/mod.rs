//! One job, by value from its files to its results: acquire, derive, detect, assess, advise.

mod acquire;
mod advise;
mod asked;
mod assessed;
mod at_hand;
mod conditions;
mod derive;
mod draft;
mod labour;
mod learned;
mod measure;
mod photos;
mod problems;
mod sections;

use crate::context::AppContext;
use crate::words::fluent_args;
use anyhow::{Context, Result};
use billing::Bill;
use intake::{JobEntry, JobSource, Output, Signature};
use model::{Case, JobFile};
use report::SpeedCurve;
use report::localizer::Localizer;
use sha2::{Digest, Sha256};

pub use acquire::{Acquired, Early, acquire, early, readers};
pub use asked::asked;
pub use assessed::{Assessed, assess_systems};
pub use at_hand::{AtHand, JobProgress, Step};
pub use conditions::Conditions;
pub use derive::{Derived, StatedFacts, derive};
pub use draft::line_number;
pub use labour::LedgerFacts;
pub use learned::LearnedLimits;
pub use measure::{Detected, detect};
pub(crate) use problems::alone as problem_file;

/// A job that was examined and assessed.
pub struct Examined {
    /// Everything that case.json holds, but for what the shop's prices and a review add.
    pub case: Case,
    /// Digest of the case, of the shop's settings and of this program's version: what a person who reviewed the
    /// results has seen, and what the same files would give again.
    pub outcome: String,
    /// True where there is something to report on, all of job.toml is right, and every check ran.
    pub complete: bool,
    /// True where a check did not run that may run another time.
    pub is_due_again: bool,
    name: String,
    acquired: Acquired,
    speeds: Vec<SpeedCurve>,
    source: JobSource,
}

/// Signature under a revision, and the newest one under an earlier revision.
#[derive(Debug, Clone, Copy, Default)]
pub struct Review<'a> {
    /// Signature; `None` while it is a draft.
    pub signature: Option<&'a Signature>,
    /// Undone by any change since.
    pub earlier: Option<&'a Signature>,
}

/// Results of a job, not written yet.
pub struct Results {
    /// Everything that case.json holds.
    pub case: Case,
    /// The files.
    pub outputs: Vec<Output>,
    /// Lines of work, with the rows and the offer that the ledger does not have yet.
    pub bill: Bill,
    /// Requests to a person, the first ones first.
    pub asks: Vec<String>,
    /// job.toml as TOML, where all of it is right.
    pub answers: Option<String>,
}

/// Reads, measures and assesses one job; `early` is what was read of it already, `before` its job.toml as it was last
/// right.
///
/// # Errors
/// When there is no way to assess. A file that cannot be read is no error: it is rejected, and the job goes on with
/// the rest.
pub fn examine(
    name: &str,
    source: &JobSource,
    entries: &[JobEntry],
    early: Early,
    before: Option<&JobFile>,
    context: &mut AppContext,
) -> Result<Examined> {
    let localizer = context.theme.localizer();
    let acquired = acquire(
        entries,
        early,
        &context.known_names(),
        before,
        context.memory.limits(),
        &context.at_hand,
    );
    let derived = derive(acquired, &context.presets, &context.knowledge);
    let learned = LearnedLimits::new(&context.learned, &derived, name);
    let known = (&context.knowledge, &learned);
    let detected = detect(derived, known, &mut context.host, localizer);
    let acquired = &detected.derived.acquired;
    let complete =
        acquired.has_evidence && acquired.job_errors.is_empty() && detected.not_run.is_empty();
    let is_due_again = detected.is_due_again;
    let (case, acquired, speeds) = assess_systems(detected, &learned, localizer).into_case(name);
    Ok(Examined {
        outcome: outcome(&case, context)?,
        case,
        complete,
        is_due_again,
        name: name.to_owned(),
        acquired,
        speeds,
        source: source.clone(),
    })
}

/// Reads, measures and assesses the job in a folder; no report is made.
///
/// # Errors
/// A folder that cannot be read.
pub fn examine_folder(folder: &std::path::Path, context: &mut AppContext) -> Result<Case> {
    let source = JobSource::Folder(folder.to_path_buf());
    let entries = source.gather()?;
    let name = folder.file_name().unwrap_or_default().to_string_lossy();
    Ok(examine(&name, &source, &entries, Early::new(), None, context)?.case)
}

/// Speeds over time that the tooth trains of one recording of a job give, as the reports draw them.
///
/// # Errors
/// When the job's files cannot be listed.
pub fn speeds_of(
    source: &JobSource,
    file: &str,
    before: Option<&JobFile>,
    context: &mut AppContext,
) -> Result<Vec<SpeedCurve>> {
    let mut entries = source.gather()?;
    entries.retain(|e| e.path == file || intake::is_job_file(&e.path));
    let acquired = acquire(
        &entries,
        Early::new(),
        &context.known_names(),
        before,
        context.memory.limits(),
        &context.at_hand,
    );
    let derived = derive(acquired, &context.presets, &context.knowledge);
    Ok(measure::derive_speeds(
        &derived,
        file,
        &context.knowledge,
        &mut context.host,
    ))
}

fn outcome(case: &Case, context: &AppContext) -> Result<String> {
    let seen = (case, &context.settings.shop, env!("CARGO_PKG_VERSION"));
    let text = serde_json::to_vec(&seen).context("case.json")?;
    Ok(Sha256::digest(&text)
        .iter()
        .map(|b| format!("{b:02x}"))
        .collect())
}

impl Examined {
    /// Makes the results of a revision.
    ///
    /// # Errors
    /// When the report cannot be set or the shop's prices cannot be used.
    pub fn results(
        mut self,
        revision: u32,
        review: Review<'_>,
        ledger: LedgerFacts<'_>,
        context: &AppContext,
    ) -> Result<Results> {
        context.at_hand.note(Step::Reporting);
        self.case.job.revision = revision;
        self.case.job.reviewed_by = review.signature.map(|r| r.by.clone());
        let (mut outputs, bill) = advise::make(
            &mut self.case,
            (&mut self.acquired, &self.speeds),
            &self.name,
            review,
            ledger,
            context,
        )?;
        let text = |name: &str, text: String| Output::new(name, text.into_bytes());
        let asks = self.asks(context.localizer());
        outputs
            .extend(problems::of(&self.case, context.localizer()).map(|t| text("problems.txt", t)));
        let draft = draft::of(
            &self.case,
            &self.acquired,
            &self.source,
            &context.knowledge,
            context.localizer(),
        );
        outputs.extend(draft.map(|t| text("job.toml", t)));
        Ok(Results {
            answers: self.answers()?,
            case: self.case,
            outputs,
            bill,
            asks,
        })
    }

    /// job.toml as TOML, where all of it is right: what counts where a later one has a wrong line.
    fn answers(&self) -> Result<Option<String>> {
        let is_sound = self.acquired.job_errors.is_empty();
        let text = is_sound.then(|| toml::to_string(&self.acquired.typed));
        text.transpose().context("job.toml")
    }

    /// Requests to a person, the first ones first.
    fn asks(&self, localizer: &Localizer) -> Vec<String> {
        let mut asks = Vec::new();
        if !self.acquired.job_errors.is_empty() {
            asks.push(localizer.message("console-asks-job-file"));
        }
        if !self.acquired.has_evidence {
            asks.push(localizer.message("console-asks-evidence"));
            return asks;
        }
        asks.extend(self.case.verdict.next.iter().map(|n| n.text.clone()));
        if !self.case.not_run.is_empty() {
            let count = fluent_args!["count" => self.case.not_run.len()];
            asks.push(localizer.message_with("console-asks-checks", &count));
        }
        asks
    }
}
