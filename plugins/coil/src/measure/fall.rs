//! An armature that arrives after the peak of a held current.
//!
//! A freewheeling current falls as an exponential, ever more slowly but smoothly. An armature that still closes takes current
//! away; when it stops, the fall slows at once (v = R i + d(L i)/dt with an inductance that no longer grows).

use super::actuation::Actuations;
use super::profile::Profile;
use super::steady::End;
use plugin_sdk::signal::stats;

/// What the fall from the peak to the held level tells of the armature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fall {
    /// An armature that still moved would have bent it, and nothing did.
    Smooth,
    /// It slows at once, so many samples after switch-on; the driver's voltage was the same before and after.
    Arrival(f64),
    /// It slows at once, and the driver may have done it; or too few samples tell.
    Unclear,
}

/// Fewest samples of a fall that can show a bend.
const LEAST_SAMPLES: usize = 12;
/// Ratio of the slopes on both sides of a bend, as a share of the usual ratio along the fall.
const BENT: f64 = 0.75;
/// Least difference of the two slopes, standard deviations.
const SIGMAS: f64 = 6.0;
/// Largest range of the driven side's voltage on one way of the current, V.
const SAME_WAY: f64 = 2.0;

/// Judges the fall of the mean course. `None` where the current is not held.
pub fn fall(
    profile: &Profile,
    end: &End,
    driven: Option<&[f32]>,
    found: &Actuations,
) -> Option<Fall> {
    let End::Held { reached, from, .. } = *end else {
        return None;
    };
    // The corners at the peak and at the held level are the driver's.
    let (first, last) = (reached + 2, from.saturating_sub(1));
    if last < first + LEAST_SAMPLES {
        return Some(Fall::Unclear);
    }
    let width = ((last - first) / 8).max(2);
    let x = &profile.current;
    let falls = |a: usize, b: usize| (x[a] - x[b]) / (b - a) as f64;
    let ratios: Vec<(usize, f64)> = (first + width..=last - width)
        .map(|k| (k, falls(k, k + width) / falls(k - width, k)))
        .filter(|(_, r)| r.is_finite())
        .collect();
    let usual = stats::median(&ratios.iter().map(|r| r.1).collect::<Vec<_>>())?;
    let (at, least) = ratios.into_iter().min_by(|a, b| a.1.total_cmp(&b.1))?;
    let change = falls(at - width, at) - falls(at, at + width);
    let error = profile.noise * 6f64.sqrt() / width as f64;
    if least > BENT * usual || change < SIGMAS * error {
        return Some(Fall::Smooth);
    }
    let same = driven.is_some_and(|v| keeps_its_way(v, found, (at - width, at + width)));
    Some(match same {
        true => Fall::Arrival(at as f64),
        false => Fall::Unclear,
    })
}

/// True where the driven side stays at one voltage between two samples after each switch-on.
fn keeps_its_way(driven: &[f32], found: &Actuations, (from, to): (usize, usize)) -> bool {
    let whole = found.actuations.iter().filter(|a| a.whole);
    let ranges = whole.map(|a| {
        let at = |k: usize| (a.on + k as f64).max(0.0) as usize;
        let part = driven.get(at(from)..=at(to))?;
        let (low, high) = part
            .iter()
            .fold((f32::INFINITY, f32::NEG_INFINITY), |(low, high), &v| {
                (low.min(v), high.max(v))
            });
        Some(f64::from(high - low))
    });
    ranges
        .collect::<Option<Vec<f64>>>()
        .and_then(|r| stats::median(&r))
        .is_some_and(|range| range < SAME_WAY)
}
