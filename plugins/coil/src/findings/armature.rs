//! The armature: when it arrives, and whether it moves at all.

use super::{Others, Recorded};
use crate::measure::fall::Fall;
use crate::measure::record::Coil;
use crate::measure::steady::End;
use plugin_sdk::Limits;
use plugin_sdk::signal::stats;
use plugin_sdk::{Grade, Observation, Output};

/// Share of the first slope that a notch is at least: a rise that would have shown it and shows none is silent.
const LEAST_NOTCH: f64 = 0.3;
/// Most noise of one sample, as a share of the peak, with which actuations are laid over each other well enough.
const QUIET: f64 = 0.06;
/// The same beside other coils: share of their median depth.
const OF_OTHERS: f64 = 0.7;
/// Relative difference, and difference in samples, of the time in which a driver lets the current fall to the held level from which on
/// a coil's magnetic circuit is another than the others': a closing armature takes current away, one that stays does not.
const FALLS_ALIKE: (f64, f64) = (0.2, 6.0);
/// Share of the others' peak current below which a coil is weaker than they.
const WEAK: f64 = 0.88;
/// The same for a current that does not settle: an armature that sticks at its end leaves a larger inductance, and the
/// current comes less far (judgement).
const WEAK_RISING: f64 = 0.72;
/// Current from which a coil is taken for an ignition primary, A (drivers limit at 8 to 10.5 A: data sheets VB027BSP and
/// others; injectors that are never lowered to a held current stay below: common practice).
const IGNITION_CURRENT: f64 = 4.5;
/// Settled current below which a coil is no ignition primary, A (primaries with a series resistor settle at 3 to 4 A;
/// common practice).
const VALVE_CURRENT: f64 = 2.5;
/// Flyback from which a coil is taken for an ignition primary, which has no armature, V (clamps of ignition drivers
/// begin at 320 V, those of valves end below 100 V: data sheets VB027BSP and LM1949).
const IGNITION_FLYBACK: f64 = 150.0;

/// Adds the findings.
pub fn observe(coils: &[Recorded], spec: &Limits<'_>, out: &mut Output) {
    for (k, recorded) in coils.iter().enumerate() {
        let (from, to) = recorded.active();
        let Some(notch) = recorded.coil.armature.and_then(|a| a.notch) else {
            let observation = match is_ignition(recorded) {
                true => Some(Observation::new("armature-silent", "armature-none")),
                false => silent(recorded, coils, k).or_else(|| falls_otherwise(recorded, coils, k)),
            };
            if let Some(observation) = observation {
                out.add(observation.about(&recorded.role).span(from, to));
            }
            continue;
        };
        let at = ms(recorded, notch.at);
        // Channels of one recording share their sampling.
        let notches = Others::of(coils, k, |c| c.armature.and_then(|a| a.notch).map(|n| n.at));
        let resolution = 2.0 * ms(recorded, 1.0);
        let later = |than: &f64| at - resolution > than * spec.high("move-time-among");
        let late = notches
            .any()
            .map(|samples| ms(recorded, samples))
            .filter(later);
        // With less current than the others an armature must come late.
        let weak = Others::of(coils, k, |c| Some(c.found.peak))
            .any()
            .is_some_and(|peak| recorded.coil.found.peak < WEAK * peak);
        let new = |message: &str| Observation::new("armature-move-time", message);
        let observation = match late {
            Some(other) if weak => new("armature-late-weak")
                .grade(Grade::Unusable)
                .arg("reference", other),
            Some(other) if notches.usual().is_none() => new("armature-unequal")
                .grade(Grade::Unusable)
                .arg("reference", other),
            Some(usual) => new("armature-late")
                .grade(Grade::Abnormal)
                .arg("reference", usual),
            None => new("armature-move-time"),
        };
        out.add(
            observation
                .about(&recorded.role)
                .span(from, to)
                .value(at, ms(recorded, notch.uncertainty), "ms")
                .arg("begins_ms", ms(recorded, notch.begins))
                .arg("actuations", recorded.actuations()),
        );
    }
}

/// Samples in milliseconds.
fn ms(recorded: &Recorded, samples: f64) -> f64 {
    1_000.0 * samples * recorded.step_s
}

/// An ignition primary has no armature: told by its flyback, or by a high current that is neither settled nor
/// lowered.
pub(super) fn is_ignition(recorded: &Recorded) -> bool {
    let coil = &recorded.coil;
    let flyback = coil.driver.as_ref().and_then(|d| d.flyback);
    let high = recorded.calibrated && coil.found.peak > IGNITION_CURRENT;
    let held = matches!(coil.end, End::Held { .. } | End::Settled { .. });
    // Noise hides where a driver lowers the current.
    let told = coil.found.noise < QUIET * coil.found.peak;
    high && told && !held || flyback.is_some_and(|f| f.volts > IGNITION_FLYBACK)
}

/// True for a coil that is no ignition primary for sure: its current is lowered to a held one, its flyback is low, or it
/// settles at a small current.
fn has_armature(recorded: &Recorded) -> bool {
    let coil = &recorded.coil;
    let flyback = coil.driver.as_ref().and_then(|d| d.flyback);
    match coil.end {
        End::Held { .. } => true,
        End::Settled { .. } => {
            flyback.is_some_and(|f| f.resolved && f.volts < IGNITION_FLYBACK)
                || recorded.calibrated && coil.found.peak < VALVE_CURRENT
        }
        _ => false,
    }
}

/// Time of the fall from the peak to the held level, samples.
fn fall(coil: &Coil) -> Option<f64> {
    match coil.end {
        End::Held { reached, from, .. } => Some(from.saturating_sub(reached) as f64),
        _ => None,
    }
}

/// A current that falls to its held level otherwise than those of the others: where the peak comes before any movement, that is all
/// that tells of the armature, and not enough to accuse it.
fn falls_otherwise(recorded: &Recorded, coils: &[Recorded], k: usize) -> Option<Observation> {
    let (own, usual) = (fall(&recorded.coil)?, Others::of(coils, k, fall).usual()?);
    let differ = (own - usual).abs();
    (differ > (FALLS_ALIKE.0 * usual).max(FALLS_ALIKE.1)).then(|| {
        Observation::new("armature-silent", "armature-falls-otherwise")
            .grade(Grade::Unusable)
            .arg("fall_ms", ms(recorded, own))
            .arg("reference", ms(recorded, usual))
    })
}

/// True where a coil shows a notch.
fn shows_any(coils: &[Recorded]) -> bool {
    let mut armatures = coils.iter().filter_map(|c| c.coil.armature);
    armatures.any(|a| a.notch.is_some())
}

/// True for a coil with so much less current than the others that its armature need not move.
fn is_weak(recorded: &Recorded, coils: &[Recorded], k: usize) -> bool {
    let share = match recorded.coil.end {
        End::Settled { .. } => WEAK,
        _ => WEAK_RISING,
    };
    let peak = Others::of(coils, k, |c| Some(c.found.peak)).any();
    peak.is_some_and(|peak| recorded.coil.found.peak < share * peak)
}

/// Median depth of the others' notches, where most of them show one.
fn depth_of_others(coils: &[Recorded], but: usize) -> Option<f64> {
    let others: Vec<_> = coils
        .iter()
        .enumerate()
        .filter(|(k, _)| *k != but)
        .collect();
    let depths: Vec<f64> = others
        .iter()
        .filter_map(|(_, c)| c.coil.armature?.notch.map(|n| n.depth))
        .collect();
    (!depths.is_empty() && 2 * depths.len() > others.len())
        .then(|| stats::median(&depths))
        .flatten()
}

/// An armature that does not move although the rise would have shown it; unclear where others move and the rise is too
/// coarse to tell.
fn silent(recorded: &Recorded, coils: &[Recorded], k: usize) -> Option<Observation> {
    if recorded.actuations() == 0 {
        return None;
    }
    let coil = &recorded.coil;
    let works = matches!(
        coil.end,
        End::Settled { .. } | End::Rising { .. } | End::Held { .. }
    );
    // A rise that is bent slowly to its end is no exponential: beside others that show their notch it may be judged.
    let judged = works || matches!(coil.end, End::Unknown);
    let detectable = coil.armature.filter(|_| judged).map(|a| a.detectable);
    let new = |message: &str, detectable: f64| {
        Observation::new("armature-silent", message)
            .value(0.0, 100.0 * detectable.min(1.0), "%")
            .arg("actuations", recorded.actuations())
    };
    match (depth_of_others(coils, k), detectable) {
        (Some(depth), Some(_)) if is_weak(recorded, coils, k) => Some(
            new("armature-silent-weak", 1.0)
                .grade(Grade::Unusable)
                .arg("reference", 100.0 * depth),
        ),
        (Some(depth), Some(detectable)) if detectable < OF_OTHERS * depth => Some(
            new("armature-silent-beside-others", detectable)
                .grade(Grade::Abnormal)
                .arg("reference", 100.0 * depth),
        ),
        (Some(depth), _) => Some(
            new("armature-unclear", 1.0)
                .grade(Grade::Unusable)
                .arg("reference", 100.0 * depth),
        ),
        // What few of several show says nothing of this one, and does not clear it.
        (None, _) if works && coils.len() > 1 && shows_any(coils) => {
            Some(new("armature-unclear", 1.0).grade(Grade::Unusable))
        }
        // Where no coil of several shows a notch, this kind shows none.
        (None, Some(detectable))
            if works
                && detectable < LEAST_NOTCH
                && coils.len() == 1
                && coil.found.noise < QUIET * coil.found.peak
                && has_armature(recorded) =>
        {
            Some(match coil.fall {
                // Before the peak an armature of a lower current need not have moved yet.
                Some(Fall::Arrival(at)) => {
                    Observation::new("armature-move-time", "armature-after-peak")
                        .value(ms(recorded, at), ms(recorded, 1.0), "ms")
                        .arg("actuations", recorded.actuations())
                }
                Some(Fall::Unclear) => {
                    new("armature-after-peak-unclear", 1.0).grade(Grade::Unusable)
                }
                Some(Fall::Smooth) | None => {
                    new("armature-silent", detectable).grade(Grade::Abnormal)
                }
            })
        }
        _ => None,
    }
}
