//! Axes with round-number ticks.

/// Round values on an axis.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Ticks {
    /// The values, rising.
    pub values: Vec<f64>,
    /// Digits behind the decimal sign that they need.
    pub digits: usize,
}

/// Ticks at 1, 2 or 5 times a power of ten: the smallest such step that gives at most `most` of them
/// inside `low..=high`. None when the range is empty or not finite.
pub(crate) fn ticks(low: f64, high: f64, most: usize) -> Ticks {
    let width = high - low;
    if !(width.is_finite() && width > 0.0) || most == 0 {
        return Ticks {
            values: Vec::new(),
            digits: 0,
        };
    }
    let smallest = 10f64.powi((width / most as f64).log10().floor() as i32);
    let count = |step: f64| ((high / step + 1e-9).floor() - (low / step - 1e-9).ceil()) as i64 + 1;
    let step = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0]
        .map(|k| k * smallest)
        .into_iter()
        .find(|&step| count(step) <= most as i64)
        .unwrap_or(100.0 * smallest);
    let first = (low / step - 1e-9).ceil();
    let values = (0..count(step).max(0))
        .map(|i| (first + i as f64) * step)
        .collect();
    Ticks {
        values,
        digits: (-(step.log10() + 1e-9).floor()).max(0.0) as usize,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn values(low: f64, high: f64, most: usize) -> Vec<f64> {
        ticks(low, high, most).values
    }

    #[test]
    fn ticks_are_round_and_inside() {
        assert_eq!(values(0.0, 20.0, 6), [0.0, 5.0, 10.0, 15.0, 20.0]);
        assert_eq!(values(-0.3, 37.2, 4), [0.0, 10.0, 20.0, 30.0]);
        assert_eq!(values(-0.3, 37.2, 3), [0.0, 20.0]);
        assert_eq!(values(3.1, 11.9, 6), [4.0, 6.0, 8.0, 10.0]);
        let fine = ticks(11.52, 12.91, 4);
        assert_eq!((fine.values, fine.digits), (vec![12.0, 12.5], 1));
    }

    #[test]
    fn an_axis_without_width_has_none() {
        assert!(values(1.0, 1.0, 5).is_empty());
        assert!(values(f64::NAN, 1.0, 5).is_empty());
        assert!(values(0.0, f64::INFINITY, 5).is_empty());
    }

    #[test]
    fn never_more_than_asked_for_and_mostly_two() {
        for i in 1..2000 {
            let high = i as f64 * 0.0137;
            let n = values(0.0, high, 5).len();
            assert!((2..=5).contains(&n), "{n} ticks up to {high}");
        }
    }
}
