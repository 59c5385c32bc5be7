//! From an analyzer's observations to findings in the C layout.

use super::caller::Caller;
use crate::{Observation, Series};
use abi::raw::Finding;
use abi::{Str, emit, has, is_scalar};
use plugin_abi as abi;

/// Hands one observation to the host.
///
/// # Errors
/// An observation that the host refuses, with the rule that it breaks.
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

/// Hands one series on.
///
/// # Errors
/// A series that the host refuses, with the rule that it breaks.
pub(super) fn series(caller: &Caller, series: &Series) -> Result<(), String> {
    match caller.put(series) {
        emit::OK => Ok(()),
        rule => Err(format!(
            "series {} was refused: {}",
            series.name,
            broken_rule(rule)
        )),
    }
}

fn broken_rule(rule: i32) -> String {
    match rule {
        emit::BAD_STRUCT => "the struct is malformed".into(),
        emit::BAD_TEXT => "a text is too long, or a name is not made as the interface asks".into(),
        emit::BAD_NUMBER => {
            "a number is not finite, the end lies before the start, or an uncertainty is below 0"
                .into()
        }
        emit::BAD_CHOICE => "grade, form, type, channel or presence bits are unknown".into(),
        emit::BAD_ARGS => "the arguments are not numbers and words".into(),
        emit::TOO_MANY => "there are too many observations, series or values".into(),
        emit::UNDECLARED => "the analyzer's Declaration does not list it".into(),
        other => format!("rule {other}"),
    }
}
