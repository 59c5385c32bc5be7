//! Weights of evidence as counted on the shop's outcomes, beside the judged ones.

use super::{Lesson, history};
use crate::arguments::Usage;
use crate::context::{AppContext, Settings};
use crate::memory::Memory;
use crate::output::say;
use anyhow::Result;
use learn::Job;
use learn::text::count;
use learn::weights::{CountedWeight, LEAST_OUTCOMES, WeightSheet};

/// Counts of every row of every system. They are held against judgement, so what was adopted before takes no part.
fn counts(lesson: &mut Lesson) -> Result<Vec<CountedWeight>> {
    let jobs: Vec<Job> = history(&mut lesson.store)?
        .into_iter()
        .map(|(job, _)| job)
        .collect();
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
        say!("No outcome tells of a cause yet: weights are judgement.");
        return Ok(true);
    }
    say!(
        "In decibans; from {LEAST_OUTCOMES} outcomes a row on, a weight is proposed beside the judged one.\n"
    );
    say!(
        "{:<44} {:>6} {:>10} {:>10} {:>18} {:>9}",
        "cause/row",
        "judged",
        "with",
        "without",
        "counted, 95 %",
        "proposed"
    );
    for w in &counts {
        let ((a, n), (b, m)) = (w.with_cause, w.without);
        let (low, high) = w.interval_dban;
        let proposed = match w.is_proposed() {
            true => format!("{:+.1}", w.weight_dban),
            false => format!(
                "{} more",
                LEAST_OUTCOMES.saturating_sub(w.outcomes()).max(1)
            ),
        };
        say!(
            "{:<44} {:>+6.0} {:>10} {:>10} {:>18} {proposed:>9}",
            w.name(),
            w.judged_dban,
            format!("{a} of {n}"),
            format!("{b} of {m}"),
            format!("{low:+.1} to {high:+.1}"),
        );
    }
    if let Some(sheet) = lesson
        .folder
        .weights()?
        .last()
        .filter(|s| !s.weights.is_empty())
    {
        say!(
            "\nin force: {} counted, version {}, adopted by {} on {}",
            count(sheet.weights.len(), "weight", "weights"),
            sheet.version,
            sheet.by,
            sheet.at.format("%Y-%m-%d")
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
            return Err(Usage(format!(
                "--value {name}: {} so far; {LEAST_OUTCOMES} are needed, some with the cause and some without",
                count(weight.outcomes(), "outcome", "outcomes")
            ))
            .into());
        }
        weights.retain(|w| w.name() != *name || w.system != weight.system);
        say!(
            "{name}: {:+.1} dBan; {}",
            weight.weight_dban,
            weight.source()
        );
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
    say!("adopted as version {}: {}", sheet.version, path.display());
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
    say!(
        "{} counted in force again\n  {}",
        count(sheet.weights.len(), "weight is", "weights are"),
        path.display()
    );
    Ok(true)
}
