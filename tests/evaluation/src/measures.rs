//! Findings that should be made, worked out from the simulated course of events.
//!
//! An actuation starts and ends where the load on the feed passes 15 % of its peak. A shaft turns above 20 rpm; its
//! speed is the median over the span. The feed's resistance is the model's own.

use crate::truth::{Forbidden, Measure, Wanted};
use simulator::road::RoadLog;
use simulator::traces::{Attempt, Mechanism, Traces};
use std::collections::BTreeMap;

/// Share of an actuation's peak at which it starts and ends.
const ACTUATION_EDGE: f64 = 0.15;
/// Less than this is no actuation, A.
const SMALLEST_ACTUATION: f64 = 1.5;
/// Above this a shaft turns, rpm.
const TURNING: f64 = 20.0;

/// A current event as it truly was.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Actuation {
    /// The mechanism that moves.
    pub mechanism: Mechanism,
    /// s.
    pub start_s: f64,
    /// s.
    pub end_s: f64,
    /// Highest load, A.
    pub peak: f64,
    /// Median load, A.
    pub median: f64,
    /// True when the mechanism did not arrive.
    pub stalled: bool,
}

/// The current events, each alone on the feed.
pub fn actuations(t: &Traces) -> Vec<Actuation> {
    let all = t
        .attempts
        .iter()
        .filter(|a| a.current_flowed)
        .map(|a| actuation(t, a));
    all.filter(|h| h.peak > SMALLEST_ACTUATION).collect()
}

fn actuation(t: &Traces, a: &Attempt) -> Actuation {
    let (from, to) = (t.index(a.ended.start_s), t.index(a.ended.end_s));
    let load = &t.load[from..=to];
    let peak = load.iter().fold(0.0_f64, |m, &i| m.max(i));
    let over = |i: &f64| *i > ACTUATION_EDGE * peak;
    let first = load.iter().position(over).unwrap_or(0);
    let last = load.iter().rposition(over).unwrap_or(0);
    Actuation {
        mechanism: a.mechanism,
        start_s: t.time(from + first),
        end_s: t.time(from + last),
        peak,
        median: median(&load[first..=last]),
        stalled: !a.ended.arrived,
    }
}

/// The median; 0 for nothing.
pub fn median(of: &[f64]) -> f64 {
    let mut sorted = of.to_vec();
    sorted.sort_by(f64::total_cmp);
    sorted.get(sorted.len() / 2).copied().unwrap_or(0.0)
}

/// The spans in which a shaft turns, s, with first and last index.
pub fn turning(t: &Traces, rpm: &[f64]) -> Vec<(usize, usize)> {
    let mut spans: Vec<(usize, usize)> = Vec::new();
    for (i, _) in rpm.iter().enumerate().filter(|(_, n)| **n > TURNING) {
        match spans.last_mut().filter(|s| s.1 + 1 == i) {
            Some(span) => span.1 = i,
            None => spans.push((i, i)),
        }
    }
    spans.retain(|s| (s.1 - s.0) as f64 > 0.2 * t.rate_hz);
    spans
}

fn measure(kinds: &[&str], subject: Option<&str>, fields: &[(&str, Wanted)]) -> Measure {
    Measure {
        kinds: kinds.iter().map(|k| k.to_string()).collect(),
        subject: subject.map(String::from),
        fields: fields
            .iter()
            .map(|(k, w)| (k.to_string(), w.clone()))
            .collect(),
        ..Default::default()
    }
}

/// Something that should be found, without a number.
pub fn present(kind: &str, subject: Option<&str>, soft: bool) -> Measure {
    let fields = BTreeMap::from([("present".to_string(), Wanted::default())]);
    Measure {
        subject_soft: soft,
        fields,
        ..measure(&[kind], subject, &[])
    }
}

/// The current events, the count of attempts and the moment of giving up. `noise` is the clamp's, A.
pub fn of_current(t: &Traces, noise: f64) -> Vec<Measure> {
    let all_actuations = actuations(t);
    let mut all = Vec::new();
    for h in &all_actuations {
        let (span, long) = (Some([h.start_s, h.end_s]), h.end_s - h.start_s);
        let mut m = if h.stalled {
            let tolerance = Wanted::time(long, (0.12 * long).max(0.12));
            let kinds = [
                ("start_s", Wanted::time(h.start_s, 0.25)),
                ("end_s", Wanted::time(h.end_s, 0.08)),
                ("duration_s", tolerance),
            ];
            measure(&["actuation-stall"], None, &kinds)
        } else {
            let tolerance = Wanted::time(long, (0.3 * long).max(0.06));
            let start = Wanted::time(h.start_s, 0.05);
            measure(
                &["actuation"],
                None,
                &[("start_s", start), ("duration_s", tolerance)],
            )
        };
        if h.stalled {
            m.also = vec!["actuation".into()];
        }
        let share = if h.stalled { 0.07 } else { 0.05 };
        let tolerance = |v: f64| share * v + 3.0 * noise + t.quiescent;
        let mut alts = vec![[h.peak, tolerance(h.peak)]];
        if h.stalled {
            alts.push([h.median, tolerance(h.median)]);
        }
        let value = Wanted {
            unit: Some("A".into()),
            alts,
            ..Default::default()
        };
        m.fields.insert("value".into(), value);
        all.push(Measure { span, ..m });
    }
    let stalls: Vec<&Actuation> = all_actuations.iter().filter(|h| h.stalled).collect();
    if let Some(last) = stalls.last() {
        let count = Wanted::value("count", stalls.len() as f64, 0.1);
        all.push(measure(&["attempts"], None, &[("value", count)]));
        if all_actuations.last() == Some(last) {
            let time = Wanted::time(last.end_s, 0.3);
            all.push(measure(&["gave-up"], None, &[("time", time)]));
        }
    }
    all
}

/// Name of an input shaft's role.
pub fn shaft_name(k: usize) -> &'static str {
    ["input-shaft-1", "input-shaft-2"][k & 1]
}

/// Findings on input shaft `k` (0 or 1) at standstill. `shows_rest` is true for a sensor that proves rest by its level.
pub fn of_shaft(t: &Traces, k: usize, shows_rest: bool) -> Vec<Measure> {
    let rpm = &t.input[k & 1].rpm;
    let name = Some(shaft_name(k));
    let spans = turning(t, rpm);
    if spans.is_empty() {
        let rest = present("shaft-at-rest", name, false);
        return if shows_rest { vec![rest] } else { Vec::new() };
    }
    let mut all = Vec::new();
    for (from, to) in spans {
        let (start, end) = (t.time(from), t.time(to));
        let span = Some([start, end]);
        let times = [
            ("start_s", Wanted::time(start, 0.45)),
            ("end_s", Wanted::time(end, 0.6)),
        ];
        let m = measure(&["shaft-turning-at-rest", "shaft-turning"], name, &times);
        all.push(Measure { span, ..m });
        let mut sorted = rpm[from..=to].to_vec();
        sorted.sort_by(f64::total_cmp);
        let at = |share: f64| sorted[((sorted.len() - 1) as f64 * share) as usize];
        let steady = at(0.9) - at(0.1) < 0.06 * at(0.5);
        let tolerance = (if steady { 0.03 } else { 0.12 } * at(0.5)).max(6.0);
        let value = Wanted::value("rpm", at(0.5), tolerance);
        let kinds = ["shaft-speed", "shaft-turning-at-rest", "shaft-turning"];
        all.push(Measure {
            span,
            ..measure(&kinds, name, &[("value", value)])
        });
    }
    all
}

/// Resistance of the feed's source, where the supply's voltage was recorded and the current moved enough.
pub fn of_supply(t: &Traces, ohm: f64) -> Option<Measure> {
    let most = t.load.iter().fold(0.0_f64, |m, &i| m.max(i));
    let value = Wanted::value("ohm", ohm, (0.12 * ohm).max(0.003));
    (most > 10.0).then(|| Measure {
        subject_soft: true,
        ..measure(
            &["feed-resistance"],
            Some("supply-voltage"),
            &[("value", value)],
        )
    })
}

/// The ratios, the shifts and the slip of a drive. `ratios` as in the drive; `slipping` names the clutch that
/// slips (0 or 1); `blind` an input shaft whose sensor does not tell its speed.
pub fn of_drive(
    t: &Traces,
    log: &RoadLog,
    ratios: &[f64],
    slipping: Option<usize>,
    blind: Option<usize>,
) -> Vec<Measure> {
    let mut all = Vec::new();
    for g in &log.gears {
        let (from, to) = (g.from_s + 0.1, g.to_s - 0.05);
        let shaft = g.gear % 2;
        if to - from < 0.5 || blind == Some(shaft) {
            continue;
        }
        let value = Wanted::value("1", ratios[g.gear], 0.015 * ratios[g.gear]);
        let m = measure(
            &["gear-ratio"],
            Some(shaft_name(shaft)),
            &[("value", value)],
        );
        all.push(Measure {
            span: Some([from, to]),
            subject_soft: true,
            ..m
        });
        if slipping == Some(shaft) {
            // At first the engine still comes down to the speed at which the clutch carries its torque.
            let from = from + 0.8;
            let (i, j) = (t.index(from), t.index(to));
            let slips: Vec<f64> = (i..j)
                .map(|i| t.engine.rpm[i] - t.input[shaft].rpm[i])
                .collect();
            let shares: Vec<f64> = (i..j)
                .map(|i| 100.0 * (1.0 - t.input[shaft].rpm[i] / t.engine.rpm[i]))
                .collect();
            let (slip, share) = (median(&slips), median(&shares));
            let value = Wanted {
                pct: Some([share, 0.15 * share]),
                ..Wanted::value("rpm", slip, 0.15 * slip)
            };
            let m = measure(&["slip"], None, &[("value", value)]);
            all.push(Measure {
                span: Some([from, to]),
                ..m
            });
        }
    }
    for (i, &(from, to)) in log.shifts.iter().enumerate().filter(|_| blind.is_none()) {
        // A slipping clutch or a tie-up has no moment at which the engine has come to the new gear's speed.
        let tied = log.tied_up.is_some_and(|(a, b)| a < to && b > from);
        if tied || slipping == Some((i + 1) % 2) {
            continue;
        }
        let fields = [
            ("start_s", Wanted::time(from, 0.2)),
            ("end_s", Wanted::time(to, 0.25)),
        ];
        let m = measure(&["shift"], None, &fields);
        all.push(Measure {
            span: Some([from - 0.1, to + 0.1]),
            ..m
        });
    }
    all
}

/// A claim that would be false; the file is filled in later.
pub fn forbidden(kind: &str, subject: Option<&str>) -> Forbidden {
    Forbidden {
        kind: kind.into(),
        subject: subject.map(String::from),
        file: String::new(),
    }
}

/// Claims that would be false: a shaft of `resting` (0, 1) turning where it must not, and a stall where none was.
pub fn false_claims(t: &Traces, resting: &[usize]) -> Vec<Forbidden> {
    let turning = resting
        .iter()
        .map(|&k| forbidden("shaft-turning-at-rest", Some(shaft_name(k))));
    let mut all: Vec<Forbidden> = turning.collect();
    if !actuations(t).iter().any(|h| h.stalled) {
        all.push(forbidden("actuation-stall", None));
    }
    all
}
