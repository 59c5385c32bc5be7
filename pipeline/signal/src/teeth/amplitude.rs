//! Amplitude of a sensor against the speed of its wheel.

use crate::stats;

/// Amplitude of a train against its rate. A coil's electromotive force is the change of its flux with time (Faraday), so
/// its amplitude is proportional to the rate as long as nothing clamps it; inductance and load make it less than
/// proportional at high rates (10 V at 725 Hz, 17.5 V at 2,400 Hz: exponent 0.5, workshop data of a 60-2 sensor). A
/// two-level sensor's does not depend on it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AmplitudeLaw {
    /// Amplitude from peak to peak per hertz of tooth rate, median over the windows, in the signal's unit times seconds.
    pub per_hz: f64,
    /// Exponent n of amplitude ~ rate^n; `None` where the rate changed by less than a half.
    pub exponent: Option<f64>,
    /// Standard error of the exponent.
    pub exponent_stderr: f64,
    /// Scatter of the amplitude about the fitted law (about its median where none was fitted), 95 % quantile of |ln|.
    pub scatter: f64,
    /// Highest over lowest rate.
    pub rate_range: f64,
    /// Share of the transitions that end at the recorder's or the input's limit, 0 to 1.
    pub clamped: f64,
}

/// Fits the law to windows of a train: rate in Hz and amplitude of each.
pub(super) fn fit_law(windows: &[(f64, f64)], clamped: f64) -> Option<AmplitudeLaw> {
    let usable: Vec<(f64, f64)> = windows
        .iter()
        .copied()
        .filter(|w| w.0 > 0.0 && w.1 > 0.0)
        .collect();
    if usable.len() < 3 {
        return None;
    }
    let rates: Vec<f64> = usable.iter().map(|w| w.0.ln()).collect();
    let sizes: Vec<f64> = usable.iter().map(|w| w.1.ln()).collect();
    let ratios: Vec<f64> = usable.iter().map(|w| w.1 / w.0).collect();
    let highest = rates.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let lowest = rates.iter().copied().fold(f64::INFINITY, f64::min);
    let rate_range = (highest - lowest).exp();
    let line = (rate_range > 1.5)
        .then(|| stats::line_fit(&rates, &sizes))
        .flatten();
    let middle = stats::median(&sizes)?;
    let off: Vec<f64> = rates
        .iter()
        .zip(&sizes)
        .map(|(r, s)| (s - line.map_or(middle, |l| l.intercept + l.slope * r)).abs())
        .collect();
    Some(AmplitudeLaw {
        per_hz: stats::median(&ratios)?,
        exponent: line.map(|l| l.slope),
        exponent_stderr: line.map_or(0.0, |l| l.slope_stderr),
        scatter: stats::quantile(&off, 0.95)?,
        rate_range,
        clamped,
    })
}
