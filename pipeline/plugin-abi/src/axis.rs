//! Time axes that no recorder can have made: whoever computed on them would compute nonsense, or fail.

/// Shortest interval between two samples, s: a tenth of what the quickest oscilloscopes sample at.
const SHORTEST_S: f64 = 1e-12;
/// Longest recording, s: thirty years.
const LONGEST_S: f64 = 1e9;
/// Farthest instant from zero, s: a second must still be told from the next by a good margin.
const FARTHEST_S: f64 = 1e12;

/// Checks an even axis of `len` samples from `start_s` on, `step_s` apart.
///
/// # Errors
/// Error of an axis as the rest of a sentence about the recording.
pub fn check_even(start_s: f64, step_s: f64, len: usize) -> Result<(), String> {
    if len == 0 {
        return Ok(());
    }
    if len > 1 && !(SHORTEST_S..=LONGEST_S).contains(&step_s) {
        return Err(format!(
            "its samples lie {step_s} s apart, expected {SHORTEST_S:e} s to {LONGEST_S:e} s; check the time column's \
             unit"
        ));
    }
    let steps = len.saturating_sub(1) as f64;
    let end_s = if len > 1 {
        start_s + steps * step_s
    } else {
        start_s
    };
    check_span(start_s, end_s, len)
}

/// Checks listed instants, s. They may repeat.
///
/// # Errors
/// As for [`check_even`].
pub fn check_listed(instants: &[f64]) -> Result<(), String> {
    let backward = |w: &[f64]| w[1] < w[0] || w[0].is_nan() || w[1].is_nan();
    if let Some(i) = instants.windows(2).position(backward) {
        return Err(format!(
            "its instants must never decrease, and number {} is {} after {}",
            i + 2,
            instants[i + 1],
            instants[i]
        ));
    }
    check_listed_ends(instants)
}

/// Checks first, last and number of listed instants, and trusts the rest.
///
/// # Errors
/// As for [`check_even`].
pub fn check_listed_ends(instants: &[f64]) -> Result<(), String> {
    let (Some(&first), Some(&last)) = (instants.first(), instants.last()) else {
        return Ok(());
    };
    let count = instants.len() - 1;
    if count > 0 && (last - first) / (count as f64) < SHORTEST_S {
        return Err(format!(
            "its {} instants span {} s, expected at least {SHORTEST_S:e} s each; check the time column's unit",
            instants.len(),
            last - first
        ));
    }
    check_span(first, last, instants.len())
}

fn check_span(first: f64, last: f64, len: usize) -> Result<(), String> {
    let near = |t: f64| t.abs() <= FARTHEST_S;
    // Instants so far from zero that neighbours are the same number are no axis either.
    let told_apart = len < 2 || last - first > first.abs() * f64::EPSILON * len as f64;
    if near(first) && near(last) && (0.0..=LONGEST_S).contains(&(last - first)) && told_apart {
        return Ok(());
    }
    Err(format!(
        "its instants run from {first} s to {last} s, expected a recording of at most {LONGEST_S:e} s; check the time \
         column's unit"
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn axes_of_recorders_pass() {
        for (start, step, len) in [
            (0.0, 1e-4, 1000),
            (-5.0, 2e-10, 10),
            (1.8e9, 0.1, 2),
            (1.8e9, 1e-6, 1_000_000),
            (0.0, 0.0, 0),
            (3.0, f64::NAN, 1),
        ] {
            assert_eq!(check_even(start, step, len), Ok(()), "{start} {step} {len}");
        }
        for listed in [&[][..], &[3.0], &[0.0, 0.0, 1.0]] {
            assert_eq!(check_listed(listed), Ok(()), "{listed:?}");
        }
    }

    #[test]
    fn others_do_not() {
        for (start, step, len) in [
            (0.0, 1e-300, 3),
            (0.0, 5e-324, 3),
            (0.0, 0.0, 3),
            (0.0, f64::NAN, 3),
            (0.0, -1.0, 3),
            (0.0, 1e300, 3),
            (0.0, f64::INFINITY, 3),
            (f64::INFINITY, 1.0, 3),
            (f64::NAN, 1.0, 3),
            (1e300, 1.0, 3),
            (1.8e9, 1e-10, 3),
        ] {
            assert!(
                check_even(start, step, len).is_err(),
                "{start} {step} {len}"
            );
        }
        for listed in [
            &[0.0, 1e-300, 2e-300][..],
            &[0.0, f64::NAN],
            &[f64::NAN, 0.0],
            &[f64::NAN],
            &[1.0, 0.0],
            &[2.0, 2.0, 2.0],
            &[0.0, 1e300],
            &[f64::NEG_INFINITY, 0.0],
        ] {
            assert!(check_listed(listed).is_err(), "{listed:?}");
        }
    }
}
