//! A probe that is put on the battery while the recorder runs.

use plugin_sdk::signal::stats;
use plugin_sdk::signal::windows::mean;

/// Beginning of a record that tells of a probe that hangs free, s, and its highest level then, as a share of the battery's.
const BEGINNING_S: f64 = 0.02;
const FREE: f64 = 0.1;
/// Share of the battery's level that the probe shows from then on, and how long it must, s: contacts bounce.
const ON: f64 = 0.4;
const STAYS_S: f64 = 0.02;

/// First sample from which the probe is on the battery, 0 for one that always is. No load but a broken cell takes a battery's
/// voltage to a tenth, and none does so from before the record begins.
pub fn attached(volts: &[f64], step_s: f64) -> usize {
    let samples = |s: f64| ((s / step_s) as usize).clamp(1, volts.len().max(1));
    let Some(level) = stats::quantile(volts, 0.98).filter(|v| *v > 0.0) else {
        return 0;
    };
    if volts.is_empty() || mean(&volts[..samples(BEGINNING_S)]).abs() > FREE * level {
        return 0;
    }
    let stays = samples(STAYS_S);
    let mut since = 0;
    for (i, v) in volts.iter().enumerate() {
        match *v > ON * level {
            true if i + 1 - since >= stays => return since,
            true => {}
            false => since = i + 1,
        }
    }
    0
}
