//! Battery and starter during a start attempt.

use crate::limits;
use crate::measure::battery::{lowest_voltage, resistance, rest_voltage};
use crate::measure::cranking::{Cranking, attempts};
use crate::measure::probe::attached;
use crate::outputs;
use plugin_sdk::signal::Measured;
use plugin_sdk::signal::windows::mean;
use plugin_sdk::{
    Analyzer, Declaration, Grade, Input, Limit, Observation, Output, Record, Settings, Side,
    unit_fact,
};

/// Voltages, currents and the battery's resistance.
pub struct StartAttempt;

/// Roles on which a start shows, the most telling first.
pub const LOADS: &[&str] = &["starter-current", "battery-current"];
/// Least current of a starter, A, and the least fall of the voltage that it makes, V.
pub const LEAST_A: f64 = 30.0;
/// Fall of the voltage, V.
pub const LEAST_V: f64 = 0.7;
/// Least swing of a current that a resistance is told from, A.
pub const LEAST_SWING_A: f64 = 40.0;
/// Share of its rest voltage that a sound battery loses at most to its own resistance at the inrush, whatever its size: starters are
/// made for batteries that keep more of it. Judgement.
const INRUSH_LOSS: f64 = 0.4;
/// Share of its stall current from which a starter does not turn the engine, %.
const STANDS_PERCENT: f64 = 88.0;

impl Analyzer for StartAttempt {
    const DECLARATION: Declaration = Declaration {
        id: "start-attempt",
        name: "Start attempt",
        needs: &["battery-voltage|battery-current|starter-current"],
        uses: &["battery-voltage", "battery-current", "starter-current"],
        kinds: outputs::START_ATTEMPT.kinds,
        messages: outputs::START_ATTEMPT.messages,
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let volts = Record::of(input, &["battery-voltage"]);
        let current = Record::of(input, LOADS);
        let on = volts.as_ref().map_or(0, |v| attached(&v.values, v.step_s));
        for attempt in found(volts.as_ref(), current.as_ref(), &input.settings) {
            // Before the probe is on the battery its voltage says nothing of a start.
            let volts = volts
                .as_ref()
                .map(|v| (v, aligned(v, current.as_ref(), &attempt)))
                .filter(|(_, a)| a.engaged >= on)
                .map(|(v, a)| (v, a, rest_before(v, &a, on)));
            if let Some((v, attempt, rest)) = &volts {
                voltages(v, attempt, *rest, &input.settings, out);
            }
            let Some(c) = current.as_ref().filter(|c| c.calibrated) else {
                continue;
            };
            currents(
                c,
                volts.as_ref().map(|(v, _, rest)| (*v, *rest)),
                &attempt,
                &input.settings,
                out,
            );
        }
        Ok(())
    }
}

/// Start attempts on the current, else on the fall of the voltage.
pub fn found(
    volts: Option<&Record>,
    current: Option<&Record>,
    settings: &Settings,
) -> Vec<Cranking> {
    let cranked = crate::engine_is(settings, "cranking");
    if let Some(c) = current {
        let least = if c.calibrated { LEAST_A } else { 0.0 };
        return attempts(&c.values, c.step_s, least, cranked);
    }
    volts.map_or_else(Vec::new, |v| {
        let on = attached(&v.values, v.step_s);
        let fall: Vec<f64> = v.values[on..].iter().map(|x| -x).collect();
        let found = attempts(&fall, v.step_s, LEAST_V, cranked);
        found.into_iter().map(|a| a.moved(|k| k + on)).collect()
    })
}

/// The attempt in samples of the voltage, where the attempt was found on a current sampled apart.
fn aligned(volts: &Record, current: Option<&Record>, a: &Cranking) -> Cranking {
    let Some(c) = current.filter(|c| !c.matches(volts)) else {
        return *a;
    };
    a.moved(|sample| {
        let k = (c.at(sample) - volts.start_s) / volts.step_s;
        (k.round().max(0.0) as usize).min(volts.values.len())
    })
}

/// Rest voltage before an attempt, with the probe on the battery from the sample `on`.
fn rest_before(v: &Record, a: &Cranking, on: usize) -> Option<Measured> {
    rest_voltage(&v.values, v.start_s, v.step_s, (on, a.engaged)).filter(|_| a.from_rest)
}

fn voltages(
    v: &Record,
    a: &Cranking,
    rest: Option<Measured>,
    settings: &Settings,
    out: &mut Output,
) {
    // Limits are those of a 12 V battery.
    let batteries = rest.map_or(Some(1.0), |r| crate::batteries(r.value));
    let scaled = |name: &str| crate::limit_of(settings, name, batteries);
    let tell = |kind: &str, message: &str, m: Measured, limit: Limit| {
        let u = m.uncertainty.hypot(v.accuracy * m.value);
        let grade = match batteries {
            Some(_) => Side::of(m.value, u, &limit).grade(),
            None => Grade::Unusable,
        };
        let message = if grade == Grade::Abnormal {
            format!("{message}-low")
        } else {
            message.to_owned()
        };
        Observation::new(kind, &message)
            .about(&v.role)
            .span(m.from_s, m.to_s)
            .value(m.value, u, "V")
            .limit(limit)
            .grade(grade)
    };
    if let Some(rest) = rest {
        let told = tell("rest-voltage", "rest-voltage", rest, scaled("rest-voltage"));
        // Alone it says nothing of a battery's health: a voltage near its limit leaves nothing undecided.
        out.add(match told.grade {
            Grade::Abnormal => told,
            _ => told.limit(Limit::default()),
        });
    }
    if let Some(low) = lowest_voltage(&v.values, v.start_s, v.step_s, a) {
        let limit = scaled("cranking-voltage-low");
        out.add(
            tell(
                "cranking-voltage-low",
                "cranking-voltage",
                low.turning,
                limit,
            )
            .arg("inrush_v", low.inrush_v),
        );
    }
}

fn currents(
    c: &Record,
    volts: Option<(&Record, Option<Measured>)>,
    a: &Cranking,
    settings: &Settings,
    out: &mut Output,
) {
    let amps = |kind: &str, message: &str, value: f64, noise: f64| {
        Observation::new(kind, message).about(&c.role).value(
            value,
            noise.hypot(c.accuracy * value),
            "A",
        )
    };
    let peak = c.values[a.peak];
    let clipped = c.over_range || !a.from_rest;
    if !clipped {
        out.add(
            amps("inrush-current", "inrush-current", peak, 0.0)
                .span(c.at(a.engaged), c.at((a.closed + a.steady) / 2)),
        );
    }
    let volts = volts.filter(|(v, _)| v.matches(c));
    let turning = &c.values[a.steady..a.steady_end.max(a.steady)];
    if turning.len() as f64 * c.step_s >= 0.3 {
        let drawn = mean(turning);
        let steady = |o: Observation| o.span(c.at(a.steady), c.at(a.steady_end));
        // What the starter would draw if it stood, at the voltage that the battery has while it turns.
        let stall = volts
            .filter(|_| !clipped)
            .map(|(v, _)| peak * mean(&v.values[a.steady..a.steady_end]) / v.values[a.peak]);
        let noise = 0.01 * drawn;
        match stall.filter(|s| s.is_finite() && *s > 0.0) {
            Some(stall) => {
                let limit = limits(settings).limit("cranking-current-share");
                let share = 100.0 * drawn / stall;
                let above = Side::of(share, 0.03 * share, &limit) == Side::Above;
                let message = match share {
                    s if s > STANDS_PERCENT => "cranking-current-stalled",
                    _ if above => "cranking-current-high",
                    s if s > limit.low.unwrap_or(100.0) => "cranking-current-raised",
                    _ => "cranking-current",
                };
                let high = limit.high.map(|h| h / 100.0 * stall);
                out.add(steady(
                    amps("cranking-current", message, drawn, noise)
                        .limit(Limit {
                            low: None,
                            high,
                            unit: "A".into(),
                            ..limit
                        })
                        .grade(if above {
                            Grade::Abnormal
                        } else {
                            Grade::Normal
                        })
                        .arg("share_percent", share),
                ));
            }
            None => out.add(steady(amps(
                "cranking-current",
                "cranking-current-alone",
                drawn,
                noise,
            ))),
        }
    }
    let is_whole = c.role == "battery-current" || c.role == "starter-current";
    let Some((v, rest)) = volts.filter(|_| is_whole) else {
        return;
    };
    if let Some(r) = resistance(&v.values, &c.values, c.start_s, c.step_s, a, LEAST_SWING_A) {
        // A battery that keeps its cold-cranking current has no more than this.
        let rating = unit_fact(settings, "battery_cca_a");
        let from_rating =
            limits(settings).number("cold-cranking-fall") / rating.unwrap_or(f64::NAN);
        let batteries = rest.map_or(Some(1.0), |r| crate::batteries(r.value));
        let sheet = crate::limit_of(settings, "battery-resistance", batteries);
        let limit = match batteries.filter(|_| from_rating.is_finite()) {
            Some(n) => Limit {
                high: Some(1e3 * n * from_rating),
                source: limits(settings).limit("cold-cranking-fall").source,
                ..sheet
            },
            None => sheet,
        };
        let value = 1e3 * r.value;
        let u = (1e3 * r.uncertainty).hypot(c.accuracy * value);
        let high = Side::of(value, u, &limit) == Side::Above;
        // Without its rating a small battery that suits its starter looks like a weak large one.
        let loss = rest
            .filter(|_| rating.is_none() && !clipped)
            .map(|v| r.value * (peak - c.values[a.engaged]) / v.value);
        let may_be_small = high && loss.is_some_and(|share| share < INRUSH_LOSS);
        // In the cold a sound battery has as much as its rating lets it.
        let cold = limits(settings).number("cold-cranking-fall-cold") / rating.unwrap_or(f64::NAN);
        let may_be_cold = high && batteries.is_some_and(|n| value - 2.0 * u <= 1e3 * n * cold);
        let (message, grade) = match high {
            true if may_be_small => ("battery-resistance-size-unknown", Grade::Unusable),
            true if may_be_cold => ("battery-resistance-cold", Grade::Unusable),
            true => ("battery-resistance-high", Grade::Abnormal),
            false => ("battery-resistance", Grade::Normal),
        };
        out.add(
            Observation::new("battery-resistance", message)
                .about(&v.role)
                .span(r.from_s, r.to_s)
                .value(value, u, "mohm")
                .limit(limit)
                .grade(grade)
                .arg(
                    "bound",
                    if rating.is_some() {
                        "rating"
                    } else {
                        "general"
                    },
                ),
        );
    }
}
