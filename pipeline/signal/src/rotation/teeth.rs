//! The wheel tooth by tooth: what comes back at the same place on every turn.

use super::spans::positions_in;
use crate::stats;

/// What a tooth train repeats from turn to turn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ToothPattern {
    /// Rising edges per turn.
    pub edges: u32,
    /// Whole turns that were averaged.
    pub turns: u32,
    /// Positions without a tooth, in all (1 on a 36-1 wheel).
    pub missing: u32,
    /// Teeth that give two edges where one belongs.
    pub doubled: u32,
}

impl ToothPattern {
    /// Pitch positions per turn (36 on a 36-1 wheel).
    pub fn positions(&self) -> u32 {
        self.edges + self.missing - self.doubled
    }
}

/// Wheels looked for, edges per turn.
const FEWEST: usize = 6;
const MOST: usize = 200;

/// Turns that must agree.
const TURNS: usize = 4;

/// Edges looked at; more turns tell nothing new.
const ENOUGH: usize = 6_000;

/// How much more the places on the wheel must explain than chance would (F statistic of a one-way analysis of
/// variance: mean square between the places over mean square within them).
const LEAST_F: f64 = 8.0;

/// Finds the pattern in the rising edges of one span of turning, by synchronous averaging: each period, relative to
/// its neighbours', is averaged over the turns at each place, for every number of edges per turn, and the number that
/// explains most is taken. Holes in the train are passed over by looking at the longest stretch without one.
///
/// `None` with fewer than four turns without a hole, or when nothing repeats: an even wheel shows no turn.
pub fn tooth_pattern(rises: &[f64]) -> Option<ToothPattern> {
    let periods: Vec<f64> = rises.windows(2).map(|w| w[1] - w[0]).collect();
    let own = longest_without_hole(&periods);
    let own = &own[..own.len().min(ENOUGH)];
    let ratios: Vec<f64> = (0..own.len()).map(|k| relative(own, k)).collect();
    let most = MOST.min(ratios.len() / TURNS);
    let best = (FEWEST..=most)
        .filter_map(|n| places(&ratios, n))
        .max_by(|a, b| a.f.total_cmp(&b.f))
        .filter(|best| best.f >= LEAST_F)?;
    // An engine's cycle takes two turns, and what repeats over one repeats over two as well: the shortest that explains
    // about as much is the turn.
    let edges = best.means.len();
    let Places { means, .. } = (FEWEST..edges)
        .filter(|n| edges.is_multiple_of(*n))
        .filter_map(|n| places(&ratios, n))
        .find(|p| p.f >= LEAST_F && p.explained >= 0.8 * best.explained)
        .unwrap_or(best);
    let missing = means
        .iter()
        .filter(|&&m| (1.6..3.6).contains(&m))
        .map(|m| m.round() as u32 - 1)
        .sum();
    Some(ToothPattern {
        edges: means.len() as u32,
        turns: (ratios.len() / means.len()) as u32,
        missing,
        doubled: doubled(&means),
    })
}

fn longest_without_hole(periods: &[f64]) -> &[f64] {
    let (mut best, mut from) = (0..0, 0);
    for k in 0..=periods.len() {
        if k == periods.len() || positions_in(periods, k).is_none() {
            if k - from > best.len() {
                best = from..k;
            }
            from = k + 1;
        }
    }
    &periods[best]
}

/// A period over the median of the four on either side.
fn relative(periods: &[f64], k: usize) -> f64 {
    const NEAR: usize = 4;
    let around: Vec<f64> = (k.saturating_sub(NEAR)..(k + NEAR + 1).min(periods.len()))
        .filter(|&j| j != k)
        .map(|j| periods[j])
        .collect();
    let typical = stats::median(&around).unwrap_or(periods[k]);
    (periods[k] / typical).clamp(0.05, 4.0)
}

/// The train averaged at so many places.
struct Places {
    /// Mean ratio of each place.
    means: Vec<f64>,
    /// F statistic.
    f: f64,
    /// Share of the variance that the places explain.
    explained: f64,
}

fn places(ratios: &[f64], n: usize) -> Option<Places> {
    let mut sums = vec![(0.0, 0usize); n];
    for (k, r) in ratios.iter().enumerate() {
        let place = &mut sums[k % n];
        place.0 += r;
        place.1 += 1;
    }
    let means: Vec<f64> = sums.iter().map(|s| s.0 / s.1 as f64).collect();
    let mean = ratios.iter().sum::<f64>() / ratios.len() as f64;
    let within: f64 = ratios
        .iter()
        .enumerate()
        .map(|(k, r)| (r - means[k % n]).powi(2))
        .sum();
    let between: f64 = sums
        .iter()
        .zip(&means)
        .map(|(s, m)| s.1 as f64 * (m - mean).powi(2))
        .sum();
    let f = (between / (n - 1) as f64) / (within / (ratios.len() - n) as f64).max(1e-12);
    f.is_finite().then_some(Places {
        means,
        f,
        explained: between / (between + within),
    })
}

/// Neighbouring places that share one pitch between them.
fn doubled(means: &[f64]) -> u32 {
    let mut count = 0;
    let mut k = 0;
    while k < means.len() {
        let (a, b) = (means[k], means[(k + 1) % means.len()]);
        if a < 0.8 && b < 0.8 && (0.75..1.25).contains(&(a + b)) {
            count += 1;
            k += 1;
        }
        k += 1;
    }
    count
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::noise::noise;

    /// Rising edges of a wheel; `pitch` gives the angles of its edges in pitches. A little scatter of timing.
    fn train(angles: &[f64], positions: u32, turns: u32, rpm: f64) -> Vec<f64> {
        let turn = 60.0 / rpm;
        (0..turns)
            .flat_map(|t| {
                angles.iter().enumerate().map(move |(k, a)| {
                    let jitter = 0.004 * (((t * 31 + k as u32 * 7) % 13) as f64 / 6.0 - 1.0);
                    (f64::from(t) + (a + jitter) / f64::from(positions)) * turn
                })
            })
            .collect()
    }

    fn whole(range: std::ops::Range<u32>) -> Vec<f64> {
        range.map(f64::from).collect()
    }

    /// The two wheels with a gap that the trade names by their teeth: 36-1 and 60-2.
    #[test]
    fn wheels_with_a_gap() {
        for (positions, missing) in [(36, 1), (60, 2)] {
            let rises = train(&whole(0..positions - missing), positions, 8, 750.0);
            let p = tooth_pattern(&rises).unwrap();
            assert_eq!((p.edges, p.missing), (positions - missing, missing));
            assert_eq!((p.positions(), p.doubled), (positions, 0));
        }
    }

    /// An engine on the starter goes slower in every other turn's compression: still a turn of 60-2, not of 120-4.
    #[test]
    fn a_cycle_of_two_turns() {
        let mut rises = train(&whole(0..58), 60, 16, 160.0);
        let turn = 60.0 / 160.0;
        for t in &mut rises {
            *t += 0.002 * (std::f64::consts::PI * *t / turn).sin();
        }
        let p = tooth_pattern(&rises).unwrap();
        assert_eq!((p.positions(), p.missing), (60, 2));
    }

    /// Two single teeth broken off, not side by side.
    #[test]
    fn two_broken_teeth() {
        let angles: Vec<f64> = whole(0..30)
            .into_iter()
            .filter(|a| *a != 4.0 && *a != 17.0)
            .collect();
        let p = tooth_pattern(&train(&angles, 30, 8, 900.0)).unwrap();
        assert_eq!((p.positions(), p.missing, p.doubled), (30, 2, 0));
    }

    /// A tooth with a notch gives a second edge at 0.45 of a pitch.
    #[test]
    fn a_doubled_tooth() {
        let mut angles = whole(0..30);
        angles.insert(11, 10.45);
        let p = tooth_pattern(&train(&angles, 30, 8, 900.0)).unwrap();
        assert_eq!(
            (p.edges, p.positions(), p.missing, p.doubled),
            (31, 30, 0, 1)
        );
    }

    /// An even wheel shows no turn; random scatter neither.
    #[test]
    fn an_even_wheel_has_no_pattern() {
        let mut t = 0.0;
        let rises: Vec<f64> = noise(3)
            .take(900)
            .map(|noise| {
                t += 0.002 * (1.0 + 0.05 * noise);
                t
            })
            .collect();
        assert_eq!(tooth_pattern(&rises), None);
    }

    /// A hole in the train does not count as missing teeth.
    #[test]
    fn a_hole_is_no_tooth() {
        let mut rises = train(&whole(0..35), 36, 14, 750.0);
        rises.drain(200..260);
        let p = tooth_pattern(&rises).unwrap();
        assert_eq!((p.positions(), p.missing), (36, 1));
    }
}
