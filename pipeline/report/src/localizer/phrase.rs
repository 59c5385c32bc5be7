//! Phrases for the things that the model speaks of.

use super::number::{Style, fraction_digits};
use super::units::{converted, converted_span};
use super::{Localizer, args, number_arg, plain};
use crate::Advice;
use chrono::{Datelike, NaiveDate, NaiveDateTime};
use fluent_bundle::{FluentArgs, FluentValue};
use model::job_file::{EngineState, Phase, Selector};
use model::scan::CodeStatus;
use model::{Finding, Grade, Limit};
use rust_decimal::Decimal;
use serde::Serialize;

/// A safety message.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Caution {
    /// Severity.
    pub level: SignalWord,
    /// The signal word as it is printed.
    pub word: String,
    /// The hazard in a few words.
    pub title: String,
    /// The hazard and how to avoid it.
    pub text: String,
    /// Source of the signal word and the advice.
    pub source: String,
}

/// Arguments that every sentence of a finding may ask for, besides those of its plugin.
pub const ARGUMENTS_OF_FINDINGS: [&str; 11] = [
    "subject-name",
    "file",
    "value",
    "uncertainty",
    "unit",
    "start_s",
    "end_s",
    "duration_s",
    "charge_as",
    "low",
    "high",
];

/// The signal words of ISO 3864-2 (DANGER, WARNING, CAUTION) and ANSI Z535.4 (NOTICE besides), worst first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum SignalWord {
    /// Will cause death or serious injury.
    Danger,
    /// Could cause death or serious injury.
    Warning,
    /// Could cause minor or moderate injury.
    Caution,
    /// Not about injury.
    Notice,
}

impl Localizer {
    /// The status of a trouble code.
    pub fn code_status(&self, status: &[CodeStatus]) -> String {
        if status.is_empty() {
            return self.message("code-status-none");
        }
        let words = status
            .iter()
            .map(|s| self.message(&format!("code-status-{s}")));
        words.collect::<Vec<_>>().join(", ")
    }

    /// The sentence of a finding. Where the plugin's message is not known, or an argument of it is missing,
    /// a neutral sentence from kind, subject, value and limit, so that plugins of others read too. Besides its own
    /// arguments a sentence may use `$subject-name`, `$file`, `$value`, `$uncertainty`, `$unit`, `$start_s`,
    /// `$end_s`, `$duration_s` (the event's, else the span's), `$charge_as`, `$low` and `$high` (the limit's);
    /// an argument `from` that names a channel's role comes in words as `$from-name`.
    pub fn finding(&self, finding: &Finding) -> String {
        let mut a = FluentArgs::new();
        a.set("subject-name", self.subject(finding.subject.as_deref()));
        a.set("file", finding.file.clone().unwrap_or_default());
        for (name, value) in [
            ("value", finding.value),
            ("uncertainty", finding.uncertainty),
            ("start_s", finding.start_s),
            ("end_s", finding.end_s),
            (
                "duration_s",
                finding
                    .duration_s
                    .or_else(|| Some(finding.end_s? - finding.start_s?)),
            ),
            ("charge_as", finding.charge_as),
            ("low", finding.limit.as_ref().and_then(|l| l.low)),
            ("high", finding.limit.as_ref().and_then(|l| l.high)),
        ] {
            if let Some(v) = value {
                a.set(name, number_arg(v));
            }
        }
        if let Some(unit) = &finding.unit {
            a.set("unit", self.unit(unit));
        }
        for (name, value) in &finding.args {
            match value {
                serde_json::Value::Number(n) => {
                    a.set(name.as_str(), number_arg(n.as_f64().unwrap_or(f64::NAN)));
                }
                serde_json::Value::String(s) => {
                    if self.has(&format!("subject-{s}")) {
                        a.set(format!("{name}-name"), self.subject(Some(s)));
                    }
                    a.set(name.as_str(), s.clone());
                }
                serde_json::Value::Bool(b) => a.set(name.as_str(), b.to_string()),
                _ => {}
            }
        }
        self.try_message(&finding.message, &a)
            .unwrap_or_else(|| self.neutral(finding))
    }

    /// The sentence of a finding for those who do not measure: `MESSAGE-plain` where there is one.
    pub fn finding_plain(&self, finding: &Finding) -> String {
        let plain = format!("{}-plain", finding.message);
        if !self.has(&plain) {
            return self.finding(finding);
        }
        let mut plainly = finding.clone();
        plainly.observation.message = plain;
        self.finding(&plainly)
    }

    fn neutral(&self, f: &Finding) -> String {
        let kind = self.kind(&f.kind);
        let subject = self.subject(f.subject.as_deref());
        let Some(value) = f.value else {
            let a = args([("kind-name", kind.into()), ("subject-name", subject.into())]);
            return self.message_with("finding-generic-plain", &a);
        };
        let limit = f
            .limit
            .as_ref()
            .and_then(|l| self.range(l))
            .map_or(String::new(), |range| {
                self.message_with("finding-generic-limit", &args([("range", range.into())]))
            });
        let value = self.quantity(value, f.unit.as_deref());
        let a = args([
            ("kind-name", kind.into()),
            ("subject-name", subject.into()),
            ("value", value.into()),
            ("limit", limit.into()),
        ]);
        self.message_with("finding-generic", &a)
    }

    /// A limit as a range in words; `None` when it has neither end.
    pub(crate) fn range(&self, limit: &Limit) -> Option<String> {
        let end = |v: f64| FluentValue::from(self.quantity(v, Some(&limit.unit)));
        Some(match (limit.low, limit.high) {
            (Some(low), Some(high)) => self.message_with(
                "finding-generic-range-between",
                &args([("low", self.number(low).into()), ("high", end(high))]),
            ),
            (Some(low), None) => {
                self.message_with("finding-generic-range-above", &args([("low", end(low))]))
            }
            (None, Some(high)) => {
                self.message_with("finding-generic-range-below", &args([("high", end(high))]))
            }
            (None, None) => return None,
        })
    }

    /// Kind of observation in words.
    pub fn kind(&self, kind: &str) -> String {
        self.named("kind", kind)
    }

    /// Method of measurement of a plugin; a neutral sentence for one that is not known.
    pub(crate) fn method(&self, plugin: &str) -> String {
        self.try_message(&format!("method-{plugin}"), &FluentArgs::new())
            .unwrap_or_else(|| self.message("report-tech-method-unknown"))
    }

    /// Subject of an observation in words: a role's name, or something of a plugin's own.
    pub fn subject(&self, subject: Option<&str>) -> String {
        self.named("subject", subject.unwrap_or("whole"))
    }

    /// A cause as a headline.
    pub fn cause_title(&self, cause: &str) -> String {
        self.named("cause", cause)
    }

    /// A cause explained to the owner.
    pub fn cause_plain(&self, cause: &str) -> Option<String> {
        self.try_message(&format!("cause-{cause}-plain"), &FluentArgs::new())
    }

    /// A cause's name where it is said not to be one.
    pub fn cause_ruled_out(&self, cause: &str) -> String {
        self.try_message(&format!("cause-{cause}-ruled-out"), &FluentArgs::new())
            .unwrap_or_else(|| self.cause_title(cause))
    }

    /// Recording or statement to obtain next; the key is `NextRecording::step`.
    pub fn next(&self, step: &str) -> String {
        self.in_words("next-", step)
    }

    /// The same for those who do not measure: `STEP-plain` where there is one.
    pub fn next_plain(&self, step: &str) -> String {
        let plain = self.try_message(&format!("{step}-plain"), &FluentArgs::new());
        plain.unwrap_or_else(|| self.next(step))
    }

    /// Why a cause was not tested; a value of `NotTested::why`.
    pub fn why(&self, why: &str) -> String {
        self.named("why", why)
    }

    /// A system by its name for people.
    pub fn system(&self, system: &str) -> String {
        self.named("system", system)
    }

    /// Why a verdict went no further, or what it rests on; a key of `Verdict::reasons`.
    pub fn reason(&self, reason: &str) -> String {
        self.in_words("reason-", reason)
    }

    /// A safety message by its key. A key without a signal word gets the second-worst, never none.
    pub fn caution(&self, key: &str) -> Caution {
        let level = match self.attribute(key, "word").as_deref() {
            Some("DANGER") => SignalWord::Danger,
            Some("CAUTION") => SignalWord::Caution,
            Some("NOTICE") => SignalWord::Notice,
            _ => SignalWord::Warning,
        };
        let word = match level {
            SignalWord::Danger => "signal-word-danger",
            SignalWord::Warning => "signal-word-warning",
            SignalWord::Caution => "signal-word-caution",
            SignalWord::Notice => "signal-word-notice",
        };
        Caution {
            level,
            word: self.message(word),
            title: self.attribute(key, "title").unwrap_or_default(),
            text: self.message(key),
            source: self
                .attribute(key, "source")
                .unwrap_or_else(|| self.message("report-source-shop")),
        }
    }

    /// Sentences of a cause: `repair-NAME-1`, `-2`, ... as far as they go, `proof-NAME`, and with a
    /// teardown `opens-NAME` and `destroyed-NAME`.
    pub fn advice(&self, cause: &str, teardown: bool) -> Advice {
        let there = |key: String| self.has(&key).then_some(key);
        Advice {
            cause: cause.to_owned(),
            repair: (1..)
                .map_while(|n| there(format!("repair-{cause}-{n}")))
                .collect(),
            opens: there(format!("opens-{cause}")).filter(|_| teardown),
            destroys: there(format!("destroyed-{cause}")).filter(|_| teardown),
            proof: there(format!("proof-{cause}")),
        }
    }

    fn in_words(&self, prefix: &str, key: &str) -> String {
        self.try_message(key, &FluentArgs::new())
            .unwrap_or_else(|| format!("{}.", plain(key.strip_prefix(prefix).unwrap_or(key))))
    }

    fn named(&self, family: &str, name: &str) -> String {
        self.try_message(&format!("{family}-{name}"), &FluentArgs::new())
            .unwrap_or_else(|| plain(name))
    }

    /// Grade in words.
    pub fn grade(&self, grade: Grade) -> String {
        self.message(match grade {
            Grade::Normal => "grade-normal",
            Grade::Abnormal => "grade-abnormal",
            Grade::Unusable => "grade-unusable",
            Grade::Unreadable => "grade-unreadable",
            Grade::NotTested => "grade-not-tested",
        })
    }

    /// Before or after the repair.
    pub fn phase(&self, phase: Phase) -> String {
        self.message(&format!("phase-{phase}"))
    }

    /// State of the engine in words.
    pub fn engine(&self, engine: EngineState) -> String {
        self.message(&format!("engine-{engine}"))
    }

    /// Position of the selector in words.
    pub fn selector(&self, selector: Selector) -> String {
        self.message_with("selector-in", &args([("letter", selector.letter().into())]))
    }

    fn style(&self) -> Style {
        Style::of(&self.tag)
    }

    /// A number with at most three significant digits, from a thousand million on with a power of ten.
    pub fn number(&self, value: f64) -> String {
        self.style().short(value)
    }

    /// A number with a fixed count of digits behind the decimal sign.
    pub fn fixed(&self, value: f64, digits: usize) -> String {
        self.style().fixed(value, digits)
    }

    /// An exact decimal with all its digits.
    pub fn exact(&self, value: Decimal) -> String {
        self.style().exact(value)
    }

    /// A number with its unit, in the units of the shop; counts and ratios have none to print.
    pub fn quantity(&self, value: f64, unit: Option<&str>) -> String {
        let Some(unit) = printed_unit(unit) else {
            return self.number(value);
        };
        let (value, unit) = converted(value, unit, self.units);
        format!("{}\u{a0}{}", self.number(value), self.unit(unit))
    }

    /// A unit as the language writes it: symbols of the SI stay, `rpm` is a word.
    pub(crate) fn unit(&self, unit: &str) -> String {
        match unit {
            "rpm" => self.message("unit-rpm"),
            other => match other.strip_suffix("ohm") {
                // Milliohm and kilohm too.
                Some(prefix) => format!("{prefix}Ω"),
                None => other.to_owned(),
            },
        }
    }

    /// A distance that is known in kilometres, in whole units of the shop.
    pub fn distance(&self, km: f64) -> String {
        let (value, unit) = converted(km, "km", self.units);
        format!("{}\u{a0}{unit}", self.fixed(value, 0))
    }

    /// A value with its standard uncertainty, both to the uncertainty's second digit (GUM 7.2.6).
    pub fn measured(&self, value: f64, uncertainty: Option<f64>, unit: Option<&str>) -> String {
        let Some(u) = uncertainty.filter(|u| u.is_finite() && *u > 0.0) else {
            return self.quantity(value, unit);
        };
        let both = |value: f64, u: f64| {
            let digits = fraction_digits(u).saturating_sub(1);
            format!("{} ± {}", self.fixed(value, digits), self.fixed(u, digits))
        };
        match printed_unit(unit) {
            None => both(value, u),
            Some(unit) => {
                let span = converted_span(u, unit, self.units);
                let (value, unit) = converted(value, unit, self.units);
                format!("({})\u{a0}{}", both(value, span), self.unit(unit))
            }
        }
    }

    /// A calendar day, in words.
    pub fn day(&self, day: NaiveDate) -> String {
        self.message_with(
            "report-day",
            &args([
                ("day", number_arg(day.day().into())),
                ("month", number_arg(day.month().into())),
                ("year", day.year().to_string().into()),
            ]),
        )
    }

    /// A time of a calendar day, in words.
    pub(crate) fn time(&self, at: NaiveDateTime) -> String {
        format!("{}, {}", self.day(at.date()), at.format("%H:%M"))
    }

    /// A weight of evidence, in whole decibans.
    pub fn weight(&self, decibans: f64) -> String {
        let whole = decibans.round();
        let db = if whole == 0.0 { 0.0 } else { whole };
        self.message_with("report-weight", &args([("db", number_arg(db))]))
    }

    /// An amount of money: `1,250.00 USD`.
    pub fn money(&self, amount: Decimal, currency: &str) -> String {
        format!("{}\u{a0}{currency}", self.style().exact(amount))
    }
}

/// The unit as it is printed; `None` for counts and ratios.
fn printed_unit(unit: Option<&str>) -> Option<&str> {
    match unit {
        None | Some("" | "1" | "count") => None,
        other => other,
    }
}
