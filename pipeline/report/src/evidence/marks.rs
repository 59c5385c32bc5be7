//! Marked spans and known-good ranges of a row.

use super::{Band, Mark};
use crate::localizer::{Localizer, args, number_arg};
use model::{Finding, KnownGoodCurve, Limit};
use signal::envelope::Runs;

/// The known-good ranges that findings name, each over the finding's own time: their arguments `good_low` and
/// `good_high`, in the channel's unit; else their limit, where the finding's value is one that the trace shows. A limit
/// of a difference, such as a voltage drop, is none of the trace's own quantity. Where the shop knows the curve that
/// healthy units draw, that stands in the place of the range.
pub(super) fn bands(
    findings: &[&Finding],
    curves: &[&KnownGoodCurve],
    unit: &str,
    trace: &Runs,
    span: (f64, f64),
) -> Vec<Band> {
    let band = |f: &&Finding| {
        let start_s = f.start_s.unwrap_or(span.0).max(span.0);
        let end_s = f.end_s.unwrap_or(span.1).min(span.1);
        let named = (f.arg_f64("good_low"), f.arg_f64("good_high"));
        let is_shown = |l: &&Limit| {
            l.unit == unit && f.value.is_some_and(|v| shows(trace, v, (start_s, end_s)))
        };
        let (low, high) = match (named, f.limit.as_ref().filter(is_shown)) {
            ((None, None), Some(limit)) => (limit.low, limit.high),
            (named, _) => named,
        };
        let is_range = low.is_some() || high.is_some();
        (is_range && start_s <= end_s).then_some(Band {
            low,
            high,
            start_s,
            end_s,
            vehicles: None,
        })
    };
    let bands = findings
        .iter()
        .flat_map(|f| match known_good(f, curves, unit) {
            Some(curve) => pieces(f, curve, span),
            None => band(f).into_iter().collect(),
        });
    bands.collect()
}

fn known_good<'c>(
    finding: &Finding,
    curves: &[&'c KnownGoodCurve],
    unit: &str,
) -> Option<&'c KnownGoodCurve> {
    let is_of = |c: &&&KnownGoodCurve| {
        let has_message = c.message.as_ref().is_none_or(|m| *m == finding.message);
        c.kind == finding.kind
            && has_message
            && finding.subject.as_ref() == Some(&c.subject)
            && c.unit == unit
    };
    curves.iter().find(is_of).copied()
}

/// Pieces of a curve around the event of a finding, as far as they lie in the span.
fn pieces(finding: &Finding, curve: &KnownGoodCurve, span: (f64, f64)) -> Vec<Band> {
    let onset_s = finding.start_s.unwrap_or(f64::NAN);
    curve
        .pieces(onset_s)
        .filter(|(start_s, end_s, ..)| *start_s >= span.0 && *end_s <= span.1)
        .map(|(start_s, end_s, low, high)| Band {
            low: Some(low),
            high: Some(high),
            start_s,
            end_s,
            vehicles: Some(curve.vehicles),
        })
        .collect()
}

/// True where a value lies between the least and the greatest of a trace between two instants.
fn shows(trace: &Runs, value: f64, (from, to): (f64, f64)) -> bool {
    let inside = trace
        .iter()
        .flatten()
        .filter(|p| (from..=to).contains(&p.0));
    let (low, high) = inside.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), p| {
        (a.min(p.1), b.max(p.1))
    });
    (low..=high).contains(&value)
}

/// A known-good range in words.
pub(super) fn label(band: &Band, unit: &str, localizer: &Localizer) -> Option<String> {
    if let Some(vehicles) = band.vehicles {
        let vehicles = args([("vehicles", number_arg(vehicles as f64))]);
        return Some(localizer.message_with("report-evidence-good-curve", &vehicles));
    }
    let range = localizer.range(&Limit {
        low: band.low,
        high: band.high,
        unit: unit.into(),
        source: String::new(),
    })?;
    Some(format!(
        "{}: {range}",
        localizer.message("report-evidence-good")
    ))
}

/// The spans of findings. Spans that say the same share one label, at the longest of them.
pub(super) fn marks(findings: &[&Finding], span: (f64, f64), localizer: &Localizer) -> Vec<Mark> {
    let mut marks: Vec<(Mark, &str)> = findings
        .iter()
        // A count of events spans them all and would only cover their own marks.
        .filter(|f| f.unit.as_deref() != Some("count"))
        .filter_map(|f| {
            let start = f.start_s?;
            let end = f.end_s.unwrap_or(start).max(start);
            let label = mark_label(f, localizer);
            let mark = Mark {
                start_s: start.max(span.0),
                end_s: end.min(span.1),
                label,
                grade: f.grade,
            };
            (mark.start_s <= mark.end_s).then_some((mark, f.kind.as_str()))
        })
        .collect();
    // Longest first, so that the longest of a kind keeps the label.
    marks.sort_by(|(a, _), (b, _)| (b.end_s - b.start_s).total_cmp(&(a.end_s - a.start_s)));
    let place = |t: f64| (t - span.0) / (span.1 - span.0);
    let mut labelled: Vec<(&str, (f64, f64))> = Vec::new();
    for (mark, kind) in &mut marks {
        let room = label_room(place(mark.start_s), place(mark.end_s), &mark.label);
        if labelled
            .iter()
            .any(|(k, other)| k == kind || (other.0 < room.1 && room.0 < other.1))
        {
            mark.label.clear();
        } else {
            labelled.push((*kind, room));
        }
    }
    let mut marks: Vec<Mark> = marks.into_iter().map(|(m, _)| m).collect();
    marks.sort_by(|a, b| a.start_s.total_cmp(&b.start_s));
    marks
}

/// The part of the axis, as fractions, that a mark's label takes: from its start near the left edge, up to its end
/// near the right one, else around its middle, as the template sets it.
fn label_room(from: f64, to: f64, label: &str) -> (f64, f64) {
    // A bold letter of 7 pt is about 1.3 mm wide, and the picture 88 mm.
    let width = 0.016 * label.chars().count() as f64;
    let middle = (from + to) / 2.0;
    match middle {
        m if m < 0.3 => (from, from + width),
        m if m > 0.7 => (to - width, to),
        m => (m - width / 2.0, m + width / 2.0),
    }
}

/// A few words for a mark: what happens, and the measured value.
fn mark_label(f: &Finding, localizer: &Localizer) -> String {
    let key = format!("mark-{}", f.kind);
    let what = if localizer.has(&key) {
        localizer.message(&key)
    } else {
        localizer.kind(&f.kind)
    };
    match (f.value, f.unit.as_deref()) {
        // A count or an instant says nothing at its own place.
        (Some(_), None | Some("count" | "s")) | (Some(0.0) | None, _) => what,
        (Some(v), unit) => format!("{what}, {}", localizer.quantity(v, unit)),
    }
}
