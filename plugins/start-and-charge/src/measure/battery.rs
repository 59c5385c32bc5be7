//! Battery voltage before and during a start, and the battery's resistance.

use super::cranking::Cranking;
use plugin_sdk::signal::windows::{average, median, noise, resolution, swing};
use plugin_sdk::signal::{Measured, least_squares};

/// Rest voltage in V: median from the first sample with the probe on the battery until a load begins, of at most the last 2 s.
/// `None` for less than 50 ms.
pub fn rest_voltage(
    volts: &[f64],
    start_s: f64,
    step_s: f64,
    (attached, until): (usize, usize),
) -> Option<Measured> {
    let until = until.saturating_sub((0.005 / step_s) as usize);
    let from = until.saturating_sub((2.0 / step_s) as usize).max(attached);
    let part = volts.get(from..until)?;
    if (part.len() as f64) * step_s < 0.05 {
        return None;
    }
    let value = median(part)?;
    Some(Measured {
        value,
        uncertainty: scatter_of_mean(part, value).max(resolution(part) / 12f64.sqrt()),
        from_s: start_s + from as f64 * step_s,
        to_s: start_s + until as f64 * step_s,
    })
}

/// Lowest voltage of a start attempt, V, each a mean over 10 ms.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LowestVoltage {
    /// While the engine turns steadily.
    pub turning: Measured,
    /// Of the inrush.
    pub inrush_v: f64,
}

/// Lowest 10 ms mean of the voltage while the starter turns the engine, and of the inrush dip. `None` where the
/// engine did not turn for 0.2 s, or the samples are too coarse for such a mean.
pub fn lowest_voltage(
    volts: &[f64],
    start_s: f64,
    step_s: f64,
    c: &Cranking,
) -> Option<LowestVoltage> {
    let n = (0.01 / step_s).round() as usize;
    let turning = volts.get(c.steady..c.steady_end)?;
    if n < 1 || (turning.len() as f64) * step_s < 0.2 {
        return None;
    }
    let lowest = |part: &[f64]| {
        let half = n / 2;
        let means = average(part, n);
        let inner = &means[half.min(means.len())..means.len().saturating_sub(half)];
        inner.iter().copied().fold(f64::INFINITY, f64::min)
    };
    let value = lowest(turning);
    let inrush = lowest(volts.get(c.engaged..c.steady)?);
    value.is_finite().then(|| LowestVoltage {
        turning: Measured {
            value,
            uncertainty: (resolution(turning) / 12f64.sqrt())
                .max(noise(turning) / (n as f64).sqrt()),
            from_s: start_s + c.steady as f64 * step_s,
            to_s: start_s + c.steady_end as f64 * step_s,
        },
        inrush_v: inrush.min(value),
    })
}

/// The battery's resistance in ohm, post to post: slope of the voltage over the current (positive out of the battery)
/// from just before the contacts close until the inrush is over. `None` where the current does not swing by at
/// least `least_swing` or the two do not follow each other.
pub fn resistance(
    volts: &[f64],
    current: &[f64],
    start_s: f64,
    step_s: f64,
    c: &Cranking,
    least_swing: f64,
) -> Option<Measured> {
    let samples = |s: f64| (s / step_s).round() as usize;
    let from = c.engaged.saturating_sub(samples(0.05));
    let to = (c.closed + samples(0.3))
        .min(c.end)
        .min(volts.len())
        .min(current.len());
    if from >= to || swing(&current[from..to]) < least_swing {
        return None;
    }
    let fit = least_squares::fit((from..to).map(|i| ([1.0, current[i]], volts[i])))?;
    let [_, slope] = fit.coefficients;
    let explained = slope.abs() * swing(&current[from..to]) > 6.0 * fit.residual;
    (slope < 0.0 && explained).then(|| Measured {
        value: -slope,
        // Residuals follow each other: what the fit says of independent ones is too little.
        uncertainty: (4.0 * fit.stderr[1]).max(0.02 * slope.abs()),
        from_s: start_s + from as f64 * step_s,
        to_s: start_s + to as f64 * step_s,
    })
}

/// Standard uncertainty of a mean whose neighbours are not independent: scatter over the root of ten.
fn scatter_of_mean(x: &[f64], middle: f64) -> f64 {
    let squares: f64 = x.iter().map(|v| (v - middle) * (v - middle)).sum();
    (squares / x.len().max(1) as f64 / 10.0).sqrt()
}
