//! Schmitt trigger and the instants of crossings.

/// One accepted transition.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edge {
    /// Fractional sample index of the crossing of the middle level, linearly interpolated.
    pub at: f64,
    /// Upwards or downwards.
    pub rising: bool,
}

/// Transitions of a signal with fixed levels: a rise counts once the signal reaches `high`, a fall once it
/// reaches `low` (`low` < `high`); the instant is the last crossing of the middle between them before that.
/// Samples that are NaN are passed over.
pub fn schmitt(x: &[f32], low: f64, high: f64) -> Vec<Edge> {
    let mid = (low + high) / 2.0;
    // The smallest sample that is not below the middle.
    let bound = match mid as f32 {
        m if f64::from(m) < mid => m.next_up(),
        m => m,
    };
    // On the side of the middle where the signal already is, nothing can happen.
    let calm = |state: i8, last: f64, next: &[f32]| match state {
        1 => last >= mid && next.iter().fold(true, |all, &v| all & (v >= bound)),
        -1 => last < mid && next.iter().fold(true, |all, &v| all & (v < bound)),
        _ => false,
    };
    trigger(
        x,
        calm,
        |_, v| {
            if v >= high {
                1
            } else if v <= low {
                -1
            } else {
                0
            }
        },
        mid,
    )
}

/// Transitions of an alternating signal whose amplitude changes, as a variable reluctance sensor gives it:
/// the hysteresis on either side of `centre` is `share` of the recent peak, but at least `least`. The memory of the
/// peak fades over two of the last periods, at most over `longest` samples, so that a signal that dies away is
/// followed to its end.
pub fn schmitt_tracking(x: &[f32], centre: f64, least: f64, share: f64, longest: f64) -> Vec<Edge> {
    let fade = |samples: f64| (-1.0 / samples.clamp(1.0, longest.max(1.0))).exp();
    let mut keep = fade(longest);
    let mut peak = 0.0f64;
    let (mut last_rise, mut above) = (0usize, false);
    trigger(
        x,
        |_, _, _| false,
        move |i, v| {
            let d = v - centre;
            peak = (peak * keep).max(d.abs());
            let h = least.max(share * peak);
            let side = if d >= h {
                1
            } else if d <= -h {
                -1
            } else {
                0
            };
            if side > 0 && !above {
                keep = fade(2.0 * (i - last_rise) as f64);
                (last_rise, above) = (i, true);
            } else if side < 0 {
                above = false;
            }
            side
        },
        centre,
    )
}

/// Leaves out pulses far shorter than their neighbours (a quarter of the upper quartile of the widths around), with
/// both of their edges, and says how many. A train whose pulses of one level are all short keeps them: that is its
/// shape, not a disturbance.
pub fn without_glitches(edges: &[Edge]) -> (Vec<Edge>, usize) {
    const NEAR: usize = 12;
    let widths: Vec<f64> = edges.windows(2).map(|w| w[1].at - w[0].at).collect();
    let mut kept = Vec::with_capacity(edges.len());
    let mut glitches = 0;
    let mut k = 0;
    while k < edges.len() {
        let around = k.saturating_sub(NEAR)..(k + NEAR + 1).min(widths.len());
        let near = widths.get(around.clone()).unwrap_or_default();
        let short = 0.25 * crate::stats::quantile(near, 0.75).unwrap_or(0.0);
        let glitch = near.len() > NEAR && widths.get(k).is_some_and(|&w| w < short) && {
            // Pulses of this level among the neighbours, and how many of them are short.
            let same: Vec<f64> = around
                .filter(|j| j % 2 == k % 2)
                .map(|j| widths[j])
                .collect();
            same.iter().filter(|&&w| w < short).count() * 5 <= same.len() * 3
        };
        if glitch {
            glitches += 1;
            k += 2;
        } else {
            kept.push(edges[k]);
            k += 1;
        }
    }
    (kept, glitches)
}

/// Samples that are looked at together.
const STRETCH: usize = 32;

/// The transitions to another side, +1 or -1 (0 is neither), as `side` gives it for each sample. Where `calm` says of
/// the side, the last sample and those that follow that they change nothing, these are passed over.
fn trigger(
    x: &[f32],
    calm: impl Fn(i8, f64, &[f32]) -> bool,
    mut side: impl FnMut(usize, f64) -> i8,
    mid: f64,
) -> Vec<Edge> {
    let mut edges = Vec::new();
    let mut state = 0i8;
    // Index of the last sample at which the signal crossed the middle, interpolated.
    let mut crossing = 0.0f64;
    let mut before: Option<(usize, f64)> = None;
    for (k, stretch) in x.chunks(STRETCH).enumerate() {
        let from = k * STRETCH;
        if let (Some((_, u)), Some(&last)) = (before, stretch.last())
            && calm(state, u, stretch)
        {
            before = Some((from + stretch.len() - 1, f64::from(last)));
            continue;
        }
        for (i, &v) in (from..).zip(stretch) {
            let v = f64::from(v);
            if v.is_nan() {
                continue;
            }
            if let Some((j, u)) = before
                && (u < mid) != (v < mid)
            {
                let f = if v.is_finite() && u.is_finite() {
                    (mid - u) / (v - u)
                } else {
                    1.0
                };
                crossing = j as f64 + f * (i - j) as f64;
            }
            before = Some((i, v));
            let s = side(i, v);
            if s != 0 && s != state {
                if state != 0 {
                    edges.push(Edge {
                        at: crossing,
                        rising: s > 0,
                    });
                }
                state = s;
            }
        }
    }
    edges
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Closed form: sin(2 pi 50 t + 0.1), 10 kHz, 1 s has 50 rising zero crossings, mean period 0.02 s
    /// (the same from NumPy 2.4.6).
    #[test]
    fn crossings_of_a_sine() {
        let x: Vec<f32> = (0..10_000)
            .map(|i| (2.0 * std::f64::consts::PI * 50.0 * i as f64 / 1e4 + 0.1).sin() as f32)
            .collect();
        let e = schmitt(&x, -0.01, 0.01);
        let up: Vec<f64> = e.iter().filter(|e| e.rising).map(|e| e.at / 1e4).collect();
        assert_eq!(up.len(), 50);
        let mean = (up[up.len() - 1] - up[0]) / (up.len() - 1) as f64;
        assert!((mean - 0.02).abs() < 1e-6, "{mean}");
    }

    #[test]
    fn noise_within_the_hysteresis_makes_no_edge() {
        let x: Vec<f32> = (0..1000)
            .map(|i| if i % 2 == 0 { 0.1 } else { -0.1 })
            .collect();
        assert!(schmitt(&x, -0.2, 0.2).is_empty());
        assert!(schmitt_tracking(&x, 0.0, 0.2, 0.2, 100.0).is_empty());
    }

    #[test]
    fn a_growing_sine_keeps_its_edges() {
        let x: Vec<f32> = (0..2000)
            .map(|i| (i as f64 / 2000.0 * (i as f64 * 0.2).sin()) as f32)
            .collect();
        let e = schmitt_tracking(&x, 0.0, 0.01, 0.25, 60.0);
        // 2000 * 0.2 / pi = 127 half periods; the first few lie below the least hysteresis.
        assert!((120..=127).contains(&e.len()), "{}", e.len());
    }
}
