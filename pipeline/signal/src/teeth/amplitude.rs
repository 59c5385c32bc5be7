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
    /// Exponent n of amplitude ~ rate^n; `None` where the rate changed by less than a half, unless the wander of a steady
    /// speed suffices to know it.
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

/// Change of the rate, highest over lowest, from which on the exponent is fitted in any case; and from which on where many
/// turns make its standard error small.
const CHANGES: (f64, f64) = (1.5, 1.01);

/// Fewest turns of a steady speed, and largest standard error of the exponent that its wander gives.
const WANDER: (usize, f64) = (12, 0.12);

/// Fits the law to windows of a train, and to whole turns, over which run-out does not show: rate in Hz and amplitude of
/// each.
pub(super) fn fit_law(
    windows: &[(f64, f64)],
    turns: &[(f64, f64)],
    clamped: f64,
) -> Option<AmplitudeLaw> {
    let (rates, sizes) = logarithms(windows);
    if rates.len() < 3 {
        return None;
    }
    let range = |rates: &[f64]| {
        let highest = rates.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let lowest = rates.iter().copied().fold(f64::INFINITY, f64::min);
        (highest - lowest).exp()
    };
    let rate_range = range(&rates);
    let of_turns = || {
        let (rates, sizes) = logarithms(turns);
        let line = stats::line_fit(&rates, &sizes).filter(|l| l.slope_stderr < WANDER.1)?;
        (rates.len() >= WANDER.0 && range(&rates) > CHANGES.1).then_some(line)
    };
    let line = match rate_range > CHANGES.0 {
        true => stats::line_fit(&rates, &sizes),
        false => of_turns(),
    };
    let ratios: Vec<f64> = rates
        .iter()
        .zip(&sizes)
        .map(|(r, s)| (s - r).exp())
        .collect();
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

/// Logarithms of rates and amplitudes, where both are greater than zero.
fn logarithms(windows: &[(f64, f64)]) -> (Vec<f64>, Vec<f64>) {
    let usable = windows.iter().filter(|w| w.0 > 0.0 && w.1 > 0.0);
    usable.map(|w| (w.0.ln(), w.1.ln())).unzip()
}
