//! A supply that is switched on and off faster than the motor follows (pulse-width modulation).

use super::run::Run;
use plugin_sdk::signal::windows::quantile;

/// Switching of a motor's voltage while it is on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Switching {
    /// Pulses a second.
    pub hz: f64,
    /// Share of the time at the high level.
    pub duty: f64,
}

/// Fewest pulses.
const FEWEST: usize = 8;

/// Finds pulses of the voltage at the motor while it is on: it falls below a third of its high level again and again.
pub fn switching(voltage: &[f64], step_s: f64, run: &Run) -> Option<Switching> {
    let from = run.on + (0.003 / step_s) as usize;
    let part = voltage.get(from..run.off.min(voltage.len()))?;
    let high = quantile(part, 0.95)?;
    let (mut above, mut pulses, mut on) = (true, Vec::new(), 0usize);
    for (i, v) in part.iter().enumerate() {
        if !above && *v > 0.7 * high {
            above = true;
            pulses.push(i);
        } else if above && *v < high / 3.0 {
            above = false;
        }
        on += usize::from(*v > 0.5 * high);
    }
    let (first, last) = (pulses.first()?, pulses.last()?);
    (pulses.len() >= FEWEST).then(|| Switching {
        hz: (pulses.len() - 1) as f64 / ((last - first) as f64 * step_s),
        duty: on as f64 / part.len() as f64,
    })
}
