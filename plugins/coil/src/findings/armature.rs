//! The armature: when it arrives, and whether it moves at all.

use super::{Recorded, others};
use crate::measure::armature::Armature;
use crate::measure::steady::End;
use plugin_sdk::measure::Spec;
use plugin_sdk::{Grade, Observation, Output};

/// Share of the first slope that a notch is at least: a rise that would have shown it and shows none is silent.
const LEAST_NOTCH: f64 = 0.3;
/// The same beside other coils: share of their median depth.
const OF_OTHERS: f64 = 0.5;
/// Flyback from which a coil is taken for an ignition primary, which has no armature, V (clamps of ignition drivers
/// begin at 320 V, those of valves end below 100 V: data sheets VB027BSP and LM1949).
const IGNITION_FLYBACK: f64 = 150.0;

/// Adds the findings.
pub fn observe(coils: &[Recorded], spec: &Spec<'_>, out: &mut Output) {
    let time = |recorded: &Recorded, samples: f64| 1_000.0 * samples * recorded.step_s;
    for (k, recorded) in coils.iter().enumerate() {
        let Some(armature) = recorded.coil.armature else {
            continue;
        };
        let (from, to) = recorded.active();
        let depth = others(coils, k, |c| {
            c.armature.and_then(|a| a.notch).map(|n| n.depth)
        });
        let Some(notch) = armature.notch else {
            if let Some(silent) = silent(recorded, &armature, depth) {
                out.add(silent.about(&recorded.role).span(from, to));
            }
            continue;
        };
        let at = time(recorded, notch.at);
        // Channels of one recording share their sampling.
        let usual = others(coils, k, |c| c.armature.and_then(|a| a.notch).map(|n| n.at))
            .map(|samples| time(recorded, samples));
        let resolution = 2.0 * time(recorded, 1.0);
        let late = usual.filter(|u| at - resolution > u * spec.high("move-time-among"));
        let observation = match late {
            Some(usual) => Observation::new("armature-move-time", "armature-late")
                .grade(Grade::Abnormal)
                .arg("reference", usual),
            None => Observation::new("armature-move-time", "armature-move-time"),
        };
        out.add(
            observation
                .about(&recorded.role)
                .span(from, to)
                .value(at, time(recorded, notch.uncertainty), "ms")
                .arg("begins_ms", time(recorded, notch.begins))
                .arg("actuations", recorded.actuations()),
        );
    }
}

/// An armature that does not move although the rise would have shown it.
fn silent(recorded: &Recorded, armature: &Armature, depth: Option<f64>) -> Option<Observation> {
    let coil = &recorded.coil;
    let flyback = coil.driver.as_ref().and_then(|d| d.flyback);
    let ignition = flyback.is_some_and(|f| f.volts > IGNITION_FLYBACK);
    let moves = matches!(
        coil.end,
        End::Settled { .. } | End::Rising { .. } | End::Held { .. }
    );
    if ignition || !moves {
        return None;
    }
    let new = |message: &str| {
        Observation::new("armature-silent", message)
            .value(0.0, 100.0 * armature.detectable, "%")
            .grade(Grade::Abnormal)
            .arg("actuations", recorded.actuations())
    };
    match depth {
        Some(depth) if armature.detectable < OF_OTHERS * depth => {
            Some(new("armature-silent-beside-others").arg("reference", 100.0 * depth))
        }
        None if armature.detectable < LEAST_NOTCH => Some(new("armature-silent")),
        _ => None,
    }
}
