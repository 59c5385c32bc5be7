//! The shop's own record, as a customer may ask for it.

use super::{Lesson, jobs};
use crate::output::{say, table};
use crate::words::{phrase, tell};
use anyhow::Result;
use learn::record::{Level, own_record};
use learn::text::percent;
use report::localizer::Localizer;

/// Prints what was said at each level and how much of it was confirmed.
pub fn show(lesson: &mut Lesson) -> Result<bool> {
    let jobs = jobs(&mut *lesson.store)?;
    let record = own_record(&jobs);
    let localizer = lesson.context.localizer();
    tell!(localizer, "console-record-head");
    let titles = [
        "console-record-system",
        "console-record-said",
        "console-record-number",
        "console-record-confirmed",
        "console-record-refuted",
        "console-record-mended",
        "console-record-unknown",
        "console-record-share",
    ];
    let mut rows = vec![titles.map(|key| localizer.message(key)).to_vec()];
    for ((system, state), level) in &record.levels {
        rows.push(vec![
            localizer.system(system),
            localizer.translate(state),
            level.said.to_string(),
            level.confirmed.to_string(),
            level.refuted.to_string(),
            level.mended.to_string(),
            level.unknown().to_string(),
            share(level, localizer),
        ]);
    }
    say!("\n{}\n", table(&rows, 2));
    tell!(localizer, "console-record-note");
    for (system, drift) in &record.drift {
        say!("");
        tell!(localizer, "console-record-drift",
            "system" => localizer.system(system),
            "centre" => percent(drift.centre),
            "now" => percent(drift.now),
            "limit" => percent(drift.low.max(0.0)),
            "count" => drift.n,
            "signals" => drift.signals,
        );
    }
    let mut confused: Vec<_> = record.confused.iter().collect();
    confused.sort_by(|a, b| b.1.cmp(a.1));
    if !confused.is_empty() {
        say!("");
        tell!(localizer, "console-record-confused");
    }
    for ((_, said, found), n) in confused {
        say!("  {n} x {}: {}", title(said, lesson), title(found, lesson));
    }
    Ok(true)
}

fn share(level: &Level, localizer: &Localizer) -> String {
    match level.confirmed_share() {
        None => "-".into(),
        Some((share, (low, high))) => {
            let interval = phrase!(localizer, "console-interval",
                "low" => percent(low),
                "high" => percent(high),
            );
            format!("{} ({interval})", percent(share))
        }
    }
}

fn title(cause: &str, lesson: &Lesson) -> String {
    match lesson.context.knowledge.is_cause(cause) {
        true => lesson.context.localizer().cause_title(cause),
        false => lesson.context.localizer().translate(cause),
    }
}
