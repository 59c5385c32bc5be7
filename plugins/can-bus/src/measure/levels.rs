//! Levels of both lines, recessive and dominant.

use super::edges::Logic;
use plugin_sdk::signal::stats;

/// Share of a bit next to an edge that is left out, where a bit has samples enough: edges and ringing are no levels.
const GUARD_BITS: f64 = 0.3;
/// Idle time before the first and after the last edge that still counts, in bits: a sleeping bus is no recessive one.
const MARGIN_BITS: f64 = 12.0;
/// Number of samples from which medians are taken; more are thinned.
const ENOUGH: usize = 200_000;
/// Shares of a level's own accuracy that no number of samples improves: the recorder's gain (1 %, common practice).
const GAIN_ACCURACY: f64 = 0.01;

/// A level.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Level {
    /// Median, V.
    pub volts: f64,
    /// Standard uncertainty (k = 1), V: scatter over the root of the samples, and the recorder's gain.
    pub uncertainty: f64,
    /// Samples behind it.
    pub samples: usize,
}

/// The levels of both lines in one state of the bus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct State {
    /// CAN high.
    pub high: Level,
    /// CAN low.
    pub low: Level,
    /// High less low, median of the differences.
    pub differential: Level,
}

impl State {
    /// Mean of both lines, V.
    pub fn common_mode(&self) -> f64 {
        (self.high.volts + self.low.volts) / 2.0
    }
}

/// Both states; `None` where a state does not occur.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Levels {
    /// Nobody drives the bus.
    pub recessive: Option<State>,
    /// Somebody does.
    pub dominant: Option<State>,
}

/// Measures the levels of the states that `logic` tells apart. `bit` is the bit time in samples, where known.
pub fn levels(high: &[f32], low: &[f32], logic: &Logic, bit: Option<f64>) -> Levels {
    let n = high.len().min(low.len());
    let guard = match bit {
        Some(bit) if bit >= 6.0 => GUARD_BITS * bit,
        _ => 0.5,
    };
    let margin = bit.map_or(f64::INFINITY, |bit| MARGIN_BITS * bit);
    let (mut recessive, mut dominant) = (Picked::default(), Picked::default());
    for (from, to, is_dominant) in segments(logic, margin) {
        let first = (from + guard).ceil().max(0.0) as usize;
        let last = (to - guard).floor().min(n as f64 - 1.0);
        let picked = if is_dominant {
            &mut dominant
        } else {
            &mut recessive
        };
        if last >= first as f64 {
            picked.take(&high[first..=last as usize], &low[first..=last as usize]);
        }
    }
    Levels {
        recessive: recessive.state(),
        dominant: dominant.state(),
    }
}

/// Stretches of one state, in samples.
fn segments(logic: &Logic, margin: f64) -> Vec<(f64, f64, bool)> {
    let end = logic.samples as f64;
    let Some((first, last)) = logic.edges.first().zip(logic.edges.last()) else {
        return vec![(-1.0, end, logic.starts_dominant)];
    };
    let mut all = vec![(
        (first.at - margin).max(-1.0),
        first.at,
        logic.starts_dominant,
    )];
    all.extend(
        logic
            .edges
            .windows(2)
            .map(|w| (w[0].at, w[1].at, w[0].dominant)),
    );
    all.push((last.at, (last.at + margin).min(end), last.dominant));
    all
}

/// Samples of one state.
#[derive(Debug, Default)]
pub struct Picked {
    high: Vec<f64>,
    low: Vec<f64>,
}

impl Picked {
    /// Adds samples of both lines.
    pub fn take(&mut self, high: &[f32], low: &[f32]) {
        for (&h, &l) in high.iter().zip(low) {
            if h.is_finite() && l.is_finite() {
                self.high.push(f64::from(h));
                self.low.push(f64::from(l));
            }
        }
    }

    /// Medians. `None` without samples.
    pub fn state(&self) -> Option<State> {
        let step = (self.high.len() / ENOUGH).max(1);
        let thin = |values: &[f64]| values.iter().step_by(step).copied().collect::<Vec<f64>>();
        let (high, low) = (thin(&self.high), thin(&self.low));
        let differential: Vec<f64> = high.iter().zip(&low).map(|(h, l)| h - l).collect();
        Some(State {
            high: level(&high)?,
            low: level(&low)?,
            differential: level(&differential)?,
        })
    }
}

fn level(values: &[f64]) -> Option<Level> {
    let volts = stats::median(values)?;
    // The median's standard error is 1.25 times that of the mean (normal distribution).
    let scatter = 1.4826 * stats::median_abs_deviation(values)?;
    let statistical = 1.25 * scatter / (values.len() as f64).sqrt();
    Some(Level {
        volts,
        uncertainty: statistical.hypot(GAIN_ACCURACY * volts),
        samples: values.len(),
    })
}
