//! Pitches without their pulse: the wheel's own gaps, and interruptions of the train.

use super::options::Options;
use super::pattern::{Pattern, PatternKind};
use super::positions::PlacedEdge;
use crate::stats;

/// Interruption of a train: pulses that should have been there and were not.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dropout {
    /// Last edge before, s.
    pub start_s: f64,
    /// First edge after, s.
    pub end_s: f64,
    /// Pulses lost.
    pub lost: u32,
    /// The train goes on in phase, as a wheel does that kept turning; `None` where the rate changes too much over the
    /// interruption for its phase to be known.
    pub in_phase: Option<bool>,
}

/// Longest gap of a wheel that nobody stated, positions.
const WHEEL_STEP: u32 = 4;

/// Interruptions of a run, between four periods on either side whose rates differ by less than a sixth. A gap that comes back once a turn is the wheel's.
pub(super) fn find_dropouts(
    edges: &[PlacedEdge],
    pattern: &Pattern,
    options: &Options,
) -> Vec<Dropout> {
    let mut position = 0u64;
    let wide: Vec<(usize, u64)> = edges
        .iter()
        .enumerate()
        .filter_map(|(k, e)| {
            position += u64::from(e.step);
            (e.step >= 2).then_some((k, position))
        })
        .collect();
    let wheel = wheel_gaps(edges, &wide, position, pattern, options);
    let periods: Vec<f64> = edges.windows(2).map(|w| w[1].at_s - w[0].at_s).collect();
    wide.iter()
        .zip(wheel)
        .filter(|(_, wheel)| !wheel)
        .filter_map(|(&(k, _), _)| {
            let around = rates_around(&periods, k - 1)?;
            Some(Dropout {
                start_s: edges[k - 1].at_s,
                end_s: edges[k].at_s,
                lost: edges[k].step - 1,
                in_phase: in_phase(periods[k - 1], around, edges[k].step),
            })
        })
        .collect()
}

/// Tells for each wide step whether it is the wheel's gap.
fn wheel_gaps(
    edges: &[PlacedEdge],
    wide: &[(usize, u64)],
    end: u64,
    pattern: &Pattern,
    options: &Options,
) -> Vec<bool> {
    let step = |k: usize| edges[k].step;
    let stated = options.missing_teeth.filter(|&m| m > 0).zip(options.teeth);
    let (cycle, most) = match (pattern.kind, stated) {
        (PatternKind::Uneven, _) => return vec![false; wide.len()],
        (PatternKind::Gaps, _) => (
            u64::from(pattern.positions),
            pattern.gaps().into_iter().max().unwrap_or(1),
        ),
        (_, Some((missing, teeth))) => (u64::from(teeth), missing + 1),
        // Nothing is known of gaps: as far apart as each other, they are the wheel's.
        (_, None) if options.missing_teeth.is_none() => {
            let apart: Vec<u64> = wide.windows(2).map(|w| w[1].1 - w[0].1).collect();
            let alike = apart.windows(2).all(|w| w[0] == w[1]);
            let narrow = wide.iter().all(|w| step(w.0) <= WHEEL_STEP);
            return vec![narrow && alike; wide.len()];
        }
        _ => return vec![false; wide.len()],
    };
    // An edge too many or too few elsewhere in the turn does not make a dropout of the gap.
    let fits = |position: u64| {
        let from = wide.partition_point(|w| w.1 + 1 < position);
        let near = wide[from..].iter().take_while(|w| w.1 <= position + 1);
        near.into_iter().any(|w| step(w.0) <= most)
    };
    wide.iter()
        .map(|&(k, position)| {
            let before = position.checked_sub(cycle);
            let none = before.is_none_or(|b| b == 0) && position + cycle > end;
            step(k) <= most && (none || before.is_some_and(fits) || fits(position + cycle))
        })
        .collect()
}

/// Median period of the four before and of the four after interruption `k`, where they differ by less than a sixth.
fn rates_around(periods: &[f64], k: usize) -> Option<(f64, f64)> {
    const NEAR: usize = 4;
    let before = stats::median(periods.get(k.checked_sub(NEAR)?..k)?)?;
    let after = stats::median(periods.get(k + 1..k + 1 + NEAR)?)?;
    ((after / before).ln().abs() < 0.15).then_some((before, after))
}

/// Tells whether an interruption of `step` positions ends where the rate around it lets a tooth be expected.
fn in_phase(length: f64, (before, after): (f64, f64), step: u32) -> Option<bool> {
    // A quarter of a pitch is what the rate's change over the interruption may leave open.
    let open = f64::from(step) * (after / before).ln().abs() / 2.0;
    if open > 0.25 {
        return None;
    }
    let pitches = length / ((before + after) / 2.0);
    Some((pitches - pitches.round()).abs() < 0.25)
}
