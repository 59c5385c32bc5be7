//! The humps that compression strokes leave on what a starter draws.

use super::cranking::Cranking;
use plugin_sdk::signal::stats;
use plugin_sdk::signal::windows::{average, median};

/// Rate to which records are thinned, Hz: a hump lasts a tenth of a second.
const ENOUGH_HZ: f64 = 1_000.0;
/// Shortest and longest time from hump to hump, s: 25 to 2 compression strokes a second.
const PERIODS_S: (f64, f64) = (0.04, 0.5);
/// Shortest stretch of steady cranking that says something, s.
const SHORTEST_S: f64 = 0.7;
/// Least autocorrelation at the period: below this, what repeats is not compression.
const LEAST_REPEAT: f64 = 0.3;
/// Share of the autocorrelation's largest rise that that of the first hump must have.
const RISE: f64 = 0.4;
/// Slowest cranking that is believed where the cylinders are known, rpm: a longer time is that of a cycle.
const SLOWEST_RPM: f64 = 60.0;
/// Least autocorrelation at a whole cycle.
const CYCLE_REPEAT: f64 = 0.5;
/// Least height of a hump, as a share of what the starter draws.
const LEAST_SHARE: f64 = 0.02;

/// Humps of a start attempt.
#[derive(Debug, Clone, PartialEq)]
pub struct Humps {
    /// Start of the stretch that was looked at, s.
    pub from_s: f64,
    /// Its end, s.
    pub to_s: f64,
    /// Median time from hump to hump, s.
    pub period_s: f64,
    /// Standard error of that mean time, s.
    pub period_error_s: f64,
    /// Top of each hump, s.
    pub tops_s: Vec<f64>,
    /// Height of each hump above the lower trough beside it, in the record's unit, in their order; small where a hump
    /// is missing.
    pub heights: Vec<f64>,
}

/// Measures the humps on a load (a current, or the depth of a voltage's fall) while the engine turns steadily.
/// `cylinders` is their number where it is known. `None` where it turned too shortly, was sampled too coarsely, or
/// where nothing repeats.
pub fn humps(
    load: &[f64],
    start_s: f64,
    step_s: f64,
    c: &Cranking,
    cylinders: Option<usize>,
) -> Option<Humps> {
    let thin = (1.0 / ENOUGH_HZ / step_s).round().max(1.0) as usize;
    let step = step_s * thin as f64;
    if step > PERIODS_S.0 / 8.0 {
        return None;
    }
    let part = load.get(c.steady..c.steady_end)?;
    // The average over each thinned interval keeps what is faster from folding down.
    let x: Vec<f64> = average(part, thin).into_iter().step_by(thin).collect();
    let samples = |s: f64| (s / step).round() as usize;
    if x.len() < samples(SHORTEST_S) {
        return None;
    }
    let range = (samples(PERIODS_S.0), samples(PERIODS_S.1));
    let too_slow =
        |p: &usize| cylinders.is_some_and(|n| 120.0 < SLOWEST_RPM * (n * p) as f64 * step);
    let period = period(&x, range)
        .filter(|p| !too_slow(p))
        .or_else(|| period_of_cycle(&x, range, cylinders?))?;
    let smooth = average(&x, period / 5);
    let (tops, heights) = walk(&smooth, period);
    let from_s = start_s + c.steady as f64 * step_s;
    let times: Vec<f64> = tops
        .windows(2)
        .map(|w| (w[1] - w[0]) as f64 * step)
        .collect();
    let n = times.len() as f64;
    let spread = 1.4826 * stats::median_abs_deviation(&times)?;
    let usual = stats::median(&times)?;
    // A standing motor's current has no humps, whatever its noise repeats.
    let before = load.get(c.engaged.saturating_sub(samples(0.3) * thin)..c.engaged)?;
    let turning = median(part)? - median(before).unwrap_or(0.0);
    let high = stats::quantile(&heights, 0.7)?;
    let clear = high > LEAST_SHARE * turning && (PERIODS_S.0..=PERIODS_S.1).contains(&usual);
    clear.then(|| Humps {
        from_s,
        to_s: start_s + c.steady_end as f64 * step_s,
        period_s: usual,
        period_error_s: (spread / n.sqrt()).max(step / n),
        tops_s: tops.iter().map(|&k| from_s + k as f64 * step).collect(),
        heights,
    })
}

/// The time from hump to hump, in samples: the shortest lag at which the autocorrelation rises to a peak by a good part
/// of its whole swing. (That of a whole cycle is far higher when one cylinder is weak, but a trough lies before each.)
fn period(x: &[f64], (shortest, longest): (usize, usize)) -> Option<usize> {
    let level = average(x, 2 * longest);
    let d: Vec<f64> = x.iter().zip(&level).map(|(v, l)| v - l).collect();
    let peaks = repeats(&d, shortest, longest.min(d.len() / 3));
    let highest = peaks.iter().map(|p| p.height).fold(0.0, f64::max);
    let most = peaks.iter().map(|p| p.rise).fold(0.0, f64::max);
    let first = peaks.iter().find(|p| p.rise >= RISE * most)?;
    (highest >= LEAST_REPEAT).then_some(first.lag)
}

/// The same from the time of a whole cycle, which is all that repeats where one cylinder of many is very weak.
fn period_of_cycle(
    x: &[f64],
    (shortest, longest): (usize, usize),
    cylinders: usize,
) -> Option<usize> {
    let n = x.len() as f64;
    let middle = (n - 1.0) / 2.0;
    let mean = x.iter().sum::<f64>() / n;
    let slope = x
        .iter()
        .enumerate()
        .map(|(i, v)| (i as f64 - middle) * (v - mean))
        .sum::<f64>()
        / (n * (n * n - 1.0) / 12.0);
    let level = |i: usize| mean + slope * (i as f64 - middle);
    let d: Vec<f64> = x.iter().enumerate().map(|(i, v)| v - level(i)).collect();
    let peaks = repeats(
        &d,
        shortest * cylinders,
        (longest * cylinders).min(d.len() / 2),
    );
    let highest = peaks.iter().map(|p| p.height).fold(0.0, f64::max);
    let first = peaks.iter().find(|p| p.height >= 0.85 * highest)?;
    (highest >= CYCLE_REPEAT).then_some(first.lag / cylinders)
}

/// Peak of an autocorrelation.
struct Repeat {
    /// Lag, in samples.
    lag: usize,
    /// Autocorrelation there.
    height: f64,
    /// Its rise from the trough between half of the lag and the lag.
    rise: f64,
}

/// Peaks of the autocorrelation between two lags, in samples.
fn repeats(d: &[f64], shortest: usize, longest: usize) -> Vec<Repeat> {
    let power: f64 = d.iter().map(|v| v * v).sum();
    if power <= 0.0 || longest <= shortest {
        return Vec::new();
    }
    let at = |lag: usize| {
        let sum: f64 = d.iter().zip(&d[lag..]).map(|(a, b)| a * b).sum();
        sum / power * d.len() as f64 / (d.len() - lag) as f64
    };
    let first = shortest / 2;
    let r: Vec<f64> = (first..=longest + 1).map(at).collect();
    (1..r.len() - 1)
        .filter(|&k| first + k >= shortest && r[k] >= r[k - 1] && r[k] > r[k + 1])
        .map(|k| {
            let lag = first + k;
            let trough = &r[(lag / 2).saturating_sub(first)..k];
            Repeat {
                lag,
                height: r[k],
                rise: r[k] - trough.iter().copied().fold(r[k], f64::min),
            }
        })
        .collect()
}

/// Tops of the humps, in samples, and their heights. Walks from hump to hump; where none is found within two fifths of
/// a period of where it should be, its place is measured all the same.
fn walk(x: &[f64], period: usize) -> (Vec<usize>, Vec<f64>) {
    let (mut tops, mut heights) = (Vec::new(), Vec::new());
    let mut step = period;
    // The first one is the highest point of the first period that has its trough before it.
    let Some(mut at) = highest(x, period * 3 / 5, period * 8 / 5) else {
        return (tops, heights);
    };
    while at + step * 3 / 5 < x.len() {
        let before = lowest(x, at.saturating_sub(step * 3 / 5), at);
        let after = lowest(x, at, at + step * 3 / 5);
        if let (Some(before), Some(after)) = (before, after) {
            // The lower trough: that beside a missing hump is none.
            heights.push((x[at] - x[before].min(x[after])).max(0.0));
            tops.push(at);
        }
        let (low, high) = (
            at + step * 3 / 5,
            (at + step * 7 / 5).min(x.len().saturating_sub(1)),
        );
        let inside = highest(x, low, high).filter(|&k| k > low && k + 1 < high);
        let next = inside.unwrap_or(at + step);
        if inside.is_some() {
            // The engine's speed wanders.
            step = (3 * step + (next - at)) / 4;
        }
        at = next;
    }
    (tops, heights)
}

fn highest(x: &[f64], from: usize, to: usize) -> Option<usize> {
    (from..to.min(x.len())).max_by(|&a, &b| x[a].total_cmp(&x[b]))
}

fn lowest(x: &[f64], from: usize, to: usize) -> Option<usize> {
    (from..=to.min(x.len().checked_sub(1)?)).min_by(|&a, &b| x[a].total_cmp(&x[b]))
}
