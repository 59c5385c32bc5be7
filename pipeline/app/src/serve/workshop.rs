//! The page's workshop over a folder of results.

use super::recordings::Recordings;
use crate::commands::learn::read_case;
use crate::commands::sign::sign_newest;
use crate::commands::work::{Step, publish};
use crate::context::{AppContext, line};
use crate::status_page::View;
use crate::words;
use crate::work_lines::{describe_event, describe_line};
use anyhow::Result;
use billing::{NamedLines, Statement};
use chrono::{DateTime, Local};
use intake::{IntakeError, JobGroup, JobView, Ledger, ResultStore, Revision};
use model::case::FileStatus;
use model::{Case, Problem};
use page::{AnswerError, Job, JobRow, LineChange, Recording, Seen, Workshop};
use report::ReportTheme;
use settings::KnownNames;
use std::collections::{HashMap, HashSet};
use std::path::{Path, PathBuf};
use std::sync::mpsc::Sender;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

/// Jobs of each group that the page lists.
const LISTED: u32 = 1_000;

/// The program behind the page.
pub struct Shop {
    out: PathBuf,
    /// Folder of what was added at the page.
    added: PathBuf,
    context: Mutex<AppContext>,
    known: KnownNames,
    language: String,
    /// Sentences of the jobs' states: free while the context makes a report.
    words: ReportTheme,
    /// Reading side of the ledger; steps and signatures are recorded through a store of their own.
    store: Mutex<ResultStore>,
    recordings: Recordings,
    /// The case that was looked at last, by the token of its revision: the channels of a trace ask for it one by one.
    last_case: Mutex<Option<(String, Arc<Case>)>>,
    /// Facts of jobs by the tokens of their revisions.
    facts: Mutex<HashMap<String, Vec<String>>>,
    /// Jobs whose files were changed at the page.
    changed: Sender<String>,
}

impl Shop {
    /// The program behind a page for a folder of results. Jobs whose files were changed at the page are sent to
    /// `changed`.
    ///
    /// # Errors
    /// When the ledger or the sentences cannot be read.
    pub fn new(
        out: &Path,
        added: &Path,
        context: AppContext,
        changed: Sender<String>,
    ) -> Result<Shop> {
        Ok(Shop {
            store: Mutex::new(ResultStore::open(out, false)?),
            recordings: Recordings::new(out.join(".baybrief/traces")),
            last_case: Mutex::default(),
            out: out.into(),
            added: added.into(),
            known: context.known_names(),
            language: context.localizer().language(),
            words: words::of_shop(&context.settings.shop)?,
            context: Mutex::new(context),
            facts: Mutex::default(),
            changed,
        })
    }

    /// Asks the ledger.
    fn read<T>(
        &self,
        ask: impl FnOnce(&mut dyn Ledger) -> Result<T, IntakeError>,
    ) -> Result<T, String> {
        ask(lock(&self.store).ledger()).map_err(|e| e.to_string())
    }

    /// A store to record something in.
    fn open_store(&self) -> Result<ResultStore, String> {
        ResultStore::open(&self.out, false).map_err(|e| e.to_string())
    }

    fn latest(&self, name: &str) -> Result<Option<Revision>, String> {
        self.read(|ledger| ledger.latest(name))
    }

    fn case(&self, revision: &Revision) -> Result<Arc<Case>, String> {
        let mut last = lock(&self.last_case);
        if let Some((_, case)) = last.as_ref().filter(|(token, _)| *token == revision.token) {
            return Ok(case.clone());
        }
        let case = read_case(&lock(&self.store), &revision.job, revision.number);
        let case = Arc::new(case.map_err(|e| format!("{e:#}"))?);
        *last = Some((revision.token.clone(), case.clone()));
        Ok(case)
    }

    fn revision_folder(&self, revision: &Revision) -> PathBuf {
        let folder = self.out.join(&revision.job);
        folder.join(format!("rev-{}", revision.number))
    }

    /// Names of a report's published files, the reports first.
    fn documents(&self, revision: &Revision) -> Vec<String> {
        let mut names = file_names(&self.revision_folder(revision));
        names.sort_by_key(|n| (!n.ends_with(".pdf"), n.clone()));
        names
    }

    fn row(&self, job: JobView) -> JobRow {
        let facts = job.revision.as_ref().map(|r| self.facts(r));
        // The page asks for a job's files where it shows them.
        let view = View::of(job, &|_, _| false, self.words.localizer());
        JobRow {
            group: view.group.name(),
            facts: facts.unwrap_or_default(),
            name: view.name,
            state: view.state,
            verdict: view.verdict,
            asks: view.asks,
            arrived: Some(DateTime::<Local>::from(view.arrived)),
        }
    }

    /// Words by which a job is searched.
    fn facts(&self, revision: &Revision) -> Vec<String> {
        let mut facts = lock(&self.facts);
        if let Some(known) = facts.get(&revision.token) {
            return known.clone();
        }
        let Ok(case) = self.case(revision) else {
            return Vec::new();
        };
        let v = &case.vehicle;
        let mut found: Vec<String> = [
            Some(case.job.number.clone()).filter(|n| *n != revision.job),
            case.customer.name.clone(),
            v.make.clone(),
            v.model.clone(),
            v.plate.clone(),
            v.vin.clone(),
            case.job.technician.clone(),
        ]
        .into_iter()
        .flatten()
        .collect();
        found.dedup();
        facts.insert(revision.token.clone(), found.clone());
        found
    }

    /// Other jobs of the same vehicle.
    fn visits(&self, case: &Case, name: &str) -> Result<Vec<String>, String> {
        let Some(vin) = &case.vehicle.vin else {
            return Ok(Vec::new());
        };
        let mut rows = self.jobs()?;
        rows.retain(|r| r.name != name && r.facts.contains(vin));
        Ok(rows.into_iter().map(|r| r.name).collect())
    }

    fn announce(&self, name: &str) {
        // The service ends before the page does.
        let _ = self.changed.send(name.into());
    }
}

impl Workshop for Shop {
    fn language(&self) -> String {
        self.language.clone()
    }

    fn jobs(&self) -> Result<Vec<JobRow>, String> {
        let mut rows = Vec::new();
        for group in JobGroup::ALL {
            let jobs = self.read(|ledger| ledger.jobs_in(group, LISTED))?;
            rows.extend(jobs.into_iter().map(|job| self.row(job)));
        }
        let known: HashSet<String> = rows.iter().map(|r| r.name.clone()).collect();
        let mut begun = file_names(&self.added);
        begun.retain(|name| !known.contains(name));
        rows.extend(begun.into_iter().map(begun_row));
        Ok(rows)
    }

    fn job(&self, name: &str) -> Result<Option<Job>, String> {
        let Some(view) = self.read(|ledger| ledger.job(name))? else {
            let is_begun = self.added.join(name).is_dir();
            return Ok(is_begun.then(|| Job {
                name: name.into(),
                ..Job::default()
            }));
        };
        let latest = view.revision.clone();
        let row = self.row(view);
        let case = latest.as_ref().map(|r| self.case(r)).transpose()?;
        let events = self.read(|ledger| ledger.work_events(name))?;
        let visits = case.as_ref().map(|c| self.visits(c, name));
        let context = lock(&self.context);
        let localizer = context.localizer();
        let coverage = case.as_ref().and_then(|c| c.lead()).map(|l| &l.coverage);
        let title = |cause: &String| localizer.cause_title(cause);
        Ok(Some(Job {
            name: name.into(),
            state: row.state,
            seen: latest.as_ref().map(|r| Seen {
                revision: r.number,
                digest: r.outcome.clone(),
            }),
            signed: latest
                .as_ref()
                .and_then(|r| r.signature.as_ref())
                .map(|s| format!("{}, {}", s.by, s.at.format("%Y-%m-%d %H:%M"))),
            verdict: row.verdict,
            asks: row.asks,
            tested: coverage.map_or_else(Vec::new, |c| c.tested.iter().map(title).collect()),
            untested: coverage.map_or_else(Vec::new, |c| {
                let one = |n: &model::verdict::NotTested| {
                    let next = n.next.as_deref().map(|n| localizer.next(n));
                    [
                        title(&n.cause),
                        localizer.why(&n.why),
                        next.unwrap_or_default(),
                    ]
                };
                c.not_tested.iter().map(one).collect()
            }),
            lines: (case.iter().flat_map(|c| &c.labour))
                .map(|line| describe_line(line, localizer))
                .collect(),
            events: (events.iter())
                .map(|event| describe_event(event, localizer))
                .collect(),
            documents: latest.as_ref().map_or_else(Vec::new, |r| self.documents(r)),
            roles: (context.knowledge.roles.iter())
                .map(|r| (r.name().to_owned(), localizer.subject(Some(r.name()))))
                .collect(),
            units: self.known.units.clone(),
            visits: visits.transpose()?.unwrap_or_default(),
            case,
        }))
    }

    fn answers(&self, name: &str) -> Result<String, String> {
        let read = |path: &Path| settings::read_text(path, "job.toml").map_err(|e| line(&e));
        let own = self.added.join(name).join("job.toml");
        if own.exists() {
            return read(&own);
        }
        let Some(latest) = self.latest(name)? else {
            return Ok(String::new());
        };
        let case = self.case(&latest)?;
        let file = case
            .files
            .iter()
            .find(|f| f.kind == "job" && f.status == FileStatus::Read);
        match file.and_then(|f| latest.source.locate(&f.path)) {
            Some(location) => read(&location),
            None => Ok(String::new()),
        }
    }

    fn check_answers(&self, text: &str) -> Vec<AnswerError> {
        let parsed = settings::read_job_file(text, "job.toml", &self.known);
        let errors = parsed.errors.iter();
        errors.map(|e| answer_error(text, e)).collect()
    }

    fn answer(&self, name: &str, text: &str) -> Result<(), String> {
        let path = self.drop_folder(name)?.join("job.toml");
        intake::write_atomic(&path, text.as_bytes()).map_err(|e| e.to_string())?;
        self.announce(name);
        Ok(())
    }

    fn drop_folder(&self, name: &str) -> Result<PathBuf, String> {
        let folder = self.added.join(name);
        std::fs::create_dir_all(&folder).map_err(|e| format!("{}: {e}", folder.display()))?;
        Ok(folder)
    }

    fn added(&self, name: &str) {
        self.announce(name);
    }

    fn check_name(&self, name: &str) -> Result<(), String> {
        if intake::is_ignored(name) || intake::is_reserved(name) {
            return Err(format!(
                "{name:?} cannot be the name of a job: choose one without slashes and leading points, and none of the \
                 program's own files"
            ));
        }
        Ok(())
    }

    fn sign(&self, name: &str, seen: &Seen, by: &str, note: Option<&str>) -> Result<(), String> {
        let latest = self.latest(name)?;
        let is_seen = latest.is_some_and(|r| r.number == seen.revision && r.outcome == seen.digest);
        if !is_seen {
            return Err("A newer report was made meanwhile; look at that one, and sign it.".into());
        }
        let signed = sign_newest(
            name,
            by,
            note.map(Into::into),
            &mut self.open_store()?,
            &mut lock(&self.context),
        );
        signed.map(drop).map_err(|e| format!("{e:#}"))
    }

    fn record(
        &self,
        name: &str,
        lines: &[String],
        by: &str,
        change: LineChange,
    ) -> Result<(), String> {
        let step = Step {
            job: name,
            names: lines,
            by,
            note: None,
            at: None,
        };
        let make = |named: NamedLines<'_>, statement: Statement<'_>| match change {
            LineChange::Authorise { how, limit } => {
                billing::authorise(named, how, limit, statement)
            }
            LineChange::Decline { how } => billing::decline(named, how, statement),
            LineChange::Complete { hours } => billing::complete(named, hours, statement),
        };
        let (mut store, mut context) = (self.open_store()?, lock(&self.context));
        let recorded = step.record(make, &mut store, &mut context);
        let published = recorded.and_then(|_| publish(name, &mut store, &mut context));
        published.map(drop).map_err(|e| format!("{e:#}"))
    }

    fn recording(&self, name: &str, capture: usize) -> Result<Option<Arc<Recording>>, String> {
        let Some(latest) = self.latest(name)? else {
            return Ok(None);
        };
        let case = self.case(&latest)?;
        let recording = |record| self.recordings.get(&case, record, &latest.source);
        case.captures.get(capture).map(recording).transpose()
    }

    fn document(&self, name: &str, document: usize) -> Result<Option<(String, Vec<u8>)>, String> {
        let Some(latest) = self.latest(name)? else {
            return Ok(None);
        };
        let read = |file: String| {
            let bytes = std::fs::read(self.revision_folder(&latest).join(&file));
            bytes.map(|b| (file, b)).map_err(|e| e.to_string())
        };
        let file = self.documents(&latest).into_iter().nth(document);
        file.map(read).transpose()
    }
}

fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Names of what lies in a folder; none where there is no such folder.
fn file_names(folder: &Path) -> Vec<String> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    entries
        .map(|e| e.file_name().to_string_lossy().into_owned())
        .collect()
}

/// A job that was begun at the page and has no file yet that the service has seen.
fn begun_row(name: String) -> JobRow {
    JobRow {
        name,
        group: JobGroup::Work.name(),
        ..JobRow::default()
    }
}

/// An error with the field that it is about: a message of the settings has its place as "line 3, key vin".
fn answer_error(text: &str, problem: &Problem) -> AnswerError {
    let place = problem.place.as_deref().unwrap_or_default();
    let (line, key) = place.split_once(", key ").unwrap_or((place, ""));
    let line = line.strip_prefix("line ").and_then(|n| n.parse().ok());
    AnswerError {
        key: line.map_or_else(String::new, |line| page::field_at(text, line, key)),
        message: problem.message.clone(),
    }
}
