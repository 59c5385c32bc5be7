//! One job on the status page.

use chrono::{DateTime, Local};
use intake::{JobGroup, JobState, JobView};
use std::time::{Duration, SystemTime};

/// Heading above the jobs of a group.
pub fn title(group: JobGroup) -> &'static str {
    match group {
        JobGroup::Asks => "Something is asked for",
        JobGroup::Draft => "Drafts to be reviewed",
        JobGroup::Work => "Waiting and in work",
        JobGroup::Signed => "Signed",
    }
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
    /// `has`: whether a job's folder of results has a file.
    pub fn of(job: JobView, has: &dyn Fn(&str, &str) -> bool) -> View {
        let mut asks = Vec::new();
        let mut view = View {
            group: JobGroup::new(&job.state, job.revision.as_ref()),
            state: String::new(),
            verdict: None,
            arrived: job.arrived,
            results: RESULTS.into_iter().filter(|f| has(&job.name, f)).collect(),
            earlier: Vec::new(),
            asks: Vec::new(),
            name: job.name,
        };
        if let Some(r) = &job.revision {
            view.verdict = Some(r.sentence.clone());
            let earlier = (1..r.number).filter(|n| has(&view.name, &format!("rev-{n}/report.pdf")));
            view.earlier = earlier.collect();
            asks.extend(r.asks.iter().cloned());
            if r.set_aside > 0 {
                asks.push(format!(
                    "a look at {}, see problems.txt",
                    count(
                        r.set_aside as u64,
                        "file that was set aside",
                        "files that were set aside"
                    )
                ));
            }
        }
        let number = job.revision.as_ref().map_or(0, |r| r.number);
        let signature = job.revision.as_ref().and_then(|r| r.signature.as_ref());
        view.state = match (&job.state, signature) {
            (JobState::Waiting, _) => "waiting".into(),
            (JobState::Working, _) => "being measured".into(),
            (JobState::Failed(why), _) => {
                asks.insert(0, why.clone());
                "failed, is tried again".into()
            }
            (JobState::Held(why), _) => {
                asks.insert(0, why.clone());
                "held".into()
            }
            (JobState::Done, Some(s)) => format!(
                "report {number} signed by {}, {}",
                s.by,
                s.at.format("%Y-%m-%d %H:%M")
            ),
            (JobState::Done, None) if !view.results.contains(&"report.pdf") => "no report".into(),
            (JobState::Done, None) => format!("report {number}, draft"),
        };
        if view.group == JobGroup::Draft {
            asks.push("a person's review and signature (baybrief sign)".into());
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
    pub fn age(&self, now: SystemTime) -> String {
        age(now.duration_since(self.arrived).unwrap_or(Duration::ZERO))
    }
}

/// A time span as coarse as a person says it.
fn age(span: Duration) -> String {
    let minutes = span.as_secs() / 60;
    match minutes {
        0 => "just now".into(),
        1..=119 => count(minutes, "minute", "minutes"),
        120..=2879 => count(minutes / 60, "hour", "hours"),
        _ => count(minutes / 1440, "day", "days"),
    }
}

/// A number with its noun.
pub fn count(n: u64, one: &str, many: &str) -> String {
    match n {
        1 => format!("1 {one}"),
        _ => format!("{n} {many}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ages_are_said_as_a_person_says_them() {
        for (seconds, said) in [
            (0, "just now"),
            (59, "just now"),
            (60, "1 minute"),
            (7_199, "119 minutes"),
            (7_200, "2 hours"),
            (172_799, "47 hours"),
            (172_800, "2 days"),
        ] {
            assert_eq!(age(Duration::from_secs(seconds)), said);
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
        let view = View::of(job, &|_, _| false);
        assert_eq!(view.age(SystemTime::UNIX_EPOCH), "just now");
    }
}
