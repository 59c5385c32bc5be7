//! Resistance and inductance, against what is stated and against the other coils.

use super::armature::is_ignition;
use super::course::are_alike;
use super::{Facts, Others, Recorded};
use crate::measure::record::{Coil, Value};
use crate::measure::steady::End;
use plugin_sdk::Limits;
use plugin_sdk::{Grade, Limit, Observation, Output};

/// Ratio to what was stated beyond which no fault but a scale, another coil or no current of a coil at all explains a resistance.
const IMPLAUSIBLE: f64 = 8.0;
/// Resistance of wiring and driver that is no fault, ohm.
const WIRING: f64 = 0.5;

/// Adds the findings.
pub fn observe(coils: &[Recorded], facts: Facts, spec: &Limits<'_>, out: &mut Output) {
    let judged = of_resistances(coils, facts, spec);
    let alike = are_alike(coils, spec);
    // Beside one that is off the others need no resistance of their own.
    let one_is_off = judged.iter().flatten().any(|o| o.grade == Grade::Abnormal);
    for ((k, recorded), own) in coils.iter().enumerate().zip(judged) {
        if !recorded.calibrated {
            continue;
        }
        let (from, to) = recorded.active();
        let about = |o: Observation| o.about(&recorded.role).span(from, to);
        // Where the stated resistance tells which of two is off, no second difference is a riddle.
        let is_off = own.as_ref().is_some_and(|o| o.grade == Grade::Abnormal);
        if let Some(resistance) = own {
            out.add(about(resistance));
        }
        let alone = coils.len() == 1 && is_ignition(recorded);
        let wanted = facts.coil_ohm.is_some() && !one_is_off && !alike;
        if let Some(most) = unsettled(&recorded.coil, alone).filter(|_| wanted) {
            let observation = Observation::new("coil-resistance", "coil-resistance-unsettled");
            out.add(about(observation.grade(Grade::Unusable)).arg("most", most));
        }
        if let Some(inductance) = recorded.coil.inductance {
            let among = Others::of(coils, k, |c| c.inductance.map(|l| l.value));
            let below = |other: f64| beyond(inductance, other * spec.low("inductance-among"));
            let above = |other: f64| {
                let high = other * spec.high("inductance-among");
                inductance.value - 2.0 * inductance.uncertainty > high
            };
            let observation = match among {
                // Closed already, or driven by less voltage.
                Others::Usual(usual) if above(usual) => {
                    Observation::new("coil-inductance", "coil-inductance-above-others")
                        .grade(Grade::Unusable)
                        .arg("reference", usual)
                }
                Others::Usual(usual) if below(usual) => {
                    Observation::new("coil-inductance", "coil-inductance-below-others")
                        .grade(Grade::Abnormal)
                        .arg("reference", usual)
                }
                Others::One(other) if below(other) && !is_off => {
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

/// What is said of each coil's resistance. Where the odd one of several is known, it is no riddle which of two is.
fn of_resistances(coils: &[Recorded], facts: Facts, spec: &Limits<'_>) -> Vec<Option<Observation>> {
    let of = |(k, recorded): (usize, &Recorded)| {
        let coil = Some(&recorded.coil).filter(|_| recorded.calibrated)?;
        let among = Among {
            values: Others::of(coils, k, |c| c.resistance.map(|r| r.value)),
            at_most: Others::of(coils, k, at_most).usual(),
        };
        match coil.resistance {
            Some(r) => Some(judge(r, facts.coil_ohm, among, spec)),
            None if is_ignition(recorded) => {
                stopped(coil.resistance_of_rise?, facts.coil_ohm?, spec)
            }
            None => None,
        }
    };
    let mut all: Vec<Option<Observation>> = coils.iter().enumerate().map(of).collect();
    let odd = |o: &Observation| {
        o.message == "coil-resistance-above-others" || o.message == "coil-resistance-below-others"
    };
    if all.iter().flatten().any(odd) {
        for o in all.iter_mut().flatten() {
            if o.message == "coil-resistance-unequal" {
                let (value, u) = (o.value.unwrap_or(0.0), o.uncertainty.unwrap_or(0.0));
                *o = Observation::new("coil-resistance", "coil-resistance-alone")
                    .value(value, u, "ohm");
            }
        }
    }
    all
}

/// A rise that a driver stops tells too much resistance, and never that there is none too much.
fn stopped(r: Value, stated: f64, spec: &Limits<'_>) -> Option<Observation> {
    let limit = spec.limit("resistance-share");
    let high = limit.high? * stated + WIRING;
    (r.value - 2.0 * r.uncertainty > high).then(|| {
        Observation::new("coil-resistance", "coil-resistance-high")
            .value(r.value, r.uncertainty, "ohm")
            .grade(Grade::Abnormal)
            .arg("reference", stated)
            .limit(Limit {
                low: None,
                high: Some(high),
                unit: "ohm".into(),
                source: limit.source,
            })
    })
}

/// The highest resistance that fits, ohm, of a valve whose current does not settle within its actuation, or of a `primary`
/// whose current is stopped before.
fn unsettled(coil: &Coil, primary: bool) -> Option<f64> {
    if !primary {
        coil.armature?.notch?;
    }
    let last = *coil.profile.as_ref()?.current.last()?;
    let open = coil.resistance.is_none()
        && matches!(
            coil.end,
            End::Unknown | End::Rising { .. } | End::Settled { .. }
        );
    let open = open || primary && coil.resistance.is_none();
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
    let (message, grade) = if r.value > IMPLAUSIBLE * high || r.value < low / IMPLAUSIBLE {
        ("coil-resistance-implausible", Grade::Unusable)
    } else if r.value + 2.0 * r.uncertainty < low {
        ("coil-resistance-low", Grade::Abnormal)
    } else if r.value - 2.0 * r.uncertainty > high {
        ("coil-resistance-high", Grade::Abnormal)
    } else if r.value < low || r.value > high {
        ("coil-resistance-unclear", Grade::Unusable)
    } else {
        ("coil-resistance", Grade::Normal)
    };
    // Where the neighbours agree, a value near what the sheet allows at all leaves nothing undecided.
    let shown = match among.values.usual() {
        Some(usual) if grade == Grade::Normal => limits("resistance-among", usual),
        _ => limit,
    };
    observation(message, grade, Some(stated)).limit(shown)
}
