//! Certainty of an inferred condition: evidence weighed in decibans, as the assessment weighs findings.

/// Weight from which an inference counts as known: a likelihood ratio of 20, "strong" (Kass & Raftery 1995). Below it
/// the condition is asked for.
pub const KNOWN_DBAN: f64 = 13.01;

/// One reason to believe that something holds (positive) or does not (negative).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Evidence {
    /// Its basis, a word of lang/*.ftl: `stated`, `charged`, `ripple`.
    pub basis: &'static str,
    /// Decibans; judgement, as all weights that no count stands behind.
    pub weight_dban: f64,
}

impl Evidence {
    /// One piece of evidence.
    pub fn new(basis: &'static str, weight_dban: f64) -> Evidence {
        Evidence { basis, weight_dban }
    }
}

/// Sum of all evidence.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LogOdds {
    /// The evidence, in no order.
    pub evidence: Vec<Evidence>,
}

impl LogOdds {
    /// Sum of the weights, decibans.
    pub fn weight_dban(&self) -> f64 {
        self.evidence.iter().map(|c| c.weight_dban).sum()
    }

    /// True where it holds, `None` where the evidence carries neither answer.
    pub fn holds(&self) -> Option<bool> {
        let w = self.weight_dban();
        (w.abs() >= KNOWN_DBAN).then_some(w > 0.0)
    }

    /// Probability of the likelier answer, 0.5 to 1, from even odds; with half of what 3 dban more or less would change.
    pub fn certainty(&self) -> (f64, f64) {
        let probability = |dban: f64| 1.0 / (1.0 + 10f64.powf(-dban / 10.0));
        let w = self.weight_dban().abs();
        (
            probability(w),
            (probability(w + 3.0) - probability(w - 3.0)) / 2.0,
        )
    }

    /// Basis of the strongest evidence for the likelier answer.
    pub fn basis(&self) -> &'static str {
        let sign = self.weight_dban().signum();
        self.evidence
            .iter()
            .filter(|c| c.weight_dban * sign > 0.0)
            .max_by(|a, b| a.weight_dban.abs().total_cmp(&b.weight_dban.abs()))
            .map_or("nothing", |c| c.basis)
    }

    /// Evidences on the side of the belief, beside the one that it rests on most; and evidence against it.
    pub fn others(&self) -> (usize, usize) {
        let sign = self.weight_dban().signum();
        let agree = self
            .evidence
            .iter()
            .filter(|c| c.weight_dban * sign > 0.0)
            .count();
        let against = self
            .evidence
            .iter()
            .filter(|c| c.weight_dban * sign < 0.0)
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
        let b = LogOdds {
            evidence: vec![
                Evidence::new("charged", 10.0),
                Evidence::new("ripple", 3.0103),
            ],
        };
        assert!((b.certainty().0 - 20.0 / 21.0).abs() < 1e-4);
        assert_eq!(b.basis(), "charged");
        assert_eq!(b.others(), (1, 0));
        assert_eq!(b.holds(), Some(true));
    }

    #[test]
    fn evidence_against_each_other_leave_it_open() {
        let b = LogOdds {
            evidence: vec![
                Evidence::new("stated", 20.0),
                Evidence::new("resting", -14.0),
            ],
        };
        assert_eq!(b.holds(), None);
        assert_eq!(b.others(), (0, 1));
        assert_eq!(LogOdds::default().holds(), None);
        assert_eq!(LogOdds::default().certainty().0, 0.5);
    }
}
