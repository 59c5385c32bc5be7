//! The shop's own record, as a customer may ask for it.

use super::{Lesson, history};
use crate::output::say;
use anyhow::Result;
use learn::Job;
use learn::record::{Level, own_record};
use learn::text::percent;

/// Prints what was said at each level and how much of it was confirmed.
pub fn show(lesson: &mut Lesson) -> Result<bool> {
    let jobs: Vec<Job> = history(&mut lesson.store)?
        .into_iter()
        .map(|(job, _)| job)
        .collect();
    let record = own_record(&jobs);
    say!(
        "Verdicts and what was found, by the persons who looked. Intervals at 95 % (Wilson 1927). Only jobs with an \
         outcome tell: what is opened is more often what was called.\n"
    );
    let localizer = lesson.context.localizer();
    say!(
        "{:<28} {:<14} {:>6} {:>10} {:>8} {:>8} {:>8}  confirmed of those looked at",
        "system",
        "said",
        "number",
        "confirmed",
        "refuted",
        "mended*",
        "unknown"
    );
    for ((system, state), level) in &record.levels {
        say!(
            "{:<28} {state:<14} {:>6} {:>10} {:>8} {:>8} {:>8}  {}",
            localizer.system(system),
            level.said,
            level.confirmed,
            level.refuted,
            level.mended,
            level.unknown(),
            share(level)
        );
    }
    say!(
        "\n* Without a person's word, but healthy in the recording after the repair: a weaker confirmation."
    );
    for (system, drift) in &record.drift {
        let now = match drift.signals {
            0 => "no sign of drift".into(),
            n => format!(
                "DRIFT: the average fell below its limit {n} times; look at the newest refuted verdicts"
            ),
        };
        say!(
            "\n{}, established verdicts in their order (EWMA, lambda 0.2, 3 standard deviations): {} confirmed on \
             average, now {}, limit {} ({} verdicts): {now}",
            localizer.system(system),
            percent(drift.centre),
            percent(drift.now),
            percent(drift.low.max(0.0)),
            drift.n
        );
    }
    let mut confused: Vec<_> = record.confused.iter().collect();
    confused.sort_by(|a, b| b.1.cmp(a.1));
    if !confused.is_empty() {
        say!("\nSaid, but found to be another:");
    }
    for ((_, said, found), n) in confused {
        say!("  {n} x {}: {}", title(said, lesson), title(found, lesson));
    }
    Ok(true)
}

fn share(level: &Level) -> String {
    match level.confirmed_share() {
        None => "-".into(),
        Some((share, (low, high))) => {
            format!("{} ({} to {})", percent(share), percent(low), percent(high))
        }
    }
}

fn title(cause: &str, lesson: &Lesson) -> String {
    match lesson.context.knowledge.is_cause(cause) {
        true => lesson.context.localizer().cause_title(cause),
        false => cause.to_owned(),
    }
}
