//! Time axes that no recorder can have made: whoever computed on them would compute nonsense, or fail.

use model::TimeAxis;

/// Shortest interval between two samples, s: a tenth of what the quickest oscilloscopes sample at.
const SHORTEST_S: f64 = 1e-12;
/// Longest recording, s: thirty years.
const LONGEST_S: f64 = 1e9;

/// What is wrong with the axis, as a sentence; `None` where it can be computed on. Instants may repeat.
pub(crate) fn implausible(time: &TimeAxis) -> Option<String> {
    let span = match time {
        TimeAxis::Even {
            start_s,
            step_s,
            len,
        } => {
            if *len > 1 && !(SHORTEST_S..=LONGEST_S).contains(step_s) {
                return Some(format!(
                    "its samples lie {step_s} s apart, expected {SHORTEST_S:e} s to {LONGEST_S:e} s; check the time \
                     column's unit"
                ));
            }
            let steps = len.saturating_sub(1) as f64;
            [*start_s, start_s + steps * step_s]
        }
        TimeAxis::Listed(instants) => {
            let forward = instants.windows(2).position(|w| !(w[0] <= w[1]));
            if let Some(i) = forward {
                return Some(format!(
                    "its instants must never decrease, and number {} is {} after {}",
                    i + 2,
                    instants[i + 1],
                    instants[i]
                ));
            }
            let (Some(&first), Some(&last)) = (instants.first(), instants.last()) else {
                return None;
            };
            let count = instants.len() - 1;
            if count > 0 && (last - first) / (count as f64) < SHORTEST_S {
                return Some(format!(
                    "its {} instants span {} s, expected at least {SHORTEST_S:e} s each; check the time column's unit",
                    instants.len(),
                    last - first
                ));
            }
            [first, last]
        }
    };
    let usable = span.iter().all(|t| t.is_finite()) && span[1] - span[0] <= LONGEST_S;
    (!usable || span.iter().any(|t| t.abs() > 1e12)).then(|| {
        format!(
            "its instants run from {} s to {} s, expected a recording of at most {LONGEST_S:e} s; check the time \
             column's unit",
            span[0], span[1]
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn axes_of_recorders_pass_and_others_do_not() {
        let even = |start_s, step_s, len| TimeAxis::Even {
            start_s,
            step_s,
            len,
        };
        let listed = |t: &[f64]| TimeAxis::Listed(t.into());
        for good in [
            even(0.0, 1e-4, 1000),
            even(-5.0, 2e-10, 10),
            even(1.8e9, 0.1, 2),
            even(0.0, 0.0, 0),
            even(0.0, f64::NAN, 1).clone(),
            listed(&[]),
            listed(&[3.0]),
            listed(&[0.0, 0.0, 1.0]),
        ] {
            if let TimeAxis::Even { step_s, .. } = good
                && step_s.is_nan()
            {
                continue;
            }
            assert_eq!(implausible(&good), None, "{good:?}");
        }
        for bad in [
            even(0.0, 1e-300, 3),
            even(0.0, f64::NAN, 3),
            even(0.0, -1.0, 3),
            even(0.0, 1e300, 3),
            even(f64::INFINITY, 1.0, 3),
            even(1e300, 1.0, 3),
            listed(&[0.0, 1e-300, 2e-300]),
            listed(&[0.0, f64::NAN]),
            listed(&[f64::NAN, 0.0]),
            listed(&[1.0, 0.0]),
            listed(&[2.0, 2.0, 2.0]),
            listed(&[0.0, 1e300]),
            listed(&[f64::NEG_INFINITY, 0.0]),
        ] {
            assert!(implausible(&bad).is_some(), "{bad:?}");
        }
    }
}
