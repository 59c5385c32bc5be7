//! A filled-in job.toml beside an open report: what is known is filled in, each open question is a comment.

use super::acquire::Acquired;
use intake::JobSource;
use model::case::{CaptureRecord, ChannelRecord};
use model::knowledge::Knowledge;
use model::{Case, Role, RoleSource, VerdictState};
use std::fmt::Write as _;

/// OUT/JOB/job.toml; `None` unless the verdict is open for want of words that a person has.
pub fn of(
    case: &Case,
    acquired: &Acquired,
    source: &JobSource,
    knowledge: &Knowledge,
) -> Option<String> {
    let wanted =
        case.verdict.state == VerdictState::Open && !case.captures.is_empty() && lacks(case);
    wanted.then(|| text(case, acquired, source, knowledge))
}

fn lacks(case: &Case) -> bool {
    case.captures.iter().any(|c| {
        c.selector.is_none()
            || c.engine.is_none()
            || c.channels
                .iter()
                .any(|ch| ch.role.is_none() || !ch.calibrated)
    })
}

fn text(case: &Case, acquired: &Acquired, source: &JobSource, knowledge: &Knowledge) -> String {
    let job = acquired.job.clone().unwrap_or_default();
    let place = match source {
        JobSource::Folder(folder) => format!(
            "into the job's folder {}",
            folder.file_name().unwrap_or_default().to_string_lossy()
        ),
        JobSource::Files(_) | JobSource::Layered { .. } => {
            "beside the job's other files, named as they are up to the first _ and then _job.toml"
                .into()
        }
    };
    let mut t = format!(
        "# Filled in as far as it is known. Answer what is asked, take the # away before each answer, and put this\n\
         # file {place}; the job then goes on by itself.\n\n[job]\n",
    );
    let line = |t: &mut String, key: &str, value: Option<String>, ask: &str| {
        let _ = match value {
            Some(v) => writeln!(t, "{key} = {v}"),
            None => writeln!(t, "# {key} =   # {ask}"),
        };
    };
    let quoted = |s: &Option<String>| {
        s.as_ref()
            .map(|s| toml::Value::String(s.clone()).to_string())
    };
    line(&mut t, "number", quoted(&Some(case.job.number.clone())), "");
    line(
        &mut t,
        "opened",
        case.job.opened.map(|d| d.to_string()),
        "the day, as 2026-03-02",
    );
    line(
        &mut t,
        "technician",
        quoted(&case.job.technician),
        "who examined the vehicle",
    );
    t.push_str("\n[customer]\n");
    line(
        &mut t,
        "name",
        quoted(&case.customer.name),
        "the customer's name",
    );
    t.push_str("\n[vehicle]\n");
    line(
        &mut t,
        "vin",
        quoted(&case.vehicle.vin),
        "vehicle number, 17 characters",
    );
    line(&mut t, "make", quoted(&case.vehicle.make), "maker");
    line(&mut t, "model", quoted(&case.vehicle.model), "model");
    line(
        &mut t,
        "year",
        case.vehicle.year.map(|y| y.to_string()),
        "model year",
    );
    line(
        &mut t,
        "odometer_km",
        case.vehicle.odometer_km.map(|v| v.to_string()),
        "odometer, km",
    );
    line(
        &mut t,
        "high_voltage",
        case.vehicle.high_voltage.map(|v| v.to_string()),
        "true where there is a high-voltage system, as in hybrids",
    );
    line(
        &mut t,
        "unit",
        quoted(&case.vehicle.unit),
        &format!(
            "one of {}",
            quoted_names(knowledge.limits.iter().map(|l| l.name.as_str()))
        ),
    );
    t.push_str("\n[concern]\n");
    line(
        &mut t,
        "text",
        quoted(&case.concern),
        "what the customer complains of",
    );
    let roles = known_roles(case, knowledge);
    for capture in &case.captures {
        section(&mut t, capture, &job, &roles, knowledge);
    }
    t
}

fn quoted_names<'a>(names: impl Iterator<Item = &'a str>) -> String {
    names
        .map(|n| format!("{n:?}"))
        .collect::<Vec<_>>()
        .join(", ")
}

/// Roles that a channel may have: those of the systems examined, else all.
fn known_roles(case: &Case, knowledge: &Knowledge) -> String {
    let mut roles: Vec<&str> = case
        .systems
        .iter()
        .filter_map(|s| knowledge.system(&s.system))
        .flat_map(|s| {
            let own = s.sheet.roles.iter().map(|r| &r.name);
            own.chain(&s.sheet.uses)
        })
        .map(String::as_str)
        .collect();
    if roles.is_empty() {
        roles = knowledge.roles.iter().map(|r| r.name()).collect();
    }
    quoted_names(roles.into_iter())
}

fn section(
    t: &mut String,
    c: &CaptureRecord,
    job: &model::JobFile,
    roles: &str,
    knowledge: &Knowledge,
) {
    let role_of = |ch: &ChannelRecord| knowledge.roles.get(ch.role.as_deref()?);
    let said = job.captures.iter().find(|s| s.file == c.file);
    let _ = writeln!(
        t,
        "\n[[capture]]\nfile = {}",
        toml::Value::String(c.file.clone())
    );
    match &c.selector {
        Some(s) => _ = writeln!(t, "selector = \"{}\"   # {}", s.value.letter(), s.source),
        None => t.push_str("# selector = \"P\"   # P R N D S M: where did the selector stand?\n"),
    }
    match &c.engine {
        Some(s) => _ = writeln!(t, "engine = \"{}\"   # {}", s.value.word(), s.source),
        None => t.push_str("# engine = \"running\"   # running, off or cranking?\n"),
    }
    for ch in &c.channels {
        let _ = writeln!(
            t,
            "[capture.channels.{}]",
            toml::Value::String(ch.name.clone())
        );
        match (&ch.role, &ch.role_source) {
            (Some(role), RoleSource::Guess { reason, .. }) => {
                _ = writeln!(t, "role = \"{}\"   # guessed: {reason}", role);
            }
            (Some(role), _) => _ = writeln!(t, "role = \"{}\"", role),
            (None, _) => {
                _ = writeln!(
                    t,
                    "# role =   # what does this channel measure? One of {roles}"
                );
            }
        }
        let own = said.and_then(|s| s.channels.get(&ch.name));
        if let Some(k) = own.and_then(|o| o.amps_per_volt) {
            _ = writeln!(t, "amps_per_volt = {k:?}");
        } else if !ch.calibrated && role_of(ch).is_none_or(Role::is_current) {
            t.push_str(
                "# amps_per_volt = 100.0   # a current clamp: amperes per volt, as printed on it\n",
            );
        }
        if role_of(ch).is_none_or(Role::is_speed_sensor) {
            match own.and_then(|o| o.teeth) {
                Some(n) => _ = writeln!(t, "teeth = {n}"),
                None => t.push_str("# teeth = 30   # a speed sensor: pitch positions per turn\n# sensor = \"hall\"   # hall, vr or current-loop\n"),
            }
        }
    }
}
