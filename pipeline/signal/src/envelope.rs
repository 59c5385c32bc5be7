//! Fewer points that look the same: the min/max envelope of a trace.

use crate::Time;

/// Runs of points `(time in s, value)`; between two runs the trace is interrupted.
pub type Runs = Vec<Vec<(f64, f64)>>;

/// The trace between two instants with at most two points per column: the smallest and the largest
/// sample, in the order in which they occurred. Nothing is averaged, so a glitch of one sample survives.
///
/// `value(i)` is sample `i` of `len`; NaN (a missing sample) interrupts the trace, infinities pass. The last
/// sample before `from_s` and the first one after `to_s` belong to it too, so that a line leaves the
/// picture instead of ending short of its edge. Empty when there is no sample, no column, or
/// `from_s` is not below `to_s`.
pub fn envelope(
    time: Time<'_>,
    len: usize,
    value: impl Fn(usize) -> f64,
    (from_s, to_s): (f64, f64),
    columns: usize,
) -> Runs {
    let mut runs = Runs::new();
    if len == 0 || columns == 0 || from_s >= to_s || !(to_s - from_s).is_finite() {
        return runs;
    }
    let first = time.index_at(from_s, len).saturating_sub(1);
    let end = (time.index_at(to_s, len) + 1).min(len);
    let per_second = columns as f64 / (to_s - from_s);

    let mut run = Vec::new();
    let mut column = Column::default();
    for i in first..end {
        let (t, v) = (time.at(i), value(i));
        if v.is_nan() {
            column.flush(&mut run);
            if !run.is_empty() {
                runs.push(std::mem::take(&mut run));
            }
            continue;
        }
        let number = ((t - from_s) * per_second).floor() as i64;
        if number != column.number {
            column.flush(&mut run);
            column.number = number;
        }
        column.take(t, v);
    }
    column.flush(&mut run);
    if !run.is_empty() {
        runs.push(run);
    }
    runs
}

/// The extremes of the column that is being filled.
#[derive(Default)]
struct Column {
    number: i64,
    extremes: Option<[(f64, f64); 2]>,
}

impl Column {
    fn take(&mut self, t: f64, v: f64) {
        match &mut self.extremes {
            None => self.extremes = Some([(t, v); 2]),
            Some([low, high]) => {
                if v < low.1 {
                    *low = (t, v);
                } else if v > high.1 {
                    *high = (t, v);
                }
            }
        }
    }

    fn flush(&mut self, run: &mut Vec<(f64, f64)>) {
        let Some([low, high]) = self.extremes.take() else {
            return;
        };
        let (a, b) = if low.0 <= high.0 {
            (low, high)
        } else {
            (high, low)
        };
        run.push(a);
        if b != a {
            run.push(b);
        }
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
        envelope(TIME, samples.len(), |i| samples[i], span, columns)
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
        let runs = envelope(TIME, 100, |i| samples[i], (0.0105, 0.0205), 1000);
        assert_eq!(runs[0].first(), Some(&(0.010, 10.0)));
        assert_eq!(runs[0].last().map(|p| p.1), Some(21.0));
    }

    #[test]
    fn nothing_comes_of_nothing() {
        assert!(of(&[], 10).is_empty());
        assert!(of(&[1.0], 0).is_empty());
        assert!(envelope(TIME, 1, |_| 0.0, (1.0, 1.0), 10).is_empty());
        assert!(envelope(TIME, 1, |_| 0.0, (0.0, f64::INFINITY), 10).is_empty());
        assert!(of(&[f64::NAN; 5], 10).is_empty());
    }

    #[test]
    fn listed_instants_work_alike() {
        let t = [0.0, 0.1, 0.5, 0.50001, 2.0];
        let runs = envelope(Time::Listed(&t), 5, |i| i as f64, (0.0, 2.0), 1000);
        assert_eq!(runs[0].len(), 5);
    }
}
