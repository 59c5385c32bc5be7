//! Speed of a train against a reference: locked to it, parted from it, or not to be told.
//!
//! A sensor line that carries its neighbour's signal (an alternator's ripple, a pulse-width modulated load, another
//! sensor) shows a rate that keeps one ratio to the reference. So does a shaft that the reference drives. Only a change
//! of the reference's speed parts them, and only one that the train does not follow.

use crate::stats;

/// Answer of a comparison.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Relation {
    /// One ratio throughout, over a change of the reference.
    Locked,
    /// The ratio changes by more than its uncertainty.
    Parted,
    /// The reference did not change enough, or too little was recorded.
    CannotTell,
}

/// Comparison of a train's rate with a reference.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Comparison {
    /// Answer.
    pub relation: Relation,
    /// Median ratio of the train's rate to the reference.
    pub ratio: f64,
    /// Spread of the ratio, half of its 5 to 95 % range, share of the ratio.
    pub spread: f64,
    /// Highest over lowest reference where both are known.
    pub reference_range: f64,
    /// Whole number or simple fraction p/q (q up to 4) that the ratio is, within its spread or half a percent: a harmonic.
    pub harmonic: Option<(u32, u32)>,
    /// Points compared.
    pub points: usize,
}

/// Change of the reference from which on a ratio that stays the same is a lock, highest over lowest.
const CHANGE: f64 = 1.1;

/// Spread of the ratio up to which it is the same: a slipping clutch's is larger.
const SAME: f64 = 0.01;

/// Spread from which on train and reference go their own ways.
const PARTED: f64 = 0.03;

/// Points that are needed.
const LEAST_POINTS: usize = 5;

/// Compares two series taken at the same instants: a train's rate (Hz or rpm) and a reference (rpm or Hz). Pairs in which
/// either is not a positive number are left out. `None` with fewer than five pairs.
pub fn compare(rates: &[f64], reference: &[f64]) -> Option<Comparison> {
    let usable = |v: f64| v.is_finite() && v > 0.0;
    let pairs: Vec<(f64, f64)> = rates
        .iter()
        .copied()
        .zip(reference.iter().copied())
        .filter(|(a, b)| usable(*a) && usable(*b))
        .collect();
    if pairs.len() < LEAST_POINTS {
        return None;
    }
    let ratios: Vec<f64> = pairs.iter().map(|(a, b)| a / b).collect();
    let references: Vec<f64> = pairs.iter().map(|p| p.1).collect();
    let range_of = |v: &[f64]| Some((stats::quantile(v, 0.05)?, stats::quantile(v, 0.95)?));
    let ratio = stats::median(&ratios)?;
    let (low, high) = range_of(&ratios)?;
    let spread = (high - low) / 2.0 / ratio;
    let (slow, fast) = range_of(&references)?;
    let reference_range = fast / slow;
    let relation = match spread {
        s if s > PARTED => Relation::Parted,
        s if s < SAME && reference_range > CHANGE => Relation::Locked,
        _ => Relation::CannotTell,
    };
    Some(Comparison {
        relation,
        ratio,
        spread,
        reference_range,
        harmonic: find_harmonic(ratio, spread.max(0.005)),
        points: pairs.len(),
    })
}

fn find_harmonic(ratio: f64, within: f64) -> Option<(u32, u32)> {
    (1..=4u32).find_map(|q| {
        let p = (ratio * f64::from(q)).round();
        let near = (ratio * f64::from(q) / p - 1.0).abs() < within.min(0.02);
        ((1.0..=400.0).contains(&p) && near).then_some((p as u32, q))
    })
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

    fn engine(k: usize) -> f64 {
        800.0 + 3.0 * k as f64
    }

    /// Ripple of an alternator: pulley ratio 2.5, twelve-pole rotor, six pulses per pole pair: 90 pulses a turn of the
    /// engine (arithmetic), so 1.5 Hz per rpm.
    #[test]
    fn a_harmonic_stays_with_the_engine() {
        let reference: Vec<f64> = (0..100).map(engine).collect();
        let rates: Vec<f64> = reference.iter().map(|r| 1.5 * r).collect();
        let c = compare(&rates, &reference).unwrap();
        assert_eq!((c.relation, c.harmonic), (Relation::Locked, Some((3, 2))));
    }

    #[test]
    fn a_shaft_that_keeps_its_speed_parts_from_the_engine() {
        let reference: Vec<f64> = (0..100).map(engine).collect();
        let c = compare(&[1200.0; 100], &reference).unwrap();
        assert_eq!(c.relation, Relation::Parted);
    }

    #[test]
    fn a_steady_engine_cannot_tell() {
        let c = compare(&[1200.0; 100], &[800.0; 100]).unwrap();
        assert_eq!(c.relation, Relation::CannotTell);
        assert_eq!(compare(&[1.0; 3], &[1.0; 3]), None);
    }
}
