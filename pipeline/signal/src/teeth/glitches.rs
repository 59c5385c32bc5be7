//! Pulses far too short to be teeth: spikes on the line and edges that bounce.

use super::swings::Swing;
use crate::stats;

/// Pulses of the same level on either side that a pulse is compared with.
const NEAR: usize = 6;

/// Share of the neighbours' width below which a pulse is short.
const SHORT: f64 = 0.15;

/// Share of short pulses from which on they are the train's own shape.
const RARE: f64 = 0.25;

/// Share of the local period below which a pulse is no tooth whatever its neighbours are.
const NEVER: f64 = 0.002;

/// Share of the neighbours' width below which a rare pulse is no tooth, not even in a gap of the wheel.
const NEEDLE: f64 = 0.1;

/// Removes rare pulses far shorter than their neighbours of the same level, both edges of each; returns the rest and
/// the number removed. `instants` are the times of the transitions, s.
pub fn remove_glitches(
    mut swings: Vec<Swing>,
    mut instants: Vec<f64>,
) -> (Vec<Swing>, Vec<f64>, usize) {
    let widths: Vec<f64> = instants.windows(2).map(|w| w[1] - w[0]).collect();
    let (bounces, own) = find_bounces(&widths);
    // They are few, and mostly none.
    let mut removed: Vec<usize> = Vec::new();
    let mut glitches = 0;
    let mut k = 0;
    while k < swings.len() {
        // Both edges of a pulse go; of an edge that bounces the first is true, and the two after it go.
        let (is_kept, left_out) =
            match find_glitch(&widths, k).filter(|_| own.binary_search(&k).is_err()) {
                _ if bounces.get(k) == Some(&true) => {
                    let there_and_back = (k..).step_by(2);
                    let bounced = there_and_back.take_while(|&j| bounces.get(j) == Some(&true));
                    (true, 2 * bounced.count())
                }
                Some(Glitch::Needle) => (false, 2),
                Some(Glitch::Never) if pitches_without(&instants, k).contains(&true) => (false, 2),
                Some(Glitch::Rare) if !pitches_without(&instants, k).contains(&false) => (false, 2),
                _ => (true, 0),
            };
        k += usize::from(is_kept);
        removed.extend(k..k + left_out);
        glitches += left_out / 2;
        k += left_out;
    }
    if !removed.is_empty() {
        drop_places(&mut swings, &removed);
        drop_places(&mut instants, &removed);
    }
    (swings, instants, glitches)
}

/// Drops the elements at some places, which rise.
fn drop_places<T>(all: &mut Vec<T>, places: &[usize]) {
    let mut places = places.iter().peekable();
    let mut k = 0;
    all.retain(|_| {
        k += 1;
        places.next_if(|place| **place == k - 1).is_none()
    });
}

/// Kind of a pulse too short to be a tooth.
enum Glitch {
    /// Shorter than any tooth.
    Never,
    /// Shorter than nearly all pulses around it.
    Rare,
    /// So much shorter that a wheel's gap makes no tooth of it.
    Needle,
}

fn find_glitch(widths: &[f64], k: usize) -> Option<Glitch> {
    let width = *widths.get(k)?;
    // Most pulses are not short against either neighbour.
    let beside = |j: Option<usize>| j.and_then(|j| widths.get(j)).copied().unwrap_or(0.0);
    let wider = beside(k.checked_sub(1)).max(beside(Some(k + 1)));
    if width > SHORT * wider {
        return None;
    }
    if width < NEVER * wider {
        return Some(Glitch::Never);
    }
    let same: Vec<f64> = (k.saturating_sub(2 * NEAR)..(k + 2 * NEAR + 1).min(widths.len()))
        .filter(|j| j % 2 == k % 2 && *j != k)
        .map(|j| widths[j])
        .collect();
    let typical = stats::median(&same).filter(|_| same.len() >= NEAR)?;
    // At the end of a rest nothing is known of the train.
    let opposite = beside(k.checked_sub(1)).min(beside(Some(k + 1)));
    if wider > 8.0 * typical.max(opposite) {
        return None;
    }
    let short = same.iter().filter(|&&w| w < SHORT * typical).count();
    let rare = width < SHORT * typical && (short as f64) < RARE * same.len() as f64;
    rare.then_some(match width < NEEDLE * typical {
        true => Glitch::Needle,
        false => Glitch::Rare,
    })
}

/// Pulses that are short and followed by a short one of the other level: an edge that came back before it went on, or a
/// wheel's own pattern. The latter's places come second, in order.
fn find_bounces(widths: &[f64]) -> (Vec<bool>, Vec<usize>) {
    /// Bounces for each pulse that is none up to which they are bounces.
    const MOST: f64 = 0.36;
    let is_pair = |k: usize| {
        let pair = &widths[k..k + 2];
        let around = &widths[k.saturating_sub(4)..(k + 6).min(widths.len())];
        let widest = around.iter().copied().fold(0.0, f64::max);
        // Most pulses are not short against any neighbour.
        if pair.iter().any(|w| *w >= SHORT * widest) {
            return false;
        }
        let near = &widths[k.saturating_sub(2 * NEAR)..(k + 2 * NEAR + 1).min(widths.len())];
        let long = stats::quantile(near, 0.9).filter(|_| near.len() > NEAR);
        long.is_some_and(|long| pair.iter().all(|w| *w < SHORT * long))
    };
    let mut pairs: Vec<bool> = (0..widths.len().saturating_sub(1)).map(is_pair).collect();
    // Pairs that overlap are one edge that came back more than once.
    let bounces = pairs.chunk_by(|a, b| a == b).filter(|c| c[0]).count();
    let short = (0..widths.len()).filter(|&k| pairs.get(k) == Some(&true) || k > 0 && pairs[k - 1]);
    if bounces as f64 > MOST * (widths.len() - short.count()) as f64 {
        pairs.fill(false);
    }
    let mut own = regular(&pairs, widths);
    own.sort_unstable();
    own.dedup();
    for k in &own {
        pairs[*k] = false;
    }
    (pairs, own)
}

/// Pairs that come four times in a row with the same widths, and none between them, a number of two teeth apart that
/// lies within a working cycle: bounces differ, a wheel's own pattern does not. It may hold for a part of the record
/// only.
fn regular(pairs: &[bool], widths: &[f64]) -> Vec<usize> {
    /// Transitions of two teeth, and of two turns of a wheel of six.
    const APART: usize = 4;
    const FARTHEST: usize = 24;
    /// Ratio of the widths of one pair to the next within which they are the same.
    const SAME: std::ops::RangeInclusive<f64> = 0.7..=1.43;
    let is_pair = |k: usize| pairs.get(k) == Some(&true);
    let next_alike = |k: usize| {
        let alone = !is_pair(k + 1);
        let next = (k + 1..=k + FARTHEST).find(|&next| is_pair(next) && alone)?;
        let same = |i: usize| SAME.contains(&(widths[next + i] / widths[k + i]));
        ((next - k).is_multiple_of(APART) && same(0) && same(1)).then_some(next)
    };
    let mut own = Vec::new();
    let firsts = (0..pairs.len()).filter(|&k| is_pair(k) && !k.checked_sub(1).is_some_and(is_pair));
    for first in firsts {
        let four: Vec<usize> = std::iter::successors(Some(first), |&k| next_alike(k))
            .take(4)
            .collect();
        if four.len() == 4 && !is_pair(four[3] + 1) {
            own.extend(four);
        }
    }
    own
}

/// Tells for either direction whether its edges around pulse `k` are about a pitch apart without it; without a tooth
/// they are two.
fn pitches_without(instants: &[f64], k: usize) -> Vec<bool> {
    let left = [(k.checked_sub(2), k + 2), (k.checked_sub(1), k + 3)];
    let own = |parity: usize| {
        let near =
            k.saturating_sub(2 * NEAR)..(k + 2 * NEAR + 1).min(instants.len().saturating_sub(2));
        let pitches: Vec<f64> = near
            .filter(|j| j % 2 == parity)
            .map(|j| instants[j + 2] - instants[j])
            .collect();
        stats::median(&pitches).unwrap_or(0.0)
    };
    left.into_iter()
        .filter_map(|(from, to)| {
            let apart = instants.get(to)? - instants[from?];
            Some(apart < 1.5 * own(to % 2))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Alternating transitions at the given distances, s.
    fn train(widths: &[f64]) -> (Vec<Swing>, Vec<f64>) {
        let mut t = 0.0;
        let instants: Vec<f64> = widths
            .iter()
            .map(|w| {
                t += w;
                t
            })
            .collect();
        let swing = |k: usize| Swing {
            at: 0.0,
            rising: k.is_multiple_of(2),
            from: 0.0,
            to: 1.0,
        };
        ((0..widths.len()).map(swing).collect(), instants)
    }

    #[test]
    fn a_spike_within_a_pulse_is_removed() {
        let mut widths = vec![0.01; 60];
        widths.splice(30..31, [0.004, 0.0001, 0.0059]);
        let (swings, instants) = train(&widths);
        let (kept, at, removed) = remove_glitches(swings, instants);
        assert_eq!((kept.len(), at.len(), removed), (60, 60, 1));
    }

    /// Every third edge bounces once, at a twelfth of a pulse: each tooth keeps its two edges, the first of each bounce.
    #[test]
    fn edges_that_bounce_are_one() {
        let widths: Vec<f64> = (0..90)
            .flat_map(|k| match k % 3 {
                1 => vec![0.001, 0.001, 0.010],
                _ => vec![0.012],
            })
            .collect();
        let (swings, instants) = train(&widths);
        let (kept, at, removed) = remove_glitches(swings, instants);
        assert_eq!((kept.len(), removed), (90, 30));
        assert!(kept.windows(2).all(|w| w[0].rising != w[1].rising));
        assert!(at.windows(2).all(|w| (w[1] - w[0] - 0.012).abs() < 1e-9));
    }

    /// Every fifth edge comes back three times before it goes on.
    #[test]
    fn edges_that_bounce_several_times_are_one() {
        let widths: Vec<f64> = (0..90)
            .flat_map(|k| match k % 5 {
                2 => vec![0.001, 0.001, 0.001, 0.001, 0.001, 0.001, 0.012],
                _ => vec![0.018],
            })
            .collect();
        let (swings, instants) = train(&widths);
        let (kept, at, removed) = remove_glitches(swings, instants);
        assert_eq!((kept.len(), removed), (90, 54));
        assert!(kept.windows(2).all(|w| w[0].rising != w[1].rising));
        assert!(at.windows(2).all(|w| (w[1] - w[0] - 0.018).abs() < 1e-9));
    }

    /// A conditioner that keeps its output up from one narrow pulse to the next on every second tooth: high for 55 and
    /// for 3.6 ms, low for 3.2 and for 67 ms in turn.
    #[test]
    fn narrow_pulses_that_come_regularly_are_the_train() {
        let widths: Vec<f64> = (0..80)
            .map(|k| [0.055, 0.0032, 0.0036, 0.067][k % 4])
            .collect();
        let (swings, instants) = train(&widths);
        assert_eq!(remove_glitches(swings, instants).2, 0);
    }

    /// The same where the conditioner drops its output after every tooth first.
    #[test]
    fn narrow_pulses_that_come_regularly_for_a_while_are_the_train() {
        let plain = [0.004, 0.065].repeat(6);
        let held = [0.055, 0.0032, 0.0036, 0.067].repeat(5);
        let (swings, instants) = train(&[plain, held].concat());
        assert_eq!(remove_glitches(swings, instants).2, 0);
    }
}
