//! `outcome`: what was found when the unit was opened, or when it had proven itself.

use super::learn::read_case;
use super::report::{NewestReport, newest, now};
use crate::arguments::{Discovery, OutcomeArguments, Usage, WhatFound};
use crate::context::AppContext;
use crate::output::say;
use crate::words::{fluent_args, phrase};
use crate::work_lines::minute;
use anyhow::Result;
use intake::Store;
use model::job_file::Phase;
use model::knowledge::Knowledge;
use model::outcome::{Found, Outcome, Photo, Said};
use model::{Case, SystemRecord};

/// Records an outcome of the newest report of a job.
pub fn outcome(arguments: OutcomeArguments) -> Result<bool> {
    let job = arguments.report.job.clone();
    let NewestReport {
        mut store, context, ..
    } = NewestReport::open(arguments.report)?;
    let (outcome, case) = record(&job, arguments.discovery, &mut *store, &context.knowledge)?;
    say!("{job}: {}", describe(&outcome, &context));
    let has_after = case.captures.iter().any(|c| c.phase == Some(Phase::After));
    if outcome.is_mended && !has_after {
        let ask = context.localizer().message("console-outcome-record-after");
        say!("  {ask}");
    }
    Ok(true)
}

/// Records what was found of the newest report of a job, and returns it with the case. Nothing that was recorded is
/// changed: the last one counts.
///
/// # Errors
/// When nobody says it, or it contradicts the report.
pub fn record(
    job: &str,
    discovery: Discovery,
    store: &mut dyn Store,
    knowledge: &Knowledge,
) -> Result<(Outcome, Case)> {
    let wrong = |text: String| Usage(format!("{job}: {text}"));
    let by = discovery.by.trim();
    if by.is_empty() {
        return Err(wrong("--by: give the name of the person who looked".into()).into());
    }
    let revision = newest(store, job)?;
    let case = read_case(store, job, revision.number)?;
    let record = system_of(&case, discovery.system.as_deref()).map_err(wrong)?;
    let found = found_of(discovery.found, discovery.cause, record, knowledge).map_err(wrong)?;
    let photo = discovery.photo.map(|file| photo_of(&case, job, &file));
    let outcome = Outcome {
        at: now(),
        by: by.into(),
        system: record.system.clone(),
        found,
        is_mended: discovery.is_mended,
        part: discovery.part,
        photo: photo.transpose()?,
        note: discovery.note,
        said: Said {
            revision: revision.number,
            state: record.verdict.state,
            cause: record.verdict.cause.clone(),
        },
    };
    store.ledger().record_outcome(job, &outcome)?;
    Ok((outcome, case))
}

fn system_of<'c>(case: &'c Case, named: Option<&str>) -> Result<&'c SystemRecord, String> {
    let examined: Vec<&str> = case.systems.iter().map(|s| s.system.as_str()).collect();
    let known = match examined.as_slice() {
        [] => "the report examined none".into(),
        names => format!("the report examined {}", names.join(", ")),
    };
    match named {
        Some(name) => {
            let found = case.systems.iter().find(|s| s.system == name);
            found.ok_or_else(|| format!("--system {name}: there is no such system; {known}"))
        }
        None => case
            .lead()
            .ok_or_else(|| format!("name the system with --system; {known}")),
    }
}

fn found_of(
    found: WhatFound,
    cause: Option<String>,
    record: &SystemRecord,
    knowledge: &Knowledge,
) -> Result<Found, String> {
    let said = record.verdict.cause.as_deref();
    let found = match (found, cause) {
        (WhatFound::OtherCause, Some(cause)) if said == Some(&cause) => {
            return Err(format!(
                "--cause {cause}: that is what the report says; write --found confirmed"
            ));
        }
        (WhatFound::OtherCause, Some(cause)) => Found::OtherCause { cause },
        (WhatFound::OtherCause, None) => {
            let causes = knowledge.system(&record.system);
            let causes = causes.iter().flat_map(|s| &s.causes.causes);
            let names: Vec<&str> = causes.map(|c| c.name.as_str()).collect();
            return Err(format!(
                "--found other-cause needs --cause: one of {}; or a few words where it is none of them",
                names.join(", ")
            ));
        }
        (_, Some(_)) => return Err("--cause goes with --found other-cause alone".into()),
        (WhatFound::Confirmed, None) if said.is_none() => {
            return Err(
                "the report names no cause that could be confirmed; write --found other-cause --cause NAME, or --found \
                 healthy"
                    .into(),
            );
        }
        (WhatFound::Confirmed, None) => Found::Confirmed,
        (WhatFound::PartSound, None) if said.is_none() => {
            return Err(
                "the report condemns no part; write --found healthy where the unit is sound".into(),
            );
        }
        (WhatFound::PartSound, None) => Found::PartSound,
        (WhatFound::Healthy, None) => Found::Healthy,
        (WhatFound::NotOpened, None) => Found::NotOpened,
    };
    Ok(found)
}

/// A photo is one of the job's files, so that it is kept with them and sealed with them.
fn photo_of(case: &Case, job: &str, file: &str) -> Result<Photo> {
    let known = &case.files;
    let record = known.iter().find(|f| f.path == file);
    match record.and_then(|f| f.sha256.as_ref()) {
        Some(sha256) => Ok(Photo {
            file: file.into(),
            sha256: sha256.clone(),
        }),
        None => {
            let names: Vec<&str> = known.iter().map(|f| f.path.as_str()).collect();
            Err(Usage(format!(
                "{job}: --photo {file}: expected a file of the job; put the photo into its folder and do the job again; \
                 it has {}",
                names.join(", ")
            ))
            .into())
        }
    }
}

/// One outcome as a line.
pub fn describe(outcome: &Outcome, context: &AppContext) -> String {
    let localizer = context.localizer();
    let title = |cause: &str| match context.knowledge.is_cause(cause) {
        true => localizer.cause_title(cause),
        false => cause.to_owned(),
    };
    let said = outcome.said.cause.as_deref().map(title);
    let key = match (&outcome.found, &said) {
        (Found::Confirmed, Some(_)) => "console-outcome-confirmed-cause",
        (Found::Confirmed, None) => "console-outcome-confirmed",
        (Found::OtherCause { .. }, Some(_)) => "console-outcome-other-cause-than",
        (Found::OtherCause { .. }, None) => "console-outcome-other-cause",
        (Found::PartSound, Some(_)) => "console-outcome-part-sound-not",
        (Found::PartSound, None) => "console-outcome-part-sound",
        (Found::Healthy, _) => "console-outcome-healthy",
        (Found::NotOpened, _) => "console-outcome-not-opened",
    };
    let mut found = fluent_args!["said" => said.unwrap_or_default()];
    if let Found::OtherCause { cause } = &outcome.found {
        found.set("cause", title(cause));
    }
    let mut parts = vec![localizer.message_with(key, &found)];
    parts.extend((outcome.is_mended).then(|| localizer.message("console-outcome-mended")));
    let part = outcome.part.as_deref();
    parts.extend(part.map(|part| phrase!(localizer, "console-outcome-part", "part" => part)));
    let photo = outcome.photo.as_ref().map(|p| p.file.as_str());
    parts.extend(photo.map(|photo| phrase!(localizer, "console-outcome-photo", "photo" => photo)));
    parts.extend(outcome.note.clone());
    phrase!(localizer, "console-outcome",
        "found" => parts.join("; "),
        "system" => localizer.system(&outcome.system),
        "by" => outcome.by.as_str(),
        "at" => minute(outcome.at),
        "report" => outcome.said.revision,
    )
}
