//! One bound of a learned limit.

use super::BasisRange;
use crate::statistics::tolerance_rank;
use model::system::Bound;

/// Bound that the vehicles' values give, beside the one in force.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LearnedBound {
    /// Side.
    pub side: Bound,
    /// Bound of the tolerance interval; where the vehicles are too few for one, the extreme value.
    pub value: f64,
    /// Bound in force.
    pub replaced: f64,
    /// Number of vehicles beyond the bound in force.
    pub beyond: usize,
}

/// Effect of a learned bound.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Change {
    /// More is good than before.
    Wider,
    /// Less is good than before.
    Narrower,
    /// The same, to four digits.
    Same,
}

/// A limit moves by itself only where more than one vehicle in so many lies beyond it: fewer are as likely wrongly
/// called good.
pub(super) const ODD_SHARE: usize = 10;

impl LearnedBound {
    /// Returns the bound of vehicles' ranges; `None` without a range. `rank` is that of the tolerance bound.
    pub(super) fn of(
        side: Bound,
        replaced: f64,
        ranges: &[BasisRange],
        rank: usize,
    ) -> Option<LearnedBound> {
        let outermost = |r: &BasisRange| match side {
            Bound::Low => r.low,
            Bound::High => -r.high,
        };
        // Mirrored, so that the outermost value is the smallest on either side.
        let mirror = |v: f64| if side == Bound::High { -v } else { v };
        let mut values: Vec<f64> = ranges.iter().map(outermost).collect();
        values.sort_by(f64::total_cmp);
        let value = *values.get(rank.checked_sub(1)?)?;
        Some(LearnedBound {
            side,
            value: mirror(value),
            replaced,
            beyond: values.iter().filter(|v| **v < mirror(replaced)).count(),
        })
    }

    /// Effect of taking it.
    pub fn change(&self) -> Change {
        let scale = self.replaced.abs().max(self.value.abs());
        let difference = match self.side {
            Bound::Low => self.replaced - self.value,
            Bound::High => self.value - self.replaced,
        };
        match difference {
            d if d.abs() <= 5e-5 * scale => Change::Same,
            d if d > 0.0 => Change::Wider,
            _ => Change::Narrower,
        }
    }

    /// True where it may be taken without a person's naming it: it widens, and not for the sake of a few of `n`.
    pub fn moves_by_itself(&self, n: usize) -> bool {
        self.change() == Change::Wider && self.beyond * ODD_SHARE > n
    }
}

/// Rank of the tolerance bounds that vehicles carry. Those of other shops count half.
pub(super) fn rank(vehicles: usize, is_foreign: bool, bounds: usize) -> Option<usize> {
    let counted = if is_foreign { vehicles / 2 } else { vehicles };
    tolerance_rank(counted, bounds)
}
