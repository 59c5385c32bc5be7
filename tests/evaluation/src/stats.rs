//! The little statistics that the tables need.

use learn::statistics::beta_quantile;
pub use learn::statistics::{Weight, wilson};

/// Highest risk that `wrong` of `n` leaves possible with confidence `1 - delta`: the b at which a binomial variable of
/// `n` trials comes to `wrong` or fewer with probability `delta` (Clopper and Pearson 1934; the bound of Geifman and
/// El-Yaniv's selection with guaranteed risk). 1 for no trials.
pub fn risk_bound(wrong: usize, n: usize, delta: f64) -> f64 {
    match n.checked_sub(wrong) {
        None | Some(0) => 1.0,
        Some(right) => beta_quantile(1.0 - delta, wrong + 1, right),
    }
}

/// Probability that goes with a weight of evidence at even prior odds.
pub fn probability(weight_dban: f64) -> f64 {
    1.0 / (1.0 + 10f64.powf(-weight_dban / 10.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Reference: SciPy 1.17.1, `scipy.stats.beta.ppf(0.95, k + 1, n - k)`.
    #[test]
    fn risk_bound_agrees_with_scipy() {
        for (k, n, want) in [
            (0, 300, 0.009936081944457708),
            (0, 10000, 0.00029952835977661195),
            (3, 1000, 0.007735244718479458),
            (30, 10000, 0.004066874992626077),
            (7, 12, 0.818975242757679),
        ] {
            let got = risk_bound(k, n, 0.05);
            assert!((got - want).abs() < 1e-9, "{k} of {n}: {got}, want {want}");
        }
        assert_eq!(risk_bound(0, 0, 0.05), 1.0);
    }

    /// I. J. Good's decibans: a likelihood ratio of 10 is 10 dB.
    #[test]
    fn decibans() {
        assert!((probability(10.0) - 10.0 / 11.0).abs() < 1e-12);
    }
}
