//! The level that the current settles at, and what lets it settle: the winding, or the driver.

use super::profile::Profile;
use plugin_sdk::signal::{rise::fit_rise, stats};

/// End of a current.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum End {
    /// It settles at what resistance and supply allow.
    Settled {
        /// Level, A.
        level: f64,
        /// Standard uncertainty (k = 1), A.
        uncertainty: f64,
    },
    /// It still rises at switch-off; the level is what the rise leads to.
    Rising {
        /// Level, A.
        level: f64,
        /// Standard uncertainty (k = 1), A.
        uncertainty: f64,
    },
    /// The driver stops the rise at a level.
    Limited {
        /// Level, A.
        level: f64,
        /// Standard uncertainty (k = 1), A.
        uncertainty: f64,
        /// Samples from switch-on to the limit.
        reached: usize,
    },
    /// The driver lowers the current after a peak.
    Held {
        /// Peak, A.
        peak: f64,
        /// Mean level held, A.
        level: f64,
        /// Standard uncertainty of the level (k = 1), A.
        uncertainty: f64,
        /// Samples from switch-on to the peak.
        reached: usize,
        /// Samples from switch-on to where the held level begins.
        from: usize,
    },
    /// Too short to tell.
    Unknown,
}

/// Share of the peak below which the end is a lower level held.
const HELD: f64 = 0.82;
/// Share of the first slope by which the slope drops where a driver ends the rise: the closed magnetic circuit has up to twice
/// the inductance of the open one. A quick armature may come near it: then the level must last for so many times the fall.
const BREAKS_OFF: f64 = 0.35;
const SHARP: f64 = 0.85;
const LASTS: f64 = 1.6;
/// Relative slope over the last third of an actuation below which it is settled.
const FLAT: f64 = 0.025;
/// Share of the first slope with which a current still rises when a driver limits it.
const STEEP: f64 = 0.3;
/// Share of the extrapolated level that a rise must have come to.
const REACHED: f64 = 0.9;
/// Most noise, as a share of the peak, from which a level is extrapolated.
const QUIET: f64 = 0.02;
/// Relative uncertainty of an extrapolated level beyond which it is not used.
const MOST_UNCERTAIN: f64 = 0.04;

/// Tells how the mean course ends.
pub fn end(profile: &Profile) -> End {
    let x = &profile.current;
    let n = x.len();
    if n < 12 {
        return End::Unknown;
    }
    // A short peak before a long hold keeps its place.
    let highest = x.iter().copied().fold(0.0, f64::max);
    let rise = x.iter().position(|&v| v >= 0.5 * highest).unwrap_or(0);
    let window = (n / 40).min(rise / 3).max(1);
    let smooth: Vec<f64> = (0..n)
        .map(|k| mean(&x[k.saturating_sub(window)..(k + window + 1).min(n)]))
        .collect();
    let at_peak = (0..n)
        .max_by(|&a, &b| smooth[a].total_cmp(&smooth[b]))
        .unwrap_or(0);
    let peak = smooth[at_peak];
    let tail = &x[n * 3 / 4..n - (n / 50).max(1)];
    let level = stats::median(tail).unwrap_or(0.0);
    let scatter = profile.noise / (tail.len() as f64).sqrt();
    if level < HELD * peak && at_peak < n * 2 / 3 {
        // What falls without a driver that lets it go is the armature's own dip, and no level yet.
        return match held(x, at_peak, level, profile) {
            End::Held { reached, from, .. } if !is_switched_off(x, reached, from) => End::Unknown,
            end => end,
        };
    }
    // The change over the last third, from means of its first and last part.
    let third = &x[n * 2 / 3..n];
    let part = (third.len() / 4).max(1);
    let change = mean(&third[third.len() - part..]) - mean(&third[..part]);
    let noise = 2.0 * profile.noise / (part as f64).sqrt();
    if let Some(reached) = limit(x, level, profile.noise) {
        return End::Limited {
            level,
            uncertainty: scatter,
            reached,
        };
    }
    if change.abs() <= FLAT * level + noise {
        return End::Settled {
            level,
            uncertainty: scatter.hypot(change.abs() / 4.0),
        };
    }
    rising(x, profile.noise)
}

fn mean(x: &[f64]) -> f64 {
    x.iter().sum::<f64>() / x.len().max(1) as f64
}

fn held(x: &[f64], at_peak: usize, level: f64, profile: &Profile) -> End {
    let n = x.len();
    let peak = x[at_peak.saturating_sub(1)..(at_peak + 2).min(n)]
        .iter()
        .copied()
        .fold(f64::NEG_INFINITY, f64::max);
    // The held level begins where the fall from the peak first meets it.
    let from = (at_peak..n)
        .find(|&k| x[k] <= level + 3.0 * profile.noise)
        .unwrap_or(n * 3 / 4);
    let tail = &x[(from + (n - from) / 4).min(n - 1)..n - (n / 50).max(1).min(n - from - 1)];
    let level = mean(tail);
    let spread = stats::median_abs_deviation(tail).unwrap_or(0.0) * 1.4826;
    End::Held {
        peak,
        level,
        uncertainty: spread / (tail.len().max(1) as f64).sqrt(),
        reached: at_peak,
        from,
    }
}

/// True where the current breaks off between its peak and the level held: where a driver lets it go the voltage across the coil
/// steps, and with it the slope by about that of switch-on (V = L di/dt). An armature that moves bends the current gradually.
fn is_switched_off(x: &[f64], peak: usize, from: usize) -> bool {
    let half = x.iter().position(|&v| v >= 0.5 * x[peak]).unwrap_or(0);
    let width = (half / 6).max(2);
    let t: Vec<f64> = (0..=width).map(|k| k as f64).collect();
    let slope = |at: usize| stats::line_fit(&t, &x[at..=at + width]).map_or(0.0, |l| l.slope);
    let last = x.len() - 1 - width;
    let first = (0..=peak.min(last)).map(slope).fold(0.0, f64::max);
    let near = peak.saturating_sub(2).max(width)..=(from + 1).min(last);
    let step = near
        .map(|k| slope(k - width) - slope(k))
        .fold(0.0, f64::max);
    let lasts = (x.len() - from) as f64 >= LASTS * from.saturating_sub(peak) as f64;
    step > SHARP * first || step > BREAKS_OFF * first && lasts
}

/// The sample at which a driver stops the rise: up to it the current rises steeply, after it it stays. A winding
/// settles gradually: within 3 % of its level it rises with 3 % of its first slope.
fn limit(x: &[f64], level: f64, noise: f64) -> Option<usize> {
    let n = x.len();
    let band = 2.5 * noise.max(0.008 * level);
    let reached = x.iter().position(|&v| v >= level - band)?;
    if reached < 8 || n - reached < 6 {
        return None;
    }
    let line = |from: usize, to: usize| {
        let t: Vec<f64> = (from..to).map(|k| k as f64).collect();
        stats::line_fit(&t, &x[from..to])
    };
    let width = (reached / 4).max(3);
    // The steepest part is the first: a notch is flatter.
    let first = (0..=reached - width)
        .step_by(width.div_ceil(2))
        .filter_map(|k| line(k, k + width))
        .map(|l| l.slope)
        .fold(0.0, f64::max);
    let before = line(reached - width, reached)?;
    let after = line(reached + (n - reached) / 8, n)?;
    let steep = before.slope > STEEP * first && before.slope > 6.0 * before.slope_stderr;
    let flat = after.slope.abs() < 0.08 * before.slope + 3.0 * after.slope_stderr;
    let stays = x[reached..].iter().all(|&v| (v - level).abs() < 2.0 * band);
    (steep && flat && stays).then_some(reached)
}

/// The level that a rise leads to: of the whole rise, or of its second half where an armature disturbs the first.
fn rising(x: &[f64], noise: f64) -> End {
    match follow(x, 0, noise) {
        End::Unknown => follow(x, x.len() / 2, noise),
        end => end,
    }
}

fn follow(x: &[f64], from: usize, noise: f64) -> End {
    let window = if from == 0 { 0 } else { (x.len() / 40).max(1) };
    let base = if from == 0 {
        0.0
    } else {
        mean(&x[from - window..=from + window])
    };
    let points: Vec<(f64, f64)> = x[from..]
        .iter()
        .enumerate()
        .map(|(k, &v)| (k as f64, v - base))
        .collect();
    let Some(mut rise) = fit_rise(&points) else {
        return End::Unknown;
    };
    rise.end += base;
    rise.end_uncertainty = rise
        .end_uncertainty
        .hypot(noise / ((2 * window + 1) as f64).sqrt());
    let highest = x.iter().copied().fold(0.0, f64::max);
    let plain = rise.residual < 3.0 * noise + 0.01 * rise.end && noise < QUIET * highest;
    let reached = highest > REACHED * rise.end;
    if plain && reached && rise.end_uncertainty < MOST_UNCERTAIN * rise.end {
        End::Rising {
            level: rise.end,
            uncertainty: rise.end_uncertainty.hypot(0.02 * rise.end),
        }
    } else {
        End::Unknown
    }
}
