//! Courses of several coils against each other, where the driver or the end of the actuation stops the rise before it tells a
//! resistance. Ignition primaries have no armature: where they are alike they rise alike, and the one that does not is off.
//! Of valves a course that differs may be the armature's as well: they are only told to be alike.

use super::armature::is_ignition;
use super::{Others, Recorded};
use crate::measure::record::{Coil, rise_end};
use plugin_sdk::{Grade, Limit, Limits, Observation, Output};

/// Share of the shortest rise at which the currents are compared: the driver has not stopped it yet.
const WITHIN: f64 = 0.9;
/// Standard uncertainty of the time of switch-on, samples: that of even steps, and of the ramp drawn back to rest.
const START: f64 = 0.3;
/// Standard uncertainty of the ratio of two clamps (common practice: 1 % each).
const CLAMPS: f64 = 0.014;

/// One coil's current beside those of the others at the same time after switch-on.
struct Beside {
    coil: usize,
    percent: f64,
    uncertainty: f64,
    /// Two others or more agree.
    told: bool,
}

/// Adds the findings.
pub fn observe(coils: &[Recorded], spec: &Limits<'_>, out: &mut Output) {
    let Some((at, all)) = compare(coils) else {
        return;
    };
    let limit = spec.limit("course-among");
    let (low, high) = (
        limit.low.unwrap_or(0.0),
        limit.high.unwrap_or(f64::INFINITY),
    );
    if !none_differs(&all, coils, &limit) && !are_primaries(coils) {
        return;
    }
    for b in all {
        let (p, u) = (b.percent, b.uncertainty);
        let (message, grade) = match p {
            _ if b.told && p + 2.0 * u < low => ("coil-course-below-others", Grade::Abnormal),
            _ if b.told && p - 2.0 * u > high => ("coil-course-above-others", Grade::Abnormal),
            _ if p < low || p > high || !b.told && (p - u < low || p + u > high) => {
                ("coil-course-unclear", Grade::Unusable)
            }
            _ if b.told => ("coil-course", Grade::Normal),
            _ => continue,
        };
        let recorded = &coils[b.coil];
        let (from, to) = recorded.active();
        out.add(
            Observation::new("coil-course", message)
                .about(&recorded.role)
                .span(from, to)
                .value(p, u, "%")
                .limit(limit.clone())
                .grade(grade)
                .arg("at_ms", 1_000.0 * at * recorded.step_s),
        );
    }
}

/// True where three coils or more were compared and none differs from the others.
pub(super) fn are_alike(coils: &[Recorded], spec: &Limits<'_>) -> bool {
    let limit = spec.limit("course-among");
    compare(coils).is_some_and(|(_, all)| none_differs(&all, coils, &limit))
}

fn none_differs(all: &[Beside], coils: &[Recorded], limit: &Limit) -> bool {
    let within = |b: &Beside| {
        b.told
            && limit.low.is_some_and(|l| b.percent > l)
            && limit.high.is_some_and(|h| b.percent < h)
    };
    all.len() == coils.len() && all.iter().all(within)
}

/// True for ignition primaries, one of which may be off.
fn are_primaries(coils: &[Recorded]) -> bool {
    let primaries = coils.iter().filter(|c| is_ignition(c)).count();
    let moves = |c: &Recorded| c.coil.armature.is_some_and(|a| a.notch.is_some());
    2 * primaries >= coils.len() && !coils.iter().any(moves)
}

/// Share of its highest current at which a primary's rise is over: with shorted turns it reaches the driver's limit within so few
/// samples that the limit is not told from a settled current.
const RISEN: f64 = 0.97;

/// Compares the currents within the shortest of the rises; the time is in samples from switch-on.
fn compare(coils: &[Recorded]) -> Option<(f64, Vec<Beside>)> {
    let primaries = are_primaries(coils);
    let ends = coils.iter().filter(|c| c.calibrated).filter_map(|c| {
        let profile = c.coil.profile.as_ref()?;
        let end = rise_end(profile, &c.coil.end);
        let x = &profile.current;
        let highest = x.iter().copied().fold(0.0, f64::max);
        let risen = x.iter().position(|&i| i >= RISEN * highest);
        Some(risen.filter(|_| primaries).map_or(end, |k| end.min(k)) as f64)
    });
    let at = WITHIN * ends.fold(f64::INFINITY, f64::min);
    if coils.len() < 2 || !at.is_finite() || at < 2.0 {
        return None;
    }
    let beside = |(coil, recorded): (usize, &Recorded)| {
        let own = Some(&recorded.coil).filter(|_| recorded.calibrated)?;
        let (profile, own) = (own.profile.as_ref()?, current_at(own, at)?);
        let others = Others::of(coils, coil, |c| current_at(c, at));
        let percent = 100.0 * own / others.any()?;
        Some(Beside {
            coil,
            percent,
            uncertainty: percent * CLAMPS.hypot(START / at).hypot(profile.noise / own),
            told: others.usual().is_some(),
        })
    };
    Some((at, coils.iter().enumerate().filter_map(beside).collect()))
}

/// Current so many samples after switch-on, A.
fn current_at(coil: &Coil, at: f64) -> Option<f64> {
    let x = &coil.profile.as_ref()?.current;
    let k = at as usize;
    let (a, b) = (*x.get(k)?, *x.get(k + 1)?);
    Some(a + at.fract() * (b - a)).filter(|i| *i > 0.0)
}
