//! Resistance and inductance, against what is stated and against the other coils.

use super::{Facts, Others, Recorded};
use crate::measure::record::{Coil, Value};
use crate::measure::steady::End;
use plugin_sdk::Limits;
use plugin_sdk::{Grade, Limit, Observation, Output};

/// Resistance of wiring and driver that is no fault, ohm.
const WIRING: f64 = 0.5;

/// Adds the findings.
pub fn observe(coils: &[Recorded], facts: Facts, spec: &Limits<'_>, out: &mut Output) {
    for (k, recorded) in coils.iter().enumerate().filter(|(_, c)| c.calibrated) {
        let (from, to) = recorded.active();
        let about = |o: Observation| o.about(&recorded.role).span(from, to);
        if let Some(resistance) = recorded.coil.resistance {
            let among = Among {
                values: Others::of(coils, k, |c| c.resistance.map(|r| r.value)),
                at_most: Others::of(coils, k, at_most).usual(),
            };
            out.add(about(judge(resistance, facts.coil_ohm, among, spec)));
        }
        if let Some(most) = unsettled(&recorded.coil).filter(|_| facts.coil_ohm.is_some()) {
            let observation = Observation::new("coil-resistance", "coil-resistance-unsettled");
            out.add(about(observation.grade(Grade::Unusable)).arg("most", most));
        }
        if let Some(inductance) = recorded.coil.inductance {
            let among = Others::of(coils, k, |c| c.inductance.map(|l| l.value));
            let below = |other: f64| beyond(inductance, other * spec.low("inductance-among"));
            let observation = match among {
                Others::Usual(usual) if below(usual) => {
                    Observation::new("coil-inductance", "coil-inductance-below-others")
                        .grade(Grade::Abnormal)
                        .arg("reference", usual)
                }
                Others::One(other) if below(other) => {
                    Observation::new("coil-inductance", "coil-inductance-unequal")
                        .grade(Grade::Unusable)
                        .arg("reference", other)
                }
                _ => Observation::new("coil-inductance", "coil-inductance"),
            };
            out.add(about(observation).value(inductance.value, inductance.uncertainty, "mH"));
        }
    }
}

/// The highest resistance that fits, ohm, of a valve whose current does not settle within its actuation.
fn unsettled(coil: &Coil) -> Option<f64> {
    coil.armature?.notch?;
    let last = *coil.profile.as_ref()?.current.last()?;
    let open = coil.resistance.is_none()
        && matches!(
            coil.end,
            End::Unknown | End::Rising { .. } | End::Settled { .. }
        );
    (open && last > 0.0).then_some(coil.supply?.value / last)
}

/// What the other coils show of their resistance.
#[derive(Debug, Clone, Copy)]
struct Among {
    values: Others,
    /// Median of what those of several have at most, ohm.
    at_most: Option<f64>,
}

/// Resistance, or what it is at most: that of the current at the end of an actuation, ohm.
fn at_most(coil: &Coil) -> Option<f64> {
    let resistance = coil.resistance.map(|r| r.value);
    let limited = matches!(coil.end, End::Held { .. } | End::Limited { .. });
    let of_last = || {
        let last = *coil.profile.as_ref()?.current.last()?;
        (!limited && last > 0.0).then_some(coil.supply?.value / last)
    };
    resistance.or_else(of_last)
}

/// True where a value lies below a limit by more than twice its uncertainty.
fn beyond(value: Value, limit: f64) -> bool {
    value.value + 2.0 * value.uncertainty < limit
}

fn judge(r: Value, stated: Option<f64>, among: Among, spec: &Limits<'_>) -> Observation {
    let observation = |message: &str, grade: Grade, reference: Option<f64>| {
        let new = Observation::new("coil-resistance", message)
            .value(r.value, r.uncertainty, "ohm")
            .grade(grade);
        match reference {
            Some(reference) => new.arg("reference", reference),
            None => new,
        }
    };
    let limits = |share: &str, reference: f64| {
        let limit = spec.limit(share);
        Limit {
            low: limit.low.map(|l| l * reference),
            high: limit.high.map(|h| h * reference + WIRING),
            unit: "ohm".into(),
            source: limit.source,
        }
    };
    let above = |limit: &Limit| {
        limit
            .high
            .is_some_and(|h| r.value - 2.0 * r.uncertainty > h)
    };
    let below = |limit: &Limit| limit.low.is_some_and(|low| beyond(r, low));
    // Neighbours are as warm and as far away: they tell more than a sheet does.
    if let Some(usual) = among.values.usual() {
        let limit = limits("resistance-among", usual);
        let message = match (below(&limit), above(&limit)) {
            (true, _) => Some("coil-resistance-below-others"),
            (_, true) => Some("coil-resistance-above-others"),
            _ => None,
        };
        if let Some(message) = message {
            return observation(message, Grade::Abnormal, Some(usual)).limit(limit);
        }
    }
    // Currents that do not settle say what their coils have at most.
    if let Some(most) = among.at_most {
        let limit = Limit {
            low: None,
            ..limits("resistance-among", most)
        };
        if above(&limit) {
            let message = "coil-resistance-above-others";
            return observation(message, Grade::Abnormal, Some(most)).limit(limit);
        }
    }
    let Some(stated) = stated else {
        return match among.values {
            Others::Usual(usual) => observation("coil-resistance", Grade::Normal, Some(usual))
                .limit(limits("resistance-among", usual)),
            Others::One(other) => {
                let limit = limits("resistance-among", other);
                match below(&limit) || above(&limit) {
                    true => observation("coil-resistance-unequal", Grade::Unusable, Some(other)),
                    false => observation("coil-resistance-alone", Grade::Normal, None),
                }
            }
            Others::Nothing => observation("coil-resistance-alone", Grade::Normal, None),
        };
    };
    let limit = limits("resistance-share", stated);
    let (low, high) = (
        limit.low.unwrap_or(f64::NEG_INFINITY),
        limit.high.unwrap_or(f64::INFINITY),
    );
    let (message, grade) = if r.value + 2.0 * r.uncertainty < low {
        ("coil-resistance-low", Grade::Abnormal)
    } else if r.value - 2.0 * r.uncertainty > high {
        ("coil-resistance-high", Grade::Abnormal)
    } else if r.value < low || r.value > high {
        ("coil-resistance-unclear", Grade::Unusable)
    } else {
        ("coil-resistance", Grade::Normal)
    };
    observation(message, grade, Some(stated)).limit(limit)
}
