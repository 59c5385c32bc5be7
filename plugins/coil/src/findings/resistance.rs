//! Resistance and inductance, against what is stated and against the other coils.

use super::{Facts, Recorded, others};
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
            let among = others(coils, k, |c| c.resistance.map(|r| r.value));
            out.add(about(judge(resistance, facts.coil_ohm, among, spec)));
        }
        if let Some(most) = unsettled(&recorded.coil).filter(|_| facts.coil_ohm.is_some()) {
            let observation = Observation::new("coil-resistance", "coil-resistance-unsettled");
            out.add(about(observation.grade(Grade::Unusable)).arg("most", most));
        }
        if let Some(inductance) = recorded.coil.inductance {
            let among = others(coils, k, |c| c.inductance.map(|l| l.value));
            let observation = match among {
                Some(usual) if beyond(inductance, usual * spec.low("inductance-among")) => {
                    Observation::new("coil-inductance", "coil-inductance-below-others")
                        .grade(Grade::Abnormal)
                        .arg("reference", usual)
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

/// True where a value lies below a limit by more than twice its uncertainty.
fn beyond(value: Value, limit: f64) -> bool {
    value.value + 2.0 * value.uncertainty < limit
}

fn judge(r: Value, stated: Option<f64>, among: Option<f64>, spec: &Limits<'_>) -> Observation {
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
    // Neighbours are as warm and as far away: they tell more than a sheet does.
    if let Some(usual) = among {
        let limit = limits("resistance-among", usual);
        let low = limit.low.is_some_and(|low| beyond(r, low));
        let high = limit
            .high
            .is_some_and(|high| r.value - 2.0 * r.uncertainty > high);
        if low || high {
            let message = if low {
                "coil-resistance-below-others"
            } else {
                "coil-resistance-above-others"
            };
            return observation(message, Grade::Abnormal, Some(usual)).limit(limit);
        }
    }
    let Some(stated) = stated else {
        return match among {
            Some(usual) => observation("coil-resistance", Grade::Normal, Some(usual))
                .limit(limits("resistance-among", usual)),
            None => observation("coil-resistance-alone", Grade::Normal, None),
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
