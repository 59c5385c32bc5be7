//! Traces of a row and their common scale.

use super::{Band, PlotRow, SpeedCurve};
use model::{Capture, Channel, Role, Samples, TimeAxis};
use signal::Time;
use signal::envelope::{Runs, envelope};
use std::collections::BTreeMap;
use std::panic::resume_unwind;

/// Teeth that can still be told apart in an enlarged picture.
const TEETH: usize = 40;

/// Source of a trace.
pub(super) enum Line<'a> {
    Samples(&'a Capture, &'a Channel),
    Speed(&'a SpeedCurve),
}

/// Draws traces between two instants, each as an envelope of so many columns. Going through millions of samples takes
/// time: each trace by a thread of its own.
pub(super) fn draw<'a>(
    lines: impl Iterator<Item = (Option<Line<'a>>, (f64, f64), usize)>,
) -> Vec<Runs> {
    std::thread::scope(|scope| {
        let begun: Vec<_> = lines
            .map(|(line, span, columns)| {
                scope.spawn(move || match line {
                    Some(Line::Samples(capture, channel)) => trace(capture, channel, span, columns),
                    Some(Line::Speed(curve)) => speed(curve, span, columns),
                    None => Runs::new(),
                })
            })
            .collect();
        let done = begun.into_iter().map(|t| t.join());
        done.map(|t| t.unwrap_or_else(|panic| resume_unwind(panic)))
            .collect()
    })
}

fn speed(curve: &SpeedCurve, span: (f64, f64), columns: usize) -> Runs {
    let time = Time::Even {
        start_s: curve.start_s,
        step_s: curve.step_s,
    };
    envelope(time, &curve.values, |v| v, span, columns)
}

/// The time axis as the crate signal takes it.
fn time(axis: &TimeAxis) -> Time<'_> {
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
fn trace(capture: &Capture, channel: &Channel, span: (f64, f64), columns: usize) -> Runs {
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

/// Time from the start of the span in which single teeth can still be told apart, s; the whole span where it has few.
pub(super) fn width_of_teeth(capture: &Capture, channel: &Channel, span: (f64, f64)) -> f64 {
    let runs = trace(capture, channel, span, 20_000);
    let values = || runs.iter().flatten().map(|p| p.1).filter(|v| v.is_finite());
    let low = values().fold(f64::INFINITY, f64::min);
    let high = values().fold(f64::NEG_INFINITY, f64::max);
    let (down, up) = (low + 0.3 * (high - low), low + 0.7 * (high - low));
    let mut is_high = false;
    // Rising crossings of the middle level.
    let teeth = values()
        .filter(|&v| {
            let rises = !is_high && v > up;
            is_high = if is_high { v >= down } else { v > up };
            rises
        })
        .count();
    (span.1 - span.0) * (TEETH as f64 / teeth.max(1) as f64).min(1.0)
}

/// The least that a picture shows from bottom to top, so that mere noise does not fill it. For drawing only.
pub(super) fn least_width(role: Option<&Role>, unit: &str) -> f64 {
    match unit {
        "A" => 5.0,
        "V" if role.is_some_and(Role::is_speed_sensor) => 1.0,
        "V" => 2.0,
        "rpm" => 100.0,
        _ => 0.0,
    }
}

/// From the smallest to the largest finite value and the bands' ends, with air above and below; from
/// zero where that is near.
pub(super) fn range<'a>(
    runs: impl Iterator<Item = &'a Runs>,
    bands: impl Iterator<Item = &'a Band>,
    least: f64,
) -> (f64, f64) {
    let ends = bands.flat_map(|b| [b.low, b.high]).flatten();
    let values = runs
        .flatten()
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
    let more = (least - (high - low)).max(0.0);
    // Nothing turns slower than not at all.
    let (low, high) = match low {
        0.0 => (low, high + more),
        _ => (low - 0.5 * more, high + 0.5 * more),
    };
    (low - 0.06 * (high - low), high + 0.10 * (high - low))
}

/// Gives the same quantity the same scale in all pictures, so that they compare.
pub(super) fn share_scales<'a>(rows: impl Iterator<Item = &'a mut PlotRow>) {
    let mut rows: Vec<&mut PlotRow> = rows.collect();
    let key = |row: &PlotRow| match row.traces.len() {
        1 => (row.traces[0].label.clone(), row.unit.clone()),
        _ => (String::new(), row.unit.clone()),
    };
    let mut scales: BTreeMap<(String, String), (f64, f64)> = BTreeMap::new();
    for row in &rows {
        let scale = scales.entry(key(row)).or_insert(row.range);
        *scale = (scale.0.min(row.range.0), scale.1.max(row.range.1));
    }
    for row in &mut rows {
        row.range = scales[&key(row)];
    }
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
                start_s: 0.0,
                end_s: 1.0,
                vehicles: None,
            };
            for band in [None, Some(&band)] {
                for least in [0.0, 2.0] {
                    let (low, high) = range([&runs].into_iter(), band.into_iter(), least);
                    assert!(low < high && low.is_finite() && high.is_finite());
                }
            }
        }
    }

    #[test]
    fn noise_does_not_fill_the_picture() {
        let noise = vec![vec![(0.0, 13.85), (1.0, 13.92)]];
        let (low, high) = range([&noise].into_iter(), [].into_iter(), least_width(None, "V"));
        assert!(high - low > 2.0 && low < 13.85 && high > 13.92);
    }

    #[test]
    fn rest_lies_at_the_bottom() {
        let rest = vec![vec![(0.0, 0.0), (1.0, 0.0)]];
        let (low, high) = range(
            [&rest].into_iter(),
            [].into_iter(),
            least_width(None, "rpm"),
        );
        assert!(low < 0.0 && low > -10.0 && high > 90.0);
    }
}
