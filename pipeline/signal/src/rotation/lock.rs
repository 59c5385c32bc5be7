//! Whether one tooth train is locked to another.

/// How firmly the events `a` keep their place within the periods of `b`: length of the mean phase vector, 0 (no
/// relation) to 1 (locked); `None` with fewer than eight events within `b`'s train. A copy of a channel, or
/// pulses at a whole fraction of its rate, come out near 1; two shafts that turn on their own come out near 0
/// once they have slipped by a period.
pub fn phase_lock(a: &[f64], b: &[f64]) -> Option<f64> {
    let (mut x, mut y, mut n) = (0.0f64, 0.0f64, 0usize);
    for &t in a {
        let k = b.partition_point(|&r| r <= t);
        if k == 0 || k >= b.len() {
            continue;
        }
        let phase = std::f64::consts::TAU * (t - b[k - 1]) / (b[k] - b[k - 1]);
        x += phase.cos();
        y += phase.sin();
        n += 1;
    }
    (n >= 8).then(|| x.hypot(y) / n as f64)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_copy_is_locked_and_a_stranger_is_not() {
        let b: Vec<f64> = (0..200)
            .map(|i| i as f64 * 0.01 + 0.0005 * (i as f64 * 0.1).sin())
            .collect();
        let copy: Vec<f64> = b.iter().map(|t| t + 0.002).collect();
        let half: Vec<f64> = b.iter().step_by(2).map(|t| t + 0.004).collect();
        let other: Vec<f64> = (0..150).map(|i| i as f64 * 0.01313).collect();
        assert!(phase_lock(&copy, &b).unwrap() > 0.98);
        assert!(phase_lock(&half, &b).unwrap() > 0.95);
        assert!(phase_lock(&other, &b).unwrap() < 0.2);
        assert_eq!(phase_lock(&[], &b), None);
    }
}
