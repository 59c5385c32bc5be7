//! Dwell, hold, limit, chopper, flyback, driver, and the current that does not flow.

use super::{Facts, Recorded};
use crate::measure::actuation::ZERO;
use crate::measure::driver::Driver;
use crate::measure::hold::Chopper;
use crate::measure::steady::End;
use plugin_sdk::Limits;
use plugin_sdk::{Grade, Observation, Output};

/// Shares of the supply at which the driven side counts as connected to it, and to ground.
const AT_SUPPLY: f64 = 0.8;
const AT_GROUND: f64 = 0.2;
/// Least supply that can drive a coil, V.
const LEAST_SUPPLY: f64 = 6.0;

/// Adds the findings.
pub fn observe(coils: &[Recorded], facts: Facts, spec: &Limits<'_>, out: &mut Output) {
    let working = coils.iter().filter(|c| c.actuations() > 0).count();
    for recorded in coils {
        if recorded.coil.found.never_rests() {
            restless(recorded, out);
            continue;
        }
        if recorded.actuations() == 0 {
            no_current(recorded, working, facts, out);
            continue;
        }
        let coil = &recorded.coil;
        let (from, to) = recorded.active();
        let mut add = |o: Observation| out.add(o.about(&recorded.role).span(from, to));
        if let Some(dwell) = coil.dwell {
            add(Observation::new("dwell-time", "dwell-time")
                .value(dwell.value, dwell.uncertainty, "ms")
                .arg("actuations", recorded.actuations()));
        }
        let unit = if recorded.calibrated { "A" } else { "1" };
        let accuracy = |level: f64, uncertainty: f64| uncertainty.hypot(0.01 * level);
        match coil.end {
            End::Held {
                peak,
                level,
                uncertainty,
                ..
            } => {
                add(Observation::new("hold-current", "hold-current")
                    .value(level, accuracy(level, uncertainty), unit)
                    .arg("peak", peak));
            }
            End::Limited {
                level,
                uncertainty,
                reached,
            } => {
                add(Observation::new("current-limit", "current-limit")
                    .value(level, accuracy(level, uncertainty), unit)
                    .arg("reached_ms", 1_000.0 * reached as f64 * recorded.step_s));
            }
            _ => {}
        }
        if let Some(chopper) = &coil.chopper {
            add(chopper_rate(recorded, chopper));
        }
        if let Some(driver) = &coil.driver {
            if let Some(flyback) = driver.flyback.filter(|f| f.resolved) {
                add(
                    Observation::new("flyback-voltage", "flyback-voltage").value(
                        flyback.volts,
                        flyback.uncertainty,
                        "V",
                    ),
                );
            }
            if let Some(on) = driver.on {
                let high = on - 0.1 > spec.high("driver-drop");
                let message = if high {
                    "driver-drop-high"
                } else {
                    "driver-drop"
                };
                add(Observation::new("driver-drop", message)
                    .value(on, 0.05, "V")
                    .limit(spec.limit("driver-drop"))
                    .grade(if high { Grade::Abnormal } else { Grade::Normal }));
            }
        }
    }
}

/// A coil without current: what the driven side and the other coils tell of the reason.
fn no_current(recorded: &Recorded, working: usize, facts: Facts, out: &mut Output) {
    let coil = &recorded.coil;
    let (from, to) = recorded.span;
    let found = &coil.found;
    let supply = coil.supply.map(|s| s.value).filter(|&s| s > LEAST_SUPPLY);
    let new = |message: &str, grade: Grade| {
        Observation::new("coil-no-current", message)
            .about(&recorded.role)
            .span(from, to)
            .value(0.0, found.detectable / 2.0, "A")
            .grade(grade)
    };
    let witnessed = coil.driver.as_ref().zip(supply);
    let observation = match witnessed {
        Some((driver, _)) if !driver.pulls.is_empty() => {
            new("no-current-driven", Grade::Abnormal).arg("pulls", driver.pulls.len())
        }
        Some((driver, supply)) if driver.idle < AT_GROUND * supply => {
            new("no-current-dead-feed", Grade::Abnormal).arg("level", driver.idle)
        }
        Some((driver, supply))
            if driver.idle > AT_SUPPLY * supply && (facts.engine_runs || working > 0) =>
        {
            new("no-current-not-driven", Grade::Abnormal).arg("level", driver.idle)
        }
        _ if working > 0 => {
            new("no-current-beside-others", Grade::Abnormal).arg("working", working)
        }
        _ => new("no-current-unwitnessed", Grade::Unusable),
    };
    out.add(observation);
}

/// A current without a pause: one that the driver chops, or that it never ends.
fn restless(recorded: &Recorded, out: &mut Output) {
    let (coil, found) = (&recorded.coil, &recorded.coil.found);
    let (from, to) = recorded.span;
    let unit = if recorded.calibrated { "A" } else { "1" };
    let about = |kind: &str, message: &str| {
        Observation::new(kind, message)
            .about(&recorded.role)
            .span(from, to)
    };
    let uncertainty = ZERO.hypot(0.01 * found.median);
    let witnessed = coil.driver.as_ref().zip(coil.supply);
    let always_on = |driver: &Driver, supply: f64| {
        supply > LEAST_SUPPLY && driver.pulls.is_empty() && driver.idle < AT_GROUND * supply
    };
    match witnessed {
        Some((driver, supply)) if always_on(driver, supply.value) => out.add(
            about("coil-steady-current", "coil-always-on")
                .value(found.median, uncertainty, "A")
                .grade(Grade::Abnormal)
                .arg("level", driver.idle),
        ),
        _ => out.add(about("hold-current", "current-without-pause").value(
            found.median,
            uncertainty,
            unit,
        )),
    }
    if let Some(chopper) = &coil.chopper {
        out.add(chopper_rate(recorded, chopper).span(from, to));
    }
}

fn chopper_rate(recorded: &Recorded, chopper: &Chopper) -> Observation {
    let rate = chopper.frequency / recorded.step_s;
    Observation::new("chopper-rate", "chopper-rate")
        .about(&recorded.role)
        .value(rate, chopper.uncertainty / recorded.step_s, "Hz")
        .arg("ripple", chopper.ripple)
}
