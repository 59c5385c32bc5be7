//! The voltage that the alternator holds.

use crate::measure::charging::{charging_voltage, highest_held};
use crate::outputs;
use plugin_sdk::signal::windows::mean;
use plugin_sdk::{Analyzer, Declaration, Grade, Input, Observation, Output, Record, Side};

/// Charging voltage with the engine running.
pub struct Charging;

/// Current out of the battery above which it is not being charged, A.
const DISCHARGING_A: f64 = 1.0;
/// Voltage below which no charge management holds a battery of 12 V, V: 12.2 to 15.0 V can be intended (common practice,
/// no source).
const BATTERY_ALONE_V: f64 = 12.2;

impl Analyzer for Charging {
    const DECLARATION: Declaration = Declaration {
        id: "charging",
        name: "Charging voltage",
        needs: &["battery-voltage"],
        uses: &["battery-current"],
        kinds: outputs::CHARGING.kinds,
        messages: outputs::CHARGING.messages,
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        if !crate::engine_is(&input.settings, "running") {
            return Ok(());
        }
        let Some(volts) = crate::battery_voltage(input) else {
            return Ok(());
        };
        let Some(m) = charging_voltage(&volts.values, volts.start_s, volts.step_s) else {
            return Ok(());
        };
        let batteries = crate::batteries(m.value);
        let limit = crate::limit_of(&input.settings, "charging-voltage", batteries);
        let current = Record::of(input, &["battery-current"])
            .filter(|c| c.calibrated)
            .map(|c| mean(&c.values));
        let u = m.uncertainty.hypot(volts.accuracy * m.value);
        let side = Side::of(m.value, u, &limit);
        // Where it is held at times the alternator can charge: a load, or charge management, keeps it down otherwise.
        let at_times = side == Side::Below
            && highest_held(&volts.values, volts.step_s)
                .zip(limit.low)
                .is_some_and(|(held, low)| held >= low);
        let message = match side {
            Side::Below if at_times => "charging-voltage-at-times",
            Side::Below if current.is_some_and(|a| a > DISCHARGING_A) => {
                "charging-voltage-low-discharging"
            }
            Side::Below if batteries.is_some_and(|n| m.value < n * BATTERY_ALONE_V) => {
                "charging-voltage-none"
            }
            Side::Below => "charging-voltage-low",
            Side::Within => "charging-voltage",
            Side::Above => "charging-voltage-high",
        };
        let mut o = Observation::new("charging-voltage", message)
            .about("battery-voltage")
            .span(m.from_s, m.to_s)
            .value(m.value, u, "V")
            .limit(limit)
            .grade(match batteries {
                Some(_) if !at_times => side.grade(),
                _ => Grade::Unusable,
            });
        if let Some(a) = current {
            o = o.arg("current_a", a);
        }
        out.add(o);
        Ok(())
    }
}
