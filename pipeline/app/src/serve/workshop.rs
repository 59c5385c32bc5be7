//! Answers to the page: read from the folder of results, or sent to the service.

use super::persons::Persons;
use super::recordings::Recordings;
use super::requests::{Follow, Request, Sent};
use super::rows::{Summary, begun_row};
use crate::arguments::{Discovery, WhatFound};
use crate::commands::learn::read_case;
use crate::commands::outcome;
use crate::commands::sign::{signable, signature};
use crate::commands::work::Step;
use crate::context::{AppContext, line};
use crate::job::{asked, line_number, speeds_of};
use crate::serve::mail;
use crate::work_lines::sum;
use billing::{NamedLines, Statement, WorkError};
use clap::ValueEnum;
use intake::{IntakeError, JobGroup, JobSource, JobView, Ledger, Revision, Store};
use model::case::{FileRecord, FileStatus};
use model::knowledge::Knowledge;
use model::verdict::NotTested;
use model::{Case, JobFile, Problem, RoleSource, ShopFile};
use page::{
    Answers, Asked, Duty, Job, JobRow, LineChange, Message, Person, Recording, Seen,
    SystemCoverage, Who, Workshop, WrongLine,
};
use report::localizer::Localizer;
use report::{ReportTheme, SpeedCurve};
use settings::KnownNames;
use std::collections::{HashMap, HashSet};
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Sender, channel};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

/// Jobs of each group that the page lists.
const LISTED: u32 = 1_000;
/// Jobs of each group among which the last preset of a shop is looked for.
const RECENT: u32 = 50;

/// The program behind the page. It writes nothing of the ledger: that is the service's.
pub struct Shop {
    /// Folder of what was added at the page.
    added: PathBuf,
    settings: ShopFile,
    persons: Persons,
    knowledge: Knowledge,
    theme: Arc<ReportTheme>,
    known: KnownNames,
    /// Snapshots of the ledger.
    store: Mutex<Box<dyn Store>>,
    recordings: Recordings,
    /// The case that was looked at last, by the token of its revision: the channels of a trace ask for it one by one.
    last_case: Mutex<Option<(String, Arc<Case>)>>,
    /// Summaries of reports for lists of jobs, by the tokens of their revisions.
    pub(super) summaries: Mutex<HashMap<String, Summary>>,
    service: Sender<Sent>,
}

impl Shop {
    /// The program behind a page for a store of results, with the settings and words of `context`. In the folder `private`
    /// it keeps what was added, below `added`, and traces of recordings.
    pub fn new(
        store: Box<dyn Store>,
        private: &Path,
        context: &AppContext,
        service: Sender<Sent>,
    ) -> Shop {
        Shop {
            store: Mutex::new(store),
            recordings: Recordings::new(private.join("traces")),
            last_case: Mutex::default(),
            summaries: Mutex::default(),
            added: private.join("added"),
            settings: context.settings.shop.clone(),
            persons: Persons::new(
                &context.settings.shop.page,
                &context.settings.base,
                private.join("wrong-pins.json"),
            ),
            known: context.known_names(),
            knowledge: context.knowledge.clone(),
            theme: context.theme.clone(),
            service,
        }
    }

    pub(super) fn words(&self) -> &Localizer {
        self.theme.localizer()
    }

    /// Asks the ledger.
    fn read<T>(
        &self,
        ask: impl FnOnce(&mut dyn Ledger) -> Result<T, IntakeError>,
    ) -> Result<T, Message> {
        ask(lock(&self.store).ledger()).map_err(words)
    }

    /// Sends the service something, and waits for its answer.
    fn ask_service<T>(
        &self,
        sent: impl FnOnce(Sender<Result<T, Message>>) -> Sent,
    ) -> Result<T, Message> {
        let (reply, answer) = channel();
        let stopping = || Message::new("stopping");
        self.service.send(sent(reply)).map_err(|_| stopping())?;
        answer.recv().unwrap_or_else(|_| Err(stopping()))
    }

    /// Sends the service something to record, and waits until all that follows is done.
    fn request(
        &self,
        job: &str,
        act: impl FnOnce(&mut dyn Store) -> Result<Follow, Message> + Send + 'static,
    ) -> Result<(), Message> {
        self.ask_service(|reply| {
            Sent::Request(Request {
                job: job.into(),
                act: Box::new(act),
                reply,
            })
        })
    }

    /// Speeds of a recording, derived where jobs are measured.
    fn speeds(&self, job: &str, file: &str, source: JobSource) -> Result<Vec<SpeedCurve>, Message> {
        let answers = self.read(|ledger| ledger.answers(job))?;
        let before = answers.and_then(|text| toml::from_str(&text).ok());
        let file = file.to_owned();
        self.ask_service(|reply| {
            Sent::Question(Box::new(move |context: &mut AppContext| {
                let speeds = speeds_of(&source, &file, before.as_ref(), context);
                // Whoever asked may have gone.
                let _ = reply.send(speeds.map_err(|e| Message::Words(format!("{e:#}"))));
            }))
        })
    }

    fn latest(&self, name: &str) -> Result<Option<Revision>, Message> {
        self.read(|ledger| ledger.latest(name))
    }

    pub(super) fn case(&self, revision: &Revision) -> Result<Arc<Case>, Message> {
        let mut last = lock(&self.last_case);
        if let Some((_, case)) = last.as_ref().filter(|(token, _)| *token == revision.token) {
            return Ok(case.clone());
        }
        let case = read_case(&mut **lock(&self.store), &revision.job, revision.number);
        let mut case = case.map_err(|e| Message::Words(format!("{e:#}")))?;
        for message in case.files.iter_mut().filter_map(|f| f.message.as_mut()) {
            *message = self.words().translate(message);
        }
        let channels = case.captures.iter_mut().flat_map(|c| &mut c.channels);
        for source in channels.map(|c| &mut c.role_source) {
            if let RoleSource::Guess { reason, .. } = source {
                *reason = self.words().translate(reason);
            }
        }
        let case = Arc::new(case);
        *last = Some((revision.token.clone(), case.clone()));
        Ok(case)
    }

    /// Place of a job's files on this machine.
    fn source(&self, revision: &Revision) -> Result<JobSource, Message> {
        lock(&self.store).source(revision).map_err(words)
    }

    /// Names of a report's published files, the reports first.
    fn documents(&self, revision: &Revision) -> Result<Vec<String>, Message> {
        let results = lock(&self.store).results(&revision.job, revision.number);
        let mut names = results.map_err(words)?;
        names.sort_by_key(|n| (!n.ends_with(".pdf"), n.clone()));
        Ok(names)
    }

    /// File of a report by its place among [`Shop::documents`].
    fn document_file(&self, name: &str, document: usize) -> Result<Option<PathBuf>, Message> {
        let Some(latest) = self.latest(name)? else {
            return Ok(None);
        };
        let file = self.documents(&latest)?.into_iter().nth(document);
        let locate = |file: String| {
            let mut store = lock(&self.store);
            store.result(name, latest.number, &file).map_err(words)
        };
        file.map(locate).transpose()
    }

    /// Each examined system with its verdict and what was tested, the lead first.
    fn coverage(&self, case: &Case) -> Vec<SystemCoverage> {
        let words = self.words();
        let of_system = |record: &model::case::SystemRecord| SystemCoverage {
            system: words.system(&record.system),
            verdict: self.verdict(&record.verdict),
            tested: (record.coverage.tested.iter())
                .map(|cause| words.cause_title(cause))
                .collect(),
            untested: (record.coverage.not_tested.iter())
                .map(|n| self.not_tested(n))
                .collect(),
        };
        let lead = case.verdict.system.as_deref();
        let mut systems: Vec<_> = case.systems.iter().collect();
        systems.sort_by_key(|s| Some(s.system.as_str()) != lead);
        systems.into_iter().map(of_system).collect()
    }

    /// Answers that the verdict waits for.
    fn asked(&self, case: &Case) -> Vec<Asked> {
        let is_untimed = |f: &&FileRecord| {
            let message = f.message.as_deref().unwrap_or_default();
            f.status == FileStatus::SetAside && message.contains("time_unit")
        };
        let untimed: Vec<&str> = (case.files.iter().filter(is_untimed))
            .map(|f| f.path.as_str())
            .collect();
        asked(case, &untimed, &self.knowledge)
    }

    /// Channel preset that was used last in a job of the same caller.
    fn last_preset(&self, name: &str) -> Result<Option<String>, Message> {
        let rows = self.read(|ledger| ledger.jobs_in(JobGroup::Signed, RECENT))?;
        let drafts = self.read(|ledger| ledger.jobs_in(JobGroup::Draft, RECENT))?;
        let mut jobs: Vec<JobView> = rows.into_iter().chain(drafts).collect();
        jobs.sort_by_key(|j| std::cmp::Reverse(j.arrived));
        let answers = |name: &str| -> Result<Option<JobFile>, Message> {
            let text = self.read(|ledger| ledger.answers(name))?;
            Ok(text.and_then(|text| toml::from_str(&text).ok()))
        };
        let here = answers(name)?.and_then(|j| j.client.name);
        for job in jobs.iter().filter(|j| j.name != name) {
            let Some(told) = answers(&job.name)?.filter(|j| j.client.name == here) else {
                continue;
            };
            let mut presets = told.captures.into_iter().rev().filter_map(|c| c.preset);
            if let Some(preset) = presets.find(|p| self.known.presets.contains(p)) {
                return Ok(Some(preset));
            }
        }
        Ok(None)
    }

    /// Text of the job.toml that counts; empty without one.
    fn answers_text(&self, name: &str) -> Result<String, Message> {
        let read = |path: &Path| {
            settings::read_text(path, "job.toml").map_err(|e| Message::Words(line(&e)))
        };
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
        let Some(file) = file else {
            return Ok(String::new());
        };
        match self.source(&latest)?.locate(&file.path) {
            Some(location) => read(&location),
            None => Ok(String::new()),
        }
    }

    fn not_tested(&self, n: &NotTested) -> [String; 3] {
        let words = self.words();
        let next = n.next.as_deref().map(|n| words.next_plain(n));
        [
            words.cause_title(&n.cause),
            words.why(&n.why),
            next.unwrap_or_default(),
        ]
    }

    fn announce(&self, name: &str) {
        // The service ends before the page does.
        let _ = self.service.send(Sent::Changed(name.into()));
    }
}

impl Workshop for Shop {
    fn language(&self) -> String {
        self.words().language()
    }

    fn persons(&self) -> Vec<Person> {
        self.persons.all()
    }

    fn jobs(&self) -> Result<Vec<JobRow>, Message> {
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

    fn job(&self, name: &str) -> Result<Option<Job>, Message> {
        let Some(view) = self.read(|ledger| ledger.job(name))? else {
            let is_begun = self.added.join(name).is_dir();
            return Ok(is_begun.then(|| Job {
                row: begun_row(name.into()),
                ..Job::default()
            }));
        };
        let latest = view.revision.clone();
        let row = self.row(view);
        let case = latest.as_ref().map(|r| self.case(r)).transpose()?;
        let words = self.words();
        let lead = case.as_ref().and_then(|c| c.lead());
        let system = lead.and_then(|l| self.knowledge.system(&l.system));
        let causes = system.iter().flat_map(|s| &s.causes.causes);
        let signed = latest.as_ref().and_then(|r| r.signature.as_ref());
        Ok(Some(Job {
            visits: self.visits(name, &row.facts)?,
            seen: latest.as_ref().map(|r| Seen {
                revision: r.number,
                digest: r.outcome.clone(),
            }),
            signed: signed.map(|s| (s.by.clone(), s.at)),
            coverage: case.as_ref().map_or_else(Vec::new, |c| self.coverage(c)),
            asked: case.as_ref().map_or_else(Vec::new, |c| self.asked(c)),
            causes: causes
                .map(|c| (c.name.clone(), words.cause_title(&c.name)))
                .collect(),
            events: self.read(|ledger| ledger.work_events(name))?,
            outcomes: self.read(|ledger| ledger.outcomes(name))?,
            documents: latest
                .as_ref()
                .map_or_else(|| Ok(Vec::new()), |r| self.documents(r))?,
            roles: (self.knowledge.roles.iter())
                .map(|r| (r.name().to_owned(), words.subject(Some(r.name()))))
                .collect(),
            units: self.known.units.clone(),
            systems: (self.known.systems.iter())
                .map(|s| (s.clone(), words.system(s)))
                .collect(),
            presets: self.known.presets.clone(),
            row,
            case,
        }))
    }

    fn answers(&self, name: &str) -> Result<Answers, Message> {
        let text = self.answers_text(name)?;
        Ok(Answers {
            wrong: self.check_answers(&text),
            text: settings::comment_out(&text),
            last_preset: self.last_preset(name)?,
        })
    }

    fn check_answers(&self, text: &str) -> Vec<WrongLine> {
        let parsed = settings::read_job_file(text, "job.toml", &self.known);
        let errors = parsed.errors.iter();
        errors.filter_map(|e| wrong_line(e, self.words())).collect()
    }

    fn answer(&self, name: &str, text: &str) -> Result<(), Message> {
        let path = self.drop_folder(name)?.join("job.toml");
        intake::write_atomic(&path, text.as_bytes()).map_err(words)?;
        self.announce(name);
        Ok(())
    }

    fn drop_folder(&self, name: &str) -> Result<PathBuf, Message> {
        let folder = self.added.join(name);
        std::fs::create_dir_all(&folder)
            .map_err(|e| Message::Words(format!("{}: {e}", folder.display())))?;
        Ok(folder)
    }

    fn added(&self, name: &str) {
        self.announce(name);
    }

    fn check_name(&self, name: &str) -> Result<(), Message> {
        match intake::is_ignored(name) || intake::is_reserved(name) {
            true => Err(Message::with("wrong-job-name", "name", name)),
            false => Ok(()),
        }
    }

    fn sign(&self, name: &str, seen: &Seen, by: &Who, note: Option<&str>) -> Result<(), Message> {
        self.persons.check(by, Duty::Sign)?;
        let (job, seen, by) = (name.to_owned(), seen.clone(), by.name.clone());
        let note = note.map(Into::into);
        self.request(name, move |store| {
            let latest = signable(&job, store).map_err(|e| Message::Words(format!("{e:#}")))?;
            match latest.number == seen.revision && latest.outcome == seen.digest {
                true => Ok(Follow::Signed(signature(&by, note))),
                false => Err(Message::new("sign-moved")),
            }
        })
    }

    fn record(
        &self,
        name: &str,
        lines: &[String],
        by: &Who,
        change: LineChange,
    ) -> Result<(), Message> {
        let duty = match change {
            LineChange::Authorise { .. } | LineChange::Decline { .. } => Duty::Customer,
            LineChange::Complete { .. } | LineChange::Reopen => Duty::Work,
        };
        self.persons.check(by, duty)?;
        let (job, names, recorder) = (name.to_owned(), lines.to_vec(), by.name.clone());
        let (shop, theme) = (self.settings.clone(), Arc::clone(&self.theme));
        self.request(name, move |store| {
            let customer = match &change {
                LineChange::Authorise { by, .. } | LineChange::Decline { by, .. } => Some(by),
                LineChange::Complete { .. } | LineChange::Reopen => None,
            };
            let step = Step {
                job: &job,
                names: &names,
                by: customer.unwrap_or(&recorder),
                recorded_by: customer.is_some().then_some(recorder.as_str()),
                note: None,
                at: None,
            };
            let mut refused = None;
            let make = |named: NamedLines<'_>, statement: Statement<'_>| {
                let made = match change {
                    LineChange::Authorise { how, limit, .. } => {
                        billing::authorise(named, how, limit, statement)
                    }
                    LineChange::Decline { how, .. } => billing::decline(named, how, statement),
                    LineChange::Complete { hours } => billing::complete(named, hours, statement),
                    LineChange::Reopen => billing::reopen(named, statement),
                };
                made.inspect_err(|e| refused = refusal(e, theme.localizer()))
            };
            let recorded = step.record(make, store, &shop, theme.localizer());
            match recorded {
                Ok(_) => Ok(Follow::Report),
                Err(e) => Err(refused.unwrap_or_else(|| Message::Words(format!("{e:#}")))),
            }
        })
    }

    fn record_outcome(&self, name: &str, by: &Who, said: &page::Discovery) -> Result<(), Message> {
        self.persons.check(by, Duty::Work)?;
        let found = WhatFound::from_str(&said.found, false);
        let found = found.map_err(|_| Message::new("outcome-not-possible"))?;
        if (found == WhatFound::OtherCause) != said.cause.is_some() {
            return Err(Message::new("outcome-not-possible"));
        }
        let discovery = Discovery {
            found,
            cause: said.cause.clone(),
            system: None,
            is_mended: said.is_mended,
            part: said.part.clone(),
            photo: said.photo.clone(),
            by: by.name.clone(),
            note: said.note.clone(),
        };
        let (job, knowledge) = (name.to_owned(), self.knowledge.clone());
        self.request(name, move |store| {
            let recorded = outcome::record(&job, discovery, store, &knowledge);
            recorded.map_err(|e| Message::Words(format!("{e:#}")))?;
            Ok(Follow::Nothing)
        })
    }

    fn recording(&self, name: &str, capture: usize) -> Result<Option<Arc<Recording>>, Message> {
        let Some(latest) = self.latest(name)? else {
            return Ok(None);
        };
        let case = self.case(&latest)?;
        let Some(record) = case.captures.get(capture) else {
            return Ok(None);
        };
        let source = self.source(&latest)?;
        let latest = Revision { source, ..latest };
        let derive = || self.speeds(name, &record.file, latest.source.clone());
        self.recordings
            .get(&case, record, &latest, derive)
            .map(Some)
    }

    fn document(&self, name: &str, document: usize) -> Result<Option<(String, Vec<u8>)>, Message> {
        let file = self.document_file(name, document)?;
        let read = |path: PathBuf| {
            let name = path.file_name().unwrap_or_default().to_string_lossy();
            let bytes = std::fs::read(&path).map_err(words)?;
            Ok((name.into_owned(), bytes))
        };
        file.map(read).transpose()
    }

    fn photo(&self, name: &str, file: usize) -> Result<Option<Vec<u8>>, Message> {
        let Some(latest) = self.latest(name)? else {
            return Ok(None);
        };
        let case = self.case(&latest)?;
        let photo = case.files.get(file).filter(|f| f.kind == "photo");
        let Some(photo) = photo else {
            return Ok(None);
        };
        let location = self.source(&latest)?.locate(&photo.path);
        location
            .map(|path| std::fs::read(path).map_err(words))
            .transpose()
    }

    fn send(&self, name: &str, document: usize) -> Result<Message, Message> {
        let file = self.document_file(name, document)?;
        let file = file.ok_or_else(|| Message::new("not-found"))?;
        mail::send(&file, name)
    }
}

/// Reason why a step of lines of work is not possible, in the words of the page; `None` for one that only the command line
/// can meet, or that shop.toml is the cause of.
fn refusal(e: &WorkError, words: &Localizer) -> Option<Message> {
    Some(match e {
        WorkError::NothingToDo { .. } => Message::new("lines-nothing"),
        WorkError::SeveralStages(_) => Message::new("lines-stages"),
        WorkError::WrongSum { sum, .. } => Message::with("wrong-sum", "sum", sum),
        WorkError::WrongHours { hours, .. } => Message::with("wrong-hours", "hours", hours),
        WorkError::MissingHours { operation } => {
            Message::with("missing-hours", "operation", operation)
        }
        WorkError::NotAuthorised(operation) => {
            Message::with("not-authorised", "operation", operation)
        }
        WorkError::BeyondLimit {
            operation,
            needed,
            limit,
            limit_basis,
            currency,
        } => {
            let on_basis = |value| sum(value, currency, *limit_basis, words);
            let arguments = vec![
                ("operation", operation.clone()),
                ("needed", on_basis(*needed)),
                ("limit", on_basis(*limit)),
            ];
            Message::Known("beyond-limit".into(), arguments)
        }
        WorkError::UnknownLine { .. } | WorkError::NoName | WorkError::Billing(_) => return None,
    })
}

fn words(e: impl std::fmt::Display) -> Message {
    Message::Words(e.to_string())
}

pub(super) fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Names of what lies in a folder; none where there is no such folder.
fn file_names(folder: &Path) -> Vec<String> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    entries
        .map(|e| e.file_name().to_string_lossy().into_owned())
        .collect()
}

/// Line and key of an error in answers, whose place begins as "line 3, key vin".
fn wrong_line(problem: &Problem, localizer: &Localizer) -> Option<WrongLine> {
    let place = problem.place.as_deref()?;
    Some(WrongLine {
        line: line_number(place)?,
        key: place.rsplit_once("key ").map_or("", |(_, key)| key).into(),
        message: localizer.translate(&problem.message),
    })
}

#[cfg(test)]
mod tests {
    use model::verdict::Verdict;

    /// Every sentence that this program has the page say is one of the page's.
    #[test]
    fn the_page_has_a_sentence_for_every_message() {
        let sources = [
            include_str!("workshop.rs"),
            include_str!("rows.rs"),
            include_str!("persons.rs"),
            include_str!("progress.rs"),
            include_str!("mail.rs"),
            include_str!("../commands/watch/requests.rs"),
            include_str!("../commands/fleet/desk.rs"),
        ];
        let known = include_str!("../../../page/lang/en.ftl");
        let mut checked = 0;
        for source in sources {
            let source = source.split("#[cfg(test)]").next().unwrap_or_default();
            for call in [
                "Message::new(",
                "Message::with(",
                "Message::Known(",
                "about(",
            ] {
                for part in source.split(call).skip(1) {
                    let quoted = part.trim_start().strip_prefix('"');
                    let Some((key, _)) = quoted.and_then(|q| q.split_once('"')) else {
                        continue;
                    };
                    checked += 1;
                    assert!(known.contains(&format!("\n{key} = ")), "{key}");
                }
            }
        }
        for summary in Verdict::SUMMARIES {
            checked += 1;
            let key = format!("verdict-{summary}");
            assert!(known.contains(&format!("\n{key} = ")), "{key}");
        }
        assert!(checked > 25, "{checked}");
    }
}
