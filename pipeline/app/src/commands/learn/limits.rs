//! Learned limits: proposals beside what is in force, adopting, reverting.

use super::{Lesson, curves, history};
use crate::arguments::Usage;
use crate::context::{folder_name, standing_limit};
use crate::output::say;
use crate::words::{phrase, tell};
use anyhow::Result;
use learn::exchange;
use learn::known_good::Sample;
use learn::sheet::{Adoption, Change, LearnedBound, Own, Proposal, Reason, propose};
use learn::text::{number, percent};
use learn::{Job, LearnedSheet, UnitKey};
use model::Knowledge;
use model::limits_sheet::LimitValue;
use model::system::Bound;
use report::localizer::Localizer;
use std::collections::BTreeMap;

/// Values that jobs prove good.
pub fn samples(jobs: &[&Job], knowledge: &Knowledge) -> Vec<Sample> {
    let of_job = |job: &&Job| {
        let systems = job.case.systems.iter();
        let samples = systems.filter_map(|record| {
            let system = knowledge.system(&record.system)?;
            Some(learn::known_good::samples(
                job,
                record,
                &system.sheet.learnable,
            ))
        });
        samples.flatten().collect::<Vec<_>>()
    };
    jobs.iter().flat_map(of_job).collect()
}

/// Limit that stands where nothing was learned.
pub fn standing(knowledge: &Knowledge) -> impl Fn(&UnitKey, &str) -> Option<LimitValue> {
    move |key, limit| standing_limit(knowledge, key, limit)
}

/// Proposals by the name of their sheet: the shop's own, and those of other shops.
type Proposals = BTreeMap<String, Vec<Proposal>>;

fn proposals(lesson: &mut Lesson, included: &[String]) -> Result<Proposals> {
    let jobs = history(&mut *lesson.store)?;
    for name in included {
        if !jobs.iter().any(|(job, _)| job.name == *name) {
            return Err(Usage(format!("--include {name}: there is no report of this job")).into());
        }
    }
    let knowledge = &lesson.context.knowledge;
    let samples = samples(
        &jobs.iter().map(|(job, _)| job).collect::<Vec<_>>(),
        knowledge,
    );
    let standing = standing(knowledge);
    let mut all = propose(&samples, Own { included }, &standing);
    for imported in lesson.folder.imported()? {
        all.extend(exchange::proposals(
            &imported.known,
            &imported.origin,
            &standing,
        ));
    }
    let mut by_sheet = Proposals::new();
    for proposal in all {
        let name = folder_name(&proposal.key, proposal.origin.as_ref());
        by_sheet.entry(name).or_default().push(proposal);
    }
    Ok(by_sheet)
}

/// Shows the proposals beside what is in force. Changes nothing.
pub fn show(lesson: &mut Lesson, included: &[String]) -> Result<bool> {
    let proposals = proposals(lesson, included)?;
    let in_force = lesson.context.learned.sheets().to_vec();
    let localizer = lesson.context.localizer();
    let sheet_of = |name: &str| {
        let is_it = |s: &&LearnedSheet| folder_name(&s.key, s.origin.as_ref()) == name;
        in_force.iter().find(is_it)
    };
    if proposals.is_empty() {
        tell!(localizer, "console-learn-none");
    }
    for (name, of_sheet) in &proposals {
        let sheet = sheet_of(name);
        say!(
            "{}  [{name}]",
            localizer.translate(&of_sheet[0].key.to_string())
        );
        if let Some(origin) = &of_sheet[0].origin {
            let (name, key) = (origin.name.as_str(), origin.key.as_str());
            tell!(localizer, "console-learn-origin", "name" => name, "key" => key);
        }
        for proposal in of_sheet {
            say!("{}", describe(proposal, sheet, localizer));
        }
    }
    for sheet in &in_force {
        let name = folder_name(&sheet.key, sheet.origin.as_ref());
        if !sheet.value.is_empty() || !sheet.curves.is_empty() {
            tell!(localizer, "console-learn-in-force",
                "name" => name,
                "version" => sheet.version,
                "by" => sheet.by.as_str(),
                "day" => sheet.at.format("%Y-%m-%d").to_string(),
            );
        }
    }
    Ok(true)
}

/// One proposal, a line for what was counted, one for each bound and one for each odd vehicle.
fn describe(p: &Proposal, sheet: Option<&LearnedSheet>, localizer: &Localizer) -> String {
    let unit = p.replaced.unit.as_str();
    let ends = |pick: &dyn Fn(&learn::sheet::VehicleRange) -> f64, best: fn(f64, f64) -> f64| {
        p.vehicles.iter().map(pick).reduce(best).unwrap_or(f64::NAN)
    };
    let mut lines = vec![phrase!(localizer, "console-learn-counted",
        "limit" => p.limit.as_str(),
        "recordings" => phrase!(localizer, "console-recordings", "count" => p.recordings()),
        "vehicles" => vehicles(p.vehicles.len(), localizer),
        "median" => number(p.median),
        "low" => number(ends(&|v| v.range.low, f64::min)),
        "high" => number(ends(&|v| v.range.high, f64::max)),
        "unit" => unit,
    )];
    let confidence = percent(p.confidence);
    lines.push(match p.is_carried() {
        true => phrase!(localizer, "console-learn-carried", "confidence" => confidence),
        false => phrase!(localizer, "console-learn-proposal",
            "confidence" => confidence,
            "needed" => vehicles(p.needed, localizer),
        ),
    });
    for bound in &p.bounds {
        lines.push(describe_bound(bound, p, sheet, localizer));
    }
    for odd in &p.outliers {
        lines.push(phrase!(localizer, "console-learn-odd",
            "jobs" => odd.jobs.join(", "),
            "low" => number(odd.range.low),
            "high" => number(odd.range.high),
            "unit" => unit,
            "first" => odd.jobs.first().map_or("", String::as_str),
        ));
    }
    lines.join("\n")
}

fn vehicles(count: usize, localizer: &Localizer) -> String {
    phrase!(localizer, "console-vehicles", "count" => count)
}

fn describe_bound(
    bound: &LearnedBound,
    p: &Proposal,
    sheet: Option<&LearnedSheet>,
    localizer: &Localizer,
) -> String {
    let side = match bound.side {
        Bound::Low => localizer.message("console-learn-low"),
        Bound::High => localizer.message("console-learn-high"),
    };
    let learned = sheet.and_then(|s| s.value.get(&p.limit));
    let present = learned.and_then(|v| match bound.side {
        Bound::Low => v.low,
        Bound::High => v.high,
    });
    let before = match present {
        Some(value) if value != bound.replaced => phrase!(localizer, "console-learn-learned",
            "replaced" => number(bound.replaced),
            "learned" => number(value),
        ),
        _ => number(bound.replaced),
    };
    let change = match bound.change() {
        Change::Same => localizer.message("console-learn-same"),
        Change::Wider => {
            let beyond = vehicles(bound.beyond, localizer);
            phrase!(localizer, "console-learn-wider", "vehicles" => beyond)
        }
        Change::Narrower => localizer.message("console-learn-narrower"),
    };
    let reasons = p.reasons(bound);
    let reasons: Vec<String> = reasons.iter().map(|r| reason(r, p, localizer)).collect();
    let next = match (p.is_carried(), bound.change(), reasons.is_empty()) {
        (_, Change::Same, _) | (false, ..) => None,
        (true, _, true) => Some(localizer.message("console-learn-adoptable")),
        (true, _, false) => {
            let reasons = reasons.join("; ");
            Some(phrase!(localizer, "console-learn-waits", "reasons" => reasons))
        }
    };
    let changed = [Some(change), next].into_iter().flatten();
    phrase!(localizer, "console-learn-bound",
        "side" => side,
        "before" => before,
        "value" => number(bound.value),
        "unit" => p.replaced.unit.as_str(),
        "change" => changed.collect::<Vec<_>>().join("; "),
    )
}

fn reason(reason: &Reason, p: &Proposal, localizer: &Localizer) -> String {
    match reason {
        Reason::Narrower if p.origin.is_some() => localizer.message("console-learn-foreign"),
        Reason::Narrower => localizer.message("console-learn-more-bad"),
        Reason::FewBeyond(n) => phrase!(localizer, "console-learn-few",
            "count" => *n,
            "vehicles" => vehicles(p.vehicles.len(), localizer),
        ),
        Reason::Judged(n) => phrase!(localizer, "console-learn-judged", "count" => *n),
    }
}

/// Adopts proposals: of all kinds of units, or of one; what moves by itself, or what is named.
pub fn adopt(
    lesson: &mut Lesson,
    unit: Option<&str>,
    named: Option<&[String]>,
    included: &[String],
) -> Result<bool> {
    let by = lesson.by()?;
    let proposals = proposals(lesson, included)?;
    if let Some(unit) = unit
        && !proposals.contains_key(unit)
    {
        let known: Vec<&str> = proposals.keys().map(String::as_str).collect();
        let message = format!(
            "--unit {unit}: there is no such sheet; there are {}",
            known.join(", ")
        );
        return Err(Usage(message).into());
    }
    let limits: Vec<&str> = proposals
        .values()
        .flatten()
        .map(|p| p.limit.as_str())
        .collect();
    if let Some(unknown) = named.and_then(|n| n.iter().find(|n| !limits.contains(&n.as_str()))) {
        return Err(Usage(format!("--value {unknown}: no such limit is proposed")).into());
    }
    let adoption = Adoption {
        by: &by,
        at: lesson.now,
        program: env!("CARGO_PKG_VERSION"),
        named,
        included,
    };
    let mut has_adopted = false;
    for (name, of_sheet) in &proposals {
        if unit.is_some_and(|u| u != name) {
            continue;
        }
        let history = lesson.folder.history(name)?;
        let of_sheet: Vec<&Proposal> = of_sheet.iter().collect();
        let adopted = adoption.of(&of_sheet, history.last());
        let Some(next) =
            curves::with_curves(adopted, &adoption, &of_sheet, history.last(), lesson)?
        else {
            continue;
        };
        let path = lesson.folder.add(&next)?;
        has_adopted = true;
        let localizer = lesson.context.localizer();
        say!("{}  [{name}]", localizer.translate(&next.key.to_string()));
        for proposal in &of_sheet {
            say!("{}", describe(proposal, history.last(), localizer));
        }
        for curve in &next.curves {
            tell!(localizer, "console-learn-curve",
                "kind" => curve.kind.as_str(),
                "subject" => curve.subject.as_str(),
                "vehicles" => vehicles(curve.vehicles, localizer),
            );
        }
        tell!(localizer, "console-learn-adopted",
            "version" => next.version,
            "path" => path.display().to_string(),
        );
    }
    if !has_adopted {
        tell!(lesson.context.localizer(), "console-learn-nothing-adopted");
    }
    Ok(has_adopted)
}

/// Brings back the version before the one in force; before the first, what stood before anything was learned.
pub fn revert(lesson: &Lesson, name: &str) -> Result<bool> {
    let by = lesson.by()?;
    let history = lesson.folder.history(name)?;
    let Some(present) = history.last() else {
        let known = lesson.context.learned.sheets().iter();
        let known: Vec<String> = known
            .map(|s| folder_name(&s.key, s.origin.as_ref()))
            .collect();
        let message = format!(
            "--revert {name}: there is no such sheet; there are {}",
            known.join(", ")
        );
        return Err(Usage(message).into());
    };
    // A version that was itself brought back leads on to what stood before that one.
    let back_to = present
        .reverts_to
        .unwrap_or(present.version)
        .saturating_sub(1);
    let before = history.iter().find(|s| s.version == back_to);
    if present.value.is_empty() && present.curves.is_empty() {
        return Err(Usage(format!("{name}: nothing learned is in force any more")).into());
    }
    let next = LearnedSheet {
        version: present.version + 1,
        reverts_to: Some(back_to),
        by,
        at: lesson.now,
        value: before.map(|s| s.value.clone()).unwrap_or_default(),
        curves: before.map(|s| s.curves.clone()).unwrap_or_default(),
        included: before.map(|s| s.included.clone()).unwrap_or_default(),
        ..present.clone()
    };
    let path = lesson.folder.add(&next)?;
    let localizer = lesson.context.localizer();
    match before {
        Some(before) => tell!(localizer, "console-learn-reverted",
            "name" => name,
            "version" => before.version,
        ),
        None => tell!(localizer, "console-learn-reverted-all", "name" => name),
    }
    say!("  {}", path.display());
    Ok(true)
}
