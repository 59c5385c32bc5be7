//! Rows of the page's lists of jobs.

use super::workshop::{Shop, lock};
use chrono::{DateTime, Local};
use intake::{JobGroup, JobState, JobView, Revision};
use model::{Case, Verdict};
use page::{JobFacts, JobRow, Message, Workshop};

/// Summary of a report for a list of jobs.
#[derive(Debug, Clone)]
pub(super) struct Summary {
    facts: JobFacts,
    verdict: Message,
    asks: Vec<Message>,
}

impl Shop {
    pub(super) fn row(&self, job: JobView) -> JobRow {
        let revision = job.revision.as_ref();
        let summary = revision.and_then(|r| self.summary(r).ok());
        let group = JobGroup::new(&job.state, revision);
        let mut row = JobRow {
            group: group.name(),
            state: state(&job),
            arrived: Some(DateTime::<Local>::from(job.arrived)),
            name: job.name,
            ..JobRow::default()
        };
        if let JobState::Failed(why) | JobState::Held(why) = job.state {
            row.asks.push(Message::Words(why));
        }
        if let Some(summary) = summary {
            row.facts = summary.facts;
            row.verdict = Some(summary.verdict);
            row.asks.extend(summary.asks);
        }
        if group == JobGroup::Draft {
            row.asks.push(Message::new("ask-review"));
        }
        row
    }

    fn summary(&self, revision: &Revision) -> Result<Summary, Message> {
        if let Some(known) = lock(&self.summaries).get(&revision.token) {
            return Ok(known.clone());
        }
        let case = self.case(revision)?;
        let summary = Summary {
            facts: facts(&case, &revision.job),
            verdict: self.verdict(&case.verdict),
            asks: self.asks(&case, revision.set_aside),
        };
        lock(&self.summaries).insert(revision.token.clone(), summary.clone());
        Ok(summary)
    }

    /// Requests to a person, the first ones first.
    fn asks(&self, case: &Case, set_aside: usize) -> Vec<Message> {
        let mut asks = Vec::new();
        let job_file = case.files.iter().find(|f| f.kind == "job");
        if job_file.is_some_and(|f| case.problems.iter().any(|p| p.file == f.path)) {
            asks.push(Message::new("ask-answers"));
        }
        if case.captures.is_empty() && !case.files.iter().any(|f| f.kind == "scan") {
            asks.push(Message::new("ask-evidence"));
        }
        // Where the page asks for an answer itself, nobody is sent to a file.
        for next in &case.verdict.next {
            let ask = Message::Words(self.words().next_plain(&next.step));
            if !asks.contains(&ask) {
                asks.push(ask);
            }
        }
        if !case.not_run.is_empty() {
            asks.push(Message::with("ask-not-run", "count", case.not_run.len()));
        }
        if set_aside > 0 {
            asks.push(Message::with("ask-set-aside", "count", set_aside));
        }
        asks
    }

    /// A verdict in one sentence.
    pub(super) fn verdict(&self, v: &Verdict) -> Message {
        let title = v.cause.as_deref().map(|c| self.words().cause_title(c));
        let key = format!("verdict-{}", v.summary());
        Message::with(key, "cause", title.unwrap_or_default())
    }

    /// Other jobs of the same vehicle, the newest first.
    pub(super) fn visits(&self, name: &str, facts: &JobFacts) -> Result<Vec<JobRow>, Message> {
        if facts.vin.is_none() && facts.plate.is_none() {
            return Ok(Vec::new());
        }
        let mut rows = self.jobs()?;
        rows.retain(|r| r.name != name && is_same_vehicle(&r.facts, facts));
        rows.sort_by_key(|r| std::cmp::Reverse(r.arrived));
        Ok(rows)
    }
}

/// Vehicles are the same by their number; where one has none, by the plate. Blanks, hyphens and case tell none apart.
fn is_same_vehicle(one: &JobFacts, other: &JobFacts) -> bool {
    let plain = |text: &Option<String>| text.as_deref().map(page::squeezed);
    match (plain(&one.vin), plain(&other.vin)) {
        (Some(one), Some(other)) => one == other,
        _ => one.plate.is_some() && plain(&one.plate) == plain(&other.plate),
    }
}

/// A job that was begun at the page and has no file yet that the service has seen.
pub(super) fn begun_row(name: String) -> JobRow {
    JobRow {
        name,
        group: JobGroup::Work.name(),
        state: Message::new("state-begun"),
        ..JobRow::default()
    }
}

fn state(job: &JobView) -> Message {
    match (&job.state, &job.revision) {
        (JobState::Waiting, _) => Message::new("state-waiting"),
        (JobState::Working, _) => Message::new("state-working"),
        (JobState::Failed(_), _) => Message::new("state-failed"),
        (JobState::Held(_), _) => Message::new("state-held"),
        (JobState::Done, None) => Message::new("state-none"),
        (JobState::Done, Some(r)) => match &r.signature {
            None => Message::with("state-draft", "number", r.number),
            Some(s) => Message::Known(
                "state-signed".into(),
                vec![("number", r.number.to_string()), ("by", s.by.clone())],
            ),
        },
    }
}

fn facts(case: &Case, job: &str) -> JobFacts {
    let v = &case.vehicle;
    let vehicle: Vec<&str> = [&v.make, &v.model]
        .into_iter()
        .flatten()
        .map(String::as_str)
        .collect();
    JobFacts {
        number: Some(case.job.number.clone()).filter(|n| n != job),
        customer: case
            .customer
            .name
            .clone()
            .or_else(|| case.client.name.clone()),
        technician: case.job.technician.clone(),
        vehicle: Some(vehicle.join(" ")).filter(|v| !v.is_empty()),
        plate: v.plate.clone(),
        vin: v.vin.clone(),
    }
}
