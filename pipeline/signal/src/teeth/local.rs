//! Periods against their neighbours.

/// Periods on either side with which a period is compared.
const NEAR: usize = 4;

/// Ratio of period `k` to the median of up to four neighbours on either side, itself left out: 1 for a tooth of an even
/// train, 2 or 3 over missing teeth. At the ends of a train, where it may just have begun to move, the nearest
/// neighbour alone counts. 1 for a single period.
pub fn pitch_ratio(periods: &[f64], k: usize) -> f64 {
    let n = periods.len();
    if n < 2 {
        return 1.0;
    }
    if k == 0 || k + 1 == n {
        let beside = if k == 0 { periods[1] } else { periods[n - 2] };
        return periods[k] / beside;
    }
    let mut near = [0.0; 2 * NEAR];
    let mut count = 0;
    let around = k.saturating_sub(NEAR)..(k + NEAR + 1).min(n);
    for (j, p) in around.clone().zip(&periods[around]) {
        if j != k {
            near[count] = *p;
            count += 1;
        }
    }
    let near = &mut near[..count];
    near.sort_unstable_by(f64::total_cmp);
    let middle = (near[(count - 1) / 2] + near[count / 2]) / 2.0;
    periods[k] / middle
}

/// Ratios of all periods, see [`pitch_ratio`].
pub fn pitch_ratios(periods: &[f64]) -> Vec<f64> {
    (0..periods.len())
        .map(|k| pitch_ratio(periods, k))
        .collect()
}
