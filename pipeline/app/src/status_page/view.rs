//! One job on the status page.

use crate::words::fluent_args;
use crate::work_lines::minute;
use chrono::{DateTime, Local};
use intake::{JobGroup, JobState, JobView};
use report::localizer::Localizer;
use std::time::{Duration, SystemTime};

/// Heading above the jobs of a group.
pub fn title(group: JobGroup, localizer: &Localizer) -> String {
    localizer.message(match group {
        JobGroup::Asks => "console-group-asks",
        JobGroup::Draft => "console-group-draft",
        JobGroup::Work => "console-group-work",
        JobGroup::Signed => "console-group-signed",
    })
}

/// One job as it can be seen.
#[derive(Debug, Clone, PartialEq)]
pub struct View {
    /// The job.
    pub name: String,
    /// Group.
    pub group: JobGroup,
    /// State in a few words.
    pub state: String,
    /// The verdict in one sentence.
    pub verdict: Option<String>,
    /// When its newest file came.
    pub arrived: SystemTime,
    /// Question that is asked.
    pub asks: Vec<String>,
    /// Names of its results, for links.
    pub results: Vec<&'static str>,
    /// Earlier reports, by their number.
    pub earlier: Vec<u32>,
}

const RESULTS: [&str; 8] = [
    "report.pdf",
    "technician.pdf",
    "repair_order.txt",
    "labour.csv",
    "invoice_draft.xml",
    "case.json",
    "problems.txt",
    "job.toml",
];

impl View {
    /// `shown`: names of the job's results.
    pub fn of(job: JobView, shown: &[String], localizer: &Localizer) -> View {
        let has = |name: &str| shown.iter().any(|s| s == name);
        let mut asks = Vec::new();
        let mut view = View {
            group: JobGroup::new(&job.state, job.revision.as_ref()),
            state: String::new(),
            verdict: None,
            arrived: job.arrived,
            results: RESULTS.into_iter().filter(|f| has(f)).collect(),
            earlier: Vec::new(),
            asks: Vec::new(),
            name: job.name,
        };
        if let Some(r) = &job.revision {
            view.verdict = Some(r.sentence.clone());
            let earlier = (1..r.number).filter(|n| has(&format!("rev-{n}/report.pdf")));
            view.earlier = earlier.collect();
            asks.extend(r.asks.iter().cloned());
            if r.set_aside > 0 {
                asks.push(count(
                    "console-asks-set-aside",
                    r.set_aside as u64,
                    localizer,
                ));
            }
        }
        let number = job.revision.as_ref().map_or(0, |r| r.number);
        let signature = job.revision.as_ref().and_then(|r| r.signature.as_ref());
        let has_report = view.results.contains(&"report.pdf");
        let key = match (&job.state, signature) {
            (JobState::Waiting, _) => "console-state-waiting",
            (JobState::Working, _) => "console-state-working",
            (JobState::Failed(_), _) => "console-state-failed",
            (JobState::Held(_), _) => "console-state-held",
            (JobState::Done, Some(_)) => "console-state-signed",
            (JobState::Done, None) if !has_report => "console-state-no-report",
            (JobState::Done, None) => "console-state-draft",
        };
        let mut arguments = fluent_args!["report" => number];
        if let Some(s) = signature {
            arguments.set("by", s.by.as_str());
            arguments.set("at", minute(s.at));
        }
        view.state = localizer.message_with(key, &arguments);
        if let JobState::Failed(why) | JobState::Held(why) = &job.state {
            asks.insert(0, why.clone());
        }
        if view.group == JobGroup::Draft {
            asks.push(localizer.message("console-asks-signature"));
        }
        view.asks = asks;
        view
    }

    /// When its newest file came, in this machine's time.
    pub fn arrived_text(&self) -> String {
        DateTime::<Local>::from(self.arrived)
            .format("%Y-%m-%d %H:%M")
            .to_string()
    }

    /// Time since then; nothing where the clock was set back meanwhile.
    pub fn age(&self, now: SystemTime, localizer: &Localizer) -> String {
        let age = now.duration_since(self.arrived);
        span(age.unwrap_or(Duration::ZERO), localizer)
    }
}

/// A time span as coarse as a person says it.
fn span(span: Duration, localizer: &Localizer) -> String {
    let minutes = span.as_secs() / 60;
    match minutes {
        0 => localizer.message("console-age-now"),
        1..=119 => count("console-age-minutes", minutes, localizer),
        120..=2879 => count("console-age-hours", minutes / 60, localizer),
        _ => count("console-age-days", minutes / 1440, localizer),
    }
}

/// A number with its noun: the sentence of a key that takes `$count`.
pub fn count(key: &str, n: u64, localizer: &Localizer) -> String {
    localizer.message_with(key, &fluent_args!["count" => n])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words;
    use model::ShopFile;

    #[test]
    fn ages_are_said_as_a_person_says_them() {
        let theme = words::of_shop(&ShopFile::default()).expect("English");
        for (seconds, said) in [
            (0, "just now"),
            (59, "just now"),
            (60, "1 minute"),
            (7_199, "119 minutes"),
            (7_200, "2 hours"),
            (172_799, "47 hours"),
            (172_800, "2 days"),
        ] {
            assert_eq!(span(Duration::from_secs(seconds), theme.localizer()), said);
        }
    }

    #[test]
    fn a_clock_that_was_set_back_makes_no_negative_age() {
        let job = JobView {
            name: "R-1".into(),
            arrived: SystemTime::UNIX_EPOCH + Duration::from_secs(1_000_000),
            state: JobState::Waiting,
            revision: None,
        };
        let theme = words::of_shop(&ShopFile::default()).expect("English");
        let view = View::of(job, &[], theme.localizer());
        assert_eq!(
            view.age(SystemTime::UNIX_EPOCH, theme.localizer()),
            "just now"
        );
    }
}
