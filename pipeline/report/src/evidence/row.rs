//! One trace from one channel.

use super::{Band, Mark, PlotRow};
use crate::localizer::Localizer;
use model::{Capture, Channel, Finding, Limit, Role, Samples, TimeAxis};
use signal::Time;
use signal::envelope::{Runs, envelope};
use std::collections::BTreeMap;

/// The time axis as the signal room takes it.
pub(super) fn time(axis: &TimeAxis) -> Time<'_> {
    match axis {
        TimeAxis::Even {
            start_s, step_s, ..
        } => Time::Even {
            start_s: *start_s,
            step_s: *step_s,
        },
        TimeAxis::Listed(t) => Time::Listed(t),
    }
}

/// The calibrated envelope of a channel between two instants.
pub(super) fn trace(
    capture: &Capture,
    channel: &Channel,
    span: (f64, f64),
    columns: usize,
) -> Runs {
    let at = time(&capture.time);
    let len = capture.time.len().min(channel.samples.len());
    let (k, d) = (channel.scale, channel.offset);
    // One loop per sample type: the choice is not made again for each of millions of samples.
    match &channel.samples {
        Samples::F32(s) => envelope(at, &s[..len], |v| f64::from(v) * k + d, span, columns),
        Samples::F64(s) => envelope(at, &s[..len], |v| v * k + d, span, columns),
        Samples::I16(s) => envelope(at, &s[..len], |v| f64::from(v) * k + d, span, columns),
    }
}

/// Builds the row of a channel from its traces, the whole one and the enlarged one: `deciding` is marked on it, and
/// whatever finding of `all` on this channel names a known-good range gives the band.
pub(super) fn row(
    channel: &Channel,
    (whole, detail): (Runs, Runs),
    span: (f64, f64),
    deciding: &[&Finding],
    all: &[&Finding],
    localizer: &Localizer,
) -> PlotRow {
    let unit = channel
        .unit
        .clone()
        .or_else(|| channel.role.as_ref().map(|r| r.unit().to_owned()))
        .unwrap_or_default();
    let band = deciding
        .iter()
        .chain(all)
        .find_map(|f| band(f, &unit, localizer));
    let role = channel.role.as_ref();
    let label = match role {
        Some(role) if !role.declaration().hints.many => {
            capital(&localizer.subject(Some(role.name())))
        }
        _ => channel.name.clone(),
    };
    PlotRow {
        label,
        range: range(&whole, band.as_ref(), least_width(role, &unit)),
        unit,
        whole,
        detail,
        band,
        marks: marks(deciding, span, localizer),
    }
}

/// The known-good range that a finding names for its channel: its arguments `good_low` and `good_high`, in the
/// channel's unit; else its limit, where that is in the channel's own unit.
fn band(finding: &Finding, unit: &str, localizer: &Localizer) -> Option<Band> {
    let named = (finding.arg_f64("good_low"), finding.arg_f64("good_high"));
    let (low, high) = match (named, &finding.limit) {
        ((None, None), Some(limit)) if limit.unit == unit => (limit.low, limit.high),
        (named, _) => named,
    };
    let range = localizer.range(&Limit {
        low,
        high,
        unit: unit.into(),
        source: String::new(),
    })?;
    let label = format!("{}: {range}", localizer.message("report-evidence-good"));
    Some(Band { low, high, label })
}

/// The least that a picture shows from bottom to top, so that mere noise does not fill it. For drawing only.
fn least_width(role: Option<&Role>, unit: &str) -> f64 {
    match unit {
        "A" => 5.0,
        "V" if role.is_some_and(Role::is_speed_sensor) => 1.0,
        "V" => 2.0,
        _ => 0.0,
    }
}

/// From the smallest to the largest finite value and the band's ends, with air above and below; from
/// zero where that is near.
fn range(runs: &Runs, band: Option<&Band>, least: f64) -> (f64, f64) {
    let ends = band.into_iter().flat_map(|b| [b.low, b.high]).flatten();
    let values = runs
        .iter()
        .flatten()
        .map(|p| p.1)
        .chain(ends)
        .filter(|v| v.is_finite());
    let (low, high) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), v| {
        (a.min(v), b.max(v))
    });
    if low > high {
        return (0.0, 1.0);
    }
    let low = if low > 0.0 && low < 0.4 * high {
        0.0
    } else {
        low
    };
    // A constant value has no width of its own.
    let least = if high > low {
        least
    } else {
        least.max(high.abs()).max(1.0)
    };
    let more = 0.5 * (least - (high - low)).max(0.0);
    let (low, high) = (low - more, high + more);
    (low - 0.06 * (high - low), high + 0.10 * (high - low))
}

/// Gives one scale to all speed sensors of a unit, so that a resting one is seen to rest, and to the same
/// quantity in all pictures, so that before and after compare.
pub(super) fn share_scales(rows: &mut [(Option<Role>, &mut PlotRow)]) {
    let family = |role: &Role| {
        if role.is_speed_sensor() {
            String::new()
        } else {
            role.name().to_owned()
        }
    };
    let key = |role: &Option<Role>, row: &PlotRow| Some((family(role.as_ref()?), row.unit.clone()));
    let mut scales: BTreeMap<(String, String), (f64, f64)> = BTreeMap::new();
    for (role, row) in rows.iter() {
        let Some(key) = key(role, row) else { continue };
        let scale = scales.entry(key).or_insert(row.range);
        *scale = (scale.0.min(row.range.0), scale.1.max(row.range.1));
    }
    for (role, row) in rows {
        if let Some(scale) = key(role, row).and_then(|k| scales.get(&k)) {
            row.range = *scale;
        }
    }
}

/// The spans of findings. Spans that say the same share one label, at the longest of them.
fn marks(findings: &[&Finding], span: (f64, f64), localizer: &Localizer) -> Vec<Mark> {
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

/// The first letter as a capital.
pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters
        .next()
        .map_or_else(String::new, |c| c.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_range_is_never_without_width() {
        let constant = vec![vec![(0.0, 4.2), (1.0, 4.2)]];
        for runs in [Runs::new(), constant, vec![vec![(0.0, f64::INFINITY)]]] {
            let band = Band {
                low: Some(12.9),
                high: None,
                label: String::new(),
            };
            for band in [None, Some(&band)] {
                for least in [0.0, 2.0] {
                    let (low, high) = range(&runs, band, least);
                    assert!(low < high && low.is_finite() && high.is_finite());
                }
            }
        }
    }

    #[test]
    fn noise_does_not_fill_the_picture() {
        let noise = vec![vec![(0.0, 13.85), (1.0, 13.92)]];
        let (low, high) = range(&noise, None, least_width(None, "V"));
        assert!(high - low > 2.0 && low < 13.85 && high > 13.92);
    }
}
