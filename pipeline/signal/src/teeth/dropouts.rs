//! Pitches without their pulse: the wheel's own gaps, and interruptions of the train.

use super::local::pitch_ratio;
use super::options::Options;
use super::pattern::{Pattern, PatternKind};
use super::positions::PlacedEdge;

/// Interruption of a train: pulses that should have been there and were not.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dropout {
    /// Last edge before, s.
    pub start_s: f64,
    /// First edge after, s.
    pub end_s: f64,
    /// Pulses lost.
    pub lost: u32,
    /// The train goes on in phase, as a wheel does that kept turning; `None` where the interruption is too long for its
    /// phase to be known.
    pub in_phase: Option<bool>,
}

/// Longest gap of a wheel that nobody stated, positions.
const WHEEL_STEP: u32 = 4;

/// Interruptions of a run. A gap that comes back once a turn is the wheel's.
pub(super) fn find_dropouts(edges: &[PlacedEdge], pattern: &Pattern, options: &Options) -> Vec<Dropout> {
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
        .map(|(&(k, _), _)| Dropout {
            start_s: edges[k - 1].at_s,
            end_s: edges[k].at_s,
            lost: edges[k].step - 1,
            in_phase: in_phase(&periods, k - 1, edges[k].step),
        })
        .collect()
}

/// Tells for each wide step whether it is the wheel's gap.
fn wheel_gaps(edges: &[PlacedEdge], wide: &[(usize, u64)], end: u64, pattern: &Pattern, options: &Options) -> Vec<bool> {
    let step = |k: usize| edges[k].step;
    let stated = options.missing_teeth.filter(|&m| m > 0).zip(options.teeth);
    let (cycle, most) = match (pattern.kind, stated) {
        (PatternKind::Uneven, _) => return vec![false; wide.len()],
        (PatternKind::Gaps, _) => (u64::from(pattern.positions), pattern.gaps().into_iter().max().unwrap_or(1)),
        (_, Some((missing, teeth))) => (u64::from(teeth), missing + 1),
        // Nothing is known of gaps: as far apart as each other, they are the wheel's.
        (_, None) if options.missing_teeth.is_none() => {
            let apart: Vec<u64> = wide.windows(2).map(|w| w[1].1 - w[0].1).collect();
            let alike = apart.windows(2).all(|w| w[0] == w[1]);
            let few = wide.len() < 3 && wide.iter().all(|w| step(w.0) <= WHEEL_STEP);
            return vec![few && alike; wide.len()];
        }
        _ => return vec![false; wide.len()],
    };
    let fits = |position: u64| {
        wide.binary_search_by_key(&position, |w| w.1)
            .is_ok_and(|j| step(wide[j].0) <= most)
    };
    wide.iter()
        .map(|&(k, position)| {
            let before = position.checked_sub(cycle);
            let none = before.is_none_or(|b| b == 0) && position + cycle > end;
            step(k) <= most && (none || before.is_some_and(fits) || fits(position + cycle))
        })
        .collect()
}

/// Whether interruption `k` of `step` positions ends where the rate around it lets a tooth be expected.
fn in_phase(periods: &[f64], k: usize, step: u32) -> Option<bool> {
    const NEAR: usize = 4;
    let mean = |range: std::ops::Range<usize>| {
        let own = periods.get(range).filter(|own| !own.is_empty())?;
        crate::stats::median(own)
    };
    let before = mean(k.saturating_sub(NEAR)..k)?;
    let after = mean(k + 1..(k + 1 + NEAR).min(periods.len()))?;
    // A quarter of a pitch is what the rate's change over the interruption may leave open.
    let open = f64::from(step) * (after / before).ln().abs() / 2.0;
    if open > 0.25 {
        return None;
    }
    let pitches = pitch_ratio(periods, k).max(periods[k] / ((before + after) / 2.0));
    Some((pitches - pitches.round()).abs() < 0.25)
}
