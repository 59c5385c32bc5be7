//! Pulses of a train against the turns of a reference: locked to it, parted from it, or not to be told.
//!
//! A sensor line that carries its neighbour's signal (an alternator's ripple, ignition, another sensor) shows so many
//! pulses a turn of the reference, whatever that one does. So does a shaft that the reference drives. Only a change of the
//! reference's speed parts them, and only one that the train does not follow. Pulses are counted, because rates are taken
//! over a turn each, and turns of different length part any two of them while the speed changes.

use super::segments::Segment;
use super::train::ToothTrain;
use crate::stats;

/// Answer of a comparison.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Relation {
    /// One ratio throughout, over a change of the reference.
    Locked,
    /// The train gains or loses more pulses than are miscounted.
    Parted,
    /// The reference did not change enough, or too little was recorded.
    CannotTell,
}

/// Comparison of a train's pulses with the turns of a reference.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Comparison {
    /// Answer.
    pub relation: Relation,
    /// Pulses of the train per turn of the reference.
    pub ratio: f64,
    /// Pulses from where the train runs ahead most to where it lags most.
    pub stray: f64,
    /// Highest over lowest speed of the reference.
    pub reference_range: f64,
}

/// Change of the reference from which on a ratio that stays the same is a lock, highest over lowest.
const CHANGE: f64 = 1.1;

/// Pulses, and share of all pulses, by which a locked train may seem to stray: an edge taken at another height, one
/// missed, one doubled.
const SAME: (f64, f64) = (1.0, 0.01);

/// The same from which on train and reference go their own ways.
const PARTED: (f64, f64) = (2.0, 0.02);

/// Pulses that are needed.
const LEAST_PULSES: usize = 8;

/// Pieces that the reference's speed is taken over.
const PIECES: usize = 20;

/// Compares a train's pulses with a reference's turns, each as (time in s, count so far) in order of time without a break.
/// `None` with fewer than eight pulses within the time of the reference.
fn compare(pulses: &[(f64, f64)], reference: &[(f64, f64)]) -> Option<Comparison> {
    let (first, last) = (reference.first()?, reference.last()?);
    let both: Vec<(f64, f64, f64)> = pulses
        .iter()
        .filter(|p| (first.0..=last.0).contains(&p.0))
        .map(|p| (p.0, p.1, interpolated(reference, p.0)))
        .collect();
    if both.len() < LEAST_PULSES {
        return None;
    }
    let (from, to) = (both.first()?, both.last()?);
    let (count, turns) = (to.1 - from.1, to.2 - from.2);
    let ratio = count / turns;
    let strays = both.iter().map(|b| (b.1 - from.1) - ratio * (b.2 - from.2));
    let (ahead, behind) = strays.fold((0.0f64, 0.0f64), |(high, low), s| (high.max(s), low.min(s)));
    let stray = ahead - behind;
    let speeds: Vec<f64> = both
        .windows(1 + both.len().div_ceil(PIECES).min(both.len() - 1))
        .map(|w| (w[w.len() - 1].2 - w[0].2) / (w[w.len() - 1].0 - w[0].0))
        .collect();
    let reference_range = stats::quantile(&speeds, 0.95)? / stats::quantile(&speeds, 0.05)?;
    let within = |(pulses, share): (f64, f64)| stray <= pulses + share * count;
    let relation = match () {
        () if !within(PARTED) => Relation::Parted,
        () if within(SAME) && reference_range > CHANGE => Relation::Locked,
        () => Relation::CannotTell,
    };
    ratio.is_finite().then_some(Comparison {
        relation,
        ratio,
        stray,
        reference_range,
    })
}

/// Compares the pulses of a train with the turns of another, whose wheel has so many positions, during a segment of the
/// first. `None` with fewer than eight pulses within the time of both.
pub fn compare_trains(
    train: &ToothTrain,
    segment: &Segment,
    reference: &ToothTrain,
    positions: u32,
) -> Option<Comparison> {
    let mut turns = reference.counted(segment);
    turns.iter_mut().for_each(|t| t.1 /= f64::from(positions));
    compare(&train.counted(segment), &turns)
}

/// Count at a time within the points.
fn interpolated(points: &[(f64, f64)], at_s: f64) -> f64 {
    let k = points
        .partition_point(|p| p.0 <= at_s)
        .clamp(1, points.len() - 1);
    let (a, b) = (points[k - 1], points[k]);
    a.1 + (b.1 - a.1) * (at_s - a.0) / (b.0 - a.0)
}

/// Firmness with which the events `a` keep their place within the periods of `b`: length of the mean phase vector, 0 (no
/// relation) to 1 (locked); `None` with fewer than eight events within `b`'s train. A copy of a channel, or
/// pulses at a whole fraction of its rate, come out near 1; two shafts that turn on their own come out near 0
/// once they have slipped by a period.
pub fn phase_lock(a: &[f64], b: &[f64]) -> Option<f64> {
    let (mut x, mut y, mut n) = (0.0f64, 0.0f64, 0usize);
    for &t in a {
        let k = b.partition_point(|&r| r <= t);
        if k == 0 || k >= b.len() {
            continue;
        }
        let phase = std::f64::consts::TAU * (t - b[k - 1]) / (b[k] - b[k - 1]);
        x += phase.cos();
        y += phase.sin();
        n += 1;
    }
    (n >= 8).then(|| x.hypot(y) / n as f64)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_copy_is_locked_and_a_stranger_is_not() {
        let b: Vec<f64> = (0..200)
            .map(|i| f64::from(i) * 0.01 + 0.0005 * (f64::from(i) * 0.1).sin())
            .collect();
        let copy: Vec<f64> = b.iter().map(|t| t + 0.002).collect();
        let half: Vec<f64> = b.iter().step_by(2).map(|t| t + 0.004).collect();
        let other: Vec<f64> = (0..150).map(|i| f64::from(i) * 0.01313).collect();
        assert!(phase_lock(&copy, &b).unwrap() > 0.98);
        assert!(phase_lock(&half, &b).unwrap() > 0.95);
        assert!(phase_lock(&other, &b).unwrap() < 0.2);
        assert_eq!(phase_lock(&[], &b), None);
    }

    /// Counts of something that turns at a rate, /s, that depends on the time, s; over 10 s, one pulse at a time.
    fn counted(rate: impl Fn(f64) -> f64) -> Vec<(f64, f64)> {
        let (mut count, mut out) = (0.0, Vec::new());
        for k in 0..100_000 {
            let at_s = f64::from(k) * 1e-4;
            let after = count + rate(at_s) * 1e-4;
            if after.floor() > f64::floor(count) {
                out.push((at_s, after.floor()));
            }
            count = after;
        }
        out
    }

    /// Speed of an engine that is revved up for a second, turns/s, with the ripple of a three-cylinder's firing.
    fn revved(t: f64) -> f64 {
        let up = (1.0 - (t - 4.0).abs()).max(0.0);
        (13.5 + 14.0 * up) * (1.0 + 0.04 * (std::f64::consts::TAU * 20.0 * t).sin())
    }

    /// Engine's turns, of which a tenth is one step.
    fn turns(rate: impl Fn(f64) -> f64) -> Vec<(f64, f64)> {
        let tenths = counted(|t| 10.0 * rate(t));
        tenths.into_iter().map(|(t, n)| (t, n / 10.0)).collect()
    }

    /// Ignition: two pulses a turn. Ripple of an alternator: pulley ratio 2.5, twelve-pole rotor, six pulses per pole
    /// pair: 90 pulses a turn of the engine (arithmetic).
    #[test]
    fn a_harmonic_stays_with_the_engine() {
        for order in [2.0, 90.0] {
            let c = compare(&counted(|t| order * revved(t)), &turns(revved)).unwrap();
            assert_eq!(c.relation, Relation::Locked, "{c:?}");
            assert!((c.ratio / order - 1.0).abs() < 0.005, "{c:?}");
        }
    }

    #[test]
    fn a_shaft_that_keeps_its_speed_parts_from_the_engine() {
        let c = compare(&counted(|_| 27.0), &turns(revved)).unwrap();
        assert_eq!(c.relation, Relation::Parted);
    }

    #[test]
    fn a_steady_engine_cannot_tell() {
        let c = compare(&counted(|_| 27.0), &turns(|_| 13.5)).unwrap();
        assert_eq!(c.relation, Relation::CannotTell);
        assert_eq!(compare(&[(1.0, 0.0); 3], &turns(revved)), None);
        assert_eq!(compare(&counted(|_| 27.0), &[]), None);
    }
}
