//! The voltage that a running alternator holds.

use plugin_sdk::signal::windows::mean;
use plugin_sdk::signal::{Measured, stats};

/// Time over which a voltage that is held at times is averaged, s.
const HELD_S: f64 = 0.5;

/// Highest mean over half a second, V: what the alternator holds at its best. `None` for less than two of them.
pub fn highest_held(volts: &[f64], step_s: f64) -> Option<f64> {
    let n = ((HELD_S / step_s) as usize).max(1);
    let means = volts.chunks_exact(n).map(mean);
    (volts.len() >= 2 * n).then(|| means.fold(f64::NEG_INFINITY, f64::max))
}

/// Charging voltage in V: median of the whole record. The uncertainty is the median's own over ten parts of the
/// record, so that a voltage that wanders says so. `None` for less than 0.1 s.
pub fn charging_voltage(volts: &[f64], start_s: f64, step_s: f64) -> Option<Measured> {
    if volts.len() < 20 || volts.len() as f64 * step_s < 0.1 {
        return None;
    }
    let value = stats::median(volts)?;
    let parts: Vec<f64> = volts
        .chunks(volts.len().div_ceil(10))
        .filter_map(stats::median)
        .collect();
    let squares: f64 = parts.iter().map(|v| (v - value) * (v - value)).sum();
    let n = parts.len() as f64;
    Some(Measured {
        value,
        uncertainty: (squares / n / n).sqrt().max(0.002),
        from_s: start_s,
        to_s: start_s + (volts.len() - 1) as f64 * step_s,
    })
}
