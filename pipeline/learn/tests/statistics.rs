//! Statistics against published sample sizes, a handbook's worked example and reference libraries.

use baybrief_learn::statistics::*;

/// Sample sizes of Wilks' formula at 95 % coverage and 95 % confidence: 59 for one bound, 93 for both, as the
/// literature on the method gives them from memory, and as SciPy 1.17.1 has them with the pairs below,
/// `scipy.stats.binom.sf(cut - 1, n, 0.05)`. The formula for both bounds is that of `quantileWilks` in R's package
/// mistral: 1 - a^n - n (1 - a) a^(n - 1).
#[test]
fn sample_sizes_are_those_of_wilks() {
    assert_eq!((tolerance_size(1), tolerance_size(2)), (59, 93));
    for (n, cut, want) in [
        (58, 1, 0.948_953_131_316_396_6),
        (59, 1, 0.951_505_474_750_576_8),
        (92, 2, 0.947_863_597_068_323_1),
        (93, 2, 0.950_024_204_757_383_7),
        (124, 3, 0.950_470_222_321_313_2),
        (10, 2, 0.086_138_355_899_316_37),
    ] {
        let got = tolerance_confidence(n, cut, 0.95);
        assert!((got - want).abs() < 1e-12, "{n}, {cut}: {got}");
    }
    assert_eq!(tolerance_rank(58, 1), None);
    assert_eq!(tolerance_rank(93, 1), Some(2));
    assert_eq!(tolerance_rank(124, 1), Some(3));
    assert_eq!(tolerance_rank(93, 2), Some(1));
    assert_eq!(tolerance_confidence(0, 1, 0.95), 0.0);
}

/// Worked example of the NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.4 EWMA control charts: data,
/// averages and limits as two public programs reproduce them that name the page.
#[test]
fn the_control_chart_is_that_of_the_handbook() {
    let chart = ControlChart {
        centre: 50.0,
        deviation: 2.0539,
        lambda: 0.3,
        widths: 3.0,
    };
    let values = [
        52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8,
        51.2, 52.6, 52.4, 53.6, 52.1,
    ];
    let want = [
        50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52,
        50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99,
    ];
    for (got, want) in chart.averages(&values).iter().zip(want) {
        assert!((got - want).abs() < 0.0051, "{got}, want {want}");
    }
    let (low, high) = chart.limits();
    // The handbook rounds the root to 0.4201 first.
    assert!((low - 47.4115).abs() < 5e-4 && (high - 52.5884).abs() < 5e-4);
}

/// Reference: SciPy 1.17.1 and statsmodels 0.15.0 (`proportion_confint`) alike, `binomtest(k, n).proportion_ci(0.95, method="wilson")`.
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

/// I. J. Good's decibans: a likelihood ratio of 10 is 10 dB; with many cases the prior does not matter.
#[test]
fn decibans() {
    let weight = Weight::counted(5_000, 10_000, 500, 10_000);
    assert!((weight.median - 10.0).abs() < 0.01 && weight.high - weight.low < 0.8);
    assert!(Weight::counted(3, 5, 3, 5).median.abs() < 1e-12);
    assert_eq!(Weight::counted(3, 5, 3, 5).cautious(), 0.0);
}

/// Reference: NumPy 2.4.6, quantiles of 20 million draws of 10 log10 of each share from its Beta distribution (seed 1),
/// held to 0.15 dB: the method approximates. A share of none and one of all are the hard cases.
#[test]
fn weights_agree_with_drawn_ones() {
    for ((a, n, b, m), want) in [
        ((38, 64, 7, 501), [12.986, 15.863, 19.402]),
        ((0, 1240, 3000, 6800), [-43.342, -28.977, -21.720]),
        ((12, 13, 0, 40), [9.939, 17.120, 31.478]),
        ((19, 19, 74, 546), [7.425, 8.446, 9.455]),
    ] {
        let got = Weight::counted(a, n, b, m);
        for (got, want) in [got.low, got.median, got.high].iter().zip(want) {
            assert!(
                (got - want).abs() < 0.15,
                "{a} of {n}, {b} of {m}: {got}, want {want}"
            );
        }
    }
}

/// Reference: NumPy 2.4.6, `numpy.quantile` (linear).
#[test]
fn quantiles_interpolate() {
    let sorted = [1.0, 2.0, 4.0, 8.0];
    assert_eq!(quantile(&sorted, 0.25), 1.75);
    assert!((quantile(&sorted, 0.95) - 7.4).abs() < 1e-12);
    assert_eq!(median(vec![8.0, 1.0, 4.0, 2.0]), 3.0);
    assert!(quantile(&[], 0.5).is_nan());
}

#[test]
fn a_quarter_of_odd_values_does_not_move_the_fences() {
    let mut values: Vec<f64> = (0..76).map(|i| 10.0 + f64::from(i % 10)).collect();
    let (_, clean) = outer_fences(values.clone());
    values.extend([1000.0; 24]);
    let (_, high) = outer_fences(values);
    assert!(high < clean + 3.0 * 4.0, "{high}, clean {clean}");
}
