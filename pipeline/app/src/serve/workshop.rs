//! What the page asks for, from the folder of results.

use super::recordings::Recordings;
use crate::commands::sign::sign_newest;
use crate::commands::work::{Step, publish};
use crate::context::{AppContext, line};
use crate::status_page::{self, View};
use billing::{NamedLines, Statement};
use chrono::{DateTime, Local};
use intake::{JobSource, ResultStore, Revision};
use model::case::FileStatus;
use model::{Case, Problem};
use page::{AnswerError, Job, JobRow, LineChange, Recording, Seen, User, Workshop};
use settings::KnownNames;
use std::collections::HashMap;
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
    users: Vec<User>,
    recordings: Recordings,
    /// Facts of jobs by the tokens of their revisions.
    facts: Mutex<HashMap<String, Vec<String>>>,
    /// Jobs whose files were changed at the page.
    changed: Sender<String>,
}

impl Shop {
    /// The program behind a page for a folder of results. Jobs whose files were changed at the page are sent to
    /// `changed`.
    pub fn new(out: &Path, added: &Path, context: AppContext, changed: Sender<String>) -> Shop {
        Shop {
            recordings: Recordings::new(out.join(".baybrief/traces")),
            out: out.into(),
            added: added.into(),
            known: context.known_names(),
            language: context.localizer().language(),
            users: Vec::new(),
            context: Mutex::new(context),
            facts: Mutex::default(),
            changed,
        }
    }

    fn context(&self) -> MutexGuard<'_, AppContext> {
        self.context.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn store(&self) -> Result<ResultStore, String> {
        ResultStore::open(&self.out, false).map_err(|e| e.to_string())
    }

    fn latest(&self, name: &str) -> Result<Option<Revision>, String> {
        self.store()?
            .ledger()
            .latest(name)
            .map_err(|e| e.to_string())
    }

    fn case(&self, revision: &Revision) -> Result<Case, String> {
        let path = self.revision_folder(revision).join("case.json");
        let wrong = |e: &dyn std::fmt::Display| format!("{}: {e}", path.display());
        let bytes = std::fs::read(&path).map_err(|e| wrong(&e))?;
        serde_json::from_slice(&bytes).map_err(|e| wrong(&e))
    }

    fn revision_folder(&self, revision: &Revision) -> PathBuf {
        let folder = self.out.join(&revision.job);
        folder.join(format!("rev-{}", revision.number))
    }

    fn row(&self, view: View, revision: Option<&Revision>) -> JobRow {
        JobRow {
            group: view.group.name(),
            facts: revision.map_or_else(Vec::new, |r| self.facts(r)),
            name: view.name,
            state: view.state,
            verdict: view.verdict,
            asks: view.asks,
            arrived: Some(DateTime::<Local>::from(view.arrived)),
        }
    }

    /// Words by which a job is searched.
    fn facts(&self, revision: &Revision) -> Vec<String> {
        let mut facts = self.facts.lock().unwrap_or_else(PoisonError::into_inner);
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

    fn users(&self) -> Vec<User> {
        self.users.clone()
    }

    fn jobs(&self) -> Result<Vec<JobRow>, String> {
        let mut store = self.store()?;
        let sections = status_page::read(&mut store, LISTED).map_err(|e| e.to_string())?;
        let mut rows = Vec::new();
        for view in sections.into_iter().flat_map(|s| s.jobs) {
            let revision = store
                .ledger()
                .latest(&view.name)
                .map_err(|e| e.to_string())?;
            rows.push(self.row(view, revision.as_ref()));
        }
        // A job that was begun at the page has no file yet that the service has seen.
        for entry in std::fs::read_dir(&self.added)
            .into_iter()
            .flatten()
            .flatten()
        {
            let name = entry.file_name().to_string_lossy().into_owned();
            if entry.path().is_dir() && !rows.iter().any(|r| r.name == name) {
                rows.push(JobRow {
                    name,
                    group: "work",
                    ..JobRow::default()
                });
            }
        }
        Ok(rows)
    }

    fn job(&self, name: &str) -> Result<Option<Job>, String> {
        let Some(row) = self.jobs()?.into_iter().find(|r| r.name == name) else {
            return Ok(None);
        };
        let mut store = self.store()?;
        let latest = store.ledger().latest(name).map_err(|e| e.to_string())?;
        let case = latest.as_ref().map(|r| self.case(r)).transpose()?;
        let events = store
            .ledger()
            .work_events(name)
            .map_err(|e| e.to_string())?;
        let context = self.context();
        let localizer = context.localizer();
        let coverage = case.as_ref().and_then(|c| c.lead()).map(|l| &l.coverage);
        let title = |cause: &String| localizer.cause_title(cause);
        let document = |r: &Revision| -> Vec<String> {
            let names = std::fs::read_dir(self.revision_folder(r))
                .into_iter()
                .flatten()
                .flatten();
            let mut names: Vec<String> = names
                .map(|e| e.file_name().to_string_lossy().into_owned())
                .collect();
            // The reports first.
            names.sort_by_key(|n| (!n.ends_with(".pdf"), n.clone()));
            names
        };
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
                .map(billing::describe_line)
                .collect(),
            events: events.iter().map(billing::describe_event).collect(),
            documents: latest.as_ref().map_or_else(Vec::new, document),
            roles: (context.knowledge.roles.iter())
                .map(|r| (r.name().to_owned(), localizer.subject(Some(r.name()))))
                .collect(),
            units: self.known.units.clone(),
            visits: case
                .as_ref()
                .map_or_else(|| Ok(Vec::new()), |c| self.visits(c, name))?,
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
        let path = self.drop_folder(name).join("job.toml");
        intake::write_atomic(&path, text.as_bytes()).map_err(|e| e.to_string())?;
        self.announce(name);
        Ok(())
    }

    fn drop_folder(&self, name: &str) -> PathBuf {
        self.added.join(name)
    }

    fn added(&self, name: &str) {
        self.announce(name);
    }

    fn check_name(&self, name: &str) -> Result<(), String> {
        if intake::is_ignored(name) || intake::is_reserved(name) || name.contains(['/', '\\', '\0'])
        {
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
            &mut self.store()?,
            &mut self.context(),
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
        let (mut store, mut context) = (self.store()?, self.context());
        let recorded = step.record(make, &mut store, &mut context);
        let published = recorded.and_then(|_| publish(name, &mut store, &mut context));
        published.map(drop).map_err(|e| format!("{e:#}"))
    }

    fn recording(&self, name: &str, file: &str) -> Result<Arc<Recording>, String> {
        let latest = self
            .latest(name)?
            .ok_or("there is no report of this job yet")?;
        let source: &JobSource = &latest.source;
        self.recordings.get(&self.case(&latest)?, source, file)
    }

    fn document(&self, name: &str, document: &str) -> Result<Vec<u8>, String> {
        let latest = self
            .latest(name)?
            .ok_or("there is no report of this job yet")?;
        std::fs::read(self.revision_folder(&latest).join(document)).map_err(|e| e.to_string())
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
