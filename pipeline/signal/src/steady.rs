//! Stretches of a series in which it stays the same.

/// Stretch of a series: its first index and the one after its last.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stretch {
    /// First index.
    pub first: usize,
    /// Index after the last.
    pub end: usize,
}

/// Longest stretches, none of which overlap, of at least `least` points whose greatest value is at most `1 + within` times
/// the least; of positive values, cut at what is not finite. In the order of the series.
pub fn stretches(x: &[f64], within: f64, least: usize) -> Vec<Stretch> {
    let mut found = Vec::new();
    let mut first = 0;
    for part in x.chunk_by(|a, b| a.is_finite() == b.is_finite()) {
        if part[0].is_finite() {
            split(part, first, within, least.max(1), &mut found);
        }
        first += part.len();
    }
    found
}

fn split(x: &[f64], offset: usize, within: f64, least: usize, found: &mut Vec<Stretch>) {
    if x.len() < least {
        return;
    }
    let (mut from, mut best) = (0, 0..0);
    let (mut low, mut high) = (x[0], x[0]);
    for k in 0..x.len() {
        (low, high) = (low.min(x[k]), high.max(x[k]));
        while high > (1.0 + within) * low {
            from += 1;
            let own = &x[from..=k];
            low = own.iter().copied().fold(f64::INFINITY, f64::min);
            high = own.iter().copied().fold(0.0, f64::max);
        }
        if k + 1 - from > best.len() {
            best = from..k + 1;
        }
    }
    if best.len() < least {
        return;
    }
    split(&x[..best.start], offset, within, least, found);
    found.push(Stretch {
        first: offset + best.start,
        end: offset + best.end,
    });
    split(&x[best.end..], offset + best.end, within, least, found);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_levels_with_a_ramp_between_them() {
        let mut x = vec![100.0; 50];
        x.extend((1..20).map(|k| 100.0 + 5.0 * f64::from(k)));
        x.extend(vec![200.0; 60]);
        x.extend([f64::NAN; 3]);
        x.extend(vec![200.0; 10]);
        let found = stretches(&x, 0.04, 15);
        assert_eq!(found.len(), 2, "{found:?}");
        assert_eq!(found[0].first, 0);
        assert!((50..53).contains(&found[0].end));
        assert_eq!(found[1].end, 129);
    }
}
