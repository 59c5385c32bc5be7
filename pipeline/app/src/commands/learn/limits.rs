//! Learned limits: proposals beside what is in force, adopting, reverting.

use super::{Lesson, curves, history};
use crate::arguments::Usage;
use crate::context::{folder_name, standing_limit};
use crate::output::say;
use anyhow::Result;
use learn::exchange;
use learn::known_good::Sample;
use learn::sheet::{Adoption, Change, LearnedBound, Own, Proposal, Reason, propose};
use learn::text::{count, number, percent};
use learn::{Job, LearnedSheet, UnitKey};
use model::Knowledge;
use model::limits_sheet::LimitValue;
use model::system::Bound;
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
    let jobs = history(&mut lesson.store)?;
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
    let sheet_of = |name: &str| {
        let is_it = |s: &&LearnedSheet| folder_name(&s.key, s.origin.as_ref()) == name;
        in_force.iter().find(is_it)
    };
    if proposals.is_empty() {
        say!(
            "No job is proven good yet. Record what was found with `outcome JOB --found healthy` or `--mended`; a job \
             counts where its job.toml names the unit, or make and model."
        );
    }
    for (name, of_sheet) in &proposals {
        let sheet = sheet_of(name);
        say!("{}  [{name}]", of_sheet[0].key);
        if let Some(origin) = &of_sheet[0].origin {
            say!("  from the shop {}, key {}", origin.name, origin.key);
        }
        for proposal in of_sheet {
            print!("{}", describe(proposal, sheet));
        }
    }
    for sheet in &in_force {
        let name = folder_name(&sheet.key, sheet.origin.as_ref());
        if !sheet.value.is_empty() || !sheet.curves.is_empty() {
            say!(
                "in force: {name}, version {}, adopted by {} on {}",
                sheet.version,
                sheet.by,
                sheet.at.format("%Y-%m-%d")
            );
        }
    }
    Ok(true)
}

/// One proposal, a line for what was counted, one for each bound and one for each odd vehicle.
fn describe(p: &Proposal, sheet: Option<&LearnedSheet>) -> String {
    let unit = &p.replaced.unit;
    let ends = |pick: &dyn Fn(&learn::sheet::VehicleRange) -> f64, best: fn(f64, f64) -> f64| {
        p.vehicles.iter().map(pick).reduce(best).unwrap_or(f64::NAN)
    };
    let mut text = format!(
        "  {}: {} of {}; median {}, smallest to largest {} to {} {unit}\n",
        p.limit,
        count(p.recordings(), "recording", "recordings"),
        count(p.vehicles.len(), "vehicle", "vehicles"),
        number(p.median),
        number(ends(&|v| v.range.low, f64::min)),
        number(ends(&|v| v.range.high, f64::max)),
    );
    let carried = match p.is_carried() {
        true => format!(
            "95 % of such vehicles at {} confidence",
            percent(p.confidence)
        ),
        false => format!(
            "a proposal only: {} confidence for 95 % of such vehicles, {} are needed",
            percent(p.confidence),
            count(p.needed, "vehicle", "vehicles")
        ),
    };
    text.push_str(&format!("    {carried}\n"));
    for bound in &p.bounds {
        text.push_str(&format!("    {}\n", describe_bound(bound, p, sheet)));
    }
    for odd in &p.outliers {
        text.push_str(&format!(
            "    odd: {} ({} to {} {unit}) is left out; where a person knows that it is good: --include {}\n",
            odd.jobs.join(", "),
            number(odd.range.low),
            number(odd.range.high),
            odd.jobs.first().map_or("", String::as_str),
        ));
    }
    text
}

fn describe_bound(bound: &LearnedBound, p: &Proposal, sheet: Option<&LearnedSheet>) -> String {
    let unit = &p.replaced.unit;
    let side = match bound.side {
        Bound::Low => "low ",
        Bound::High => "high",
    };
    let learned = sheet.and_then(|s| s.value.get(&p.limit));
    let present = learned.and_then(|v| match bound.side {
        Bound::Low => v.low,
        Bound::High => v.high,
    });
    let now = match present {
        Some(value) if value != bound.replaced => {
            format!("{} (learned) ", number(value))
        }
        _ => String::new(),
    };
    let change = match bound.change() {
        Change::Same => "as it is".into(),
        Change::Wider => format!(
            "wider; {} beyond the limit",
            count(bound.beyond, "vehicle", "vehicles")
        ),
        Change::Narrower => "narrower".into(),
    };
    let reasons: Vec<String> = p.reasons(bound).iter().map(|r| reason(r, p)).collect();
    let next = match (p.is_carried(), bound.change(), reasons.is_empty()) {
        (_, Change::Same, _) | (false, ..) => String::new(),
        (true, _, true) => "; can be adopted".into(),
        (true, _, false) => format!("; waits for a person's word ({})", reasons.join("; ")),
    };
    format!(
        "{side} {} {now}-> {} {unit}: {change}{next}",
        number(bound.replaced),
        number(bound.value)
    )
}

fn reason(reason: &Reason, p: &Proposal) -> String {
    match reason {
        Reason::Narrower if p.origin.is_some() => {
            "another shop's values never narrow a limit".into()
        }
        Reason::Narrower => "it would call more units bad than before".into(),
        Reason::FewBeyond(n) => format!(
            "only {n} of {} beyond the limit: as many may be wrongly called good",
            count(p.vehicles.len(), "vehicle", "vehicles")
        ),
        Reason::Judged(n) => format!(
            "{} called good by this limit alone",
            count(*n, "vehicle is", "vehicles are")
        ),
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
        say!("{}  [{name}]", next.key);
        for proposal in &of_sheet {
            print!("{}", describe(proposal, history.last()));
        }
        for curve in &next.curves {
            say!(
                "  curve of {} ({}): {}, 5 to 95 %",
                curve.kind,
                curve.subject,
                count(curve.vehicles, "vehicle", "vehicles")
            );
        }
        let path = lesson.folder.add(&next)?;
        has_adopted = true;
        say!("  adopted as version {}: {}", next.version, path.display());
    }
    if !has_adopted {
        say!(
            "Nothing was adopted: `learn limits` says what is proposed, how many vehicles are needed and what waits for a \
             person's word (--value NAME)."
        );
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
    match before {
        Some(before) => say!("{name}: version {} is in force again", before.version),
        None => say!("{name}: the limits from before anything was learned are in force again"),
    }
    say!("  {}", path.display());
    Ok(true)
}
