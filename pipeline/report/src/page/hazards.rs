//! The safety messages: chosen by what the repair and the tests touch.

use super::advice::mended;
use crate::ReportInput;
use crate::words::Caution;

/// What a step of the work touches.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Touches {
    /// The engine runs, instruments are clipped on, the gearbox learns.
    RunningVehicle,
    /// The vehicle is driven.
    Road,
    /// The gearbox comes out of the vehicle.
    GearboxOut,
    /// Actuators come off, their mechanism is moved by hand.
    Actuators,
    /// Plugs are pulled, circuits measured and repaired.
    Wiring,
    /// Words alone: nothing is touched.
    Nothing,
}

use Touches::{Actuators, GearboxOut, Nothing, Road, RunningVehicle, Wiring};

/// What each step touches: keys of the sentences that name the step, `*` for any run of letters. The first that fits
/// counts.
const STEPS: &[(&str, &[Touches])] = &[
    ("next-state-*", &[Nothing]),
    ("next-clamp-scale", &[Nothing]),
    ("next-measure-*", &[Wiring, Actuators]),
    ("next-check-sensor-wiring", &[Wiring, RunningVehicle]),
    ("next-record-output-shaft", &[RunningVehicle, Road]),
    ("next-*", &[RunningVehicle]),
    ("repair-clutch-*-drag-1", &[GearboxOut]),
    ("repair-clutch-*-slip-1", &[RunningVehicle]),
    ("repair-clutch-*-slip-2", &[GearboxOut]),
    ("repair-clutch-actuator-jam-1", &[RunningVehicle]),
    ("repair-*-actuator-*jam-*", &[Actuators, RunningVehicle]),
    ("repair-clutch-*", &[GearboxOut, RunningVehicle]),
    ("repair-actuation-jam-1", &[RunningVehicle]),
    ("repair-actuation-jam-2", &[Nothing]),
    ("repair-actuator-open-circuit-*", &[Wiring, RunningVehicle]),
    ("repair-supply-weak-*", &[Wiring, RunningVehicle]),
    ("repair-shaft-sensor-*", &[Wiring, RunningVehicle]),
    ("repair-double-engagement-1", &[Nothing]),
    ("repair-double-engagement-2", &[Actuators]),
    ("repair-double-engagement-*", &[GearboxOut, RunningVehicle]),
    ("repair-relearn-not-completed-*", &[RunningVehicle]),
    ("proof-clutch-*-slip", &[RunningVehicle, Road]),
    ("proof-*", &[RunningVehicle]),
];

/// The cautions of what is touched.
fn cautions_of(touches: Touches) -> &'static [&'static str] {
    match touches {
        RunningVehicle => &[
            "caution-running-engine",
            "caution-rolling",
            "caution-rotating-parts",
            "caution-actuator-movement",
            "caution-scope-ground",
        ],
        Road => &["caution-road-test", "caution-rotating-parts"],
        GearboxOut => &[
            "caution-rolling",
            "caution-lifting",
            "caution-spring-force",
            "caution-clutch-dust",
            "caution-hot-parts",
            "caution-battery",
        ],
        Actuators => &[
            "caution-actuator-movement",
            "caution-spring-force",
            "caution-rolling",
            "caution-battery",
        ],
        Wiring => &[
            "caution-jumper-lead",
            "caution-battery",
            "caution-airbag",
            "caution-actuator-movement",
        ],
        Nothing => &[],
    }
}

/// What a step touches; a step that nobody has placed is taken for work on the running vehicle, never for none.
fn touched(step: &str) -> &'static [Touches] {
    STEPS
        .iter()
        .find(|(pattern, _)| fits(pattern, step))
        .map_or(&[RunningVehicle], |(_, touches)| touches)
}

/// Whether a text is the pattern, `*` standing for any run of characters.
fn fits(pattern: &str, text: &str) -> bool {
    match pattern.split_once('*') {
        None => pattern == text,
        Some((head, rest)) => text.strip_prefix(head).is_some_and(|tail| {
            tail.char_indices()
                .map(|(i, _)| i)
                .chain([tail.len()])
                .any(|i| tail.get(i..).is_some_and(|t| fits(rest, t)))
        }),
    }
}

/// The safety messages, worst first: those that the cause sheet names, and those of every step of the repair, of its
/// proof and of what to record next. A repair that is proven leaves nothing to be done.
pub(crate) fn cautions(input: &ReportInput<'_>) -> Vec<Caution> {
    if mended(input.case) {
        return Vec::new();
    }
    let advice = input.advice;
    let steps = advice
        .into_iter()
        .flat_map(|a| a.repair.iter().chain(&a.proof))
        .chain(input.case.verdict.next.iter().map(|n| &n.step));
    let mut touches: Vec<Touches> = steps.flat_map(|s| touched(s)).copied().collect();
    if advice.is_some_and(|a| a.opens.is_some()) {
        touches.push(GearboxOut);
    }
    let of_sheet = advice.into_iter().flat_map(|a| &a.cautions);
    let mut keys: Vec<&str> = of_sheet.map(String::as_str).collect();
    keys.extend(touches.iter().flat_map(|t| cautions_of(*t)));
    // Where the high-voltage system may be touched: known, or not known to be absent.
    if touches.iter().any(|t| matches!(t, GearboxOut | Wiring)) {
        match input.case.vehicle.high_voltage {
            Some(true) => keys.push("caution-high-voltage"),
            None => keys.push("caution-high-voltage-unknown"),
            Some(false) => {}
        }
    }
    let mut seen = Vec::new();
    keys.retain(|key| {
        let new = !seen.contains(key);
        seen.push(*key);
        new
    });
    let words = input.stationery.words();
    let mut cautions: Vec<Caution> = keys.into_iter().map(|key| words.caution(key)).collect();
    cautions.sort_by_key(|c| c.level);
    cautions
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Words;

    /// Every step that the sentences know has been placed by somebody, and every placing has a step.
    #[test]
    fn every_step_is_placed() {
        let english = crate::template::Template::built_in_language("en").unwrap();
        let steps: Vec<&str> = english
            .lines()
            .filter_map(|line| line.split_once(" = "))
            .map(|(key, _)| key)
            .filter(|key| {
                ["next-", "repair-", "proof-"]
                    .iter()
                    .any(|f| key.starts_with(f))
            })
            .collect();
        assert!(steps.len() > 50);
        let mut used = vec![false; STEPS.len()];
        for step in steps {
            let at = STEPS.iter().position(|(pattern, _)| fits(pattern, step));
            let at = at.unwrap_or_else(|| panic!("nobody has said what `{step}` touches"));
            used[at] = true;
        }
        for ((pattern, _), used) in STEPS.iter().zip(used) {
            assert!(used, "no step is `{pattern}`");
        }
    }

    /// Every hazard of the trade that the house knows comes up for some work.
    #[test]
    fn every_caution_is_reached() {
        let all = [RunningVehicle, Road, GearboxOut, Actuators, Wiring];
        let reached: Vec<&str> = all.iter().flat_map(|t| cautions_of(*t)).copied().collect();
        let words = Words::load("en").unwrap();
        let mut count = 0;
        for key in words.keys().filter(|k| k.starts_with("caution-")) {
            count += 1;
            let by_vehicle = key.starts_with("caution-high-voltage");
            assert!(by_vehicle || reached.contains(&key.as_str()), "{key}");
        }
        assert_eq!(count, 15);
    }

    #[test]
    fn patterns() {
        assert!(fits("repair-clutch-*-slip-2", "repair-clutch-1-slip-2"));
        assert!(fits("next-*", "next-"));
        assert!(fits("a*b*c", "a-b-b-c"));
        assert!(!fits("a*b*c", "a-c"));
        assert_eq!(touched("of-a-shop"), [RunningVehicle]);
    }
}
