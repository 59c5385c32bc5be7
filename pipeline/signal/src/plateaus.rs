//! A record as a row of plateaus: levels that hold for a while, with steps between them.

use crate::stats;

/// A stretch at one level.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plateau {
    /// First point.
    pub from: usize,
    /// Point after the last one.
    pub to: usize,
    /// Median of the points.
    pub level: f64,
}

/// Splits points into plateaus by merging neighbours, nearest first (Ward's criterion on neighbours only), until all
/// neighbours differ by more than `distance(level, level)` allows: the function returns how far apart two levels
/// are, and 1 or less is one plateau. Points that are not finite are left out of the levels.
pub fn plateaus(x: &[f64], distance: impl Fn(f64, f64) -> f64) -> Vec<Plateau> {
    let mut all: Vec<Plateau> = (0..x.len())
        .filter(|&i| x[i].is_finite())
        .map(|i| Plateau {
            from: i,
            to: i + 1,
            level: x[i],
        })
        .collect();
    let cost = |a: &Plateau, b: &Plateau| {
        let (n, m) = ((a.to - a.from) as f64, (b.to - b.from) as f64);
        let d = distance(a.level, b.level);
        (d * d * n * m / (n + m), d)
    };
    // Cheap merges first, in rounds: within a round each plateau merges at most once, so that a round is linear.
    let mut limit = 1e-4;
    loop {
        let mut merged = false;
        let mut next: Vec<Plateau> = Vec::with_capacity(all.len());
        let mut fresh = false;
        for p in &all {
            let joins = next.last().is_some_and(|last| {
                let (c, d) = cost(last, p);
                !fresh && (c <= limit || (limit >= 1.0 && d <= 1.0))
            });
            match next.last_mut() {
                Some(last) if joins => {
                    last.to = p.to;
                    last.level = stats::median(&x[last.from..last.to]).unwrap_or(last.level);
                    (merged, fresh) = (true, true);
                }
                _ => {
                    next.push(*p);
                    fresh = false;
                }
            }
        }
        all = next;
        if !merged {
            if limit >= 1.0 {
                return all;
            }
            limit *= 2.0;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::noise::noise;

    #[test]
    fn steps_of_a_staircase_in_noise() {
        let level = |i: usize| match i {
            0..100 => 5.0,
            100..130 => 3.0,
            130..135 => 8.0,
            _ => 3.0,
        };
        let x: Vec<f64> = (0..400)
            .zip(noise(7))
            .map(|(i, n)| level(i) + 0.5 * n)
            .collect();
        let found = plateaus(&x, |a, b| (a - b).abs());
        let spans: Vec<_> = found.iter().map(|p| (p.from, p.to)).collect();
        assert_eq!(spans, [(0, 100), (100, 130), (130, 135), (135, 400)]);
        assert!((found[0].level - 5.0).abs() < 0.1);
    }

    #[test]
    fn no_points_no_plateaus() {
        assert_eq!(plateaus(&[], |a, b| a - b), []);
        assert_eq!(plateaus(&[f64::NAN], |a, b| a - b), []);
    }
}
