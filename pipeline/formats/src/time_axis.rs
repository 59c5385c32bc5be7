//! Even or listed instants, and the pauses between them.

use model::TimeAxis;

/// Whether all stamps lie on the line from the first to the last within their own rounding: each of the
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

/// How finely binary stamps are written, where their type rounds to `own` (0 for doubles): never finer than a
/// ten-thousandth of a sample interval, which makes no difference to anything.
pub(crate) fn binary_resolution(stamps: &[f64], own: f64) -> f64 {
    let (Some(first), Some(last)) = (stamps.first(), stamps.last()) else {
        return 0.0;
    };
    let step = (last - first) / (stamps.len().max(2) - 1) as f64;
    own.max(step * 1e-4)
}

/// The axis of stamps in seconds that never decrease.
pub(crate) fn axis(seconds: Vec<f64>, even: bool) -> TimeAxis {
    match (seconds.first(), seconds.last()) {
        (Some(&start_s), Some(&end)) if even => TimeAxis::Even {
            start_s,
            step_s: (end - start_s) / (seconds.len() - 1) as f64,
            len: seconds.len(),
        },
        _ => TimeAxis::Listed(seconds.into()),
    }
}

/// What to say of pauses on a listed axis: intervals that exceed one and a half times the usual one.
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
