//! The wheel tooth by tooth: averages over the turns of a train.

use super::pattern::PatternKind;
use super::train::{Edge, ToothTrain};
use crate::stats;
use std::f64::consts::TAU;

/// One place of the wheel, averaged over its turns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Pitch before the tooth against its neighbours', 1 for an even wheel; `NaN` where no tooth is.
    pub pitch: f64,
    /// Amplitude of the tooth against the turn's mean; `NaN` where no tooth is.
    pub amplitude: f64,
    /// Turns in which a tooth was seen here.
    pub seen: u32,
}

/// Averages over the turns of a wheel.
#[derive(Debug, Clone, PartialEq)]
pub struct Ring {
    /// Places in order of turning; the first is any.
    pub places: Vec<Place>,
    /// Turns averaged.
    pub turns: u32,
    /// Modulation of the amplitude once a turn, first harmonic against the mean, %.
    pub amplitude_runout: f64,
    /// Modulation of the pitch once a turn, %.
    pub pitch_runout: f64,
    /// Places without a tooth.
    pub missing: u32,
    /// Places whose tooth is weak: amplitude below 0.6 of its neighbours'.
    pub weak: u32,
    /// Edges that share a pitch with another, per turn.
    pub doubled: f64,
}

/// Turns that must be there.
const LEAST_TURNS: u32 = 3;

/// Amplitude against the neighbours' below which a tooth is broken or dirty.
const WEAK: f64 = 0.6;

/// Averages the longest segment of turning over its turns, at each place of the wheel. `None` where the positions per turn
/// are not known or are unequal, or with fewer than three turns.
pub fn average_ring(train: &ToothTrain) -> Option<Ring> {
    let positions = train.wheel.positions_per_turn()? as usize;
    let longest = train.turning().max_by_key(|s| s.last - s.first)?;
    let edges = train.edges_of(longest);
    if train.wheel.pattern.kind == PatternKind::Uneven || positions < 4 {
        return None;
    }
    let total: u32 = edges.iter().skip(1).map(|e| e.step).sum();
    let turns = total / positions as u32;
    if turns < LEAST_TURNS {
        return None;
    }
    let mut sums = vec![Sum::default(); positions];
    let mut position = 0usize;
    let sizes: Vec<f64> = edges.iter().map(|e| f64::from(e.amplitude)).collect();
    let per_turn = (edges.len() * positions / total as usize).max(1);
    for k in 1..edges.len().saturating_sub(1) {
        position += edges[k].step as usize;
        // Against the turn around it: a coil's amplitude follows the speed.
        let from = k.saturating_sub(per_turn / 2).min(edges.len() - per_turn);
        let mean = sizes[from..from + per_turn].iter().sum::<f64>() / per_turn as f64;
        sums[position % positions].add(edges, k, sizes[k] / mean);
    }
    let mut places: Vec<Place> = sums.iter().map(Sum::mean).collect();
    for p in places.iter_mut().filter(|p| p.seen * 2 < turns) {
        (p.pitch, p.amplitude) = (f64::NAN, f64::NAN);
    }
    Some(Ring {
        turns,
        amplitude_runout: 100.0 * first_harmonic(&places, |p| p.amplitude),
        pitch_runout: 100.0 * first_harmonic(&places, |p| p.pitch),
        missing: places.iter().filter(|p| p.pitch.is_nan()).count() as u32,
        weak: count_weak(&places),
        doubled: train.doubled as f64 / f64::from(turns),
        places,
    })
}

#[derive(Debug, Clone, Default)]
struct Sum {
    pitch: f64,
    amplitude: f64,
    pitches: u32,
    seen: u32,
}

impl Sum {
    fn add(&mut self, edges: &[Edge], k: usize, amplitude: f64) {
        self.seen += 1;
        self.amplitude += amplitude;
        let length = |j: usize| (edges[j].at_s - edges[j - 1].at_s) / f64::from(edges[j].step);
        // Against the pitch that follows and the one before: only single steps are a tooth's own.
        if k >= 2 && [k - 1, k, k + 1].iter().all(|&j| edges[j].step == 1) {
            self.pitch += 2.0 * length(k) / (length(k - 1) + length(k + 1));
            self.pitches += 1;
        }
    }

    fn mean(&self) -> Place {
        let pitch = match self.pitches {
            0 if self.seen > 0 => 1.0,
            0 => f64::NAN,
            n => self.pitch / f64::from(n),
        };
        Place {
            pitch,
            amplitude: self.amplitude / f64::from(self.seen),
            seen: self.seen,
        }
    }
}

/// Amplitude of the first harmonic over the places, against the mean: fitted to the places that are there by least
/// squares, which a gap in the wheel does not bend.
fn first_harmonic(places: &[Place], value: fn(&Place) -> f64) -> f64 {
    let n = places.len() as f64;
    let points: Vec<(f64, f64)> = places
        .iter()
        .enumerate()
        .filter(|(_, p)| value(p).is_finite())
        .map(|(k, p)| (TAU * k as f64 / n, value(p)))
        .collect();
    let mean = points.iter().map(|p| p.1).sum::<f64>() / points.len() as f64;
    let sum =
        |f: &dyn Fn(f64, f64) -> f64| points.iter().map(|&(a, v)| f(a, v - mean)).sum::<f64>();
    let (cc, ss, cs) = (
        sum(&|a, _| a.cos() * a.cos()),
        sum(&|a, _| a.sin() * a.sin()),
        sum(&|a, _| a.cos() * a.sin()),
    );
    let (cv, sv) = (sum(&|a, v| a.cos() * v), sum(&|a, v| a.sin() * v));
    let det = cc * ss - cs * cs;
    let (a, b) = ((cv * ss - sv * cs) / det, (sv * cc - cv * cs) / det);
    let found = a.hypot(b) / mean;
    if found.is_finite() { found } else { 0.0 }
}

fn count_weak(places: &[Place]) -> u32 {
    const NEAR: usize = 4;
    let n = places.len();
    let weak = |k: usize| {
        let own = places[k].amplitude;
        let near: Vec<f64> = (1..=NEAR)
            .flat_map(|d| {
                [
                    places[(k + d) % n].amplitude,
                    places[(k + n - d) % n].amplitude,
                ]
            })
            .collect();
        // Beside a gap a coil's amplitude is another.
        let beside = [places[(k + 1) % n], places[(k + n - 1) % n]];
        let gap = beside.iter().any(|p| p.amplitude.is_nan());
        own.is_finite() && !gap && stats::median(&near).is_some_and(|m| own < WEAK * m)
    };
    (0..n).filter(|&k| weak(k)).count() as u32
}
