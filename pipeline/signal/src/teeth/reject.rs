//! Reasons why a run of pulses is no readable train of teeth.

use super::motion::Motion;
use super::options::Options;
use super::positions::PlacedEdge;
use crate::stats;
use std::fmt;

/// Reason why pulses are not read as a turning shaft.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum RejectReason {
    /// Fewer than four samples a pitch: any speed may be an alias. Samples per pitch.
    Undersampled(f64),
    /// Pitches scatter by this much from one to the next (upper quartile of |ln| of their ratio).
    Dithering(f64),
    /// Pulses are missing or doubled without a pattern; their share.
    Irregular(f64),
    /// The amplitude is too small for the sensor, in the signal's unit.
    SmallAmplitude(f64),
    /// Pulses of constant width in time, not in angle: share of the period.
    Spikes(f64),
    /// Steadier than any shaft that an engine turns: spread of the period over the segment (5 to 95 %).
    TooRegular(f64),
    /// Hum of the mains, Hz.
    Hum(f64),
    /// Its speed would change faster than the shaft's inertia allows, rpm/s.
    TooQuick(f64),
    /// Noise hides teeth, or may hide them, up to this rate, Hz.
    Noise(f64),
}

impl fmt::Display for RejectReason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            RejectReason::Undersampled(n) => write!(f, "only {n:.1} samples a tooth"),
            RejectReason::Dithering(j) => {
                write!(
                    f,
                    "the period scatters by {:.0} % from one to the next",
                    100.0 * j
                )
            }
            RejectReason::Irregular(s) => {
                write!(
                    f,
                    "{:.0} % of the pulses are missing or doubled without a pattern",
                    100.0 * s
                )
            }
            RejectReason::SmallAmplitude(v) => write!(f, "its amplitude is only {v:.2}"),
            RejectReason::Spikes(d) => write!(f, "spikes of {:.1} % of the period", 100.0 * d),
            RejectReason::TooRegular(r) => {
                write!(
                    f,
                    "its rate varies by only {:.2} %, like a clock's",
                    100.0 * r
                )
            }
            RejectReason::Hum(hz) => write!(f, "mains hum at {hz:.1} Hz"),
            RejectReason::TooQuick(a) => {
                write!(
                    f,
                    "its speed would change by {a:.0} rpm/s, more than a shaft can"
                )
            }
            RejectReason::Noise(hz) => write!(f, "noise would hide teeth up to {hz:.1} Hz"),
        }
    }
}

/// Fewest samples a pitch.
pub(super) const LEAST_SAMPLES: f64 = 4.0;

/// Scatter of the pitch from which on one edge may merely come and go.
const MOST_SCATTER: f64 = 0.2;

/// The same for a run of few positions, which can look even by chance.
const MOST_SCATTER_FEW: f64 = 0.15;

/// The same for a wheel of few or unequal pitches: an engine that is started or misfires changes its speed by a third
/// within a turn.
const MOST_SCATTER_UNEVEN: f64 = 0.25;

/// Share of pitches without their pulse, or with two, that a pattern does not explain.
const MOST_IRREGULAR: f64 = 0.12;

/// Share by which a controller's clock may wander within one recording; common practice, no source. An idling engine's speed
/// wanders ten times as much.
const CRYSTAL: f64 = 0.0002;

/// Spread (5 to 95 %) that a sample either way at both ends leaves in the length of a stretch, samples: 1.37 by the
/// triangular distribution, and a margin for few stretches.
const SAMPLING: f64 = 1.6;

/// Facts of a run beside its motion.
pub(super) struct RunFacts<'a> {
    pub edges: &'a [PlacedEdge],
    /// Positions per turn.
    pub turn: Option<u32>,
    pub two_level: bool,
    /// The wheel's pitches are few or unequal.
    pub uneven: bool,
    /// The wheel shows a mark once a turn.
    pub marked: bool,
    /// Share of the pitches without their pulse, or with two, beyond the pattern.
    pub irregular: f64,
    /// Finest step of time, s.
    pub step_s: f64,
    /// Samples per pitch at the fastest speed that the shaft can have, where too few.
    pub alias: Option<f64>,
    /// Hardly more than noise.
    pub weak: bool,
}

/// First reason that applies.
pub(super) fn find_reason(
    m: &Motion,
    run: &RunFacts<'_>,
    options: &Options,
) -> Option<RejectReason> {
    if run.two_level && m.amplitude < options.least_amplitude {
        return Some(RejectReason::SmallAmplitude(m.amplitude));
    }
    if let Some(samples) = run.alias {
        return Some(RejectReason::Undersampled(samples));
    }
    if m.samples_per_pitch < LEAST_SAMPLES {
        return Some(RejectReason::Undersampled(m.samples_per_pitch));
    }
    if run.weak {
        return Some(RejectReason::Noise(m.hz));
    }
    let most = match m.positions {
        ..16 => MOST_SCATTER_FEW,
        _ if run.uneven => MOST_SCATTER_UNEVEN,
        _ => MOST_SCATTER,
    };
    if m.scatter > most {
        return Some(RejectReason::Dithering(m.scatter));
    }
    if run.irregular > MOST_IRREGULAR {
        return Some(RejectReason::Irregular(run.irregular));
    }
    // Hum is a wave; pulses are none.
    let wave = (0.3..=0.7).contains(&m.duty) && !run.two_level;
    if let Some(hum) = find_hum(m).filter(|_| wave) {
        return Some(hum);
    }
    m.too_quick(run.turn, options.max_acceleration)
        // No clock leaves a pulse out once a turn.
        .or_else(|| {
            let even = clockwork(run.edges, run.step_s).filter(|_| !run.marked);
            even.map(RejectReason::TooRegular)
        })
}

/// Mains hum: the whole segment within half a percent of 50 or 60 Hz or of twice that (EN 50160 keeps 50 Hz within 1 %
/// for 99.5 % of a year; from memory).
fn find_hum(m: &Motion) -> Option<RejectReason> {
    let all = [m.hz, m.lowest_hz, m.highest_hz].into_iter().all(is_hum);
    (all && m.highest_hz < 1.01 * m.lowest_hz).then_some(RejectReason::Hum(m.hz))
}

/// Tells whether a rate is that of the mains or twice it, within half a percent.
pub(super) fn is_hum(hz: f64) -> bool {
    [50.0, 60.0, 100.0, 120.0]
        .iter()
        .any(|line| (hz / line - 1.0).abs() < 0.005)
}

/// Spread of the period of a train that keeps time like a clock; `None` for any other train, and where that cannot be
/// told.
///
/// A clock's rate varies by what sampling makes of it, about one sample (`step_s`) either way at the ends of a stretch,
/// and by a crystal's tolerance, over stretches of every length. An idle that hunts about once a second is as even as
/// that over whole seconds, but not over parts of one. Where a sample is too coarse a measure even for the longest
/// stretches, nothing can be told.
fn clockwork(edges: &[PlacedEdge], step_s: f64) -> Option<f64> {
    let length_s = edges.last()?.at_s - edges.first()?.at_s;
    let stretches = [10.0, 20.0, 40.0].map(|parts| (length_s / parts).max(0.2));
    let spread = spread_over(edges, stretches[0])?;
    let even = stretches.iter().all(|&stretch_s| {
        let within = SAMPLING * step_s / stretch_s + CRYSTAL;
        spread_over(edges, stretch_s).is_none_or(|spread| spread < within)
    });
    (even && step_s / stretches[0] < 0.001).then_some(spread)
}

/// Spread (5 to 95 %) of the mean pitch over successive stretches, share of the median. `None` with fewer than 8.
fn spread_over(edges: &[PlacedEdge], stretch_s: f64) -> Option<f64> {
    let mut means = Vec::new();
    let (mut from, mut positions) = (edges.first()?.at_s, 0.0);
    for e in &edges[1..] {
        positions += f64::from(e.step);
        if e.at_s - from >= stretch_s {
            means.push((e.at_s - from) / positions);
            (from, positions) = (e.at_s, 0.0);
        }
    }
    if means.len() < 8 {
        return None;
    }
    Some((stats::quantile(&means, 0.95)? - stats::quantile(&means, 0.05)?) / stats::median(&means)?)
}
