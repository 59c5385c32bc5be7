//! A record made ready for edges: its kind, its levels, its noise, the averaging that it needs.

use super::options::{Options, SensorKind};
use super::swings::find_swings;
use super::wrapped;
use crate::levels::{self, QuietBlocks};
use crate::{Time, detection, stats};
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

/// Amplitude from peak to peak that white noise of `n` samples passes about once, standard deviations: the value that one
/// sample in `n` exceeds, either way. It is the critical value of an edge.
fn noise_swing(n: usize) -> f64 {
    2.0 * detection::normal_quantile(1.0 - 1.0 / n.max(100) as f64)
}

/// Range over noise above which nothing needs to be averaged.
const CLEAR: f64 = 25.0;

/// Shares of the range that an edge must reach at least, and need not pass, where the noise is not known.
const UNKNOWN_NOISE_SHARES: (f64, f64) = (0.05, 0.3);

/// Share of the amplitude that an edge of a two-level signal must reach.
const LEVEL_SHARE: f64 = 0.3;

pub(super) fn prepare<'a>(x: &'a [f32], time: Time<'_>, options: &Options) -> Option<Prepared<'a>> {
    let step_s = finest_step(time, x.len())?;
    let x = finite(x)?;
    let level_changes = is_level_changes(&x, time);
    let states = levels::state_levels(&x)?;
    let waveform = find_waveform(&x, &states, level_changes, options);
    let (x, wrapped) = match waveform {
        // Steps between two levels are no wraps, whatever the sensor is said to be.
        Waveform::Alternating if !is_two_level(&x, &states) && !is_steep(&x) => {
            wrapped::unwrap_samples(x)
        }
        _ => (x, 0),
    };
    let logic = levels::is_logic(&x);
    let clear =
        is_two_level(&x, &states) && states.amplitude() > CLEAR * levels::noise_about(&x, &states);
    let (x, averaged) = match logic || clear {
        true => (x, 1),
        false => choose_average(x),
    };
    let plain = Plain {
        options,
        logic,
        level_changes,
        wrapped,
    };
    let mut prepared = plain.measure(x, step_s, averaged)?;
    if let Some(more) = plain.further_average(&prepared) {
        let x = average(prepared.x, more);
        prepared = plain.measure(x, step_s, averaged * more)?;
    }
    Some(prepared)
}

/// Facts of a record that averaging does not change.
struct Plain<'a> {
    options: &'a Options,
    logic: bool,
    level_changes: bool,
    wrapped: usize,
}

/// Samples a pitch that are left when a noisy record is averaged.
const SAMPLES_LEFT: f64 = 32.0;

impl Plain<'_> {
    fn measure<'a>(&self, x: Cow<'a, [f32]>, step_s: f64, averaged: usize) -> Option<Prepared<'a>> {
        let states = levels::state_levels(&x)?;
        let waveform = find_waveform(&x, &states, self.level_changes, self.options);
        let step_s = step_s * averaged as f64;
        let quantile = |q| stats::sampled_quantile(&x, q, 100_000);
        let (low, high) = match waveform {
            Waveform::TwoLevel => (states.low, states.high),
            Waveform::Alternating => (quantile(0.001)?, quantile(0.999)?),
        };
        let noise = match waveform {
            _ if self.logic => Some(0.0),
            // Narrow pulses that come often look like noise themselves.
            Waveform::TwoLevel if is_two_level(&x, &states) => {
                Some(levels::noise_about(&x, &states))
            }
            _ => levels::noise_level(&x),
        };
        let floor = match noise {
            Some(sigma) => noise_swing(x.len()) * sigma,
            None => {
                let (least, most) = UNKNOWN_NOISE_SHARES;
                let range = high - low;
                (noise_swing(x.len()) * levels::roughness(&x)).clamp(least * range, most * range)
            }
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
            level_changes: self.level_changes,
            averaged,
            wrapped: self.wrapped,
            highest_hz: 0.25 / step_s,
        };
        Some(Prepared { x, quality })
    }

    /// Further samples to average into one where noise sets the threshold and the fastest pitches leave room for it.
    fn further_average(&self, prepared: &Prepared<'_>) -> Option<usize> {
        let q = &prepared.quality;
        let noisy = q
            .noise
            .is_some_and(|_| q.threshold > 0.02 * (q.high - q.low));
        if self.logic || !noisy {
            return None;
        }
        let swings = find_swings(&prepared.x, q.threshold, false);
        let mut pitches: Vec<f64> = swings.windows(3).map(|w| w[2].at - w[0].at).collect();
        let fast = stats::quantile_of(&mut pitches, 0.05)?;
        let more = (fast / SAMPLES_LEFT) as usize;
        (pitches.len() >= 8 && more >= 2).then_some(more)
    }
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
    Some(if smallest > 0.2 * mean {
        mean
    } else {
        smallest
    })
}

/// Marks of over-range become the largest finite sample.
fn finite(x: &[f32]) -> Option<Cow<'_, [f32]>> {
    let infinite = |c: &[f32]| c.iter().fold(false, |any, v| any | v.is_infinite());
    if !x.chunks(1024).any(infinite) {
        return Some(Cow::Borrowed(x));
    }
    let finite: Vec<f32> = x.iter().copied().filter(|v| v.is_finite()).collect();
    let (low, high) = levels::extremes(&finite)?;
    let held = x.iter().map(|&v| {
        if v.is_infinite() {
            v.clamp(low, high)
        } else {
            v
        }
    });
    Some(Cow::Owned(held.collect()))
}

/// Tells whether a record lists level changes: two values only, and intervals of many different lengths (those of a sampling
/// whose stamps were rounded take a few).
fn is_level_changes(x: &[f32], time: Time<'_>) -> bool {
    let Time::Listed(t) = time else {
        return false;
    };
    let two_values = |(low, high)| x.iter().all(|&v| v == low || v == high);
    if !levels::extremes(x).is_some_and(two_values) {
        return false;
    }
    let mut steps: Vec<f64> = t.windows(2).map(|w| w[1] - w[0]).collect();
    steps.sort_unstable_by(f64::total_cmp);
    let mean = (t[t.len() - 1] - t[0]) / steps.len() as f64;
    let lengths = steps.chunk_by(|a, b| b - a < 1e-5 * mean).count();
    let (short, long) = (steps[steps.len() / 10], steps[steps.len() * 9 / 10]);
    let changes = x.windows(2).filter(|w| w[0] != w[1]).count() as f64 / x.len() as f64;
    long > 1.5 * short
        || lengths * 10 > steps.len() && changes > 0.3
        || long > 1.02 * short && changes > 0.9
}

/// Share of the range that half of the steps from one sample to the next pass where a sudden step tells nothing of a wrap.
const STEEP: f64 = 0.2;

/// A signal of about ten samples a period or fewer steps from its top to its bottom by itself.
fn is_steep(x: &[f32]) -> bool {
    let quantile = |q| stats::sampled_quantile(x, q, 100_000);
    let Some((high, low)) = quantile(0.999).zip(quantile(0.001)) else {
        return false;
    };
    let great = STEEP * (high - low);
    // Counted, not sorted: there are millions of them. In parts, so that several are counted at once.
    const PART: usize = 1024;
    let (mut all, mut steep) = (0u64, 0u64);
    for (part, next) in x.chunks(PART).zip(x[1..].chunks(PART)) {
        let steps = part.iter().zip(next).map(|(a, b)| (b - a).abs());
        let is_great = |step: f32| step.is_finite() && f64::from(step) > great;
        all += u64::from(steps.clone().map(|s| u32::from(s.is_finite())).sum::<u32>());
        steep += u64::from(steps.map(|s| u32::from(is_great(s))).sum::<u32>());
    }
    2 * steep > all
}

/// Two levels: both are taken, hardly anything lies beyond them, little between.
fn is_two_level(x: &[f32], states: &levels::Levels) -> bool {
    let share = levels::shares(x, states);
    share.low.min(share.high) > 0.002 && share.beyond < 0.005 && share.low + share.high > 0.8
}

fn find_waveform(
    x: &[f32],
    states: &levels::Levels,
    level_changes: bool,
    options: &Options,
) -> Waveform {
    match options.sensor {
        _ if level_changes => Waveform::TwoLevel,
        // A coil whose wheel turns fast from end to end can look like two levels; it need not keep them.
        Some(SensorKind::Coil) => Waveform::Alternating,
        _ if is_two_level(x, states) => Waveform::TwoLevel,
        Some(SensorKind::Hall | SensorKind::CurrentLoop) => {
            let share = levels::shares(x, states);
            match share.low + share.high > 0.6 && share.beyond < 0.02 {
                true => Waveform::TwoLevel,
                false => Waveform::Alternating,
            }
        }
        None => Waveform::Alternating,
    }
}

/// Share of blocks with a signal in them from which on averaging would take teeth away.
const STRUCTURED: f64 = 0.1;

/// The samples averaged, and the number of them in one: none for a clear signal, else what lifts its range furthest above
/// the noise. As long as hardly any block of 64 samples shows more than noise, no tooth is quick enough to be averaged
/// away.
fn choose_average(x: Cow<'_, [f32]>) -> (Cow<'_, [f32]>, usize) {
    let clearness = |x: &[f32], quiet: &QuietBlocks| {
        let sigma = quiet.noise().filter(|s| *s > 0.0)?;
        let quantile = |q| stats::sampled_quantile(x, q, 50_000);
        Some((quantile(0.99)? - quantile(0.01)?) / sigma)
    };
    let mut quiet = QuietBlocks::find(&x);
    let Some(plain) = clearness(&x, &quiet).filter(|c| *c < CLEAR) else {
        return (x, 1);
    };
    let mut clearest = 1.3 * plain;
    let mut best = None;
    for n in [4, 16, 64, 256] {
        if x.len() / n < 256 || clearest > CLEAR || quiet.structured_share() > STRUCTURED {
            break;
        }
        let means = block_means(&x, n);
        quiet = QuietBlocks::find(&means);
        if let Some(found) = clearness(&means, &quiet).filter(|c| *c > clearest) {
            clearest = found;
            best = Some((Cow::Owned(means), n));
        }
    }
    best.unwrap_or((x, 1))
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
