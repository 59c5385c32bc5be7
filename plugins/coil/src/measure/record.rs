//! Everything that a recording shows of one coil.

use super::actuation::{Actuations, actuations, filled};
use super::armature::{Armature, armature};
use super::driver::{Driver, driver};
use super::fall::{Fall, fall};
use super::hold::{Chopper, chopper};
use super::parabola;
use super::profile::{Profile, profile};
use super::steady::{End, end};
use plugin_sdk::signal::rise::fit_rise;
use plugin_sdk::signal::stats;

/// Voltages recorded with a coil's current.
#[derive(Debug, Clone, Copy, Default)]
pub struct Voltages<'a> {
    /// Driven side of the coil against ground, V.
    pub driven: Option<&'a [f32]>,
    /// Supply, V.
    pub supply: Option<&'a [f32]>,
}

/// A value with its standard uncertainty (k = 1).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Value {
    /// Value.
    pub value: f64,
    /// Standard uncertainty.
    pub uncertainty: f64,
}

/// One coil.
#[derive(Debug, Clone, PartialEq)]
pub struct Coil {
    /// Actuations of the current.
    pub found: Actuations,
    /// Mean course.
    pub profile: Option<Profile>,
    /// End of the current.
    pub end: End,
    /// Supply while it flows, V.
    pub supply: Option<Value>,
    /// Resistance of coil, wiring and driver together, less the driver's where its voltage was recorded, ohm.
    pub resistance: Option<Value>,
    /// Resistance that the curvature of a rise tells which a driver stops, ohm: no more than that of the circuit, since iron
    /// that saturates lets the current rise ever more steeply.
    pub resistance_of_rise: Option<Value>,
    /// Inductance before the armature moves, mH.
    pub inductance: Option<Value>,
    /// The armature's notch.
    pub armature: Option<Armature>,
    /// Fall of a held current from its peak.
    pub fall: Option<Fall>,
    /// Time from switch-on to switch-off, ms, median of the whole actuations.
    pub dwell: Option<Value>,
    /// Chopper of the held current, frequency in Hz.
    pub chopper: Option<Chopper>,
    /// Voltage of the driven side.
    pub driver: Option<Driver>,
}

/// Drop of a driver whose voltage was not recorded, V (common practice: 0.1 V of a transistor, up to 0.8 V of a
/// Darlington).
const DRIVER_DROP: Value = Value {
    value: 0.25,
    uncertainty: 0.2,
};
/// See [`settles`].
const LEAST_CURVED: f64 = 1.25;
const LEAST_RISE: usize = 15;
const LASTING: usize = 4;
/// Samples to 85 % of a level from which on its halves are compared, and the least ratio of the times to that and to half of it
/// of a winding's current: 3.4 for an exponential, 2.0 for a line.
const LEAST_TIMES: f64 = 2.0;
const LEAST_BENT: f64 = 2.6;
/// Pulls of a driver from which on a part of a cycle at the ends of a record does not matter.
const MANY_PULLS: usize = 20;
/// Frequency of a ripple without a peak before it up to which it is believed, cycles a sample.
const SURE_CHOPPER: f64 = 0.1;
/// Share of the level that a rise leads to that it must have come to, and the largest relative uncertainty of a resistance by it.
const CURVED: f64 = 0.6;
const MOST_UNCERTAIN: f64 = 0.12;
/// Accuracy of a clamp and of a voltage channel (common practice).
const CLAMP: f64 = 0.01;
const GAIN: f64 = 0.005;

/// Measures one coil. `step_s` is the time from sample to sample, s.
pub fn measure(current: &[f32], voltages: Voltages<'_>, step_s: f64) -> Coil {
    let x = filled(current);
    let found = actuations(&x);
    let profile = profile(&x, &found).filter(|_| !found.never_rests());
    let end = profile.as_ref().map_or(End::Unknown, end);
    let idle_supply = voltages
        .supply
        .and_then(|s| stats::sampled_quantile(s, 0.5, 200_000));
    let driver = voltages.driven.map(|v| {
        let supply = idle_supply.or_else(|| stats::sampled_quantile(v, 0.9, 200_000));
        let supply = supply.unwrap_or(0.0);
        match feeds(v, supply, &found) {
            // Seen from the supply, a driver that feeds the coil is one that grounds it.
            true => Driver {
                flyback: None,
                ..driver(
                    &v.iter().map(|&v| supply as f32 - v).collect::<Vec<_>>(),
                    supply,
                )
            },
            false => driver(v, supply),
        }
    });
    let supply = supply(&found, voltages.supply, driver.as_ref());
    let across = supply.map(|s| match driver.as_ref().and_then(|d| d.on) {
        Some(on) => Value {
            value: s.value - on,
            uncertainty: s.uncertainty.hypot(0.05),
        },
        None => Value {
            value: s.value - DRIVER_DROP.value,
            uncertainty: s.uncertainty.hypot(DRIVER_DROP.uncertainty),
        },
    });
    if found.never_rests() {
        return restless(&x, voltages, found, supply, driver);
    }
    let ripple = hold_part(&x, &found, &end).and_then(|held| chopper(held, found.noise));
    let chopped_settled = matches!(end, End::Settled { .. }) && ripple.is_some();
    let chopper = ripple.filter(|ripple| match (end, &profile) {
        (End::Held { level, from, .. }, Some(p)) => {
            freewheel(p, level, from, ripple.ripple).is_some_and(|fall| ripple.fits(fall))
        }
        _ => ripple.frequency < SURE_CHOPPER,
    });
    let resistance = match (end, across) {
        (
            End::Settled { level, uncertainty } | End::Rising { level, uncertainty },
            Some(across),
        ) if level > 0.0
            && !chopped_settled
            && profile.as_ref().is_some_and(|p| settles(p, level)) =>
        {
            let relative = (uncertainty / level)
                .hypot(CLAMP)
                .hypot(across.uncertainty / across.value)
                .hypot(found.noise / level / 20.0);
            let ohm = across.value / level;
            Some(Value {
                value: ohm,
                uncertainty: ohm * relative,
            })
        }
        _ => None,
    };
    let rise_ends = profile.as_ref().map(|p| rise_end(p, &end));
    let resistance_of_rise = match (end, &profile, across) {
        (End::Limited { .. } | End::Unknown, Some(p), Some(across)) => {
            rise_ends.and_then(|to| of_rise(&p.current[..to.min(p.current.len())], across))
        }
        _ => None,
    };
    let armature = profile
        .as_ref()
        .zip(rise_ends)
        .and_then(|(p, e)| armature(p, e));
    let fall = profile
        .as_ref()
        .and_then(|p| fall(p, &end, voltages.driven, &found));
    let inductance = profile
        .as_ref()
        .zip(across)
        .and_then(|(p, v)| inductance(p, v, resistance, armature.as_ref(), rise_ends?, step_s));
    Coil {
        dwell: dwell(&found, step_s),
        profile,
        end,
        supply,
        resistance,
        resistance_of_rise,
        inductance,
        armature,
        fall,
        chopper,
        driver,
        found,
    }
}

/// Resistance by the level that a rise without an armature leads to. `None` where it is too straight to tell, or no rise of a
/// constant inductance.
fn of_rise(rise: &[f64], across: Value) -> Option<Value> {
    let points: Vec<(f64, f64)> = (0..).map(f64::from).zip(rise.iter().copied()).collect();
    let fit = fit_rise(&points)?;
    let last = rise.last()?;
    let plain = fit.residual < 0.01 * last && *last > CURVED * fit.end;
    let relative = (fit.end_uncertainty / fit.end).hypot(across.uncertainty / across.value);
    let ohm = across.value / fit.end;
    (plain && relative < MOST_UNCERTAIN).then(|| Value {
        value: ohm,
        uncertainty: ohm * relative.hypot(CLAMP).max(0.04),
    })
}

/// A coil whose current never rests. Over whole cycles the mean voltage of its inductance is zero, so that the mean voltage
/// across the coil by the mean current is its resistance (volt-second balance; Erickson and Maksimovic, "Fundamentals of
/// Power Electronics", chapter 2; named from memory).
fn restless(
    x: &[f32],
    voltages: Voltages<'_>,
    found: Actuations,
    supply: Option<Value>,
    driver: Option<Driver>,
) -> Coil {
    let period = found.period();
    let ends = found.actuations.first().zip(found.actuations.last());
    let many = driver.as_ref().is_some_and(|d| d.pulls.len() >= MANY_PULLS);
    let cycles = match (ends, period) {
        (Some((first, last)), Some(_)) => Some((first.on.max(0.0) as usize, last.on as usize)),
        // A ripple below the noise: a part of a cycle at either end of many.
        _ => many.then_some((0, x.len())),
    };
    let mean = |x: &[f32], (from, to): (usize, usize)| {
        let part = x[from.min(x.len())..to.min(x.len())].iter();
        part.map(|&v| f64::from(v)).sum::<f64>() / (to - from).max(1) as f64
    };
    let resistance = cycles
        .zip(voltages.driven)
        .zip(supply)
        .map(|((whole, driven), supply)| {
            let (across, amps) = (supply.value - mean(driven, whole), mean(x, whole));
            let relative = CLAMP.hypot(supply.uncertainty.hypot(0.05) / across);
            Value {
                value: across / amps,
                uncertainty: across / amps * relative,
            }
        });
    Coil {
        dwell: None,
        profile: None,
        end: End::Unknown,
        supply,
        resistance: resistance.filter(|r| r.value > 0.0),
        resistance_of_rise: None,
        inductance: None,
        armature: None,
        fall: None,
        chopper: period
            .filter(|p| *p > 1.0 / SURE_CHOPPER)
            .map(|period| Chopper {
                frequency: 1.0 / period,
                uncertainty: 0.5 / period / period / (found.actuations.len() as f64).sqrt(),
                ripple: found.peak,
            }),
        driver,
        found,
    }
}

/// True for a driver that switches the supply to the coil, and not the coil to ground: the driven side is high while
/// current flows and low while none does.
fn feeds(driven: &[f32], supply: f64, found: &Actuations) -> bool {
    let at = |sample: f64| driven.get(sample.max(0.0) as usize).copied();
    let whole = || found.actuations.iter().filter(|a| a.whole);
    let during: Vec<f32> = whole().filter_map(|a| at((a.on + a.off) / 2.0)).collect();
    let before: Vec<f32> = whole().filter_map(|a| at(a.on - 3.0)).collect();
    let median = |x: &[f32]| stats::sampled_quantile(x, 0.5, x.len().max(1));
    let levels = median(&during).zip(median(&before));
    levels.is_some_and(|(during, before)| during > 0.6 * supply && before < 0.3 * supply)
}

/// False where a current comes to its level too straight for a winding: an exponential reaches 85 % of its end after 1.9
/// times the time that its first slope would take to all of it, a driver that limits after 0.85 to 1.1 times.
fn settles(profile: &Profile, level: f64) -> bool {
    let x = &profile.current;
    let Some(reached) = x.iter().position(|&v| v >= 0.85 * level) else {
        return false;
    };
    // Too few samples for the slope: the times at which half of that and all of it are reached tell as much, but for a rise
    // within a sample or two. There a level that lasts so long is no driver's limit.
    if reached < LEAST_RISE {
        let (half, whole) = (crossing(x, 0.425 * level), crossing(x, 0.85 * level));
        let straight = whole >= LEAST_TIMES && whole < LEAST_BENT * half;
        return x.len() > LASTING * reached && !straight;
    }
    // The steepest part of the rise: a notch hides the first slope.
    let width = (reached / 6).max(3);
    let t: Vec<f64> = (0..=width).map(|k| k as f64).collect();
    let steepest = (0..=reached - width)
        .step_by(width / 2)
        .filter_map(|k| stats::line_fit(&t, &x[k..=k + width]))
        .map(|l| l.slope)
        .fold(0.0, f64::max);
    reached as f64 * steepest / level > LEAST_CURVED
}

/// Time at which a course first reaches a level, samples from switch-on; infinite where it never does.
fn crossing(x: &[f64], level: f64) -> f64 {
    match x.iter().position(|&v| v >= level) {
        Some(0) => 0.0,
        Some(k) => (k - 1) as f64 + (level - x[k - 1]) / (x[k] - x[k - 1]),
        None => f64::INFINITY,
    }
}

/// Fall of the current before it is held, A a sample: over two ripples above the held level.
fn freewheel(profile: &Profile, level: f64, from: usize, ripple: f64) -> Option<f64> {
    let x = &profile.current;
    let high = level + (3.0 * ripple).max(0.25 * level);
    let begin = (0..from).rev().find(|&k| x[k] >= high)?;
    let span = (from - begin) as f64;
    (span >= 2.0).then(|| (x[begin] - x[from]) / span)
}

/// Supply while the current flows; the driven side at rest where the supply itself was not recorded.
fn supply(found: &Actuations, supply: Option<&[f32]>, driver: Option<&Driver>) -> Option<Value> {
    let Some(supply) = supply else {
        return driver.filter(|d| d.idle > 4.0).map(|d| Value {
            value: d.idle,
            uncertainty: 0.02 * d.idle,
        });
    };
    let mut values: Vec<f64> = Vec::new();
    for a in &found.actuations {
        let from = (a.on + 0.3 * (a.off - a.on)).max(0.0) as usize;
        let to = (a.off.max(0.0) as usize).min(supply.len());
        if from < to {
            values.extend(supply[from..to].iter().map(|&v| f64::from(v)));
        }
    }
    if values.is_empty() {
        values.extend(supply.iter().map(|&v| f64::from(v)));
    }
    let value = stats::median(&values)?;
    Some(Value {
        value,
        uncertainty: GAIN * value,
    })
}

fn dwell(found: &Actuations, step_s: f64) -> Option<Value> {
    let times: Vec<f64> = found
        .actuations
        .iter()
        .filter(|a| a.whole)
        .map(|a| 1_000.0 * step_s * (a.off - a.on))
        .collect();
    let value = stats::median(&times)?;
    let spread = 1.4826 * stats::median_abs_deviation(&times)?;
    let resolution = 1_000.0 * step_s / 2.0;
    Some(Value {
        value,
        uncertainty: (spread / (times.len() as f64).sqrt()).hypot(resolution),
    })
}

/// Samples from switch-on to where the rise ends.
pub fn rise_end(profile: &Profile, end: &End) -> usize {
    match *end {
        End::Held { reached, .. } | End::Limited { reached, .. } => reached,
        _ => profile.current.len().saturating_sub(2),
    }
}

/// The part of the first whole actuation in which its level is held or settled.
fn hold_part<'a>(x: &'a [f32], found: &Actuations, end: &End) -> Option<&'a [f32]> {
    let longest = found
        .actuations
        .iter()
        .filter(|a| a.whole)
        .max_by(|a, b| (a.off - a.on).total_cmp(&(b.off - b.on)))?;
    let length = longest.off - longest.on;
    let from = match *end {
        End::Held { from, .. } => from as f64 + 0.05 * length,
        End::Settled { .. } => 0.5 * length,
        _ => return None,
    };
    let first = (longest.on + from).max(0.0) as usize;
    let last = (longest.off - 0.03 * length).max(0.0) as usize;
    (last > first + 8).then(|| &x[first..last.min(x.len())])
}

/// Inductance from the ramp before the armature moves: with a known resistance, -ln(1 - i R / V) is a line whose slope
/// is R / L; without one, the slope itself is V / L at switch-on.
fn inductance(
    profile: &Profile,
    across: Value,
    resistance: Option<Value>,
    armature: Option<&Armature>,
    rise_ends: usize,
    step_s: f64,
) -> Option<Value> {
    let x = &profile.current;
    let end = armature
        .and_then(|a| a.notch)
        .map_or(rise_ends, |n| (n.begins as usize).min(rise_ends));
    let peak = x[..=end.min(x.len() - 1)]
        .iter()
        .copied()
        .fold(0.0, f64::max);
    let ceiling = resistance.map_or(f64::INFINITY, |r| across.value / r.value);
    let top = (0.85 * peak).min(0.7 * ceiling);
    let from = x.iter().position(|&v| v >= 0.1 * peak)?;
    let to = x.iter().position(|&v| v >= top)?.min(end);
    if to < from + 3 {
        return None;
    }
    let t: Vec<f64> = (from..=to).map(|k| k as f64 * step_s).collect();
    let (rate, error) = match resistance {
        Some(r) => {
            let y: Vec<f64> = x[from..=to]
                .iter()
                .map(|&i| -(1.0 - (i * r.value / across.value).min(0.98)).ln() / r.value)
                .collect();
            let line = stats::line_fit(&t, &y)?;
            (line.slope, line.slope_stderr)
        }
        None => {
            let points: Vec<(f64, f64)> = t
                .iter()
                .copied()
                .zip(x[from..=to].iter().copied())
                .collect();
            let slope = parabola::start(&points)?.slope / across.value;
            (slope, 0.08 * slope)
        }
    };
    // From henry to millihenry.
    (rate > 0.0).then(|| Value {
        value: 1_000.0 / rate,
        uncertainty: 1_000.0 / rate * (error / rate).hypot(0.05),
    })
}
