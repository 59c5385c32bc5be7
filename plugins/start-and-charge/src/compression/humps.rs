//! The humps that compression strokes leave on a starter's current.

use plugin_sdk::signal::smooth::moving_average;
use plugin_sdk::signal::{Time, stats};

/// Rate to which records are thinned, Hz: a hump lasts a tenth of a second.
const ENOUGH_HZ: f64 = 1_000.0;
/// Shortest and longest time from hump to hump, s: 25 to 3 compression strokes a second.
const PERIODS_S: (f64, f64) = (0.04, 0.33);
/// Share of the current's high level that it keeps while the starter turns the engine.
const TURNING: f64 = 0.4;
/// Left out at the beginning of cranking, s: inrush, and the engine gathers speed.
const SETTLING_S: f64 = 0.5;
/// Left out at its end, s.
const ENDING_S: f64 = 0.2;
/// Shortest stretch of cranking that says something, s.
const SHORTEST_S: f64 = 1.0;
/// Least autocorrelation at the period: below this, what repeats is not compression.
const LEAST_REPEAT: f64 = 0.3;

/// A stretch of cranking and its humps.
#[derive(Debug, Clone, PartialEq)]
pub struct Cranking {
    /// Start of the stretch that was looked at, s.
    pub start_s: f64,
    /// Its end, s.
    pub end_s: f64,
    /// Median time from hump to hump, s.
    pub period_s: f64,
    /// Height of each hump above the lower trough beside it, in the record's unit, in their order; small where a hump is
    /// missing.
    pub heights: Vec<f64>,
}

/// Finds the longest stretch of cranking and measures its humps. `None` where nothing like it was recorded.
pub fn cranking(values: &[f32], time: Time<'_>) -> Option<Cranking> {
    let step = time.mean_step(values.len()).filter(|&s| s > 0.0)?;
    let thin = (1.0 / ENOUGH_HZ / step).round().max(1.0) as usize;
    let step = step * thin as f64;
    if step > PERIODS_S.0 / 8.0 {
        return None;
    }
    // The average over each thinned interval keeps what is faster from folding down.
    let x: Vec<f32> = moving_average(values, thin)
        .into_iter()
        .step_by(thin)
        .map(|v| if v.is_finite() { v } else { 0.0 })
        .collect();
    let samples = |s: f64| (s / step).round() as usize;
    let (from, to) = turning(&x, samples(0.2))?;
    let (from, to) = (
        from + samples(SETTLING_S),
        to.saturating_sub(samples(ENDING_S)),
    );
    if to < from + samples(SHORTEST_S) {
        return None;
    }
    let x = &x[from..to];
    let period = period(x, samples(PERIODS_S.0), samples(PERIODS_S.1))?;
    let smooth = moving_average(x, period / 5);
    let (heights, periods) = humps(&smooth, period);
    Some(Cranking {
        start_s: time.at(from * thin),
        end_s: time.at(((to - 1) * thin).min(values.len() - 1)),
        period_s: stats::median(&periods)? * step,
        heights,
    })
}

/// First and last sample of the longest stretch in which the starter turns.
fn turning(x: &[f32], window: usize) -> Option<(usize, usize)> {
    let level = moving_average(x, window);
    let high = stats::sampled_quantile(&level, 0.9, 10_000)?;
    if high <= 0.0 {
        return None;
    }
    let mut longest = (0, 0);
    let mut from = None;
    for i in 0..=level.len() {
        let on = level.get(i).is_some_and(|&v| f64::from(v) > TURNING * high);
        match (from, on) {
            (None, true) => from = Some(i),
            (Some(start), false) => {
                if i - start > longest.1 - longest.0 {
                    longest = (start, i);
                }
                from = None;
            }
            _ => {}
        }
    }
    (longest.1 > longest.0).then_some(longest)
}

/// The time from hump to hump, in samples: the shortest lag at which the autocorrelation has a peak nearly as high as
/// its highest. (That of a whole cycle is higher still when one cylinder is weak.)
fn period(x: &[f32], shortest: usize, longest: usize) -> Option<usize> {
    let level = moving_average(x, 2 * longest);
    let d: Vec<f64> = x
        .iter()
        .zip(&level)
        .map(|(v, l)| f64::from(v - l))
        .collect();
    let power: f64 = d.iter().map(|v| v * v).sum();
    if power <= 0.0 || d.len() < 3 * longest {
        return None;
    }
    let at = |lag: usize| {
        let sum: f64 = d.iter().zip(&d[lag..]).map(|(a, b)| a * b).sum();
        sum / power * d.len() as f64 / (d.len() - lag) as f64
    };
    let r: Vec<f64> = (shortest.saturating_sub(1)..=longest + 1).map(at).collect();
    let peaks: Vec<usize> = (1..r.len() - 1)
        .filter(|&k| r[k] >= r[k - 1] && r[k] > r[k + 1])
        .collect();
    let highest = peaks.iter().map(|&k| r[k]).fold(0.0, f64::max);
    let first = peaks.into_iter().find(|&k| r[k] >= 0.6 * highest)?;
    (highest >= LEAST_REPEAT).then_some(shortest.saturating_sub(1) + first)
}

/// Heights of the humps and the times between them, in samples. Walks from hump to hump; where none is found within
/// two fifths of a period of where it should be, its place is measured all the same.
fn humps(x: &[f32], period: usize) -> (Vec<f64>, Vec<f64>) {
    let (mut heights, mut periods) = (Vec::new(), Vec::new());
    let mut step = period;
    // The first one is the highest point of the first period that has a whole period before it.
    let Some(mut at) = highest(x, period, 2 * period) else {
        return (heights, periods);
    };
    while at + step <= x.len().saturating_sub(1) {
        let before = lowest(x, at.saturating_sub(step * 3 / 5), at);
        let after = lowest(x, at, at + step * 3 / 5);
        if let (Some(before), Some(after)) = (before, after) {
            // The lower trough: that beside a missing hump is none.
            heights.push(f64::from(x[at] - x[before].min(x[after])).max(0.0));
        }
        let (low, high) = (at + step * 3 / 5, (at + step * 7 / 5).min(x.len() - 1));
        let inside = highest(x, low, high).filter(|&k| k > low && k + 1 < high);
        let next = inside.unwrap_or(at + step);
        periods.push((next - at) as f64);
        if inside.is_some() {
            // The engine's speed wanders.
            step = (3 * step + (next - at)) / 4;
        }
        at = next;
    }
    (heights, periods)
}

fn highest(x: &[f32], from: usize, to: usize) -> Option<usize> {
    (from..to.min(x.len())).max_by(|&a, &b| x[a].total_cmp(&x[b]))
}

fn lowest(x: &[f32], from: usize, to: usize) -> Option<usize> {
    (from..=to.min(x.len().checked_sub(1)?)).min_by(|&a, &b| x[a].total_cmp(&x[b]))
}
