//! How sure an inferred condition is: clues weighed in decibans, as the assessment weighs findings.

/// Weight from which an inference counts as known: a likelihood ratio of 20, "strong" (Kass & Raftery 1995). Below it
/// the condition is asked for.
pub const KNOWN_DB: f64 = 13.01;

/// One reason to believe that something holds (positive) or does not (negative).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Clue {
    /// What it rests on, a word of lang/*.ftl: `stated`, `charged`, `ripple`.
    pub basis: &'static str,
    /// Decibans; judgement, as all weights that no count stands behind.
    pub weight_db: f64,
}

impl Clue {
    /// A clue.
    pub fn new(basis: &'static str, weight_db: f64) -> Clue {
        Clue { basis, weight_db }
    }
}

/// What the clues together say.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Belief {
    /// The clues.
    pub clues: Vec<Clue>,
}

impl Belief {
    /// Sum of the weights, decibans.
    pub fn weight_db(&self) -> f64 {
        self.clues.iter().map(|c| c.weight_db).sum()
    }

    /// Whether it holds; `None` where the clues do not carry either answer.
    pub fn holds(&self) -> Option<bool> {
        let w = self.weight_db();
        (w.abs() >= KNOWN_DB).then_some(w > 0.0)
    }

    /// Probability of the likelier answer, 0.5 to 1, from even odds; with half of what 3 dB more or less would change.
    pub fn certainty(&self) -> (f64, f64) {
        let probability = |db: f64| 1.0 / (1.0 + 10f64.powf(-db / 10.0));
        let w = self.weight_db().abs();
        (
            probability(w),
            (probability(w + 3.0) - probability(w - 3.0)) / 2.0,
        )
    }

    /// What the belief rests on most.
    pub fn basis(&self) -> &'static str {
        let sign = self.weight_db().signum();
        self.clues
            .iter()
            .filter(|c| c.weight_db * sign > 0.0)
            .max_by(|a, b| a.weight_db.abs().total_cmp(&b.weight_db.abs()))
            .map_or("nothing", |c| c.basis)
    }

    /// Clues on the side of the belief, beside the one that it rests on most; and clues against it.
    pub fn others(&self) -> (usize, usize) {
        let sign = self.weight_db().signum();
        let agree = self
            .clues
            .iter()
            .filter(|c| c.weight_db * sign > 0.0)
            .count();
        let against = self
            .clues
            .iter()
            .filter(|c| c.weight_db * sign < 0.0)
            .count();
        (agree.saturating_sub(1), against)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 20:1 is 13.01 dB (10 log10 20), a probability of 20/21 from even odds.
    #[test]
    fn weights_add_and_become_a_probability() {
        let b = Belief {
            clues: vec![Clue::new("charged", 10.0), Clue::new("ripple", 3.0103)],
        };
        assert!((b.certainty().0 - 20.0 / 21.0).abs() < 1e-4);
        assert_eq!(b.basis(), "charged");
        assert_eq!(b.others(), (1, 0));
        assert_eq!(b.holds(), Some(true));
    }

    #[test]
    fn clues_against_each_other_leave_it_open() {
        let b = Belief {
            clues: vec![Clue::new("stated", 20.0), Clue::new("resting", -14.0)],
        };
        assert_eq!(b.holds(), None);
        assert_eq!(b.others(), (0, 1));
        assert_eq!(Belief::default().holds(), None);
        assert_eq!(Belief::default().certainty().0, 0.5);
    }
}
