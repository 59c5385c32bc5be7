//! The record: files, conditions, calibrations, checks.

use crate::localizer::{Localizer, args};
use model::case::{CaptureRecord, ChannelRecord};
use model::{Case, RoleSource, SystemRecord};
use serde::Serialize;

/// The record.
#[derive(Serialize)]
pub(super) struct Appendix {
    files: Vec<FileRow>,
    conditions: Vec<Condition>,
    /// Limits that each system was held against.
    limits: Vec<String>,
    channels: Vec<ChannelRow>,
    not_run: Vec<[String; 3]>,
    plugins: Vec<[String; 3]>,
    problems: Vec<[String; 3]>,
    notes: Vec<String>,
}

#[derive(Serialize)]
struct FileRow {
    path: String,
    status: String,
    message: Option<String>,
    hash: Option<String>,
}

#[derive(Serialize)]
struct Condition {
    file: String,
    engine: String,
    selector: String,
    phase: String,
    rate: String,
    duration: String,
}

#[derive(Serialize)]
struct ChannelRow {
    file: String,
    channel: String,
    role: String,
    how: String,
    calibration: String,
}

/// Builds the record. `notes` is the complaint in full where the first page cuts it.
pub(super) fn appendix(case: &Case, localizer: &Localizer, notes: Option<&str>) -> Appendix {
    Appendix {
        files: case
            .files
            .iter()
            .map(|f| FileRow {
                path: f.path.clone(),
                status: localizer.message(&format!("report-file-{}", f.status)),
                message: f.message.as_deref().map(|m| localizer.translate(m)),
                hash: f.sha256.clone(),
            })
            .collect(),
        limits: limits(case, localizer),
        conditions: case
            .captures
            .iter()
            .map(|c| condition(c, localizer))
            .collect(),
        channels: case
            .captures
            .iter()
            .flat_map(|c| c.channels.iter().map(|ch| channel(c, ch, localizer)))
            .collect(),
        not_run: case
            .not_run
            .iter()
            .map(|n| {
                [
                    n.plugin.clone(),
                    n.file.clone().unwrap_or_default(),
                    localizer.translate(&n.reason),
                ]
            })
            .collect(),
        plugins: case
            .plugins
            .iter()
            .map(|p| [p.id.clone(), p.version.clone(), p.sha256.clone()])
            .collect(),
        problems: case
            .problems
            .iter()
            .map(|p| {
                [
                    p.file.clone(),
                    localizer.translate(p.place.as_deref().unwrap_or_default()),
                    localizer.translate(&p.message),
                ]
            })
            .collect(),
        notes: notes
            .into_iter()
            .flat_map(str::lines)
            .map(str::to_owned)
            .collect(),
    }
}

fn limits(case: &Case, localizer: &Localizer) -> Vec<String> {
    let line = |s: &SystemRecord| {
        let key = match s.unit_named {
            true => "report-limits-of-unit",
            false => "report-limits-of-system",
        };
        let a = args([
            ("system", localizer.system(&s.system).into()),
            ("limits", s.limits.clone().into()),
        ]);
        localizer.message_with(key, &a)
    };
    case.systems.iter().map(line).collect()
}

fn condition(c: &CaptureRecord, localizer: &Localizer) -> Condition {
    let stated = |value: Option<(String, &str)>| match value {
        Some((value, source)) => {
            let a = args([
                ("value", value.into()),
                ("source", source.to_owned().into()),
            ]);
            localizer.message_with("report-stated-by", &a)
        }
        None => localizer.message("report-record-not-stated"),
    };
    Condition {
        file: c.file.clone(),
        engine: stated(
            c.engine
                .as_ref()
                .map(|e| (localizer.engine(e.value), e.source.as_str())),
        ),
        selector: stated(
            c.selector
                .as_ref()
                .map(|s| (s.value.letter().into(), s.source.as_str())),
        ),
        phase: c.phase.map_or_else(
            || localizer.message("report-record-not-stated"),
            |p| localizer.phase(p),
        ),
        rate: c
            .rate_hz
            .map_or_else(String::new, |r| localizer.quantity(r, Some("Hz"))),
        duration: localizer.quantity(c.end_s - c.start_s, Some("s")),
    }
}

fn channel(c: &CaptureRecord, ch: &ChannelRecord, localizer: &Localizer) -> ChannelRow {
    ChannelRow {
        file: c.file.clone(),
        channel: ch.name.clone(),
        role: ch.role.as_deref().map_or_else(
            || localizer.message("report-record-not-stated"),
            |r| localizer.subject(Some(r)),
        ),
        how: match &ch.role_source {
            RoleSource::Unknown => localizer.message("role-by-unknown"),
            RoleSource::JobFile => localizer.message("role-by-job-file"),
            RoleSource::Guess { certainty, reason } => localizer.message_with(
                "role-by-guess",
                &args([
                    ("percent", localizer.fixed(certainty * 100.0, 0).into()),
                    ("reason", localizer.translate(reason).into()),
                ]),
            ),
        },
        calibration: if ch.calibrated {
            let a = args([
                ("scale", localizer.number(ch.scale).into()),
                ("offset", localizer.number(ch.offset).into()),
                ("unit", ch.unit.clone().unwrap_or_else(|| "?".into()).into()),
            ]);
            let key = if ch.offset == 0.0 {
                "report-calibrated-scale"
            } else {
                "report-calibrated"
            };
            localizer.message_with(key, &a)
        } else {
            localizer.message("report-not-calibrated")
        },
    }
}
