//! Resistance of the wiring between the source and the motor.

use crate::limits;
use crate::measure::run::{Run, inrush, runs, steady};
use crate::measure::stall::stall;
use crate::measure::wiring::wiring_resistance;
use crate::outputs;
use plugin_sdk::signal::windows::mean;
use plugin_sdk::{Analyzer, Declaration, Grade, Input, Limit, Observation, Output, Record};

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
        let channels = ["motor-current", "motor-voltage", "supply-voltage"];
        let [Some(current), Some(motor), Some(supply)] = channels.map(|r| Record::of(input, &[r]))
        else {
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
            // The drop counts at the current that the motor runs at. Where it never ran it stood, at several times that.
            let runs =
                steady(&current.values, current.step_s, &run).filter(|_| !stands(&current, &run));
            let (from, to) = runs.unwrap_or((run.on, run.off));
            let amps = mean(&current.values[from..to]);
            if amps < 0.05 {
                continue;
            }
            let (value, u) = (
                1e3 * m.value,
                (1e3 * m.uncertainty).hypot(current.accuracy * 1e3 * m.value),
            );
            let name = if runs.is_some() {
                "wiring-drop"
            } else {
                "wiring-drop-standing"
            };
            let sheet = limits(&input.settings).limit(name);
            let limit = Limit {
                low: None,
                high: sheet.high.map(|drop| 1e3 * drop / amps),
                unit: "mohm".into(),
                ..sheet
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

/// True for a motor that draws its inrush throughout.
fn stands(current: &Record, run: &Run) -> bool {
    let (values, start, step) = (&current.values, current.start_s, current.step_s);
    let peak = inrush(values, start, step, run);
    peak.is_some_and(|p| stall(values, start, step, run, p.value).is_some())
}
