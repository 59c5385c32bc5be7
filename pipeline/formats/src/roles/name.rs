//! The role that a channel's name says, with the unit's and the signal's help where the name leaves it open.

use super::role_names;
use super::shape::{Shape, Unit};
use super::topics::Topic;
use super::words::Name;
use super::{RoleGuess, SAFE};

/// A name that says the role outright.
const PLAIN: f64 = 0.9;
/// A name that leaves something to guess; a person has to agree.
const UNSURE: f64 = 0.6;
/// A name that says which kind but not which one of two.
const NO_NUMBER: f64 = 0.4;

fn guess(role: &'static str, certainty: f64, reason: impl Into<String>) -> Option<RoleGuess> {
    Some(RoleGuess {
        role,
        certainty,
        reason: reason.into(),
    })
}

fn says(words: &[&str]) -> String {
    format!("the name says \"{}\"", words.join(" ... "))
}

/// One of two alike: by the number in the name.
fn numbered(
    name: &Name,
    word: &str,
    roles: [&'static str; 2],
    certainty: f64,
) -> Option<RoleGuess> {
    match name.number_near(word) {
        Some(n @ 1..=2) => guess(
            roles[usize::from(n) - 1],
            certainty,
            says(&[word, &n.to_string()]),
        ),
        Some(n) => guess(
            role_names::OTHER,
            UNSURE,
            format!("{}, which is no part of two", says(&[word, &n.to_string()])),
        ),
        None => guess(
            roles[0],
            NO_NUMBER,
            format!("{} without a number", says(&[word])),
        ),
    }
}

/// The role that a name says; `None` when it says nothing.
pub(super) fn role(name: &str, unit: Unit, shape: Option<Shape>) -> Option<RoleGuess> {
    let name = Name::new(name);
    let about = |topic| name.about(topic);
    if let Some(w) = about(Topic::Foreign) {
        return guess(
            role_names::OTHER,
            SAFE,
            format!("{}, which is not the gearbox", says(&[w])),
        );
    }
    mechanism(&name, unit)
        .or_else(|| shaft(&name))
        .or_else(|| line(&name, unit, shape))
        .or_else(|| {
            let w = about(Topic::Selector)?;
            guess(role_names::SELECTOR, SAFE, says(&[w]))
        })
}

/// Currents of the clutches' and the gears' own motors.
fn mechanism(name: &Name, unit: Unit) -> Option<RoleGuess> {
    let about = |topic| name.about(topic);
    let motor = about(Topic::Motor);
    let current = about(Topic::Current).is_some() || unit == Unit::Ampere;
    let (word, roles) = if let Some(w) = about(Topic::Clutch) {
        if about(Topic::Speed).is_some() && !current {
            // A clutch's driven side turns with its input shaft.
            return numbered(
                name,
                w,
                [role_names::INPUT_SHAFT_1, role_names::INPUT_SHAFT_2],
                UNSURE,
            );
        }
        (
            w,
            [
                role_names::ACTUATOR_CURRENT_1,
                role_names::ACTUATOR_CURRENT_2,
            ],
        )
    } else if let (Some(w), Some(_)) = (about(Topic::Shifting), motor) {
        (
            w,
            [
                role_names::GEAR_MOTOR_CURRENT_1,
                role_names::GEAR_MOTOR_CURRENT_2,
            ],
        )
    } else {
        return None;
    };
    if current {
        return numbered(name, word, roles, PLAIN);
    }
    // Without a word for it the channel may as well be the motor's voltage.
    motor.filter(|_| about(Topic::Voltage).is_none())?;
    numbered(name, word, roles, 0.5)
}

/// Speed sensors.
fn shaft(name: &Name) -> Option<RoleGuess> {
    let about = |topic| name.about(topic);
    if about(Topic::Current).is_some() || about(Topic::Ground).is_some() {
        return None;
    }
    let (shaft, speed, sensor) = (
        about(Topic::Shaft),
        about(Topic::Speed),
        about(Topic::Sensor),
    );
    let gearbox = about(Topic::Gearbox);
    let turning = shaft.is_some() || speed.is_some() || sensor.is_some() || gearbox.is_some();
    const INPUTS: [&'static str; 2] = [role_names::INPUT_SHAFT_1, role_names::INPUT_SHAFT_2];
    if let Some(w) = engine(name) {
        return Some(w);
    }
    if let Some(w) = about(Topic::Output).filter(|w| turning || w.contains("abtrieb")) {
        // Where only "secondary" is said, the second of two input shafts may be meant.
        let certainty = if matches!(w, "secondary") {
            UNSURE
        } else {
            PLAIN
        };
        return guess(role_names::OUTPUT_SHAFT, certainty, says(&[w]));
    }
    if let Some(w) = about(Topic::Input).filter(|w| turning || w.len() > 8) {
        // The number may stand behind the shaft: "eje primario del cambio 2".
        return numbered(name, w, INPUTS, PLAIN);
    }
    if let Some(w) = shaft {
        return numbered(name, w, INPUTS, super::LONE_SHAFT);
    }
    if let (Some(_), Some(w)) = (gearbox, speed.or(sensor)) {
        return numbered(name, w, INPUTS, UNSURE).filter(|g| g.certainty == UNSURE);
    }
    let w = speed?;
    numbered(name, w, INPUTS, super::LONE_SPEED).filter(|g| g.certainty == super::LONE_SPEED)
}

/// The engine's speed. "Motor" alone may be any motor in English and is the engine elsewhere.
fn engine(name: &Name) -> Option<RoleGuess> {
    let about = |topic| name.about(topic);
    let speed = about(Topic::Speed).or(about(Topic::Sensor));
    match (about(Topic::Engine), speed) {
        (
            Some(
                w @ ("crank" | "crankshaft" | "ckp" | "ciguenal" | "vilebrequin" | "albero motore"),
            ),
            _,
        ) => guess(role_names::ENGINE_SPEED, PLAIN, says(&[w])),
        (Some(w), Some(s)) => guess(role_names::ENGINE_SPEED, PLAIN, says(&[w, s])),
        (Some(w), None) if w.contains("kurbel") || w.contains("motordrehzahl") => {
            guess(role_names::ENGINE_SPEED, PLAIN, says(&[w]))
        }
        (Some(w), None) => guess(
            role_names::ENGINE_SPEED,
            if w == "engine" { SAFE } else { 0.5 },
            says(&[w]),
        ),
        // A name of one word: the one speed that everybody means.
        (None, Some(w @ ("rpm" | "regimen" | "giri" | "regime" | "revoluciones")))
            if name.words().count() == 1 =>
        {
            guess(role_names::ENGINE_SPEED, SAFE, says(&[w]))
        }
        _ => None,
    }
}

/// The supply line: its current, its voltage, its ground.
fn line(name: &Name, unit: Unit, shape: Option<Shape>) -> Option<RoleGuess> {
    let about = |topic| name.about(topic);
    let current_word = about(Topic::Current).or_else(|| letter(name, "i"));
    let voltage_word = about(Topic::Voltage).or_else(|| letter(name, "u"));
    let current = current_word.is_some() || unit == Unit::Ampere;
    let feed = about(Topic::Fuse).or(about(Topic::Feed));
    let gearbox = about(Topic::Gearbox);
    if let Some(w) = about(Topic::Ground).filter(|_| !current) {
        let certainty = if about(Topic::Sensor).is_some() {
            UNSURE
        } else {
            PLAIN
        };
        return guess(role_names::GROUND_VOLTAGE, certainty, says(&[w]));
    }
    match about(Topic::Battery) {
        Some(w) if current && voltage_word.is_none() => {
            // B+ names the wire, a battery's own current feeds the whole vehicle.
            return match feed.or(gearbox) {
                Some(f) => guess(role_names::SUPPLY_CURRENT, SAFE, says(&[w, f])),
                None => guess(
                    role_names::SUPPLY_CURRENT,
                    0.5,
                    format!("{}: perhaps the whole vehicle's current", says(&[w])),
                ),
            };
        }
        Some(w) => return guess(role_names::SUPPLY_VOLTAGE, PLAIN, says(&[w])),
        None => {}
    }
    if let (Some(v), Some(w)) = (voltage_word, feed.or(gearbox)) {
        return guess(role_names::SUPPLY_VOLTAGE, PLAIN, says(&[w, v]));
    }
    if current && voltage_word.is_none() {
        return match (feed, gearbox, current_word) {
            (Some(f), _, Some(c)) => guess(role_names::SUPPLY_CURRENT, PLAIN, says(&[f, c])),
            (None, Some(g), Some(c)) => guess(role_names::SUPPLY_CURRENT, PLAIN, says(&[g, c])),
            (Some(f), _, None) => guess(
                role_names::SUPPLY_CURRENT,
                PLAIN,
                format!("{}, the unit is ampere", says(&[f])),
            ),
            (None, Some(g), None) => guess(
                role_names::SUPPLY_CURRENT,
                SAFE,
                format!("{}, the unit is ampere", says(&[g])),
            ),
            (None, None, Some(c)) => guess(
                role_names::SUPPLY_CURRENT,
                UNSURE,
                format!("the name says only \"{c}\""),
            ),
            (None, None, None) => None,
        };
    }
    feed_alone(about(Topic::Fuse), feed?, unit, shape)
}

/// A fuse or a feed without a word for current or voltage: the size of the values tells.
fn feed_alone(
    fuse: Option<&str>,
    feed: &str,
    unit: Unit,
    shape: Option<Shape>,
) -> Option<RoleGuess> {
    let supply = shape.is_some_and(|s| s.is_vehicle_supply());
    let said = says(&[fuse.unwrap_or(feed)]);
    match (supply, fuse) {
        (true, None) => guess(
            role_names::SUPPLY_VOLTAGE,
            SAFE,
            format!("{said} and it stands at a vehicle's supply voltage"),
        ),
        (true, Some(_)) => guess(
            role_names::SUPPLY_VOLTAGE,
            UNSURE,
            format!("{said} and it stands at a vehicle's supply voltage"),
        ),
        (false, Some(_)) if unit == Unit::Unknown || unit == Unit::Volt => guess(
            role_names::SUPPLY_CURRENT,
            if shape.is_some_and(|s| s.low > -2.0 && s.middle.abs() < 8.0) {
                SAFE
            } else {
                UNSURE
            },
            format!("{said} and it is no supply voltage: what a clamp shows"),
        ),
        (false, _) => guess(
            role_names::SUPPLY_CURRENT,
            0.4,
            format!("{said} and nothing more"),
        ),
    }
}

/// A quantity's symbol (ISO 80000-6) as the first of several words: `I_TCM`, `U fuse`.
fn letter<'a>(name: &'a Name, symbol: &'static str) -> Option<&'a str> {
    let mut words = name.words();
    let first = words.next()?;
    (first == symbol && words.next().is_some_and(|w| w.len() > 1)).then_some(first)
}
