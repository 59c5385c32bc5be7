//! Resistance of the starter's feed and of the engine's ground.

use crate::limits;
use crate::measure::drop::path_resistance;
use crate::outputs;
use crate::start_attempt::{LEAST_SWING_A, LOADS, found};
use plugin_sdk::{Analyzer, Declaration, Grade, Input, Observation, Output, Record, Side};

/// Resistances of cables and grounds from their drops.
pub struct PathResistance;

impl Analyzer for PathResistance {
    const DECLARATION: Declaration = Declaration {
        id: "path-resistance",
        name: "Resistance of feed and ground",
        needs: &[
            "ground-voltage|feed-voltage-drop",
            "battery-current|starter-current",
        ],
        uses: &[
            "ground-voltage",
            "feed-voltage-drop",
            "battery-current",
            "starter-current",
        ],
        kinds: outputs::PATH_RESISTANCE.kinds,
        messages: outputs::PATH_RESISTANCE.messages,
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let Some(current) = Record::of(input, LOADS).filter(|c| c.calibrated) else {
            return Err("the current's clamp has no known factor".into());
        };
        for attempt in found(None, Some(&current), &input.settings) {
            for (role, kind, message) in [
                ("ground-voltage", "ground-resistance", "ground-resistance"),
                (
                    "feed-voltage-drop",
                    "feed-resistance",
                    "starter-feed-resistance",
                ),
            ] {
                let Some(drop) = Record::of(input, &[role]).filter(|d| d.matches(&current)) else {
                    continue;
                };
                let measured = path_resistance(
                    &drop.values,
                    &current.values,
                    current.start_s,
                    current.step_s,
                    &attempt,
                    LEAST_SWING_A,
                );
                let Some(path) = measured else {
                    continue;
                };
                let r = path.resistance;
                let value = 1e3 * r.value;
                let u = (1e3 * r.uncertainty).hypot(current.accuracy * value);
                let limit = limits(&input.settings).limit(kind);
                let high = Side::of(value, u, &limit) == Side::Above;
                let message = if high {
                    format!("{message}-high")
                } else {
                    message.to_owned()
                };
                out.add(
                    Observation::new(kind, &message)
                        .about(role)
                        .span(r.from_s, r.to_s)
                        .value(value, u, "mohm")
                        .limit(limit)
                        .grade(if high { Grade::Abnormal } else { Grade::Normal })
                        .arg("drop_v", path.steady_drop_v)
                        .arg("current_a", path.steady_current_a),
                );
            }
        }
        Ok(())
    }
}
