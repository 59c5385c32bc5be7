//! Resistance of a cable or a ground path, from the voltage across it and the current through it.

use super::cranking::Cranking;
use plugin_sdk::signal::windows::{mean, swing};
use plugin_sdk::signal::{Measured, least_squares};

/// A path's resistance and the drop that it makes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PathResistance {
    /// Ohm.
    pub resistance: Measured,
    /// Drop at the mean current of steady cranking, V.
    pub steady_drop_v: f64,
    /// That current, A.
    pub steady_current_a: f64,
}

/// Slope of the drop over the current during a start attempt, in ohm; an offset of either channel does not matter.
/// Its sign does not, either: the probes may be the other way round. `None` where the current does not swing by
/// `least_swing`, or where the drop shows nothing that follows it and no limit of it can be told either.
pub fn path_resistance(
    drop: &[f64],
    current: &[f64],
    start_s: f64,
    step_s: f64,
    c: &Cranking,
    least_swing: f64,
) -> Option<PathResistance> {
    let from = c.engaged.saturating_sub((0.1 / step_s) as usize);
    let to = c.end.min(drop.len()).min(current.len());
    if from + 16 > to || swing(&current[from..to]) < least_swing {
        return None;
    }
    let fit = least_squares::fit((from..to).map(|i| ([1.0, current[i]], drop[i])))?;
    let slope = fit.coefficients[1].abs();
    let turning = c.steady.min(to)..c.steady_end.min(to);
    let turning = if turning.len() > 8 { turning } else { from..to };
    let steady = mean(&current[turning]);
    Some(PathResistance {
        resistance: Measured {
            value: slope,
            uncertainty: (4.0 * fit.stderr[1])
                .max(0.02 * slope)
                .max(0.3 * fit.residual / swing(&current[from..to])),
            from_s: start_s + from as f64 * step_s,
            to_s: start_s + to as f64 * step_s,
        },
        steady_drop_v: slope * steady,
        steady_current_a: steady,
    })
}
