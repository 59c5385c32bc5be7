//! Whether the alternator's three phases carry alike, by the orders of its ripple.

use crate::input::{fact, record};
use crate::limits;
use crate::measure::alternator::{Known, Phases, Ripple, phases, ripple};
use plugin_sdk::measure::{Spec, shaft_record};
use plugin_sdk::signal::stats;
use plugin_sdk::{Analyzer, Descriptor, Grade, Input, Limit, Observation, Output, Scope};

/// Ripple of the alternator by order analysis.
pub struct AlternatorRipple;

impl Analyzer for AlternatorRipple {
    const DESCRIPTOR: Descriptor = Descriptor {
        id: "alternator-ripple",
        name: "Alternator ripple",
        version: env!("CARGO_PKG_VERSION"),
        vendor: "baybrief",
        scope: Scope::Capture,
        needs: &["battery-voltage"],
        uses: &["engine-speed"],
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        if !crate::engine_is(&input.settings, "running") {
            return Ok(());
        }
        let Some(volts) = record(input, &["battery-voltage"]) else {
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
            Ok(None) => return Ok(()),
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
            pole_pairs: fact(&input.settings, "alternator_poles").map(|p| p / 2.0),
            pulley_ratio: fact(&input.settings, "pulley_ratio"),
        };
        let judged = phases(&measured, &known);
        let (message, grade) = match judged {
            Phases::Equal => ("ripple-even", Grade::Normal),
            Phases::Unequal => ("ripple-order-missing", Grade::Abnormal),
            Phases::SpeedUnknown => ("ripple-speed-unknown", Grade::Unusable),
            Phases::TooCoarse => ("ripple-too-coarse", Grade::Unusable),
            Phases::NotAlternator => ("ripple-not-alternator", Grade::Unusable),
        };
        let m = measured.peak_to_peak;
        let limit = limits(&input.settings).limit("ripple");
        let o = about(message)
            .value(m.value, m.uncertainty.hypot(0.03 * m.value), "V")
            .limit(if judged == Phases::Unequal {
                limit
            } else {
                Limit::default()
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
    let channel = input.channel("engine-speed")?;
    let teeth = channel.facts.teeth.filter(|&n| n > 0)?;
    let record = shaft_record(channel, &Spec(&input.settings.spec))?;
    let (from, to) = (channel.time.at(0), channel.time.at(channel.len() - 1));
    let rates: Vec<f64> = (1..20)
        .filter_map(|k| record.tooth_rate_at(from + (to - from) * f64::from(k) / 20.0, 0.1))
        .collect();
    (rates.len() >= 10)
        .then(|| stats::median(&rates))?
        .map(|hz| hz / f64::from(teeth))
}
