//! Weights of evidence as counted on the shop's outcomes, beside the judged ones.

use super::{Lesson, jobs};
use crate::arguments::Usage;
use crate::context::{AppContext, Settings};
use crate::memory::Memory;
use crate::output::{say, table};
use crate::words::{phrase, tell};
use anyhow::Result;
use learn::weights::{CountedWeight, LEAST_OUTCOMES, WeightSheet};

/// Counts of every row of every system. They are held against judgement, so what was adopted before takes no part.
fn counts(lesson: &mut Lesson) -> Result<Vec<CountedWeight>> {
    let jobs = jobs(&mut *lesson.store)?;
    let judged = judged_context(&lesson.context)?;
    let systems = judged.knowledge.systems.iter();
    Ok(systems
        .flat_map(|s| learn::weights::count(&jobs, &s.sheet.name, &s.causes))
        .filter(|w| w.outcomes() > 0)
        .collect())
}

/// The knowledge as judgement has it: with nothing learned in force.
fn judged_context(context: &AppContext) -> Result<AppContext> {
    let settings: Settings = context.settings.clone().without_learned();
    AppContext::with_settings(settings, false, Memory::default())
}

/// Prints the counts. Changes nothing.
pub fn show(lesson: &mut Lesson) -> Result<bool> {
    let counts = counts(lesson)?;
    if counts.is_empty() {
        tell!(lesson.context.localizer(), "console-weights-none");
        return Ok(true);
    }
    let localizer = lesson.context.localizer();
    tell!(localizer, "console-weights-head", "least" => LEAST_OUTCOMES);
    let titles = [
        "console-weights-row",
        "console-weights-judged",
        "console-weights-with",
        "console-weights-without",
        "console-weights-counted",
        "console-weights-proposed",
    ];
    let mut rows = vec![titles.map(|key| localizer.message(key)).to_vec()];
    let of = |(part, all): (usize, usize)| phrase!(localizer, "console-part-of", "part" => part, "all" => all);
    for w in &counts {
        let (low, high) = w.interval_dban;
        let lacking = LEAST_OUTCOMES.saturating_sub(w.outcomes()).max(1);
        rows.push(vec![
            w.name(),
            format!("{:+.0}", w.judged_dban),
            of(w.with_cause),
            of(w.without),
            phrase!(localizer, "console-interval",
                "low" => format!("{low:+.1}"),
                "high" => format!("{high:+.1}"),
            ),
            match w.is_proposed() {
                true => format!("{:+.1}", w.weight_dban),
                false => phrase!(localizer, "console-weights-more", "count" => lacking),
            },
        ]);
    }
    say!("\n{}", table(&rows, 1));
    if let Some(sheet) = lesson
        .folder
        .weights()?
        .last()
        .filter(|s| !s.weights.is_empty())
    {
        say!("");
        tell!(localizer, "console-weights-in-force",
            "count" => sheet.weights.len(),
            "version" => sheet.version,
            "by" => sheet.by.as_str(),
            "day" => sheet.at.format("%Y-%m-%d").to_string(),
        );
    }
    Ok(true)
}

/// Adopts the weights that are named, `CAUSE/ROW`.
pub fn adopt(lesson: &mut Lesson, named: Option<&[String]>) -> Result<bool> {
    let by = lesson.by()?;
    let Some(named) = named else {
        let message = "--value: name the weights to adopt, CAUSE/ROW; `learn weights` lists them";
        return Err(Usage(message.into()).into());
    };
    let counts = counts(lesson)?;
    let history = lesson.folder.weights()?;
    let mut weights = history
        .last()
        .map(|s| s.weights.clone())
        .unwrap_or_default();
    for name in named {
        let weight = counts.iter().find(|w| w.name() == *name).ok_or_else(|| {
            Usage(format!(
                "--value {name}: no outcome tells of such a row; `learn weights` lists them"
            ))
        })?;
        if !weight.is_proposed() {
            let text = phrase!(lesson.context.localizer(), "console-weights-few",
                "name" => name.as_str(),
                "count" => weight.outcomes(),
                "least" => LEAST_OUTCOMES,
            );
            return Err(Usage(text).into());
        }
        weights.retain(|w| w.name() != *name || w.system != weight.system);
        let source = lesson.context.localizer().translate(&weight.source());
        say!("{name}: {:+.1} dBan; {source}", weight.weight_dban);
        weights.push(weight.clone());
    }
    let sheet = WeightSheet {
        version: history.last().map_or(0, |s| s.version) + 1,
        reverts_to: None,
        by,
        at: lesson.now,
        program: env!("CARGO_PKG_VERSION").into(),
        weights,
    };
    let path = lesson.folder.add_weights(&sheet)?;
    tell!(lesson.context.localizer(), "console-learn-adopted",
        "version" => sheet.version,
        "path" => path.display().to_string(),
    );
    Ok(true)
}

/// Brings back the version before the one in force; before the first, judgement alone.
pub fn revert(lesson: &Lesson) -> Result<bool> {
    let by = lesson.by()?;
    let history = lesson.folder.weights()?;
    let Some(present) = history.last().filter(|s| !s.weights.is_empty()) else {
        return Err(Usage("no counted weight is in force".into()).into());
    };
    let back_to = present
        .reverts_to
        .unwrap_or(present.version)
        .saturating_sub(1);
    let before = history.iter().find(|s| s.version == back_to);
    let sheet = WeightSheet {
        version: present.version + 1,
        reverts_to: Some(back_to),
        by,
        at: lesson.now,
        program: env!("CARGO_PKG_VERSION").into(),
        weights: before.map(|s| s.weights.clone()).unwrap_or_default(),
    };
    let path = lesson.folder.add_weights(&sheet)?;
    let count = sheet.weights.len();
    tell!(lesson.context.localizer(), "console-weights-reverted", "count" => count);
    say!("  {}", path.display());
    Ok(true)
}
