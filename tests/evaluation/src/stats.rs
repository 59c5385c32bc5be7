//! The little statistics that the tables need.

/// 97.5 % point of the standard normal distribution.
pub const Z95: f64 = 1.959963984540054;

/// Wilson's score interval at 95 % for `hits` of `n` (E. B. Wilson, J. Am. Stat. Assoc. 22, 1927); the whole
/// range for none.
pub fn wilson(hits: usize, n: usize) -> (f64, f64) {
    if n == 0 {
        return (0.0, 1.0);
    }
    let (p, n, z2) = (hits as f64 / n as f64, n as f64, Z95 * Z95);
    let centre = p + z2 / (2.0 * n);
    let half = Z95 * (p * (1.0 - p) / n + z2 / (4.0 * n * n)).sqrt();
    let scale = 1.0 + z2 / n;
    (
        ((centre - half) / scale).max(0.0),
        ((centre + half) / scale).min(1.0),
    )
}

/// The digamma function for x > 0: recurrence up to 8, then the asymptotic series (Abramowitz and Stegun, 6.3.5
/// and 6.3.18).
pub fn digamma(mut x: f64) -> f64 {
    let mut sum = 0.0;
    while x < 8.0 {
        sum -= 1.0 / x;
        x += 1.0;
    }
    let q = 1.0 / (x * x);
    let series =
        q * (1.0 / 12.0 - q * (1.0 / 120.0 - q * (1.0 / 252.0 - q * (1.0 / 240.0 - q / 132.0))));
    sum + x.ln() - 0.5 / x - series
}

/// The trigamma function for x > 0: recurrence up to 8, then the asymptotic series (Abramowitz and Stegun, 6.4.6
/// and 6.4.12).
pub fn trigamma(mut x: f64) -> f64 {
    let mut sum = 0.0;
    while x < 8.0 {
        sum += 1.0 / (x * x);
        x += 1.0;
    }
    let q = 1.0 / (x * x);
    let series =
        q * (1.0 / 6.0 - q * (1.0 / 30.0 - q * (1.0 / 42.0 - q * (1.0 / 30.0 - q * 5.0 / 66.0))));
    sum + 1.0 / x + q / 2.0 + series / x
}

/// Weight of evidence in decibans, 10 log10 (p1 / p0), of an observation seen in `a` of `n` cases with the cause
/// and in `b` of `m` without it, with its standard deviation. Each share has Jeffreys' prior Beta(1/2, 1/2); the
/// mean and variance of ln p under a Beta(s, t) are exactly psi(s) - psi(s + t) and psi'(s) - psi'(s + t).
pub fn weight_dban(a: usize, n: usize, b: usize, m: usize) -> (f64, f64) {
    let moments = |hits: usize, of: usize| {
        let (s, all) = (hits as f64 + 0.5, of as f64 + 1.0);
        (digamma(s) - digamma(all), trigamma(s) - trigamma(all))
    };
    let ((mean1, variance1), (mean0, variance0)) = (moments(a, n), moments(b, m));
    let decibans = 10.0 / std::f64::consts::LN_10;
    (
        decibans * (mean1 - mean0),
        decibans * (variance1 + variance0).sqrt(),
    )
}

/// Highest risk that `wrong` of `n` leaves possible with confidence `1 - delta`: the b at which a binomial variable of
/// `n` trials comes to `wrong` or fewer with probability `delta` (Clopper and Pearson 1934; the bound of Geifman and
/// El-Yaniv's selection with guaranteed risk). 1 for no trials.
pub fn risk_bound(wrong: usize, n: usize, delta: f64) -> f64 {
    if wrong >= n {
        return 1.0;
    }
    let tail = |b: f64| {
        let (log_b, log_rest) = (b.ln(), (-b).ln_1p());
        let mut log_term = n as f64 * log_rest;
        let mut sum = log_term.exp();
        for j in 1..=wrong {
            log_term += ((n - j + 1) as f64 / j as f64).ln() + log_b - log_rest;
            sum += log_term.exp();
        }
        sum
    };
    let (mut low, mut high) = (wrong as f64 / n as f64, 1.0);
    for _ in 0..100 {
        let middle = (low + high) / 2.0;
        if tail(middle) > delta {
            low = middle;
        } else {
            high = middle;
        }
    }
    high
}

/// Probability that goes with a weight of evidence at even prior odds.
pub fn probability(weight_dban: f64) -> f64 {
    1.0 / (1.0 + 10f64.powf(-weight_dban / 10.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Reference: SciPy 1.17.1, `scipy.special.psi` and `polygamma(1, x)`.
    #[test]
    fn polygamma_agrees_with_scipy() {
        for (x, di, tri) in [
            (0.5, -1.9635100260214235, 4.93480220054468),
            (1.0, -0.5772156649015329, 1.6449340668482266),
            (3.5, 1.103156640645243, 0.3303577561002349),
            (40.5, 3.6889054929332334, 0.024998698201356737),
        ] {
            assert!(
                (digamma(x) - di).abs() < 1e-9,
                "digamma({x}) = {}",
                digamma(x)
            );
            assert!(
                (trigamma(x) - tri).abs() < 1e-9,
                "trigamma({x}) = {}",
                trigamma(x)
            );
        }
    }

    /// Reference: SciPy 1.17.1, `binomtest(k, n).proportion_ci(0.95, method="wilson")`.
    #[test]
    fn wilson_agrees_with_scipy() {
        let near = |got: (f64, f64), want: (f64, f64)| {
            assert!(
                (got.0 - want.0).abs() < 1e-9 && (got.1 - want.1).abs() < 1e-9,
                "{got:?}"
            );
        };
        near(wilson(8, 10), (0.4901624715366418, 0.9433178485456248));
        near(wilson(0, 12), (0.0, 0.24249400665524085));
        assert_eq!(wilson(0, 0), (0.0, 1.0));
    }

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

    /// I. J. Good's decibans: a likelihood ratio of 10 is 10 dB; with many cases the prior does not matter.
    #[test]
    fn decibans() {
        let (weight, sd) = weight_dban(500_000, 1_000_000, 50_000, 1_000_000);
        assert!((weight - 10.0).abs() < 0.001 && sd < 0.03, "{weight} {sd}");
        assert!((probability(10.0) - 10.0 / 11.0).abs() < 1e-12);
        assert!(weight_dban(3, 5, 3, 5).0.abs() < 1e-12);
    }
}
