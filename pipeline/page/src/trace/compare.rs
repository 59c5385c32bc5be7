//! Two speeds held against each other: their ratio, and the difference between them (a clutch's slip).

use super::pyramid::Bucket;
use super::view::View;
use crate::Trace;
use model::TimeAxis;
use serde::Deserialize;
use std::ops::Range;

/// Way in which two speeds are compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Compare {
    /// The first divided by the second.
    Ratio,
    /// The first less the second, in their unit.
    Difference,
    /// The same in percent of the first.
    Percent,
}

impl Compare {
    /// Name in addresses.
    pub const ALL: [&'static str; 3] = ["ratio", "difference", "percent"];

    fn of(self, one: f32, other: f32) -> f32 {
        let (value, divisor) = match self {
            Compare::Ratio => (one, other),
            Compare::Difference => return one - other,
            Compare::Percent => ((one - other) * 100.0, one),
        };
        // A shaft at rest has no ratio.
        match divisor == 0.0 {
            true => f32::NAN,
            false => value / divisor,
        }
    }
}

/// Compares the samples `range` of one speed with another one at the same instants, in at most about `2 * pixels`
/// buckets. There is no value where one of them has none.
pub fn compared(
    one: &Trace,
    other: &Trace,
    by: Compare,
    range: Range<usize>,
    pixels: usize,
) -> View {
    let samples = one.pyramid.samples();
    let to = range.end.min(samples.len());
    let from = range.start.min(to);
    let width = ((to - from) / (2 * pixels.max(1)))
        .max(1)
        .next_power_of_two();
    let first = from / width * width;
    let of = |i: usize| by.of(samples[i], at(other, one.time.at(i)));
    let bucket = |start: usize| {
        let values = (start..(start + width).min(to)).map(of);
        let buckets = values.map(|v| Bucket { min: v, max: v });
        buckets.reduce(Bucket::and).unwrap_or(Bucket {
            min: f32::NAN,
            max: f32::NAN,
        })
    };
    View {
        first,
        width,
        buckets: (first..to).step_by(width).map(bucket).collect(),
    }
}

/// Value of an evenly sampled trace at an instant, linear between its samples; NaN outside of them.
fn at(trace: &Trace, t: f64) -> f32 {
    let TimeAxis::Even {
        start_s, step_s, ..
    } = trace.time
    else {
        return f32::NAN;
    };
    let place = (t - start_s) / step_s;
    let samples = trace.pyramid.samples();
    // Half a sample beyond the ends is rounding.
    if !(-0.5..samples.len() as f64 - 0.5).contains(&place) {
        return f32::NAN;
    }
    let low = (place.max(0.0).floor() as usize).min(samples.len() - 1);
    let high = (low + 1).min(samples.len() - 1);
    let part = (place - low as f64).clamp(0.0, 1.0) as f32;
    match part == 0.0 {
        true => samples[low],
        false => samples[low] + (samples[high] - samples[low]) * part,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trace::{Pyramid, build};

    fn speed(folder: &std::path::Path, name: &str, step_s: f64, values: &[f32]) -> Trace {
        let path = folder.join(name);
        build(&mut values.iter().copied(), &path).unwrap();
        Trace {
            name: name.into(),
            is_speed: true,
            unit: Some("rpm".into()),
            time: TimeAxis::Even {
                start_s: 0.0,
                step_s,
                len: values.len(),
            },
            pyramid: Pyramid::open(&path, values.len()).unwrap(),
        }
    }

    #[test]
    fn speeds_are_compared_at_the_same_instants() {
        let folder = tempfile::tempdir().unwrap();
        let one = speed(folder.path(), "one", 0.1, &[1000.0, 1500.0, 2000.0, 0.0]);
        // Sampled half as often: 500 rpm at 0 s, 1000 rpm at 0.2 s, nothing known after.
        let other = speed(folder.path(), "other", 0.2, &[500.0, 1000.0]);
        let values = |by| -> Vec<f32> {
            let view = compared(&one, &other, by, 0..4, 100);
            view.buckets.iter().map(|b| b.min).collect()
        };
        assert_eq!(values(Compare::Ratio)[..3], [2.0, 2.0, 2.0]);
        assert_eq!(values(Compare::Difference)[..3], [500.0, 750.0, 1000.0]);
        assert_eq!(values(Compare::Percent)[..3], [50.0, 50.0, 50.0]);
        assert!(
            values(Compare::Ratio)[3].is_nan(),
            "the other one is not known there"
        );
    }

    #[test]
    fn a_shaft_at_rest_has_no_ratio() {
        assert!(Compare::Ratio.of(800.0, 0.0).is_nan());
        assert!(Compare::Percent.of(0.0, 800.0).is_nan());
        assert_eq!(Compare::Difference.of(800.0, 0.0), 800.0);
    }
}
