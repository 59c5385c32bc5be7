//! Wheel that a train is read with: what was stated against what the train shows.

use super::options::Options;
use super::pattern::{Pattern, PatternKind};

/// Source of the number of positions per turn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TurnBasis {
    /// Stated by the caller and not contradicted by the train.
    Stated,
    /// Stated by the caller; the train shows another pattern, which is used.
    Contradicted,
    /// Found in the train.
    Found,
}

/// Wheel that a train is read with.
#[derive(Debug, Clone, PartialEq)]
pub struct Wheel {
    /// Pattern found in the train.
    pub pattern: Pattern,
    /// Pitch positions per turn, and on what that rests; `None` where the train shows no turn and none was stated.
    pub positions: Option<(u32, TurnBasis)>,
    /// Teeth that the pattern misses beyond those stated, per turn; 0 where nothing was stated of gaps.
    pub unstated_missing: u32,
}

/// Cycles from which on a pattern outweighs a statement, or stands for it.
const SURE_CYCLES: u32 = 4;

/// Share of the variance of the pitch that a pattern of few uneven teeth explains where it outweighs a statement.
const CERTAIN: f64 = 0.9;

/// Gaps and positions of a wheel that is believed unstated.
const MOST_GAPS: usize = 4;
const MOST_POSITIONS: u32 = 150;

/// Positions below which a found gap may come several times a turn (36-2-2-2 shows a 12-2).
const SURE_POSITIONS: u32 = 20;

/// Teeth up to which a pulse that seems to be missing may be a slow part of the turn.
pub(super) const FEW_TEETH: u32 = 6;

impl Wheel {
    /// Brings the pattern and the statement together.
    pub fn new(pattern: Pattern, options: &Options) -> Wheel {
        let stated = options.teeth.filter(|&n| n > 0);
        let positions = match stated {
            Some(teeth) => Some(held_against(
                &pattern,
                teeth,
                options.missing_teeth.unwrap_or(0),
            )),
            None => found(&pattern).map(|n| (n, TurnBasis::Found)),
        };
        let unstated_missing = match (options.missing_teeth, positions) {
            // Of a wheel whose stated teeth are all there none is missing, whatever its pitches are.
            (Some(stated), Some((n, TurnBasis::Stated)))
                if pattern.kind == PatternKind::Gaps && options.teeth != Some(pattern.edges) =>
            {
                (pattern.missing * (n / pattern.positions)).saturating_sub(stated)
            }
            _ => 0,
        };
        Wheel {
            pattern,
            positions,
            unstated_missing,
        }
    }

    /// Edges after which unequal pitches repeat; 1 where the pitches are equal but for gaps. On a wheel of a few teeth
    /// the speed itself ripples from one to the next.
    pub(super) fn uneven_cycle(&self) -> Option<u32> {
        match (self.pattern.kind, self.positions_per_turn()) {
            (PatternKind::Uneven, _) => Some(self.pattern.edges),
            (PatternKind::Even, Some(n)) if n <= FEW_TEETH => Some(n),
            _ => None,
        }
    }

    /// Positions per turn.
    pub fn positions_per_turn(&self) -> Option<u32> {
        self.positions.map(|p| p.0)
    }

    /// Longest pitch that belongs to the wheel, positions.
    pub fn widest_pitch(&self) -> f64 {
        self.pattern.pitches.iter().copied().fold(1.0, f64::max)
    }
}

fn held_against(pattern: &Pattern, teeth: u32, missing: u32) -> (u32, TurnBasis) {
    let cycle = pattern.positions;
    let whole = teeth.is_multiple_of(cycle);
    match pattern.kind {
        PatternKind::Even => (teeth, TurnBasis::Stated),
        // Whole cycles make a turn, or (a camshaft's wheel stated per turn of the crankshaft) whole turns a cycle.
        PatternKind::Uneven if whole || cycle.is_multiple_of(teeth) => (teeth, TurnBasis::Stated),
        // An edge more or less a turn than was stated: one tooth more, or one that is not seen.
        PatternKind::Uneven if teeth.saturating_sub(missing).abs_diff(cycle) <= 2 && cycle > 6 => {
            (cycle, TurnBasis::Stated)
        }
        // Of few teeth only where they repeat for long.
        PatternKind::Uneven
            if teeth.saturating_sub(missing).abs_diff(cycle) == 1
                && pattern.cycles >= 2 * SURE_CYCLES
                && pattern.explained > CERTAIN =>
        {
            (cycle, TurnBasis::Stated)
        }
        PatternKind::Uneven if cycle >= SURE_POSITIONS && pattern.cycles >= SURE_CYCLES => {
            (cycle, TurnBasis::Contradicted)
        }
        PatternKind::Uneven => (teeth, TurnBasis::Stated),
        PatternKind::Gaps | PatternKind::Extra if whole => (teeth, TurnBasis::Stated),
        // The teeth themselves were counted, not the positions.
        PatternKind::Gaps | PatternKind::Extra if teeth == pattern.edges => {
            (cycle, TurnBasis::Stated)
        }
        PatternKind::Gaps | PatternKind::Extra if pattern.cycles >= SURE_CYCLES => {
            (cycle, TurnBasis::Contradicted)
        }
        PatternKind::Gaps | PatternKind::Extra => (teeth, TurnBasis::Stated),
    }
}

fn found(pattern: &Pattern) -> Option<u32> {
    let plain = pattern.gaps().len() <= MOST_GAPS && pattern.positions <= MOST_POSITIONS;
    let sure = plain && pattern.cycles >= SURE_CYCLES - 1;
    let turn = match pattern.kind {
        PatternKind::Gaps => pattern.positions >= SURE_POSITIONS || pattern.missing == 1,
        PatternKind::Extra => true,
        PatternKind::Even | PatternKind::Uneven => false,
    };
    (sure && turn).then_some(pattern.positions)
}
