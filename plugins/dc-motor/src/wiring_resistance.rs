//! Resistance of the wiring between the source and the motor.

use crate::limits;
use crate::measure::run::{Run, inrush, runs, steady};
use crate::measure::stall::stall;
use crate::measure::wiring::wiring_resistance;
use crate::outputs;
use plugin_sdk::signal::windows::mean;
use plugin_sdk::{
    Analyzer, Declaration, Grade, Input, Limit, Observation, Output, Record, Settings,
};

/// Resistance of feed and ground of a motor.
pub struct WiringResistance;

impl Analyzer for WiringResistance {
    const DECLARATION: Declaration = Declaration {
        id: "wiring-resistance",
        name: "Wiring of the motor",
        needs: &["motor-current", "motor-voltage", "supply-voltage"],
        kinds: outputs::WIRING_RESISTANCE.kinds,
        messages: outputs::WIRING_RESISTANCE.messages,
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let supply = Record::of(input, &["supply-voltage"]);
        let motor = crate::undirected(input, "motor-current")
            .zip(crate::undirected(input, "motor-voltage"));
        let Some(((current, motor), supply)) = motor.zip(supply) else {
            return Ok(());
        };
        if !current.calibrated {
            return Err("the current's clamp has no known factor".into());
        }
        if !motor.matches(&current) || !supply.matches(&current) {
            return Err("current and voltages were not sampled together".into());
        }
        for run in runs(&current.values, Some(&motor.values), current.step_s) {
            let measured = wiring_resistance(
                &supply.values,
                &motor.values,
                &current.values,
                current.start_s,
                current.step_s,
                &run,
            );
            let Some(m) = measured else {
                continue;
            };
            let Some((amps, drop)) = judged_at(&current, &run, &input.settings) else {
                continue;
            };
            let (value, u) = (
                1e3 * m.value,
                (1e3 * m.uncertainty).hypot(current.accuracy * 1e3 * m.value),
            );
            let limit = Limit {
                low: None,
                high: drop.high.map(|volts| 1e3 * volts / amps),
                unit: "mohm".into(),
                ..drop
            };
            let high = limit.high.is_some_and(|h| value - 2.0 * u > h);
            let message = if high {
                "wiring-resistance-high"
            } else {
                "wiring-resistance"
            };
            out.add(
                Observation::new("wiring-resistance", message)
                    .about("motor-voltage")
                    .span(m.from_s, m.to_s)
                    .value(value, u, "mohm")
                    .limit(limit)
                    .grade(if high { Grade::Abnormal } else { Grade::Normal })
                    .arg("drop_v", m.value * amps)
                    .arg("current_a", amps),
            );
        }
        Ok(())
    }
}

/// Least current whose drop is judged, A.
const LEAST_A: f64 = 0.05;

/// Current at which the drop is judged, A, and the drop that it may have: that of the steady run, or of the start, at
/// several times that, where a light load hides what the start would suffer from. The stricter of the two counts; a motor
/// that never ran stood.
fn judged_at(current: &Record, run: &Run, settings: &Settings) -> Option<(f64, Limit)> {
    let (values, start_s, step_s) = (&current.values, current.start_s, current.step_s);
    let sheet = limits(settings);
    let peak = inrush(values, start_s, step_s, run).map(|p| p.value);
    let stood = peak.is_some_and(|p| stall(values, start_s, step_s, run, p).is_some());
    let running = steady(values, step_s, run)
        .filter(|_| !stood)
        .map(|(from, to)| (mean(&values[from..to]), sheet.limit("wiring-drop")));
    let standing = match running {
        Some(_) => peak,
        None => Some(mean(&values[run.on..run.off])),
    };
    let standing = standing.map(|amps| (amps, sheet.limit("wiring-drop-standing")));
    let ohm = |(amps, drop): &(f64, Limit)| drop.high.unwrap_or(f64::INFINITY) / amps;
    let seen = running.into_iter().chain(standing);
    seen.filter(|(amps, _)| *amps >= LEAST_A)
        .min_by(|a, b| ohm(a).total_cmp(&ohm(b)))
}
