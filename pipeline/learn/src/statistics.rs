//! Order statistics, shares, weights of evidence and control charts, in closed form.

/// 97.5 % point of the standard normal distribution.
pub const Z95: f64 = 1.959963984540054;

/// Share of a population that a tolerance interval holds.
pub const COVERAGE: f64 = 0.95;

/// Probability with which it holds at least that share.
pub const CONFIDENCE: f64 = 0.95;

/// Confidence with which the `n` values less the `cut` outermost ones span at least the share `coverage` of the
/// population they were drawn from, whatever its distribution: P(B >= cut) for B binomial with `n` trials of
/// `1 - coverage`. `cut` is 1 for a bound at the extreme value, 2 for both bounds at the extremes (S. S. Wilks,
/// Determination of sample sizes for setting tolerance limits, Ann. Math. Stat. 12, 1941). It holds as well where
/// each of the `n` is a range and the bounds are the outermost ends (A. Wald's and J. W. Tukey's blocks).
pub fn tolerance_confidence(n: usize, cut: usize, coverage: f64) -> f64 {
    if cut == 0 || n < cut {
        return 0.0;
    }
    binomial_tail(cut, n, 1.0 - coverage)
}

/// Probability that a binomial variable of `n` trials of probability `p`, 0 to 1, comes to `k` or more.
fn binomial_tail(k: usize, n: usize, p: f64) -> f64 {
    let (log_hit, log_miss) = (p.ln(), (-p).ln_1p());
    // Logarithm of the term of the distribution, from one to the next.
    let mut log_term = n as f64 * log_miss;
    let mut below = 0.0;
    for j in 0..k {
        below += log_term.exp();
        log_term += ((n - j) as f64 / (j + 1) as f64).ln() + log_hit - log_miss;
    }
    (1.0 - below).clamp(0.0, 1.0)
}

/// The `level` point, 0 to 1, of the Beta distribution of `a` and `b`, both 1 at least: the probability at which
/// `a + b - 1` trials come to `a` or more with that probability.
pub fn beta_quantile(level: f64, a: usize, b: usize) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..100 {
        let middle = (low + high) / 2.0;
        if binomial_tail(a, a + b - 1, middle) < level {
            low = middle;
        } else {
            high = middle;
        }
    }
    high
}

/// Largest rank `r`, from 1, at which the `r`-th value from each of `bounds` ends (1 or 2) is a tolerance bound of
/// [`COVERAGE`] at [`CONFIDENCE`]; `None` where `n` values do not carry one.
pub fn tolerance_rank(n: usize, bounds: usize) -> Option<usize> {
    let holds = |r: &usize| tolerance_confidence(n, bounds * r, COVERAGE) >= CONFIDENCE;
    (1..=n / bounds.max(1)).take_while(holds).last()
}

/// Number of values from which on `bounds` (1 or 2) tolerance bounds can be had: 59 or 93.
pub fn tolerance_size(bounds: usize) -> usize {
    let carries = |n: &usize| tolerance_rank(*n, bounds).is_some();
    (1..).find(carries).unwrap_or(usize::MAX)
}

/// Quantile of sorted values by linear interpolation between their places (R. J. Hyndman and Y. Fan, type 7); NaN
/// for none.
pub fn quantile(sorted: &[f64], p: f64) -> f64 {
    let Some(last) = sorted.len().checked_sub(1) else {
        return f64::NAN;
    };
    let place = p.clamp(0.0, 1.0) * last as f64;
    let below = place.floor() as usize;
    let above = (below + 1).min(last);
    sorted[below] + (place - below as f64) * (sorted[above] - sorted[below])
}

/// Median; NaN for none.
pub fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    quantile(&values, 0.5)
}

/// Outer fences of J. W. Tukey's box plot (Exploratory Data Analysis, 1977): three times the interquartile range
/// beyond the quartiles. A quarter of odd values on one side does not move them.
pub fn outer_fences(mut values: Vec<f64>) -> (f64, f64) {
    values.sort_by(f64::total_cmp);
    let (first, third) = (quantile(&values, 0.25), quantile(&values, 0.75));
    let reach = 3.0 * (third - first);
    (first - reach, third + reach)
}

/// Wilson's score interval at 95 % for `hits` of `n` (E. B. Wilson, J. Am. Stat. Assoc. 22, 1927); the whole range
/// for none.
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

/// Weight of evidence in decibans, 10 log10 (p1 / p0) (I. J. Good), counted in cases.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weight {
    /// Ratio of the shares' medians.
    pub median: f64,
    /// Lower end of the 95 % interval.
    pub low: f64,
    /// Upper end of the 95 % interval.
    pub high: f64,
}

impl Weight {
    /// Weight of an observation seen in `a` of `n` cases with the cause and in `b` of `m` without it. Each share is
    /// distributed as Beta(hits + 1, misses + 1) (P.-S. Laplace's rule of succession); the interval of the ratio is
    /// made of theirs by the method of variance estimates recovery (G. Y. Zou and A. Donner, Statistics in Medicine 27,
    /// 2008), which is near enough where a share is 0 or 1 as well.
    pub fn counted(a: usize, n: usize, b: usize, m: usize) -> Weight {
        let ([low1, median1, high1], [low0, median0, high0]) = (share_dban(a, n), share_dban(b, m));
        let median = median1 - median0;
        Weight {
            median,
            low: median - (median1 - low1).hypot(high0 - median0),
            high: median + (high1 - median1).hypot(median0 - low0),
        }
    }

    /// End of the interval that lies nearer to zero, so that few cases give little weight; 0 where it holds zero.
    pub fn cautious(&self) -> f64 {
        match (self.low > 0.0, self.high < 0.0) {
            (true, _) => self.low,
            (_, true) => self.high,
            _ => 0.0,
        }
    }
}

/// 2.5 %, 50 % and 97.5 % points of 10 log10 of the share of which `hits` of `n` were seen.
fn share_dban(hits: usize, n: usize) -> [f64; 3] {
    let (a, b) = (hits.min(n) + 1, n.saturating_sub(hits) + 1);
    [0.025, 0.5, 0.975].map(|level| 10.0 * beta_quantile(level, a, b).log10())
}

/// Exponentially weighted moving average with its control limits (NIST/SEMATECH e-Handbook of Statistical Methods,
/// 6.3.2.4): centre ± `widths` · `deviation` · √(λ / (2 - λ)).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ControlChart {
    /// Centre line, at which the average starts.
    pub centre: f64,
    /// Standard deviation of one value while nothing changes.
    pub deviation: f64,
    /// Weight λ of the newest value, 0 to 1.
    pub lambda: f64,
    /// Distance of the limits from the centre, standard deviations of the average.
    pub widths: f64,
}

impl ControlChart {
    /// Averages after each value.
    pub fn averages(&self, values: &[f64]) -> Vec<f64> {
        let next = |average: &mut f64, value: &f64| {
            *average = self.lambda * value + (1.0 - self.lambda) * *average;
            Some(*average)
        };
        values.iter().scan(self.centre, next).collect()
    }

    /// Lower and upper limit of the average.
    pub fn limits(&self) -> (f64, f64) {
        let reach = self.widths * self.deviation * (self.lambda / (2.0 - self.lambda)).sqrt();
        (self.centre - reach, self.centre + reach)
    }
}
