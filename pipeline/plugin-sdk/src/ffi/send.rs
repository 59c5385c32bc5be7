//! From an analyzer's observations to findings in the C layout.

use super::caller::Caller;
use crate::{Observation, Track};
use abi::{Finding, Str, emit, has, is_scalar};
use plugin_abi as abi;

/// Hands one observation to the host.
///
/// # Errors
/// What the host refuses, with the rule that the observation breaks.
pub(super) fn observation(caller: &Caller, o: &Observation) -> Result<(), String> {
    for (name, value) in &o.args {
        if !is_scalar(value) {
            return Err(format!(
                "observation {}: argument {name} is {value}, expected a finite number, a word, true or false",
                o.kind
            ));
        }
    }
    let args = if o.args.is_empty() {
        String::new()
    } else {
        serde_json::to_string(&o.args).map_err(|e| format!("observation {}: {e}", o.kind))?
    };
    let text = |s: &Option<String>| s.as_deref().map_or(Str::EMPTY, Str::new);
    let limit = o.limit.as_ref();
    let mut present = 0;
    let mut number = |bit: u32, value: Option<f64>| {
        if value.is_some() {
            present |= bit;
        }
        value.unwrap_or(0.0)
    };
    let mut finding = Finding {
        struct_size: size_of::<Finding>() as u32,
        present: 0,
        grade: o.grade.number(),
        reserved: 0,
        kind: Str::new(&o.kind),
        subject: text(&o.subject),
        unit: text(&o.unit),
        message: Str::new(&o.message),
        args_json: Str::new(&args),
        start_s: number(has::START, o.start_s),
        end_s: number(has::END, o.end_s),
        value: number(has::VALUE, o.value),
        uncertainty: number(has::UNCERTAINTY, o.uncertainty),
        limit_low: number(has::LIMIT_LOW, limit.and_then(|l| l.low)),
        limit_high: number(has::LIMIT_HIGH, limit.and_then(|l| l.high)),
        limit_unit: limit.map_or(Str::EMPTY, |l| Str::new(&l.unit)),
        limit_source: limit.map_or(Str::EMPTY, |l| Str::new(&l.source)),
    };
    if limit.is_some() {
        present |= has::LIMIT;
    }
    finding.present = present;
    match caller.emit(&finding) {
        emit::OK => Ok(()),
        rule => Err(format!(
            "observation {} was refused: {}",
            o.kind,
            broken_rule(rule)
        )),
    }
}

/// Hands one track on.
///
/// # Errors
/// What the host refuses, with the rule that the track breaks.
pub(super) fn track(caller: &Caller, track: &Track) -> Result<(), String> {
    let why = match caller.put(track) {
        emit::OK => return Ok(()),
        emit::BAD_CHOICE => "Analyzer::GIVES does not list it".into(),
        emit::TOO_MANY => "there are too many tracks, or it has too many values".into(),
        rule => broken_rule(rule),
    };
    Err(format!("track {} was refused: {why}", track.name))
}

fn broken_rule(rule: i32) -> String {
    match rule {
        emit::BAD_STRUCT => "the struct is malformed".into(),
        emit::BAD_TEXT => {
            "a text is too long, or kind or message is not made of a-z, 0-9 and hyphens".into()
        }
        emit::BAD_NUMBER => {
            "a number is not finite, the end lies before the start, or an uncertainty is below 0"
                .into()
        }
        emit::BAD_CHOICE => "grade or presence bits are unknown".into(),
        emit::BAD_ARGS => "the arguments are not numbers and words".into(),
        emit::TOO_MANY => "there are too many observations".into(),
        other => format!("rule {other}"),
    }
}
