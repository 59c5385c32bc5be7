//! Resistance of the wiring between the source and the motor.

use super::run::Run;
use super::switching::switching;
use plugin_sdk::signal::windows::{median, resolution};
use plugin_sdk::signal::{Measured, least_squares};

/// Resistance between source and motor, in ohm: difference of the two voltages over the current while the motor is
/// on. Where the current swings widely, the slope, so that an offset between the channels does not matter; else the
/// quotient of the medians. `None` where the motor draws nothing that such a drop could be told from.
pub fn wiring_resistance(
    supply: &[f64],
    motor: &[f64],
    current: &[f64],
    start_s: f64,
    step_s: f64,
    run: &Run,
) -> Option<Measured> {
    let samples = |s: f64| ((s / step_s).round() as usize).max(1);
    let from = run.on + samples(0.003);
    let to = run
        .off
        .saturating_sub(samples(0.003))
        .min(supply.len())
        .min(motor.len());
    if to < from + 16 {
        return None;
    }
    let range = from..to;
    // Of a switched supply, the time in which it is on.
    let pulsed = switching(motor, step_s, run).is_some();
    let on = |i: &usize| !pulsed || motor[*i] > 0.5 * supply[*i];
    let (drop, amps): (Vec<f64>, Vec<f64>) = range
        .clone()
        .filter(on)
        .map(|i| (supply[i] - motor[i], current[i]))
        .unzip();
    let amps = &amps;
    let (usual_drop, usual_amps) = (median(&drop)?, median(amps)?);
    let top = amps.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let step = resolution(&supply[range.clone()]).max(resolution(&motor[range]));
    if usual_amps <= 0.0 || top <= 0.0 {
        return None;
    }
    let quotient = usual_drop / usual_amps;
    let span = (start_s + from as f64 * step_s, start_s + to as f64 * step_s);
    let fit = least_squares::fit(amps.iter().zip(&drop).map(|(a, d)| ([1.0, *a], *d)));
    let slope = fit.filter(|f| {
        let clear = f.coefficients[1] * (top - usual_amps) > 4.0 * f.residual;
        top > 1.5 * usual_amps && clear
    });
    // Two recorder inputs differ by a step or two and by a part in 500 of the voltage.
    let offset = (2.0 * step / 12f64.sqrt()).hypot(0.002 * median(supply)?.abs());
    let (value, uncertainty) = match slope {
        Some(f) => (
            f.coefficients[1],
            (4.0 * f.stderr[1]).max(0.03 * f.coefficients[1]),
        ),
        None => (quotient, offset / usual_amps),
    };
    // No wiring drops more than the source has.
    let most = median(supply)?.abs() / usual_amps;
    (value < most).then(|| Measured {
        value: value.max(0.0),
        uncertainty,
        from_s: span.0,
        to_s: span.1,
    })
}
