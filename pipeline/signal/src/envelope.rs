//! Fewer points that look the same: the min/max envelope of a trace.

use crate::Time;
use crate::levels::least_and_greatest;
use std::cmp::Ordering;

/// Runs of points `(time in s, value)`; between two runs the trace is interrupted.
pub type Runs = Vec<Vec<(f64, f64)>>;

/// The trace between two instants with at most two points per column: the smallest and the largest
/// sample, in the order in which they occurred. Nothing is averaged, so a glitch of one sample survives.
///
/// `value` makes a value of a sample, the larger the larger the sample is, or the other way round. A sample that is NaN
/// is missing and interrupts the trace, infinities pass. The last
/// sample before `from_s` and the first one after `to_s` belong to it too, so that a line leaves the
/// picture instead of ending short of its edge. Empty when there is no sample, no column, or
/// `from_s` is not below `to_s`.
pub fn envelope<T: Copy + PartialOrd>(
    time: Time<'_>,
    samples: &[T],
    value: impl Fn(T) -> f64,
    (from_s, to_s): (f64, f64),
    columns: usize,
) -> Runs {
    let mut runs = Runs::new();
    if columns == 0 || from_s >= to_s || !(to_s - from_s).is_finite() {
        return runs;
    }
    let first = time.index_at(from_s, samples.len()).saturating_sub(1);
    let end = (time.index_at(to_s, samples.len()) + 1).min(samples.len());
    let per_second = columns as f64 / (to_s - from_s);
    let column_of = |i: usize| ((time.at(i) - from_s) * per_second).floor() as i64;

    let mut run = Vec::new();
    let mut from = first;
    while from < end {
        let number = column_of(from);
        // About where the next column begins, and then exactly.
        let next_s = from_s + (number as f64 + 1.0) / per_second;
        let mut to = time.index_at(next_s, end).clamp(from + 1, end);
        while to > from + 1 && column_of(to - 1) != number {
            to -= 1;
        }
        while to < end && column_of(to) == number {
            to += 1;
        }
        let column = &samples[from..to];
        let add = |run: &mut Vec<(f64, f64)>, at: usize, piece: &[T]| {
            let points = extremes(piece).into_iter().flatten();
            run.extend(points.map(|(i, v)| (time.at(at + i), value(v))));
        };
        if !column.iter().fold(false, |any, s| any | is_missing(s)) {
            add(&mut run, from, column);
        } else {
            for (k, piece) in column.split(is_missing).enumerate() {
                if k > 0 && !run.is_empty() {
                    runs.push(std::mem::take(&mut run));
                }
                add(&mut run, from, piece);
                from += piece.len() + 1;
            }
        }
        from = to;
    }
    runs.extend((!run.is_empty()).then_some(run));
    runs
}

/// Only NaN has no order with itself.
fn is_missing<T: PartialOrd>(sample: &T) -> bool {
    sample.partial_cmp(sample).is_none()
}

/// The smallest and the largest of samples of which none is missing, in the order in which they occur, and where.
fn extremes<T: Copy + PartialOrd>(samples: &[T]) -> [Option<(usize, T)>; 2] {
    let Some(&first) = samples.first() else {
        return [None, None];
    };
    let (low, high) = least_and_greatest(samples, (first, first));
    // Where they lie is looked for afterwards, sixteen at once too.
    let groups = samples.as_chunks::<16>().0;
    let find = |extreme: T| {
        let has = |group: &[T; 16]| group.iter().fold(false, |any, v| any | (*v == extreme));
        let before = 16 * groups.iter().position(has).unwrap_or(groups.len());
        let i = samples[before..].iter().position(|v| *v == extreme)?;
        Some((before + i, extreme))
    };
    let (low, high) = (find(low), find(high));
    match low.map(|p| p.0).cmp(&high.map(|p| p.0)) {
        Ordering::Less => [low, high],
        Ordering::Greater => [high, low],
        Ordering::Equal => [low, None],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TIME: Time<'static> = Time::Even {
        start_s: 0.0,
        step_s: 1e-3,
    };

    fn of(samples: &[f64], columns: usize) -> Runs {
        let span = (0.0, samples.len() as f64 * 1e-3);
        envelope(TIME, samples, |v| v, span, columns)
    }

    #[test]
    fn a_glitch_of_one_sample_survives() {
        let mut samples = vec![0.0; 1_000_000];
        samples[123_456] = 5.0;
        let runs = of(&samples, 500);
        assert_eq!(runs.len(), 1);
        assert!(runs[0].contains(&(TIME.at(123_456), 5.0)));
        assert!(runs[0].len() <= 2 * 501);
    }

    #[test]
    fn extremes_keep_their_order() {
        // Two columns of four samples: first falls, then rises.
        let runs = of(&[1.0, 9.0, -9.0, 1.0, 2.0, -7.0, 8.0, 2.0], 2);
        let values: Vec<f64> = runs[0].iter().map(|p| p.1).collect();
        assert_eq!(values, [9.0, -9.0, -7.0, 8.0]);
    }

    #[test]
    fn few_samples_stay_as_they_are() {
        let samples = [1.0, 2.0, 2.0, -1.0];
        let runs = of(&samples, 100);
        assert_eq!(runs[0].iter().map(|p| p.1).collect::<Vec<_>>(), samples);
    }

    #[test]
    fn a_missing_sample_interrupts_the_trace() {
        let runs = of(
            &[f64::NAN, 1.0, 2.0, f64::NAN, f64::NAN, f64::INFINITY],
            100,
        );
        assert_eq!(runs.len(), 2);
        assert_eq!(runs[1][0].1, f64::INFINITY);
    }

    #[test]
    fn a_window_reaches_one_sample_beyond_its_edges() {
        let samples: Vec<f64> = (0..100).map(f64::from).collect();
        let runs = envelope(TIME, &samples, |v| v, (0.0105, 0.0205), 1000);
        assert_eq!(runs[0].first(), Some(&(0.010, 10.0)));
        assert_eq!(runs[0].last().map(|p| p.1), Some(21.0));
    }

    #[test]
    fn nothing_comes_of_nothing() {
        assert!(of(&[], 10).is_empty());
        assert!(of(&[1.0], 0).is_empty());
        assert!(envelope(TIME, &[0.0], |v| v, (1.0, 1.0), 10).is_empty());
        assert!(envelope(TIME, &[0.0], |v| v, (0.0, f64::INFINITY), 10).is_empty());
        assert!(of(&[f64::NAN; 5], 10).is_empty());
    }

    #[test]
    fn listed_instants_work_alike() {
        let t = [0.0, 0.1, 0.5, 0.50001, 2.0];
        let samples = [0.0, 1.0, 2.0, 3.0, 4.0];
        let runs = envelope(Time::Listed(&t), &samples, |v| v, (0.0, 2.0), 1000);
        assert_eq!(runs[0].len(), 5);
    }
}
