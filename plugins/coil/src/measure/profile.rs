//! The mean course of all actuations, aligned at switch-on.

use super::actuation::{Actuation, Actuations};
use plugin_sdk::signal::stats;
use plugin_sdk::signal::windows::resolution;

/// A mean course on the recording's own grid.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    /// Current above rest, A, from switch-on, one value a sample.
    pub current: Vec<f64>,
    /// Standard deviation of the noise on a value, A; of the recorder's steps where these are larger than the noise, which
    /// no mean takes out.
    pub noise: f64,
    /// Actuations behind it.
    pub count: usize,
}

/// Relative difference in peak beyond which an actuation is not averaged with the others.
const SAME_PEAK: f64 = 0.15;
/// Number of actuations that are averaged at most.
const MOST: usize = 200;
/// Number of samples for the recorder's steps.
const ENOUGH: usize = 200_000;

/// Largest change of the current over the last quarter of a record that ends before the switch-off, as a share of its level, with
/// which it has come to its end, and the range that a chopper may leave it.
const AT_ITS_END: f64 = 0.02;
const CHOPPED: f64 = 0.25;

/// Averages the actuations, up to the shortest of them. `None` without one that is whole, or that a record shows from its
/// switch-on to a steady level.
pub fn profile(current: &[f32], found: &Actuations) -> Option<Profile> {
    let all = || found.actuations.iter();
    let mut whole: Vec<_> = all().filter(|a| a.whole).collect();
    if whole.is_empty() {
        whole = all()
            .filter(|a| comes_to_its_end(current, a, found.rest))
            .collect();
    }
    let peak = |on: f64, off: f64| {
        let part = &current[on.max(0.0) as usize..(off as usize + 1).min(current.len())];
        part.iter().copied().fold(f32::NEG_INFINITY, f32::max)
    };
    let peaks: Vec<f64> = whole.iter().map(|a| f64::from(peak(a.on, a.off))).collect();
    let usual = stats::median(&peaks)?;
    let same: Vec<_> = whole
        .iter()
        .zip(&peaks)
        .filter(|(_, p)| (*p - usual).abs() <= SAME_PEAK * (usual - found.rest))
        .map(|(a, _)| *a)
        .take(MOST)
        .collect();
    let lengths: Vec<f64> = same.iter().map(|a| a.off - a.on).collect();
    let usual_length = stats::quantile(&lengths, 0.25)?;
    let same: Vec<_> = same
        .into_iter()
        .filter(|a| a.off - a.on >= 0.9 * usual_length)
        .collect();
    let length = same
        .iter()
        .map(|a| a.off - a.on)
        .fold(f64::INFINITY, f64::min) as usize;
    if same.is_empty() || length < 4 {
        return None;
    }
    let mean = (0..length)
        .map(|k| {
            let sum: f64 = same
                .iter()
                .map(|a| interpolate(current, a.on + k as f64) - found.rest)
                .sum();
            sum / same.len() as f64
        })
        .collect();
    Some(Profile {
        current: mean,
        noise: (found.noise / (same.len() as f64).sqrt()).max(steps(current, found.noise)),
        count: same.len(),
    })
}

/// True for an actuation whose switch-on was recorded and whose current is steady when the record ends.
fn comes_to_its_end(current: &[f32], a: &Actuation, rest: f64) -> bool {
    let quarter = ((a.off - a.on) / 4.0) as usize;
    let to = (a.off as usize + 1).min(current.len());
    let part: Vec<f64> = current[to.saturating_sub(quarter)..to]
        .iter()
        .map(|&v| f64::from(v))
        .collect();
    let (early, late) = part.split_at(part.len() / 2);
    let levels = stats::median(early).zip(stats::median(late));
    let range = stats::quantile(&part, 0.95).zip(stats::quantile(&part, 0.05));
    let steady = levels
        .zip(range)
        .is_some_and(|((early, late), (high, low))| {
            let level = late - rest;
            (late - early).abs() < AT_ITS_END * level && high - low < CHOPPED * level
        });
    a.on >= 2.0 && quarter >= 8 && steady
}

/// Standard deviation of even steps, A: their width over the root of 12 (IEEE Std 1241, from memory). Zero where the noise
/// spreads the values over several steps.
fn steps(current: &[f32], noise: f64) -> f64 {
    let part = &current[..current.len().min(ENOUGH)];
    let width = resolution(&part.iter().map(|&v| f64::from(v)).collect::<Vec<_>>());
    if noise < width {
        width / 12f64.sqrt()
    } else {
        0.0
    }
}

fn interpolate(x: &[f32], at: f64) -> f64 {
    let i = (at.max(0.0) as usize).min(x.len() - 1);
    let j = (i + 1).min(x.len() - 1);
    f64::from(x[i]) + (at - i as f64).clamp(0.0, 1.0) * (f64::from(x[j]) - f64::from(x[i]))
}
