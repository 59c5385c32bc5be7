//! A record made ready for edges: its kind, its levels, its noise, the averaging that it needs.

use super::options::{Options, SensorKind};
use super::wrapped;
use crate::{Time, levels, stats};
use std::borrow::Cow;

/// Form of a signal.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Waveform {
    /// Two steady levels.
    TwoLevel,
    /// Anything else that alternates.
    Alternating,
}

/// Quality of a signal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SignalQuality {
    /// Form of the signal.
    pub waveform: Waveform,
    /// Low state of two levels, else the 0.1 % quantile.
    pub low: f64,
    /// High state of two levels, else the 99.9 % quantile.
    pub high: f64,
    /// Standard deviation of the noise of one sample; `None` where too few quiet stretches show it.
    pub noise: Option<f64>,
    /// Smallest amplitude from peak to peak at which an edge was taken, in the signal's unit.
    pub threshold: f64,
    /// Finest step of time, s.
    pub step_s: f64,
    /// Each sample holds until the next: a list of level changes, not an even sampling.
    pub level_changes: bool,
    /// Samples averaged into one before edges were looked for.
    pub averaged: usize,
    /// Samples beyond the recorder's range that came out at its other end and were put back.
    pub wrapped: usize,
    /// Highest tooth rate that could be read, Hz: four samples a pitch.
    pub highest_hz: f64,
}

/// A record ready for edges.
pub(super) struct Prepared<'a> {
    pub x: Cow<'a, [f32]>,
    pub quality: SignalQuality,
}

/// Noise amplitude from peak to peak that counts as an edge, standard deviations: the swings of white noise stay below
/// it for ten million samples (5.3 standard deviations either way, normal distribution, would be passed once).
const NOISE_SWING: f64 = 10.0;

/// Range over noise above which nothing needs to be averaged.
const CLEAR: f64 = 25.0;

/// Share of the range that an edge must reach where the noise is not known.
const UNKNOWN_NOISE_SHARE: f64 = 0.05;

/// Share of the amplitude that an edge of a two-level signal must reach.
const LEVEL_SHARE: f64 = 0.3;

pub(super) fn prepare<'a>(x: &'a [f32], time: Time<'_>, options: &Options) -> Option<Prepared<'a>> {
    let step_s = finest_step(time, x.len())?;
    let x = finite(x)?;
    let level_changes = is_level_changes(&x, time);
    let states = levels::state_levels(&x)?;
    let waveform = find_waveform(&x, &states, level_changes, options);
    let (x, wrapped) = match waveform {
        Waveform::Alternating => wrapped::unwrap_samples(x),
        Waveform::TwoLevel => (x, 0),
    };
    let averaged = if level_changes { 1 } else { choose_average(&x) };
    let x = average(x, averaged);
    let step_s = step_s * averaged as f64;
    let quantile = |q| stats::sampled_quantile(&x, q, 100_000);
    let (low, high) = match waveform {
        Waveform::TwoLevel => (states.low, states.high),
        Waveform::Alternating => (quantile(0.001)?, quantile(0.999)?),
    };
    let noise = levels::noise_level(&x);
    let floor = match noise {
        Some(sigma) => (NOISE_SWING * sigma).max(4.0 * levels::resolution(&x).min((high - low) / 8.0)),
        None => UNKNOWN_NOISE_SHARE * (high - low),
    };
    let threshold = match waveform {
        Waveform::TwoLevel => floor.max(LEVEL_SHARE * (high - low)),
        Waveform::Alternating => floor,
    };
    let quality = SignalQuality {
        waveform,
        low,
        high,
        noise,
        threshold,
        step_s,
        level_changes,
        averaged,
        wrapped,
        highest_hz: 0.25 / step_s,
    };
    Some(Prepared { x, quality })
}

/// Mean step of an even record; the smallest of a listed one that is uneven.
fn finest_step(time: Time<'_>, len: usize) -> Option<f64> {
    let mean = time.mean_step(len).filter(|&s| s > 0.0)?;
    let Time::Listed(t) = time else {
        return Some(mean);
    };
    let steps = t.windows(2).map(|w| w[1] - w[0]).filter(|s| *s > 0.0);
    let smallest = steps.fold(f64::INFINITY, f64::min);
    // Stamps that are rounded vary a little about an even step.
    Some(if smallest > 0.2 * mean { mean } else { smallest })
}

/// Marks of over-range become the largest finite sample.
fn finite(x: &[f32]) -> Option<Cow<'_, [f32]>> {
    let infinite = |c: &[f32]| c.iter().fold(false, |any, v| any | v.is_infinite());
    if !x.chunks(1024).any(infinite) {
        return Some(Cow::Borrowed(x));
    }
    let finite: Vec<f32> = x.iter().copied().filter(|v| v.is_finite()).collect();
    let (low, high) = levels::extremes(&finite)?;
    let held = x.iter().map(|&v| if v.is_infinite() { v.clamp(low, high) } else { v });
    Some(Cow::Owned(held.collect()))
}

/// Whether a record lists level changes: two values only, at very uneven times.
fn is_level_changes(x: &[f32], time: Time<'_>) -> bool {
    let Time::Listed(t) = time else {
        return false;
    };
    let Some((low, high)) = levels::extremes(x) else {
        return false;
    };
    let near = 0.02 * (high - low);
    if !x.iter().all(|&v| v - low <= near || high - v <= near) {
        return false;
    }
    let mut steps: Vec<f64> = t.windows(2).map(|w| w[1] - w[0]).collect();
    steps.sort_unstable_by(f64::total_cmp);
    let at = |q: f64| steps.get((q * (steps.len().max(1) - 1) as f64) as usize).copied().unwrap_or(0.0);
    at(0.9) > 1.5 * at(0.1)
}

/// Two levels: both are taken, hardly anything lies beyond them, little between.
fn find_waveform(x: &[f32], states: &levels::Levels, level_changes: bool, options: &Options) -> Waveform {
    let share = levels::shares(x, states);
    let two = share.low.min(share.high) > 0.002 && share.beyond < 0.005 && share.low + share.high > 0.8;
    let likely = matches!(options.sensor, Some(SensorKind::Hall | SensorKind::CurrentLoop));
    match (options.sensor, two) {
        _ if level_changes => Waveform::TwoLevel,
        // A coil whose wheel turns fast from end to end can look like two levels; it need not keep them.
        (Some(SensorKind::Coil), _) => Waveform::Alternating,
        (_, true) => Waveform::TwoLevel,
        _ if likely && share.low + share.high > 0.6 && share.beyond < 0.02 => Waveform::TwoLevel,
        _ => Waveform::Alternating,
    }
}

/// Number of samples to average into one: none for a clear signal, else what lifts its range furthest above the noise.
fn choose_average(x: &[f32]) -> usize {
    let clearness = |x: &[f32]| {
        let sigma = levels::noise_level(x).filter(|s| *s > 0.0)?;
        let quantile = |q| stats::sampled_quantile(x, q, 50_000);
        Some((quantile(0.99)? - quantile(0.01)?) / sigma)
    };
    let Some(plain) = clearness(x).filter(|c| *c < CLEAR) else {
        return 1;
    };
    let mut best = (1, 1.3 * plain);
    for n in [4, 16, 64, 256] {
        if x.len() / n < 256 || best.1 > CLEAR {
            break;
        }
        let Some(found) = clearness(&block_means(x, n)) else {
            continue;
        };
        if found > best.1 {
            best = (n, found);
        }
    }
    best.0
}

fn average(x: Cow<'_, [f32]>, n: usize) -> Cow<'_, [f32]> {
    match n {
        1 => x,
        _ => Cow::Owned(block_means(&x, n)),
    }
}

fn block_means(x: &[f32], n: usize) -> Vec<f32> {
    x.chunks_exact(n)
        .map(|c| c.iter().sum::<f32>() / n as f32)
        .collect()
}
