//! The notch that a moving armature leaves on the rising current.
//!
//! While the armature moves, its voltage opposes the supply and the current rises more slowly or falls; when it stops,
//! the current rises again at once (LM1949, TI SNLS349C: "The change in inductance manifests itself as a breakpoint in the
//! initial rise of solenoid current"; TI SSIY001: end of the notch is the end of the stroke). Without movement the slope
//! only ever decreases.

use super::profile::Profile;
use plugin_sdk::signal::stats::line_fit;

/// Movement of the armature in the rise.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Armature {
    /// The notch, where one is there.
    pub notch: Option<Notch>,
    /// Smallest increase of the slope that would have been seen, as a share of the slope at switch-on.
    pub detectable: f64,
}

/// A notch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Notch {
    /// End of the movement, in samples from switch-on.
    pub at: f64,
    /// Standard uncertainty (k = 1), in samples.
    pub uncertainty: f64,
    /// Start of the movement: where the slope begins to fall short, in samples.
    pub begins: f64,
    /// Increase of the slope at the end of the movement, as a share of the slope at switch-on.
    pub depth: f64,
}

/// Share of the peak from which a notch is looked for: before, the recorder's own rise is seen.
const FROM: f64 = 0.12;
/// Least increase of the slope in standard deviations, and as a share of the slope at switch-on.
const SIGMAS: f64 = 6.0;
const LEAST_DEPTH: f64 = 0.07;
/// Half widths over which slopes are taken, in samples.
const WIDTHS: [usize; 8] = [2, 3, 4, 6, 9, 14, 22, 34];
/// Fewest samples of a rise that can show a notch.
const LEAST_SAMPLES: usize = 12;

/// Looks for a notch before the current's highest level. `None` where the rise is too short.
pub fn armature(profile: &Profile, rise_ends: usize) -> Option<Armature> {
    let x = &profile.current;
    let end = rise_ends.min(x.len().saturating_sub(1));
    let peak = x[..=end].iter().copied().fold(0.0, f64::max);
    let from = x.iter().position(|&v| v >= FROM * peak)?;
    if end < from + LEAST_SAMPLES {
        return None;
    }
    let first = initial_slope(x, from, peak)?;
    let rise = x
        .iter()
        .position(|&v| v >= 0.85 * peak)?
        .saturating_sub(from);
    let mut best: Option<(f64, Notch)> = None;
    let mut detectable = f64::INFINITY;
    for width in WIDTHS.into_iter().filter(|w| 6 * w < end - from + 6) {
        // Standard error of a slope over w + 1 even points, and of the difference of two.
        let w = width as f64;
        let error = profile.noise * (24.0 / (w * (w + 1.0) * (w + 2.0))).sqrt();
        let least = (SIGMAS * error).max(LEAST_DEPTH * first);
        // Wide slopes smear a movement that takes a small part of the rise.
        if 6 * width <= rise {
            detectable = detectable.min(least / first);
        }
        for k in from + width..=end - width {
            let slope = |a: usize, b: usize| slope(&x[a..=b]);
            let (before, after) = (slope(k - width, k), slope(k, k + width));
            let jump = after - before;
            // A rise after the notch, not the recovery of a disturbance on a falling current.
            if jump < least || after < 0.02 * first {
                continue;
            }
            let score = jump / error.max(0.02 * first);
            if best.is_none_or(|b| score > b.0) {
                best = Some((
                    score,
                    Notch {
                        at: k as f64,
                        uncertainty: 0.5 * w.sqrt(),
                        begins: k as f64,
                        depth: jump / first,
                    },
                ));
            }
        }
    }
    let notch = best.map(|(_, notch)| refine(x, notch, from, first));
    Some(Armature { notch, detectable })
}

/// Slope at switch-on, a sample.
fn initial_slope(x: &[f64], from: usize, peak: f64) -> Option<f64> {
    let to = x
        .iter()
        .position(|&v| v >= 0.4 * peak)?
        .max(from + 2)
        .min(x.len() - 1);
    let slope = slope(&x[from.saturating_sub(1)..=to]);
    (slope > 0.0).then_some(slope)
}

fn slope(x: &[f64]) -> f64 {
    let t: Vec<f64> = (0..x.len()).map(|k| k as f64).collect();
    match line_fit(&t, x) {
        Some(line) => line.slope,
        None => (x[x.len() - 1] - x[0]) / (x.len() - 1).max(1) as f64,
    }
}

/// Finds the corner itself with narrow slopes near the place that wide ones gave, and where the movement began.
fn refine(x: &[f64], notch: Notch, from: usize, first: f64) -> Notch {
    let reach = (4.0 * notch.uncertainty) as usize + 1;
    let at = notch.at as usize;
    let width = (2.0 * notch.uncertainty).round().max(1.0) as usize;
    let jump = |k: usize| slope(&x[k..=k + width]) - slope(&x[k - width..=k]);
    let low = at.saturating_sub(reach).max(from + width);
    let high = (at + reach).min(x.len() - 1 - width);
    let corner = (low..=high)
        .max_by(|&a, &b| jump(a).total_cmp(&jump(b)))
        .unwrap_or(at);
    // Back to where the slope was last that of the undisturbed rise.
    let mut begins = corner;
    let lowest = slope(&x[corner - width..=corner]);
    while begins > from + width {
        let here = slope(&x[begins - width..=begins]);
        if here > lowest + 0.7 * (first - lowest) {
            break;
        }
        begins -= 1;
    }
    Notch {
        at: corner as f64,
        begins: begins as f64,
        ..notch
    }
}
