//! Values that cannot be, and names that do not exist.

use crate::document::{Document, Step};
use crate::explain;
use crate::parsed::{KnownNames, Parsed};
use model::job_file::{ChannelSection, PresetFile};
use model::vin::{self, VinCheck};
use model::{JobFile, Problem};
use std::collections::BTreeMap;

fn path(steps: &[&str]) -> Vec<Step> {
    steps.iter().map(|s| Step::Key((*s).into())).collect()
}

/// A problem at the key that steps lead to.
fn at(document: &Document, path: &[Step], message: String) -> Problem {
    let keys = path.iter().filter_map(|step| match step {
        Step::Key(key) => Some(key.as_str()),
        Step::Index(_) => None,
    });
    let keys: Vec<&str> = keys.collect();
    let (last, before) = keys.split_last().map_or(("", &[][..]), |(l, b)| (*l, b));
    let channel = before
        .iter()
        .position(|k| *k == "channels")
        .and_then(|i| before.get(i + 1))
        .map_or(String::new(), |name| format!("channel \"{name}\", "));
    let place = match document.line_of(path) {
        Some(line) => format!("line {line}, {channel}key {last}"),
        None => format!("{channel}key {last}"),
    };
    Problem {
        file: document.file.into(),
        place: Some(place),
        message,
    }
}

/// Message on a name that does not exist; `None` where it does, or nothing is known.
fn unknown(what: &str, name: &str, known: &[String]) -> Option<String> {
    if known.is_empty() || known.iter().any(|k| k == name) {
        return None;
    }
    let known: Vec<&str> = known.iter().map(String::as_str).collect();
    let near = explain::nearest(name, &known).map(|n| format!(" Did you mean \"{n}\"?"));
    Some(format!(
        "there is no {what} \"{name}\".{} Those there are: {}",
        near.unwrap_or_default(),
        known.join(", ")
    ))
}

pub(crate) fn job_file(document: &Document, parsed: &mut Parsed<JobFile>, known: &KnownNames) {
    let job = &mut parsed.value;
    let mut error = |path: &[Step], message: String| {
        parsed.errors.push(at(document, path, message));
    };
    if let Some(message) = job
        .vehicle
        .unit
        .as_deref()
        .and_then(|u| unknown("unit", u, &known.units))
    {
        error(&path(&["vehicle", "unit"]), message);
    }
    for system in &job.vehicle.systems {
        if let Some(message) = unknown("system", system, &known.systems) {
            error(&path(&["vehicle", "systems"]), message);
        }
    }
    for (i, capture) in job.captures.iter_mut().enumerate() {
        // Sections that were left out move those behind them up: the line is that of the file's own section then.
        let section = section_index(document, &capture.file).unwrap_or(i);
        let below = |steps: &[&str]| {
            let mut whole = vec![Step::Key("capture".into()), Step::Index(section)];
            whole.extend(path(steps));
            whole
        };
        if let Some(message) = capture
            .preset
            .as_deref()
            .and_then(|p| unknown("channel preset", p, &known.presets))
        {
            error(&below(&["preset"]), message);
            capture.preset = None;
        }
        channels(&mut capture.channels, known, &mut |name, key, message| {
            error(&below(&["channels", name, key]), message);
        });
    }
    let doubt = job.vehicle.vin.as_deref().and_then(doubtful_vin);
    let doubt = doubt.map(|message| at(document, &path(&["vehicle", "vin"]), message));
    parsed.doubts.extend(doubt);
}

/// Index of the `[[capture]]` of a file in the document.
fn section_index(document: &Document, file: &str) -> Option<usize> {
    let captures = document
        .root
        .get_ref()
        .get("capture")?
        .get_ref()
        .as_array()?;
    captures.iter().position(|c| {
        let table = c.get_ref().as_table();
        let name = table.and_then(|t| t.get("file")).map(|f| f.get_ref());
        name.and_then(|n| n.as_str()) == Some(file)
    })
}

pub(crate) fn preset(document: &Document, parsed: &mut Parsed<PresetFile>, known: &KnownNames) {
    if parsed.value.name.is_empty() {
        parsed.errors.push(Problem {
            file: document.file.into(),
            place: Some("key name".into()),
            message: "the preset has no name: write name = \"NAME\", by which job.toml calls it"
                .into(),
        });
    }
    channels(
        &mut parsed.value.channels,
        known,
        &mut |name, key, message| {
            let error = at(document, &path(&["channels", name, key]), message);
            parsed.errors.push(error);
        },
    );
}

/// Takes out what cannot be said of a channel.
fn channels(
    channels: &mut BTreeMap<String, ChannelSection>,
    known: &KnownNames,
    error: &mut dyn FnMut(&str, &str, String),
) {
    for (name, channel) in channels {
        let role = channel.role.as_deref();
        if let Some(message) = role.and_then(|r| unknown("role", r, &known.roles)) {
            error(name, "role", message);
            channel.role = None;
        }
        let zero = |v: Option<f64>| v.is_some_and(|v| v == 0.0 || !v.is_finite());
        if zero(channel.amps_per_volt) {
            let message = "found 0; write the clamp's amperes per volt, as printed on it";
            error(name, "amps_per_volt", message.into());
            channel.amps_per_volt = None;
        }
        if zero(channel.scale) {
            let message =
                "found 0; write the factor to the role's unit, or 1.0 where the numbers have it";
            error(name, "scale", message.into());
            channel.scale = None;
        }
        if channel.offset.is_some_and(|o| !o.is_finite()) {
            error(name, "offset", "write a number such as 0.5".into());
            channel.offset = None;
        }
        if channel.amps_per_volt.is_some() && channel.scale.is_some() {
            let message = "amps_per_volt and scale say the same thing twice; keep one of them. The scale was left out";
            error(name, "scale", message.into());
            channel.scale = None;
        }
        let missing = channel.missing_teeth.unwrap_or(0);
        if channel.teeth.is_some_and(|teeth| teeth <= missing) {
            let message = "write the pitch positions of one turn, more than are missing";
            error(name, "teeth", message.into());
            (channel.teeth, channel.missing_teeth) = (None, None);
        }
    }
}

/// Reason why a vehicle number cannot be right.
fn doubtful_vin(vin: &str) -> Option<String> {
    Some(match vin::check(vin) {
        VinCheck::Valid | VinCheck::NotCheckable => return None,
        VinCheck::WrongCheckDigit { expected } => format!(
            "the vehicle number {vin} has a wrong check digit ({expected} was expected at position 9, 49 CFR 565.15). \
             Compare it with the vehicle"
        ),
        VinCheck::Malformed { reason } => {
            format!(
                "the vehicle number {vin:?} cannot be right: {reason}. Compare it with the vehicle"
            )
        }
    })
}
