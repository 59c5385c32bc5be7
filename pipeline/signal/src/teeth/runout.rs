//! Run-out of a toothed wheel, in the time between its teeth and in their amplitude.

use super::segments::Segment;
use super::train::{Edge, ToothTrain};
use std::f64::consts::TAU;
use std::ops::Range;

/// Modulation once a turn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Runout {
    /// Amplitude of the first harmonic, % of the mean.
    pub percent: f64,
    /// Its standard uncertainty, %.
    pub uncertainty: f64,
    /// Turns averaged.
    pub turns: u32,
    /// Angle by which the modulation moves against the wheel from turn to turn, rad: near 0 where the turn is its period.
    pub drift: f64,
}

/// Turns that must be there.
const LEAST_TURNS: u32 = 4;

/// Share by which the halves of a turn may differ from their mean: beyond it the speed itself changes too much. A run-out
/// of m makes them differ by up to 2 m / pi.
const MOST_CHANGE: f64 = 0.08;

/// Modulation of the pitch once a turn over a segment. A wheel that turns about a point `e` beside its own centre passes
/// its teeth at `r + e cos(a)` before the sensor: the pitch varies by e/r, in phase with the wheel.
///
/// Each pitch is held against the mean of the turn around it, which removes a steady acceleration and leaves the first
/// harmonic as it is; what is not in phase with the wheel from turn to turn averages out and is the uncertainty. `None`
/// where the positions per turn are not known, below eight of them, or with fewer than four turns.
pub fn pitch_runout(train: &ToothTrain, segment: &Segment) -> Option<Runout> {
    let edges = train.edges_of(segment);
    first_order(train, segment, |around| {
        let k = around.edge;
        let pitch_s = (edges[k].at_s - edges[k - 1].at_s) / f64::from(edges[k].step);
        pitch_s * around.positions / around.turn_s - 1.0
    })
}

/// Modulation of the amplitude once a turn over a segment: the teeth of a wheel that is out of true pass a coil now nearer
/// and now farther. Each amplitude is held against the mean of the turn around it. `None` as for [`pitch_runout`].
pub fn amplitude_runout(train: &ToothTrain, segment: &Segment) -> Option<Runout> {
    let edges = train.edges_of(segment);
    let mut sum = 0.0;
    let add = |e: &Edge| {
        sum += f64::from(e.amplitude);
        sum
    };
    let sums: Vec<f64> = edges.iter().map(add).collect();
    first_order(train, segment, |around| {
        let Range { start, end } = around.turn;
        let mean = (sums[end] - sums[start]) / (end - start) as f64;
        f64::from(edges[around.edge].amplitude) / mean - 1.0
    })
}

/// An edge with the turn around it.
struct Around {
    /// Index of the edge.
    edge: usize,
    /// First and last edge of the turn.
    turn: Range<usize>,
    /// Length of the turn, s.
    turn_s: f64,
    /// Positions per turn.
    positions: f64,
}

/// First harmonic of what `off` gives for each edge of a segment, relative to the mean of the turn around it.
fn first_order(
    train: &ToothTrain,
    segment: &Segment,
    off: impl Fn(Around) -> f64,
) -> Option<Runout> {
    let positions = train.wheel.positions_per_turn().filter(|&n| n >= 8)?;
    let n = f64::from(positions);
    let edges = train.edges_of(segment);
    let track = cumulate(edges);
    let total = *track.last()?;
    let turns = (total / n) as u32;
    if turns < LEAST_TURNS {
        return None;
    }
    let mut sums = vec![Sum::default(); turns as usize];
    for k in 1..edges.len() {
        let middle = track[k] - 0.5 * f64::from(edges[k].step);
        let (from, to) = (middle - n / 2.0, middle + n / 2.0);
        if from < 0.0 || to > total {
            continue;
        }
        let (start_s, end_s) = (time_at(edges, &track, from), time_at(edges, &track, to));
        let turn_s = end_s - start_s;
        let halves = (time_at(edges, &track, middle) - start_s) / (turn_s / 2.0);
        if (halves - 1.0).abs() > MOST_CHANGE {
            continue;
        }
        let index = |position: f64| track.partition_point(|p| *p < position);
        let around = Around {
            edge: k,
            turn: index(from)..index(to).min(edges.len() - 1),
            turn_s,
            positions: n,
        };
        let turn = ((middle / n) as usize).min(sums.len() - 1);
        sums[turn].add(TAU * middle / n, off(around));
    }
    let own: Vec<(f64, f64)> = sums
        .iter()
        .filter(|s| s.count * 2 > positions)
        .map(Sum::harmonic)
        .collect();
    let count = own.len() as f64;
    if own.len() < LEAST_TURNS as usize - 1 {
        return None;
    }
    let mean = |f: fn(&(f64, f64)) -> f64| own.iter().map(f).sum::<f64>() / count;
    let (a, b) = (mean(|h| h.0), mean(|h| h.1));
    let squares: f64 = own
        .iter()
        .map(|h| (h.0 - a).powi(2) + (h.1 - b).powi(2))
        .sum();
    Some(Runout {
        percent: 100.0 * a.hypot(b),
        uncertainty: 100.0 * (squares / 2.0 / (count - 1.0) / count).sqrt(),
        turns: own.len() as u32,
        drift: drift(&own),
    })
}

/// Mean change of the phase from one turn to the next, rad: the angle of the sum of `z[k + 1] * conj(z[k])`.
fn drift(turns: &[(f64, f64)]) -> f64 {
    let products = turns
        .windows(2)
        .map(|w| (w[0], w[1]))
        .map(|((a, b), (c, d))| (a * c + b * d, a * d - b * c));
    let (real, imaginary) = products.fold((0.0, 0.0), |sum, z| (sum.0 + z.0, sum.1 + z.1));
    imaginary.atan2(real)
}

#[derive(Debug, Clone, Default)]
struct Sum {
    cosine: f64,
    sine: f64,
    count: u32,
}

impl Sum {
    fn add(&mut self, angle: f64, off: f64) {
        self.cosine += off * angle.cos();
        self.sine += off * angle.sin();
        self.count += 1;
    }

    fn harmonic(&self) -> (f64, f64) {
        let half = f64::from(self.count) / 2.0;
        (self.cosine / half, self.sine / half)
    }
}

/// Positions passed up to each edge.
fn cumulate(edges: &[Edge]) -> Vec<f64> {
    let mut sum = 0.0;
    let steps = edges.iter().enumerate().map(|(k, e)| match k {
        0 => 0.0,
        _ => f64::from(e.step),
    });
    steps
        .map(|step| {
            sum += step;
            sum
        })
        .collect()
}

/// Time at which a position was passed, between two edges in proportion.
fn time_at(edges: &[Edge], track: &[f64], position: f64) -> f64 {
    let after = track
        .partition_point(|p| *p < position)
        .clamp(1, track.len() - 1);
    let (a, b) = (track[after - 1], track[after]);
    let share = (position - a) / (b - a).max(f64::MIN_POSITIVE);
    edges[after - 1].at_s + share * (edges[after].at_s - edges[after - 1].at_s)
}
