//! Spans of turning: where they start and end, how fast, how steady.

use super::{Doubt, Options, Waveform};
use crate::edges::Edge;
use crate::{Time, stats};
use std::collections::VecDeque;

/// How a span ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ending {
    /// It slows down to nothing.
    Decay,
    /// It stops from speed.
    Sudden,
    /// The record ends first.
    RecordEnd,
}

/// The longest stretch of steady speed within a span.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plateau {
    /// Start, s.
    pub start_s: f64,
    /// End, s.
    pub end_s: f64,
    /// Median tooth rate, Hz.
    pub hz: f64,
}

/// A span of turning, or of what looks like it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// First rising edge, s.
    pub start_s: f64,
    /// Last rising edge, s.
    pub end_s: f64,
    /// Index of its first rising edge.
    pub first: usize,
    /// Index of its last rising edge.
    pub last: usize,
    /// Tooth rate over the span, median by time, Hz, counting pitch positions.
    pub hz: f64,
    /// Scatter of the tooth rate over the span (half of its 16 to 84 % range), Hz.
    pub spread_hz: f64,
    /// Upper quartile of |ln| of the ratio of successive periods, less their median (a steady acceleration), taken over so many teeth that sampling does not show.
    pub jitter: f64,
    /// Change of the tooth rate from one stretch of a few teeth to the next, Hz/s: what nine in ten stay below.
    pub acceleration_hz_s: f64,
    /// Share of the period on the high level, median.
    pub duty: f64,
    /// Swing from lowest to highest within the span (2 % to 98 % quantiles), in the signal's unit.
    pub swing: f64,
    /// Samples per period at the span's tooth rate.
    pub samples_per_period: f64,
    /// The longest stretch of steady speed.
    pub plateau: Plateau,
    /// How it ends.
    pub ending: Ending,
    /// Why it is not taken for a turning shaft.
    pub doubt: Option<Doubt>,
}

const LEAST_EDGES: usize = 8;

/// Common practice, no source: how much a controller's clock may wander within one recording. An idling engine's
/// speed wanders ten times as much.
const CRYSTAL: f64 = 0.0002;

type Built = (Vec<Span>, Vec<f64>, Vec<(f64, f64)>);

#[allow(clippy::too_many_arguments)]
pub(super) fn build(
    x: &[f32],
    time: Time<'_>,
    step: f64,
    edges: &[Edge],
    low: f64,
    high: f64,
    waveform: Waveform,
    o: &Options,
) -> Built {
    let rises: Vec<f64> = edges
        .iter()
        .filter(|e| e.rising)
        .map(|e| time.between(e.at))
        .collect();
    let falls: Vec<f64> = edges
        .iter()
        .filter(|e| !e.rising)
        .map(|e| time.between(e.at))
        .collect();
    let record_end = time.at(x.len() - 1);
    let longest = 1.0 / o.least_tooth_rate();
    let mut dropouts = Vec::new();
    let mut spans = Vec::new();
    let mut first = 0;
    for k in 1..=rises.len() {
        let breaks = k == rises.len() || {
            let gap = rises[k] - rises[k - 1];
            match hole(&rises, first, k, gap) {
                true => {
                    dropouts.push((rises[k - 1], rises[k]));
                    false
                }
                false => gap > longest,
            }
        };
        if !breaks {
            continue;
        }
        if k - first >= LEAST_EDGES {
            let range = first..k;
            spans.push(describe(
                x, time, step, &rises, &falls, range, record_end, low, high, waveform, o,
            ));
        }
        first = k;
    }
    // Holes outside of any real span are just pauses between edges.
    dropouts.retain(|d| {
        spans
            .iter()
            .any(|s: &Span| s.doubt.is_none() && s.start_s <= d.0 && d.1 <= s.end_s)
    });
    (spans, rises, dropouts)
}

/// Whether the gap before edge `k` is a hole in a steady train: at least four periods long, at most 1 s, and the
/// teeth go on after it as fast as before, which no shaft does that has stopped in between.
fn hole(rises: &[f64], first: usize, k: usize, gap: f64) -> bool {
    const NEAR: usize = 4;
    if k < first + NEAR || k + NEAR >= rises.len() || gap > 1.0 {
        return false;
    }
    let period = |a: usize, b: usize| {
        stats::median(
            &rises[a..=b]
                .windows(2)
                .map(|w| w[1] - w[0])
                .collect::<Vec<_>>(),
        )
    };
    let (Some(before), Some(after)) = (period(k - NEAR, k - 1), period(k, k + NEAR - 1)) else {
        return false;
    };
    gap > 4.0 * before && (after / before).ln().abs() < 0.2
}

#[allow(clippy::too_many_arguments)]
fn describe(
    x: &[f32],
    time: Time<'_>,
    step: f64,
    rises: &[f64],
    falls: &[f64],
    range: std::ops::Range<usize>,
    record_end: f64,
    low: f64,
    high: f64,
    waveform: Waveform,
    o: &Options,
) -> Span {
    let own = &rises[range.clone()];
    let (start_s, end_s) = (own[0], own[own.len() - 1]);
    let periods: Vec<f64> = own.windows(2).map(|w| w[1] - w[0]).collect();
    let typical = stats::median(&periods).unwrap_or(f64::INFINITY);
    let samples_per_period = typical / step;
    let pitches = pitch_periods(&periods, samples_per_period);
    let hz = time_median(&pitches, 0.5).map_or(0.0, |p| 1.0 / p);
    let spread_hz = match (time_median(&pitches, 0.16), time_median(&pitches, 0.84)) {
        (Some(a), Some(b)) => (1.0 / a - 1.0 / b).abs() / 2.0,
        _ => 0.0,
    };
    // Over so many teeth that one sample is less than 3 % of the stretch.
    let group = ((32.0 / samples_per_period).ceil() as usize).clamp(1, (own.len() - 1) / 4 + 1);
    let stretches: Vec<(f64, f64)> = own
        .windows(group + 1)
        .step_by(group)
        .map(|w| (w[0], (w[group] - w[0]) / group as f64))
        .collect();
    let steps: Vec<f64> = stretches
        .windows(2)
        .map(|w| (w[1].1 / w[0].1).ln())
        .collect();
    // A steady acceleration is no scatter.
    let trend = stats::median(&steps).unwrap_or(0.0);
    let scatter: Vec<f64> = steps.iter().map(|s| (s - trend).abs()).collect();
    let jitter = stats::quantile(&scatter, 0.75).unwrap_or(0.0);
    let changes: Vec<f64> = stretches
        .windows(2)
        .map(|w| ((1.0 / w[1].1 - 1.0 / w[0].1) / (w[1].0 - w[0].0)).abs())
        .collect();
    let acceleration_hz_s = stats::quantile(&changes, 0.9).unwrap_or(0.0);
    let duty = duty(own, falls);
    let a = time.index_at(start_s, x.len());
    let b = time.index_at(end_s, x.len()).max(a + 1).min(x.len());
    let part = &x[a.min(b - 1)..b];
    let q = |q| stats::sampled_quantile(part, q, 50_000).unwrap_or(0.0);
    let swing = q(0.98) - q(0.02);
    let plateau = plateau(&stretches, group, end_s);
    let ending = if record_end - end_s < (3.0 * typical).max(0.05) {
        Ending::RecordEnd
    } else {
        let last = stats::median(&periods[periods.len().saturating_sub(3)..]).unwrap_or(typical);
        if last > 1.7 / plateau.hz {
            Ending::Decay
        } else {
            Ending::Sudden
        }
    };
    let mut span = Span {
        start_s,
        end_s,
        first: range.start,
        last: range.end - 1,
        hz,
        spread_hz,
        jitter,
        acceleration_hz_s,
        duty,
        swing,
        samples_per_period,
        plateau,
        ending,
        doubt: None,
    };
    span.doubt = doubt(&span, own, high - low, waveform, o);
    span
}

/// Mean pitch periods over stretches of at least 200 samples (so that one sample is half a percent), each with
/// its length. A missing tooth counts as the positions it stands for; a hole in the train counts not at all.
fn pitch_periods(periods: &[f64], samples_per_period: f64) -> Vec<(f64, f64)> {
    let typical = stats::median(periods).unwrap_or(0.0);
    let long_enough = 200.0 * typical / samples_per_period;
    let mut out = Vec::new();
    let (mut length, mut positions) = (0.0, 0.0);
    for (k, &p) in periods.iter().enumerate() {
        if let Some(n) = positions_in(periods, k) {
            length += p;
            positions += n;
        }
        if length >= long_enough {
            out.push((length / positions, length));
            (length, positions) = (0.0, 0.0);
        }
    }
    if length > 0.0 {
        out.push((length / positions, length));
    }
    out
}

/// How many pitch positions period `k` spans, judged by its neighbours: 1 for a tooth, 2 or 3 over missing teeth,
/// `None` for a hole.
pub(super) fn positions_in(periods: &[f64], k: usize) -> Option<f64> {
    const NEAR: usize = 4;
    let around = &periods[k.saturating_sub(NEAR)..(k + NEAR + 1).min(periods.len())];
    let n = (periods[k] / stats::median(around)?).round().max(1.0);
    (n <= 3.0).then_some(n)
}

/// Quantile of (period, length) pairs by length: the median by time, not by tooth.
fn time_median(pitches: &[(f64, f64)], q: f64) -> Option<f64> {
    let mut p = pitches.to_vec();
    p.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
    let part = p.iter().map(|p| p.1).sum::<f64>() * q;
    let mut sum = 0.0;
    p.iter()
        .find(|p| {
            sum += p.1;
            sum >= part
        })
        .map(|p| p.0)
}

fn duty(rises: &[f64], falls: &[f64]) -> f64 {
    let shares: Vec<f64> = rises
        .windows(2)
        .filter_map(|w| {
            let k = falls.partition_point(|&f| f <= w[0]);
            let f = *falls.get(k)?;
            (f < w[1]).then(|| (f - w[0]) / (w[1] - w[0]))
        })
        .collect();
    stats::median(&shares).unwrap_or(0.5)
}

/// Longest stretch in which the fastest is at most 1.35 times the slowest.
fn plateau(stretches: &[(f64, f64)], group: usize, end_s: f64) -> Plateau {
    let mut low: VecDeque<usize> = VecDeque::new();
    let mut high: VecDeque<usize> = VecDeque::new();
    let mut from = 0;
    let mut best = (0, 0, -1.0);
    let stop = |k: usize| (stretches[k].0 + stretches[k].1 * group as f64).min(end_s);
    for k in 0..stretches.len() {
        while low
            .back()
            .is_some_and(|&j| stretches[j].1 >= stretches[k].1)
        {
            low.pop_back();
        }
        while high
            .back()
            .is_some_and(|&j| stretches[j].1 <= stretches[k].1)
        {
            high.pop_back();
        }
        low.push_back(k);
        high.push_back(k);
        while stretches[high[0]].1 > 1.35 * stretches[low[0]].1 {
            from += 1;
            if low[0] < from {
                low.pop_front();
            }
            if high[0] < from {
                high.pop_front();
            }
        }
        let length = stop(k) - stretches[from].0;
        if length > best.2 {
            best = (from, k, length);
        }
    }
    let periods: Vec<f64> = stretches[best.0..=best.1].iter().map(|s| s.1).collect();
    Plateau {
        start_s: stretches[best.0].0,
        end_s: stop(best.1),
        hz: stats::median(&periods).map_or(0.0, |p| 1.0 / p),
    }
}

fn doubt(s: &Span, own: &[f64], swing: f64, waveform: Waveform, o: &Options) -> Option<Doubt> {
    if waveform == Waveform::TwoLevel && swing < o.least_swing {
        return Some(Doubt::SmallSwing(swing));
    }
    if s.samples_per_period < 4.0 {
        return Some(Doubt::Undersampled(s.samples_per_period));
    }
    let rarer = s.duty.min(1.0 - s.duty);
    if waveform == Waveform::TwoLevel && rarer < 0.12 && s.samples_per_period > 10.0 {
        return Some(Doubt::Spikes(rarer));
    }
    // Sampling alone: half a sample either end of a stretch of at least 32 samples is below 0.02.
    // A few edges can look even by chance.
    let most = if s.last - s.first < 16 { 0.12 } else { 0.2 };
    if s.jitter > most {
        return Some(Doubt::Dithering(s.jitter));
    }
    // One sample at either end of a stretch is no acceleration.
    let per_rpm = o.teeth.map(|n| f64::from(n) / 60.0);
    if let Some(bound) = per_rpm.map(|r| r * o.most_acceleration)
        && s.acceleration_hz_s > bound
    {
        let rpm_s = s.acceleration_hz_s / per_rpm.unwrap_or(1.0);
        return Some(Doubt::TooQuick(rpm_s));
    }
    clockwork(own, 1.0 / (s.samples_per_period * s.hz)).map(Doubt::TooRegular)
}

/// Spread of the period of a train that keeps time like a clock; `None` for any other train, and where that cannot
/// be told.
///
/// A clock's rate varies by what sampling makes of it, about one sample (`step_s`) either way at the ends of a
/// stretch, and by a crystal's tolerance, over stretches of every length. An idle that hunts about once a second is
/// as even as that over whole seconds, but not over parts of one. Where a sample is too coarse a measure even for the
/// longest stretches, nothing can be told.
fn clockwork(own: &[f64], step_s: f64) -> Option<f64> {
    let length_s = own.last()? - own.first()?;
    let stretches = [10.0, 20.0, 40.0].map(|parts| (length_s / parts).max(0.2));
    let spread = spread_over(own, stretches[0])?;
    let even = stretches.iter().all(|&stretch_s| {
        let within = 1.3 * step_s / stretch_s + CRYSTAL;
        spread_over(own, stretch_s).is_none_or(|spread| spread < within)
    });
    (even && step_s / stretches[0] < 0.001).then_some(spread)
}

/// Spread (5 to 95 %) of the mean period over successive stretches, share of the median. `None` with fewer than 8 of
/// them.
fn spread_over(own: &[f64], stretch_s: f64) -> Option<f64> {
    let mut means = Vec::new();
    let mut from = 0;
    for k in 1..own.len() {
        if own[k] - own[from] >= stretch_s {
            means.push((own[k] - own[from]) / (k - from) as f64);
            from = k;
        }
    }
    if means.len() < 8 {
        return None;
    }
    Some((stats::quantile(&means, 0.95)? - stats::quantile(&means, 0.05)?) / stats::median(&means)?)
}
