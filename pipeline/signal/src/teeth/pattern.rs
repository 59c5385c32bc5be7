//! Pattern of a toothed wheel, found in its train: what comes back at the same place on every turn.

use super::local::pitch_ratios;
use super::positions::place_edges;
use crate::stats;

/// Kind of a wheel's pattern.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PatternKind {
    /// Equal pitches: the train does not show a turn.
    Even,
    /// Equal pitches with teeth missing (36-1, 60-2, 36-2-2-2).
    Gaps,
    /// Equal pitches with further edges between them (12 plus 1).
    Extra,
    /// Pitches of different length (4 uneven).
    Uneven,
}

/// Pattern that a train repeats. One that lies on the wheel several times, evenly, shows its shortest cycle: 36-2-2-2 with
/// gaps a third of a turn apart comes out as 12-2.
#[derive(Debug, Clone, PartialEq)]
pub struct Pattern {
    /// Kind of the pattern.
    pub kind: PatternKind,
    /// Edges of one direction per cycle; 1 for an even wheel.
    pub edges: u32,
    /// Pitch positions per cycle (36 on a 36-1 wheel); the edges where the pitches are uneven.
    pub positions: u32,
    /// Positions without a tooth per cycle.
    pub missing: u32,
    /// Edges beyond one per position, per cycle.
    pub extra: u32,
    /// Cycles that were averaged; 0 for an even wheel.
    pub cycles: u32,
    /// Share of the variance of the pitch that the pattern explains, 0 to 1.
    pub explained: f64,
    /// Mean pitch at each edge of the cycle, relative to the local pitch.
    pub pitches: Vec<f64>,
}

impl Pattern {
    /// Pattern without any mark.
    pub fn even() -> Pattern {
        Pattern {
            kind: PatternKind::Even,
            edges: 1,
            positions: 1,
            missing: 0,
            extra: 0,
            cycles: 0,
            explained: 0.0,
            pitches: vec![1.0],
        }
    }

    /// Positions that each pitch with a gap stands for, in order: `[3]` for 60-2.
    pub fn gaps(&self) -> Vec<u32> {
        let wide = |m: &&f64| self.kind == PatternKind::Gaps && **m > 1.5;
        self.pitches
            .iter()
            .filter(wide)
            .map(|m| m.round() as u32)
            .collect()
    }

    /// Distance of the pitches from the pattern: mean of |ln| of each period's share of its place's, of whole positions
    /// for a wheel of more than a few teeth; each counts 0.3 at most.
    pub(super) fn residual(&self, periods: &[f64]) -> f64 {
        let few = self.kind == PatternKind::Uneven && self.edges <= 8;
        let off = pitch_ratios(periods)
            .into_iter()
            .zip(self.pitches.iter().cycle())
            .map(|(ratio, place)| match few {
                true => (ratio / place).ln().abs(),
                false => (ratio / ratio.round().max(1.0)).ln().abs(),
            });
        off.map(|r| r.min(0.3)).sum::<f64>() / periods.len().max(1) as f64
    }

    /// Positions of the wheel's gap that a pitch of the given ratio to its neighbours is near; `None` where it is near none.
    pub(super) fn gap_near(&self, ratio: f64) -> Option<u32> {
        let near = |m: &&f64| **m > 1.5 && (ratio / **m - 1.0).abs() < 0.25;
        let gap = self.pitches.iter().find(near)?;
        (self.kind == PatternKind::Gaps).then_some(gap.round() as u32)
    }

    /// True where up to four cycles make a turn of a wheel of so many positions or edges; a long cycle to one edge,
    /// because an edge within a gap is not seen on every turn.
    pub fn lies_on(&self, wheel: u32) -> bool {
        let off = u32::from(self.edges >= MANY);
        let makes = |own: u32| (1..=4).any(|cycles| wheel.abs_diff(cycles * own) <= off);
        makes(self.edges) || makes(self.positions)
    }

    /// Name by positions and missing teeth: "60-2", "36-2-1", "12+1", "4 uneven", "even".
    pub fn name(&self) -> String {
        match self.kind {
            PatternKind::Even => "even".into(),
            PatternKind::Gaps => {
                // A coil may give an edge within its gap: the missing teeth belong together all the same.
                let mut gaps: Vec<u32> = Vec::new();
                for (k, m) in self.pitches.iter().enumerate().filter(|(_, m)| **m > 1.5) {
                    let missing = m.round() as u32 - 1;
                    match gaps.last_mut() {
                        Some(last) if k > 0 && self.pitches[k - 1] > 1.5 => *last += missing,
                        _ => gaps.push(missing),
                    }
                }
                let gaps: String = gaps.iter().map(|g| format!("-{g}")).collect();
                format!("{}{gaps}", self.positions)
            }
            PatternKind::Extra => format!("{}+{}", self.positions, self.extra),
            PatternKind::Uneven => format!("{} uneven", self.edges),
        }
    }
}

/// Longest cycle looked for, edges.
const LONGEST: usize = 200;

/// Cycles that must agree.
const CYCLES: usize = 3;

/// Periods looked at; more tell nothing new.
const ENOUGH: usize = 1_500;

/// Least ratio of what the places of a cycle explain to what chance would (F statistic of a one-way analysis of variance).
const LEAST_F: f64 = 8.0;

/// Share of the variance that a pattern must explain.
const LEAST_EXPLAINED: f64 = 0.5;

/// Deviation from the local pitch from which on a place is marked. A shaft whose speed ripples within the turn repeats
/// as well, but smoothly.
const MARK: f64 = 0.2;

/// The same for a wheel of more than a few teeth: so much one of them lies off without being a mark of the wheel.
const MARK_OF_MANY: f64 = 0.45;

/// Edges from which on a wheel has more than a few teeth.
const MANY: u32 = 9;

/// Largest gap of a wheel, positions.
const WIDEST: f64 = 8.0;

/// Finds the pattern in the periods between edges of one direction, by synchronous averaging: each period, relative to
/// its neighbours, is averaged at each place for every length of the cycle up to 200 edges; the shortest that explains
/// nearly as much as the best is taken. Three cycles at least must agree.
///
/// If the edges per turn are stated, a cycle that divides them is preferred. `None` where fewer than eight periods are
/// there. An even train gives [`PatternKind::Even`].
pub fn find_pattern(periods: &[f64], stated_edges: Option<u32>) -> Option<Pattern> {
    let by_edges = find_by_edges(periods, stated_edges)?;
    // A coil may give an edge within its gap on one turn and none on the next: then edges repeat late or never, and the
    // gaps are as many positions apart all the same. A few holes of a trembling signal are so by chance, and then as a
    // rule not as far apart as a turn.
    let keeps = |by_gaps: &Pattern| match by_edges.kind {
        PatternKind::Even => false,
        PatternKind::Uneven => by_edges.edges == 2,
        PatternKind::Gaps | PatternKind::Extra => 2 * by_edges.positions < 3 * by_gaps.positions,
    };
    let by_gaps = find_by_gaps(periods).filter(|p| stated_edges.is_none_or(|n| p.lies_on(n)));
    Some(match by_gaps {
        Some(by_gaps) if !keeps(&by_gaps) => by_gaps,
        _ => by_edges,
    })
}

/// Gaps that must agree, and what share of them.
const GAPS: usize = 3;
const AGREEING: f64 = 0.75;

/// Gaps of different sizes on one wheel.
const MOST_SIZES: usize = 3;

/// Finds gaps that are always as many positions apart, whatever edges lie within them.
fn find_by_gaps(periods: &[f64]) -> Option<Pattern> {
    let mut at_s = 0.0;
    let edges = std::iter::once(0.0).chain(periods.iter().map(|p| {
        at_s += p;
        at_s
    }));
    let edges: Vec<f64> = edges.collect();
    let mut position = 0u32;
    // Position at which each gap ends, and the teeth that it misses.
    let mut gaps: Vec<(u32, u32)> = Vec::new();
    for edge in place_edges(&edges, &Pattern::even(), false).edges {
        let step = edge.step;
        position += step;
        if (2..=WIDEST as u32).contains(&step) {
            match gaps.last_mut() {
                Some(last) if position - last.0 <= step + 1 => {
                    *last = (position, last.1 + step - 1)
                }
                _ => gaps.push((position, step - 1)),
            }
        }
    }
    // 36-2-1 has gaps of two sizes in turn.
    let misses: Vec<u32> = gaps.iter().map(|g| g.1).collect();
    let repeats = |after: &usize| {
        let pairs = misses.iter().zip(misses.get(*after..).unwrap_or_default());
        let alike = pairs.clone().filter(|(a, b)| a == b).count();
        alike > 0 && alike as f64 >= AGREEING * pairs.count() as f64
    };
    let per_cycle = (1..=MOST_SIZES).find(repeats).unwrap_or(1);
    let apart: Vec<f64> = gaps
        .windows(per_cycle + 1)
        .map(|w| f64::from(w[per_cycle].0 - w[0].0))
        .collect();
    let positions = stats::median(&apart)?;
    let near = apart
        .iter()
        .filter(|d| (*d - positions).abs() <= 1.0)
        .count();
    let agreeing = near as f64 >= AGREEING * apart.len() as f64;
    if gaps.len() < GAPS || !agreeing || positions < 8.0 {
        return None;
    }
    let positions = positions.round() as u32;
    // Positions from one gap to the next and what it misses, at each place of the cycle.
    let place = |k: usize| {
        let own = || gaps.windows(2).skip(k).step_by(per_cycle);
        let steps: Vec<f64> = own().map(|w| f64::from(w[1].0 - w[0].0)).collect();
        let missing: Vec<f64> = own().map(|w| f64::from(w[1].1)).collect();
        Some((
            stats::median(&steps)? as u32,
            stats::median(&missing)? as u32,
        ))
    };
    let mut pitches = Vec::new();
    let mut missing = 0;
    for k in 0..per_cycle {
        let (steps, own) = match per_cycle {
            1 => (positions, place(0)?.1),
            _ => place(k)?,
        };
        missing += own;
        pitches.extend(vec![1.0; steps.saturating_sub(own + 1) as usize]);
        pitches.push(f64::from(own + 1));
    }
    (missing > 0 && missing < positions).then(|| Pattern {
        kind: PatternKind::Gaps,
        edges: positions - missing,
        positions,
        missing,
        extra: 0,
        cycles: (gaps.len() as u32 - 1) / per_cycle as u32,
        explained: near as f64 / apart.len() as f64,
        pitches,
    })
}

fn find_by_edges(periods: &[f64], stated_edges: Option<u32>) -> Option<Pattern> {
    let ratios = longest_without_hole(periods);
    if ratios.len() < 8 {
        return None;
    }
    // The first and last pitches of a shaft that starts or stops may hide what all the others show.
    let ends = END.min(ratios.len() / 16);
    let inner = &ratios[ends..ratios.len() - ends];
    let mut tried = [&ratios[..], inner].into_iter();
    let Some((ratios, best)) = tried.find_map(|r| Some((r, best_cycle(r)?))) else {
        return Some(Pattern::even());
    };
    // What repeats over one cycle repeats over two as well.
    let edges = best.means.len();
    let fitting = |share: f64, fits: &dyn Fn(usize) -> bool| {
        (2..edges)
            .filter(|n| fits(*n))
            .filter_map(|n| average_places(ratios, n))
            .find(|p| p.f >= LEAST_F && p.explained >= share * best.explained)
    };
    let stated = stated_edges.map_or(0, |n| n as usize);
    let shortest = fitting(0.7, &|n| stated.is_multiple_of(n) && stated > 0)
        .or_else(|| fitting(0.9, &|_| true));
    Some(describe(shortest.unwrap_or(best), ratios.len()))
}

/// Pitches at either end that may be left out.
const END: usize = 4;

/// Cycle that explains most of the pitches; `None` where none explains enough.
fn best_cycle(ratios: &[f64]) -> Option<Places> {
    (2..=LONGEST.min(ratios.len() / CYCLES))
        .filter_map(|n| average_places(ratios, n))
        .filter(|p| p.f >= LEAST_F && p.explained >= LEAST_EXPLAINED)
        .max_by(|a, b| a.explained.total_cmp(&b.explained))
}

fn longest_without_hole(periods: &[f64]) -> Vec<f64> {
    let ratios = pitch_ratios(periods);
    let longest = ratios
        .split(|r| *r > WIDEST + 0.5)
        .max_by_key(|part| part.len())
        .unwrap_or_default();
    // The middle: a shaft that has just begun to move or stops shows its pattern worst.
    let from = longest.len().saturating_sub(ENOUGH) / 2;
    let part = &longest[from..longest.len().min(from + ENOUGH)];
    part.iter().map(|r| r.clamp(0.05, WIDEST)).collect()
}

/// A train averaged at each place of a cycle.
struct Places {
    means: Vec<f64>,
    f: f64,
    explained: f64,
}

fn average_places(ratios: &[f64], n: usize) -> Option<Places> {
    let mut sums = vec![(0.0, 0.0); n];
    for (r, place) in ratios.iter().zip((0..n).cycle()) {
        sums[place].0 += r;
        sums[place].1 += 1.0;
    }
    let means: Vec<f64> = sums.iter().map(|s| s.0 / s.1).collect();
    let mean = ratios.iter().sum::<f64>() / ratios.len() as f64;
    let within: f64 = ratios
        .iter()
        .zip(means.iter().cycle())
        .map(|(r, m)| (r - m) * (r - m))
        .sum();
    let between: f64 = sums
        .iter()
        .zip(&means)
        .map(|(s, m)| s.1 * (m - mean) * (m - mean))
        .sum();
    let f = (between / (n - 1) as f64) / (within / (ratios.len() - n) as f64).max(1e-12);
    f.is_finite().then(|| Places {
        means,
        f,
        explained: between / (between + within),
    })
}

fn describe(places: Places, periods: usize) -> Pattern {
    let pitches = places.means;
    let edges = pitches.len() as u32;
    let cycles = (periods / pitches.len()) as u32;
    let mark = if edges < MANY { MARK } else { MARK_OF_MANY };
    if pitches.iter().all(|m| (m - 1.0).abs() < mark) {
        return Pattern::even();
    }
    let one = pitches.iter().filter(|m| (*m - 1.0).abs() < MARK).count();
    let wide: Vec<f64> = pitches.iter().copied().filter(|m| *m > 1.5).collect();
    let whole = wide.iter().all(|m| (m / m.round() - 1.0).abs() < 0.25);
    let extra = count_halves(&pitches);
    let named = one + wide.len() + 2 * extra as usize;
    // Beside a gap a coil's edges may lie off: its field changes more there.
    let strange = pitches.len() - named.min(pitches.len());
    let regular =
        strange <= 2 * wide.len().min(pitches.len() / 8) && 2 * one + wide.len() >= pitches.len();
    let missing: u32 = wide.iter().map(|m| m.round() as u32 - 1).sum();
    let kind = match (regular && whole, missing, extra) {
        (true, 1.., _) => PatternKind::Gaps,
        (true, 0, 1..) => PatternKind::Extra,
        _ => PatternKind::Uneven,
    };
    let (missing, extra) = match kind {
        PatternKind::Uneven => (0, 0),
        _ => (missing, extra),
    };
    Pattern {
        kind,
        edges,
        positions: edges + missing - extra,
        missing,
        extra,
        cycles,
        explained: places.explained,
        pitches,
    }
}

/// Number of neighbouring places that share one pitch between them.
fn count_halves(pitches: &[f64]) -> u32 {
    let n = pitches.len();
    let mut count = 0;
    let mut k = 0;
    while k < n {
        let (a, b) = (pitches[k], pitches[(k + 1) % n]);
        if a < 1.0 - MARK && b < 1.0 - MARK && (0.75..1.25).contains(&(a + b)) {
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

    /// Holes of two pulses that lie about 38 pulses apart, as the trembling of a tooth at rest may leave them: no pattern of
    /// a wheel of 25 teeth, and that of one of 38 positions.
    #[test]
    fn gaps_by_chance_are_held_against_the_stated_wheel() {
        let periods: Vec<f64> = [35, 34, 36, 35]
            .into_iter()
            .flat_map(|teeth| {
                let shaken =
                    (0..teeth).map(move |k| 1.0 + 0.2 * (f64::from(k * teeth) * 2.4).sin());
                shaken.chain([3.0])
            })
            .collect();
        let kind = |stated: Option<u32>| find_pattern(&periods, stated).unwrap().kind;
        assert_eq!(kind(Some(25)), PatternKind::Even);
        assert_eq!(kind(Some(38)), PatternKind::Gaps);
        assert_eq!(kind(None), PatternKind::Gaps);
    }

    #[test]
    fn a_cycle_lies_on_a_wheel_up_to_four_times() {
        let gaps = |edges: u32, positions: u32| Pattern {
            kind: PatternKind::Gaps,
            edges,
            positions,
            ..Pattern::even()
        };
        assert!(gaps(10, 12).lies_on(36) && gaps(58, 60).lies_on(58));
        assert!(!gaps(36, 38).lies_on(25) && !gaps(3, 4).lies_on(42) && !gaps(3, 4).lies_on(17));
    }
}
