//! Pitches without their pulse: the wheel's own gaps, and interruptions of the train.

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
    /// The train goes on in phase, as a wheel does that kept turning; `None` where the rate changes too much over the
    /// interruption for its phase to be known.
    pub in_phase: Option<bool>,
}

/// Longest gap of a wheel that nobody stated, positions.
const WHEEL_STEP: u32 = 4;

/// Interruptions of a run, between periods on either side whose rates differ by less than a sixth. A gap that comes back
/// once a turn is the wheel's. `step_s`: finest step of time, s.
pub(super) fn find_dropouts(
    edges: &[PlacedEdge],
    pattern: &Pattern,
    options: &Options,
    step_s: f64,
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
    wide.iter()
        .zip(wheel)
        .filter(|(_, wheel)| !wheel)
        .filter_map(|(&(k, _), _)| {
            let around = Around::find(edges, k)?;
            Some(Dropout {
                start_s: edges[k - 1].at_s,
                end_s: edges[k].at_s,
                lost: edges[k].step - 1,
                in_phase: around.in_phase(edges[k].at_s - edges[k - 1].at_s, edges[k].step, step_s),
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

/// Mean periods before and after an interruption.
struct Around {
    before_s: f64,
    after_s: f64,
    /// Periods of the lesser mean.
    count: usize,
}

impl Around {
    /// Means of four to twelve whole periods that end at the edge before edge `k`, and that begin at edge `k`; `None` where
    /// there are fewer, or where they differ by a sixth.
    fn find(edges: &[PlacedEdge], k: usize) -> Option<Around> {
        const FEWEST: usize = 4;
        const MOST: usize = 12;
        let whole = |e: &&PlacedEdge| e.step == 1;
        let back = edges[..k].iter().rev().take_while(whole);
        let on = edges[k + 1..].iter().take_while(whole);
        let (back, on) = (back.take(MOST).count(), on.take(MOST).count());
        if back.min(on) < FEWEST {
            return None;
        }
        let before_s = (edges[k - 1].at_s - edges[k - 1 - back].at_s) / back as f64;
        let after_s = (edges[k + on].at_s - edges[k].at_s) / on as f64;
        let around = Around {
            before_s,
            after_s,
            count: back.min(on),
        };
        ((after_s / before_s).ln().abs() < 0.15).then_some(around)
    }

    /// Tells whether an interruption of `step` positions ends where the rate around it lets a tooth be expected; `None`
    /// where the rate's change over it, or what a sample makes of the means, may leave a quarter of a pitch open.
    fn in_phase(&self, length_s: f64, step: u32, step_s: f64) -> Option<bool> {
        let change = (self.after_s / self.before_s).ln().abs() / 2.0;
        let sampling = step_s / (self.count as f64 * self.before_s.min(self.after_s));
        if f64::from(step) * (change + sampling) > 0.25 {
            return None;
        }
        let pitches = length_s / ((self.before_s + self.after_s) / 2.0);
        Some((pitches - pitches.round()).abs() < 0.25)
    }
}
