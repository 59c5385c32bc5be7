//! Steps of the jobs at hand, in the words of the page.

use crate::job::Step;
use page::{Message, Progress};
use report::localizer::Localizer;

/// Progress of each job at hand, for the page.
pub fn progress(jobs: Vec<(String, Step, Option<u8>)>, words: &Localizer) -> Vec<Progress> {
    let of_job = |(job, step, percent)| Progress {
        job,
        step: match step {
            Step::Begun => Message::new("progress-begun"),
            Step::Reading { file, .. } => Message::with("progress-reading", "file", file),
            Step::Measuring { system } => match words.has(&format!("system-{system}")) {
                true => Message::with("progress-measuring", "system", words.system(&system)),
                // A library that measures for all systems.
                false => Message::new("progress-measuring-all"),
            },
            Step::Reporting => Message::new("progress-reporting"),
        },
        percent,
    };
    jobs.into_iter().map(of_job).collect()
}
