//! Steps of the jobs at hand, in the words of the page.

use crate::job::{JobProgress, Step};
use page::{Message, Progress};
use report::localizer::Localizer;

/// Progress of each job at hand, for the page.
pub fn progress(jobs: Vec<JobProgress>, words: &Localizer) -> Vec<Progress> {
    let of_job = |at_hand: JobProgress| Progress {
        job: at_hand.job,
        step: match at_hand.step {
            Step::Begun => Message::new("progress-begun"),
            Step::Reading { file, .. } => Message::with("progress-reading", "file", file),
            Step::Measuring { system } => match words.has(&format!("system-{system}")) {
                true => Message::with("progress-measuring", "system", words.system(&system)),
                // A library that measures for all systems.
                false => Message::new("progress-measuring-all"),
            },
            Step::Reporting => Message::new("progress-reporting"),
        },
        percent: at_hand.percent,
    };
    jobs.into_iter().map(of_job).collect()
}
