//! Even or listed instants, and the pauses between them.

use model::TimeAxis;

/// True where all stamps lie on the line from the first to the last within their own rounding: each of the
/// two ends and the stamp itself may be off by half a unit of the last place. Stamps that are coarser
/// than the sample interval cannot prove anything finer than themselves.
pub(crate) fn is_even(stamps: &[f64], resolution: f64) -> bool {
    let (Some(&first), Some(&last)) = (stamps.first(), stamps.last()) else {
        return false;
    };
    if stamps.len() < 2 || last <= first {
        return false;
    }
    let step = (last - first) / (stamps.len() - 1) as f64;
    let slack = 1.01 * resolution + 1e-12 * first.abs().max(last.abs());
    let on_line = |(i, t): (usize, &f64)| (t - (first + i as f64 * step)).abs() <= slack;
    stamps.iter().enumerate().all(on_line)
}

/// Resolution of binary stamps whose type rounds to `own` (0 for doubles): never finer than a
/// ten-thousandth of a sample interval, which makes no difference to anything.
pub(crate) fn binary_resolution(stamps: &[f64], own: f64) -> f64 {
    let (Some(first), Some(last)) = (stamps.first(), stamps.last()) else {
        return 0.0;
    };
    let step = (last - first) / (stamps.len().max(2) - 1) as f64;
    own.max(step * 1e-4)
}

/// Unit of a time column that states none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum BareTime {
    /// Steps of a fraction of one: read as seconds.
    Seconds,
    /// Unix time, with its seconds per unit and the unit's name.
    Unix(f64, &'static str),
    /// Whole numbers: a counter, milliseconds or seconds.
    Unknown,
}

/// Unit of stamps without one: `first` of them, the smallest step that is not zero, and whether all of them are whole
/// numbers.
pub(crate) fn bare(first: f64, smallest_step: Option<f64>, whole: bool) -> BareTime {
    // Seconds since 1970 of the years 2001 to 2128, and their thousandths and so on.
    let unix = [(1.0, "s"), (1e-3, "ms"), (1e-6, "us"), (1e-9, "ns")]
        .into_iter()
        .find(|(unit_s, _)| (1e9..5e9).contains(&(first * unit_s)));
    match unix {
        Some((unit_s, name)) => BareTime::Unix(unit_s, name),
        None if !whole && smallest_step.is_some_and(|s| s < 1.0) => BareTime::Seconds,
        None => BareTime::Unknown,
    }
}

/// Words on a file's line for a time whose unit is not known.
pub(crate) const UNKNOWN_UNIT: &str =
    "no unit given; whole numbers may be a counter, milliseconds or seconds";

/// Message for a time whose unit is not known.
pub(crate) fn ask_for_unit(column: &str) -> String {
    format!(
        "the time column \"{column}\" has no unit, and its whole numbers may be a counter, milliseconds or seconds: nothing \
         that depends on time is measured. Write its unit into job.toml, in the [[capture]] of this file: time_unit = \
         \"ms\" (or \"s\", \"us\", \"min\", \"h\")"
    )
}

/// Shortest step, s, that counts as one; below it two stamps are the same instant.
const SHORTEST_STEP: f64 = 1e-12;
/// Longest recording, s: three hundred years.
const LONGEST: f64 = 1e10;

/// Reason why an axis cannot be that of a recording; `None` where it can.
pub(crate) fn refusal(axis: &TimeAxis) -> Option<String> {
    let n = axis.len();
    if n < 2 {
        return None;
    }
    let (first, last, duration) = (axis.at(0), axis.at(n - 1), axis.duration_s());
    let step = duration / (n - 1) as f64;
    if !first.is_finite() || !last.is_finite() || first.abs() > 1e12 || duration > LONGEST {
        Some(format!("its time runs from {first:e} to {last:e} s"))
    } else if step < SHORTEST_STEP && (step > 0.0 || matches!(axis, TimeAxis::Even { .. })) {
        Some(format!("its samples are {step:e} s apart"))
    } else {
        None
    }
}

/// The axis of stamps in seconds that never decrease.
pub(crate) fn axis(seconds: Vec<f64>, even: bool) -> TimeAxis {
    match (seconds.first(), seconds.last()) {
        (Some(&start_s), Some(&end)) if even => TimeAxis::Even {
            start_s,
            step_s: (end - start_s) / (seconds.len() - 1) as f64,
            len: seconds.len(),
        },
        _ => TimeAxis::Listed(merged(seconds).into()),
    }
}

/// Stamps that lie closer together than any recorder tells apart become one instant.
fn merged(mut seconds: Vec<f64>) -> Vec<f64> {
    for i in 1..seconds.len() {
        if seconds[i] - seconds[i - 1] < SHORTEST_STEP {
            seconds[i] = seconds[i - 1];
        }
    }
    seconds
}

/// Message on pauses on a listed axis: intervals that exceed one and a half times the usual one.
/// Jitter is no pause: a few intervals stick out, most do not.
pub(crate) fn gaps(axis: &TimeAxis) -> Option<String> {
    let TimeAxis::Listed(t) = axis else {
        return None;
    };
    let mut steps: Vec<f64> = t.windows(2).map(|w| w[1] - w[0]).collect();
    if steps.len() < 2 {
        return None;
    }
    let middle = steps.len() / 2;
    let usual = *steps.select_nth_unstable_by(middle, f64::total_cmp).1;
    let count = steps.iter().filter(|d| **d > 1.5 * usual).count();
    let at = t
        .windows(2)
        .max_by(|a, b| (a[1] - a[0]).total_cmp(&(b[1] - b[0])))?;
    (count > 0 && usual > 0.0 && count * 10 <= t.len()).then(|| {
        format!(
            "{count} gap(s) in time; the longest, {:.6} s, follows {:.6} s",
            at[1] - at[0],
            at[0]
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stamps_rounded_to_milliseconds_are_even() {
        // 2.5 kS/s written with three decimals: 0.000, 0.000, 0.001, 0.001, 0.002, ...
        let stamps: Vec<f64> = (0..5000)
            .map(|i| (i as f64 * 0.4).round() / 1000.0)
            .collect();
        assert!(is_even(&stamps, 1e-3));
        let TimeAxis::Even { step_s, .. } = axis(stamps, true) else {
            panic!()
        };
        assert!((step_s / 0.0004 - 1.0).abs() < 1e-3);
    }

    #[test]
    fn a_pause_is_not_even() {
        let stamps: Vec<f64> = (0..100)
            .map(|i| i as f64 * 0.01 + if i > 50 { 0.5 } else { 0.0 })
            .collect();
        assert!(!is_even(&stamps, 1e-3));
        assert!(
            gaps(&axis(stamps, false))
                .unwrap()
                .starts_with("1 gap(s) in time; the longest, 0.51")
        );
    }
}
