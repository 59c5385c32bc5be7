//! Balance of the alternator's three phases, by the orders of its ripple.

use crate::measure::alternator::{Known, Phases, Ripple, phases, ripple};
use crate::outputs;
use plugin_sdk::derived;
use plugin_sdk::signal::stats;
use plugin_sdk::{Analyzer, Declaration, Grade, Input, Limit, Observation, Output, unit_fact};

/// Ripple, V peak to peak, from which on one that fits either equal or unequal phases calls nobody sound: six equal periods
/// leave less on a battery (0.15 V in a model of the bridge with 4 to 12 mohm of battery), an open diode or phase more.
const LARGE_V: f64 = 0.2;

/// Ripple of the alternator by order analysis.
pub struct AlternatorRipple;

impl Analyzer for AlternatorRipple {
    const DECLARATION: Declaration = Declaration {
        id: "alternator-ripple",
        name: "Alternator ripple",
        needs: &["battery-voltage"],
        uses: &["engine-speed"],
        inputs: &[derived::TOOTH_RATE.name],
        kinds: outputs::ALTERNATOR_RIPPLE.kinds,
        messages: outputs::ALTERNATOR_RIPPLE.messages,
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        if !crate::engine_is(&input.settings, "running") {
            return Ok(());
        }
        let Some(volts) = crate::battery_voltage(input) else {
            return Ok(());
        };
        // A voltage that no battery has tells nothing of its alternator.
        let Some(batteries) = stats::median(&volts.values).and_then(crate::batteries) else {
            return Ok(());
        };
        let (from, to) = (volts.start_s, volts.at(volts.values.len() - 1));
        let about = |message: &str| {
            Observation::new("ripple", message)
                .about("battery-voltage")
                .span(from, to)
        };
        let measured = match ripple(&volts.values, volts.start_s, volts.step_s) {
            Ok(Some(r)) => r,
            Ok(None) => {
                out.add(about("ripple-not-recorded").grade(Grade::NotTested));
                return Ok(());
            }
            Err(smooth) => {
                out.add(
                    about("ripple-none")
                        .grade(Grade::Unusable)
                        .arg("least_v", smooth.least_seen),
                );
                return Ok(());
            }
        };
        let known = Known {
            engine_hz: engine_hz(input),
            pole_pairs: unit_fact(&input.settings, "alternator_poles").map(|p| p / 2.0),
            pulley_ratio: unit_fact(&input.settings, "pulley_ratio"),
            batteries,
        };
        let judged = phases(&measured, &known);
        let sheet = crate::limit_of(&input.settings, "ripple", Some(batteries));
        let large = batteries * LARGE_V;
        let large = sheet.high.map_or(large, |h| h.min(large));
        let is_large = measured.peak_to_peak.value > large;
        let (message, grade) = match judged {
            Phases::SpeedUnknown | Phases::TooCoarse if is_large => {
                ("ripple-large", Grade::Unusable)
            }
            // No load that is switched electronically, and nothing that is known of the engine explains it.
            Phases::NotAlternator if is_large && !measured.clockwork => {
                ("ripple-large", Grade::Unusable)
            }
            Phases::Equal => ("ripple-even", Grade::Normal),
            Phases::Unequal => ("ripple-order-missing", Grade::Abnormal),
            Phases::SpeedUnknown => ("ripple-speed-unknown", Grade::Unusable),
            Phases::TooCoarse => ("ripple-too-coarse", Grade::Unusable),
            Phases::NotAlternator => ("ripple-not-alternator", Grade::Unusable),
        };
        let m = measured.peak_to_peak;
        let o = about(message)
            .value(m.value, m.uncertainty.hypot(0.03 * m.value), "V")
            .limit(match judged {
                Phases::Unequal => sheet,
                _ => Limit::default(),
            })
            .grade(grade);
        out.add(with_orders(o, &measured, judged));
        Ok(())
    }
}

fn with_orders(o: Observation, r: &Ripple, judged: Phases) -> Observation {
    let o = o
        .arg("hz", r.hz)
        .arg("order", (r.strongest_hz / r.hz).round());
    match judged {
        Phases::Equal => o.arg("order_missing", false),
        Phases::Unequal => o.arg("order_missing", true),
        _ => o,
    }
}

/// The engine's speed by its own sensor, turns a second.
fn engine_hz(input: &Input<'_>) -> Option<f64> {
    let teeth = input
        .channel("engine-speed")?
        .facts
        .teeth
        .filter(|&n| n > 0)?;
    let rate = input.tooth_rate("engine-speed")?;
    let hz = rate.numbers("rate")?;
    let turning: Vec<f64> = hz.iter().copied().filter(|hz| *hz > 0.0).collect();
    // Half of the record at least, so that a moment of pulses is none.
    let enough = 2 * turning.len() >= hz.len();
    enough
        .then(|| stats::median(&turning))?
        .map(|hz| hz / f64::from(teeth))
}
