//! The wheel as the tooth train shows it: pitch positions and missing teeth.

use crate::stats;
use std::collections::BTreeMap;

/// A toothed wheel with a gap.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Wheel {
    /// Pitch positions per turn (36 on a 36-1 wheel).
    pub positions: u32,
    /// Positions without a tooth (1 on a 36-1 wheel).
    pub missing: u32,
}

/// Finds a wheel with missing teeth in the rising edges' instants: gaps of two or three times the neighbours'
/// period, always the same number of teeth apart. `None` when there are fewer than three such gaps or they do
/// not agree.
pub fn find_wheel(rises: &[f64]) -> Option<Wheel> {
    let periods: Vec<f64> = rises.windows(2).map(|w| w[1] - w[0]).collect();
    let mut gaps: Vec<(usize, f64)> = Vec::new();
    for k in 2..periods.len().saturating_sub(2) {
        let around = [
            periods[k - 2],
            periods[k - 1],
            periods[k + 1],
            periods[k + 2],
        ];
        let ratio = periods[k] / stats::median(&around)?;
        if (1.6..3.6).contains(&ratio) {
            gaps.push((k, ratio));
        }
    }
    if gaps.len() < 3 {
        return None;
    }
    let mut apart: BTreeMap<usize, usize> = BTreeMap::new();
    for w in gaps.windows(2) {
        *apart.entry(w[1].0 - w[0].0).or_default() += 1;
    }
    let (&teeth, &times) = apart.iter().max_by_key(|(_, n)| **n)?;
    if times * 10 < (gaps.len() - 1) * 8 || teeth < 4 {
        return None;
    }
    let ratio = stats::median(&gaps.iter().map(|g| g.1).collect::<Vec<_>>())?;
    let missing = ratio.round() as u32 - 1;
    Some(Wheel {
        positions: teeth as u32 + missing,
        missing,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn train(positions: u32, missing: u32, turns: u32, rpm: f64) -> Vec<f64> {
        let pitch = 60.0 / rpm / positions as f64;
        (0..turns * positions)
            .filter(|i| i % positions < positions - missing)
            .map(|i| i as f64 * pitch)
            .collect()
    }

    #[test]
    fn the_two_common_wheels() {
        let w = find_wheel(&train(36, 1, 6, 750.0)).unwrap();
        assert_eq!(
            w,
            Wheel {
                positions: 36,
                missing: 1
            }
        );
        let w = find_wheel(&train(60, 2, 6, 750.0)).unwrap();
        assert_eq!(
            w,
            Wheel {
                positions: 60,
                missing: 2
            }
        );
    }

    #[test]
    fn a_wheel_without_a_gap() {
        assert_eq!(find_wheel(&train(24, 0, 6, 750.0)), None);
    }
}
