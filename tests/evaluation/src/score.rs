//! Comparison of the program's answer with the truth of a case.

use crate::said::{Said, SaidCode, SaidFinding};
use crate::truth::{Forbidden, Measure, TrueCode, Truth, Wanted};
use std::collections::{BTreeMap, BTreeSet};

/// Relation of a verdict to the truth.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// State and cause are allowed; `open` where it is the expected answer.
    Right,
    /// `open` where the truth tolerates it but an answer was to be had.
    OpenAllowed,
    /// `open` where an answer was expected.
    Abstained,
    /// Another cause, or a state that the truth does not allow.
    Wrong,
    /// A teardown that the truth forbids, or for a wrong cause, or without `established`.
    FalseTeardown,
    /// No readable case.json, a panic, or no end in time.
    Crashed,
}

impl Outcome {
    /// Every outcome, in the order of the tables.
    pub const ALL: [Outcome; 6] = [
        Outcome::Right,
        Outcome::OpenAllowed,
        Outcome::Abstained,
        Outcome::Wrong,
        Outcome::FalseTeardown,
        Outcome::Crashed,
    ];

    /// Heading of its column.
    pub fn heading(self) -> &'static str {
        [
            "right",
            "open, allowed",
            "abstained",
            "wrong",
            "FALSE TEARDOWN",
            "crashed",
        ][self as usize]
    }
}

/// Seconds by which a finding may miss the span it is looked for in.
const SPAN_SLACK: f64 = 0.3;

/// Compares a verdict with the truth.
pub fn outcome(truth: &Truth, said: &Said) -> Outcome {
    let (said, want) = (&said.verdict, &truth.verdict);
    let named = said.cause.as_ref().is_some_and(|c| want.causes.contains(c));
    let allowed = want.states.contains(&said.state);
    if said.teardown && (want.teardown == "forbidden" || !named || said.state != "established") {
        return Outcome::FalseTeardown;
    }
    match said.state.as_str() {
        "open" if want.expected == "open" => Outcome::Right,
        "open" if allowed => Outcome::OpenAllowed,
        "open" => Outcome::Abstained,
        "nothing-found" if allowed => Outcome::Right,
        "nothing-found" => Outcome::Wrong,
        _ if named && allowed => Outcome::Right,
        _ => Outcome::Wrong,
    }
}

/// Causes listed as tested that nothing in the job tests: a part cleared by a test that it could not have failed.
pub fn false_clearances<'a>(truth: &'a Truth, said: &Said) -> Vec<&'a str> {
    let untested = truth.untested_causes.iter().map(String::as_str);
    untested
        .filter(|c| said.tested().any(|t| t == *c))
        .collect()
}

/// Files that can be read and were refused, and messages that lack their words.
pub fn file_faults(truth: &Truth, said: &Said) -> (Vec<String>, Vec<String>) {
    let of = |file: &str| said.files.iter().find(|f| f.path == file);
    let refused = truth.readable.iter().filter_map(|file| match of(file) {
        Some(f) if f.status == "read" => None,
        Some(f) => Some(format!(
            "{file}: {}",
            f.message.as_deref().unwrap_or(&f.status)
        )),
        None => Some(format!("{file}: not listed")),
    });
    let unsaid = truth.messages.iter().filter_map(|(file, words)| {
        let message = of(file).and_then(|f| f.message.as_deref()).unwrap_or("");
        (!message.contains(words.as_str())).then(|| format!("{file}: message lacks {words:?}"))
    });
    (refused.collect(), unsaid.collect())
}

/// One wanted number and its result.
#[derive(Debug, Clone, PartialEq)]
pub struct Number {
    /// Finding kind and field: `actuation.value`.
    pub what: String,
    /// True within its tolerance.
    pub within: bool,
    /// Error: seconds for times, relative for all else; `None` where nothing was found.
    pub error: Option<f64>,
}

/// Result of each field of a measure.
pub fn numbers(measure: &Measure, findings: &[SaidFinding]) -> Vec<Number> {
    let fits = |kinds: &[String]| -> Vec<&SaidFinding> {
        let found = findings
            .iter()
            .filter(|f| kinds.contains(&f.kind) && fits(measure, f));
        found.collect()
    };
    let (first, also) = (fits(&measure.kinds), fits(&measure.also));
    let kind = measure.kinds.first().map_or("", String::as_str);
    let fields = measure.fields.iter().map(|(field, wanted)| {
        // Of the fitting findings, whichever comes nearest: a span and a speed may be told by two of them.
        let tries = first.iter().chain(&also).map(|f| check(f, field, wanted));
        let best = tries.min_by(|a, b| {
            let error = |e: &Option<f64>| e.unwrap_or(f64::INFINITY);
            b.0.cmp(&a.0).then(error(&a.1).total_cmp(&error(&b.1)))
        });
        let (within, error) = best.unwrap_or((false, None));
        Number {
            what: format!("{kind}.{field}"),
            within,
            error,
        }
    });
    fields.collect()
}

fn fits(m: &Measure, f: &SaidFinding) -> bool {
    let same_file = f.file.as_ref().is_none_or(|file| *file == m.file);
    let usable = f.is_claim() || m.fields.contains_key("present");
    let subject = m.subject_soft
        || m.subject.as_ref().is_none_or(|want| {
            f.subject
                .as_ref()
                .is_some_and(|s| s.contains(want.as_str()))
        });
    let overlap = match (m.span, f.start_s.or(f.end_s), f.end_s.or(f.start_s)) {
        (Some([from, to]), Some(a), Some(b)) => a <= to + SPAN_SLACK && b >= from - SPAN_SLACK,
        _ => true,
    };
    same_file && usable && subject && overlap
}

/// Result of a field held against one finding: within tolerance, error.
fn check(f: &SaidFinding, field: &str, wanted: &Wanted) -> (bool, Option<f64>) {
    let span = f.start_s.zip(f.end_s).map(|(a, b)| b - a);
    let in_seconds = f.value.filter(|_| f.unit.as_deref() == Some("s"));
    let against = |x: Option<f64>, relative: bool| match (x, wanted.v, wanted.tol) {
        (Some(x), Some(v), Some(tolerance)) => {
            let error = (x - v).abs();
            (
                error <= tolerance,
                Some(if relative {
                    error / v.abs().max(1e-9)
                } else {
                    error
                }),
            )
        }
        _ => (false, None),
    };
    match field {
        "present" => (true, None),
        "start_s" => against(f.start_s, false),
        "end_s" => against(f.end_s, false),
        "duration_s" => against(f.duration_s.or(in_seconds).or(span), true),
        "time" => {
            let all = [f.start_s, f.end_s, in_seconds].map(|x| against(x, false));
            let error = |a: &(bool, Option<f64>)| a.1.unwrap_or(f64::INFINITY);
            all.into_iter()
                .min_by(|a, b| error(a).total_cmp(&error(b)))
                .unwrap_or((false, None))
        }
        _ => check_value(f, wanted),
    }
}

fn check_value(f: &SaidFinding, wanted: &Wanted) -> (bool, Option<f64>) {
    let unit = f.unit.as_deref().unwrap_or("");
    let percent = wanted.pct.filter(|_| unit == "%");
    let alts = percent.map_or(wanted.alts.clone(), |p| vec![p]);
    let value = if percent.is_some() {
        f.value
    } else {
        f.value
            .and_then(|v| convert(v, unit, wanted.unit.as_deref().unwrap_or("")))
    };
    let tries = value.into_iter().flat_map(|v| {
        alts.iter()
            .map(move |[want, tolerance]| ((v - want).abs(), *want, *tolerance))
    });
    // The alternative that is nearest in terms of its own tolerance.
    let best = tries.min_by(|a, b| (a.0 / a.2.max(1e-12)).total_cmp(&(b.0 / b.2.max(1e-12))));
    best.map_or((false, None), |(error, want, tolerance)| {
        (error <= tolerance, Some(error / want.abs().max(1e-9)))
    })
}

/// A value in the wanted unit; `None` where the units do not go together. A value without a unit is taken as is.
fn convert(v: f64, unit: &str, wanted: &str) -> Option<f64> {
    match (unit, wanted) {
        ("", _) => Some(v),
        (a, b) if a == b => Some(v),
        ("mA", "A") | ("mV", "V") | ("mohm" | "mΩ", "ohm") => Some(v / 1000.0),
        ("Ω", "ohm") | ("1/min" | "r/min", "rpm") => Some(v),
        (_, "1" | "count") => Some(v),
        _ => None,
    }
}

/// Returns true when a claim that would be false was made. A turning at rest that is graded normal is none, and no grade
/// that forbids conclusions makes one.
pub fn claimed(forbidden: &Forbidden, findings: &[SaidFinding]) -> bool {
    findings.iter().any(|f| {
        let judged = f.is_claim() && (f.kind != "shaft-turning-at-rest" || f.grade != "normal");
        let subject = forbidden.subject.as_ref().is_none_or(|want| {
            f.subject
                .as_ref()
                .is_some_and(|s| s.contains(want.as_str()))
        });
        f.kind == forbidden.kind
            && judged
            && subject
            && f.file.as_ref().is_none_or(|file| *file == forbidden.file)
    })
}

/// Codes found: right, too many, missing; and of the right ones, those whose status is right.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct CodeCount {
    /// Named rightly, with failure type.
    pub right: usize,
    /// Named though not there.
    pub extra: usize,
    /// There but not named.
    pub missing: usize,
    /// Right ones whose status is right too.
    pub status_right: usize,
}

impl CodeCount {
    /// Harmonic mean of precision and recall (van Rijsbergen's F with equal weights); 1 where there is nothing.
    pub fn f1(self) -> f64 {
        let sum = 2 * self.right + self.extra + self.missing;
        if sum == 0 {
            1.0
        } else {
            2.0 * self.right as f64 / sum as f64
        }
    }

    /// Both together.
    pub fn plus(self, o: CodeCount) -> CodeCount {
        CodeCount {
            right: self.right + o.right,
            extra: self.extra + o.extra,
            missing: self.missing + o.missing,
            status_right: self.status_right + o.status_right,
        }
    }
}

type Key = (String, Option<String>);

/// Failure type 00 means that none is given.
fn key(code: &str, failure_type: &Option<String>) -> Key {
    (
        code.to_uppercase(),
        failure_type
            .as_ref()
            .filter(|ft| *ft != "00")
            .map(|f| f.to_uppercase()),
    )
}

/// Compares the codes.
pub fn codes(want: &[TrueCode], got: &[SaidCode]) -> CodeCount {
    let want: BTreeMap<Key, &TrueCode> = want
        .iter()
        .map(|c| (key(&c.code, &c.failure_type), c))
        .collect();
    let mut said: BTreeMap<Key, BTreeSet<String>> = BTreeMap::new();
    for c in got {
        said.entry(key(&c.code, &c.failure_type))
            .or_default()
            .extend(c.status.iter().cloned());
    }
    let right: Vec<&Key> = want.keys().filter(|k| said.contains_key(*k)).collect();
    let status = |k: &&&Key| want[**k].status.iter().any(|s| said[**k].contains(s));
    CodeCount {
        right: right.len(),
        extra: said.len() - right.len(),
        missing: want.len() - right.len(),
        status_right: right.iter().filter(status).count(),
    }
}
