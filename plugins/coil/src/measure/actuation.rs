//! Stretches in which a coil carries current.

use super::parabola;
use plugin_sdk::signal::stats;

/// One actuation, in samples from the record's first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Actuation {
    /// Start of the current: the ramp drawn back to its rest level.
    pub on: f64,
    /// Start of the final fall.
    pub off: f64,
    /// False where the record begins or ends within it.
    pub whole: bool,
}

/// A coil's current and its actuations.
#[derive(Debug, Clone, PartialEq)]
pub struct Actuations {
    /// Current at rest, A: what a clamp shows without current.
    pub rest: f64,
    /// Standard deviation of the noise, A.
    pub noise: f64,
    /// Median over the whole record, A: what flows without a pause.
    pub median: f64,
    /// Highest level, A above rest.
    pub peak: f64,
    /// Smallest current that would have been seen, A.
    pub detectable: f64,
    /// In order of time; empty where no current flows.
    pub actuations: Vec<Actuation>,
}

impl Actuations {
    /// True where current flows without a pause: the driver chops it, or never lets go.
    pub fn never_rests(&self) -> bool {
        self.median > STEADY && (self.actuations.is_empty() || self.rest > RESTLESS * self.peak)
    }

    /// Median time from one switch-on to the next, samples; `None` with fewer than three.
    pub fn period(&self) -> Option<f64> {
        let times = self.actuations.windows(2).map(|w| w[1].on - w[0].on);
        stats::median(&times.collect::<Vec<_>>()).filter(|_| self.actuations.len() > 2)
    }
}

/// Offset of a clamp that was set to zero before, A (common practice).
pub const ZERO: f64 = 0.02;
/// Current from which on one flows without a pause, A.
const STEADY: f64 = 5.0 * ZERO;
/// Lowest current, as a share of the swing above it, from which on the coil is never without current.
const RESTLESS: f64 = 0.2;
/// Current must rise above rest by so many standard deviations of the noise to count.
const LEAST_SIGMAS: f64 = 8.0;
/// Least current of a coil that works, A: a relay of 300 ohm takes 40 mA (data sheet of a 12 V relay).
const LEAST_PEAK: f64 = 0.02;
/// Share of the peak at which an actuation begins and ends.
const THRESHOLD: f64 = 0.1;
/// Share of the peak from which the beginning of a ramp is drawn back.
const RAMP_SHARE: f64 = 0.35;
/// Shortest actuation, and longest hole within one, in samples.
const SHORTEST: usize = 4;
const LONGEST_HOLE: usize = 2;
/// Number of samples for levels.
const ENOUGH: usize = 200_000;

/// Finds the actuations of a coil's current, A. Values that are not finite are filled by the one before.
pub fn actuations(current: &[f32]) -> Actuations {
    let x = filled(current);
    let low = stats::sampled_quantile(&x, 0.005, ENOUGH).unwrap_or(0.0);
    let high = stats::sampled_quantile(&x, 0.998, ENOUGH).unwrap_or(0.0);
    let near: Vec<f64> = x
        .iter()
        .step_by((x.len() / ENOUGH).max(1))
        .map(|&v| f64::from(v))
        .filter(|&v| v <= low + 0.2 * (high - low))
        .collect();
    let rest = stats::median(&near).unwrap_or(low);
    let noise = plugin_sdk::signal::levels::noise_sigma(&x)
        .max(1.4826 * stats::median_abs_deviation(&near).unwrap_or(0.0));
    let peak = high - rest;
    let mut found = Actuations {
        rest,
        noise,
        median: stats::sampled_quantile(&x, 0.5, ENOUGH).unwrap_or(low),
        peak,
        detectable: (LEAST_SIGMAS * noise).max(LEAST_PEAK),
        actuations: Vec::new(),
    };
    if peak < (LEAST_SIGMAS * noise).max(LEAST_PEAK) || !above_rest(&x, rest, noise) {
        return found;
    }
    let threshold = rest + (THRESHOLD * peak).max(5.0 * noise);
    for (from, to) in stretches(&x, threshold, rest + 0.5 * (threshold - rest)) {
        let off = fall(&x, from, to, rest);
        let top = (RAMP_SHARE * peak)
            .max(3.0 * (threshold - rest))
            .min(0.7 * peak);
        let on = start(&x, from, to, rest, top);
        found.actuations.push(Actuation {
            on,
            off,
            whole: from > 0 && to < x.len(),
        });
    }
    found
}

/// The samples with each gap filled by the value before it.
pub fn filled(current: &[f32]) -> Vec<f32> {
    let mut last = current
        .iter()
        .copied()
        .find(|v| v.is_finite())
        .unwrap_or(0.0);
    current
        .iter()
        .map(|&v| {
            if v.is_finite() {
                last = v;
            }
            last
        })
        .collect()
}

/// A current that flows is no noise: what lies high lies there in stretches.
fn above_rest(x: &[f32], rest: f64, noise: f64) -> bool {
    let level = rest + LEAST_SIGMAS / 2.0 * noise;
    let mut run = 0usize;
    x.iter().any(|&v| {
        run = if f64::from(v) > level { run + 1 } else { 0 };
        run >= SHORTEST
    })
}

/// First sample above the threshold and first one below the lower one.
fn stretches(x: &[f32], threshold: f64, lower: f64) -> Vec<(usize, usize)> {
    let mut all: Vec<(usize, usize)> = Vec::new();
    let mut from = None;
    for i in 0..=x.len() {
        let level = if from.is_some() { lower } else { threshold };
        let on = x.get(i).is_some_and(|&v| f64::from(v) > level);
        match (from, on) {
            (None, true) => from = Some(i),
            (Some(begin), false) => {
                match all.last_mut() {
                    Some(last) if begin - last.1 <= LONGEST_HOLE => last.1 = i,
                    _ => all.push((begin, i)),
                }
                from = None;
            }
            _ => {}
        }
    }
    all.retain(|s| s.1 - s.0 >= SHORTEST);
    all
}

/// Finds where a parabola through the lower part of the ramp leaves the rest level.
fn start(x: &[f32], from: usize, to: usize, rest: f64, top: f64) -> f64 {
    let top = rest + top;
    let first = from.saturating_sub(1);
    let end = (from..to).find(|&i| f64::from(x[i]) > top).unwrap_or(to);
    let last = end.min(to - 1).max(from);
    let points: Vec<(f64, f64)> = (from..=last)
        .map(|i| (i as f64, f64::from(x[i]) - rest))
        .collect();
    let crossing = match parabola::start(&points) {
        Some(start) => start.at,
        // Too steep for a fit: between the sample before and the one above.
        None => {
            let (a, b) = (f64::from(x[first]) - rest, f64::from(x[from]) - rest);
            if b > a {
                first as f64 - a / (b - a)
            } else {
                from as f64
            }
        }
    };
    let earliest = from as f64 - 4.0 - 0.25 * (to - from) as f64;
    crossing.clamp(earliest.max(0.0), from as f64)
}

/// Finds where the current begins to fall for good: the line from 85 to 50 % of the level it had, drawn back to the level.
fn fall(x: &[f32], from: usize, to: usize, rest: f64) -> f64 {
    let above = |i: usize| f64::from(x[i]) - rest;
    let upper = |from: usize, to: usize| {
        let values: Vec<f64> = (from..to).map(above).collect();
        // The upper quartile: the fall itself may be part of it.
        stats::quantile(&values, 0.75).unwrap_or(0.0)
    };
    let mut middle = from + (to - from) / 2;
    let mut level = upper(middle, to);
    let last_above = |share: f64, level: f64, middle: usize| {
        let limit = share * level;
        let i = (middle..to)
            .rev()
            .find(|&i| above(i) >= limit)
            .unwrap_or(middle);
        let next = if i + 1 < x.len() { above(i + 1) } else { 0.0 };
        let part = if above(i) > next {
            (above(i) - limit) / (above(i) - next)
        } else {
            0.0
        };
        i as f64 + part.clamp(0.0, 1.0)
    };
    // A lower level that is held after a peak is no fall for good.
    let first = last_above(0.85, level, middle) as usize;
    let low = (first..to).find(|&i| above(i) < 0.12 * level).unwrap_or(to);
    let third = low.saturating_sub(first) / 3;
    if third > (to - from) / 12 && third > 3 {
        let (a, b) = (
            upper(first + third, first + 2 * third),
            upper(first + 2 * third, low),
        );
        if b > 0.75 * a {
            middle = first + third;
            level = upper(first + 2 * third, low);
        }
    }
    let (high, low) = (
        last_above(0.85, level, middle),
        last_above(0.5, level, middle),
    );
    (high - 0.15 / 0.35 * (low - high)).max(middle as f64)
}
