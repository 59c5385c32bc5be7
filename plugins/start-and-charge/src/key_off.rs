//! Current of a vehicle after key-off.

use crate::limits;
use crate::measure::drain::{charge_a_day, days_until_no_start};
use crate::measure::key_off::{KeyOff, key_off};
use crate::outputs;
use crate::start_attempt::found;
use plugin_sdk::{
    Analyzer, Declaration, Grade, Input, Observation, Output, Record, Settings, unit_fact,
};

/// Staged shut-down and what remains.
pub struct KeyOffCurrent;

impl Analyzer for KeyOffCurrent {
    const DECLARATION: Declaration = Declaration {
        id: "key-off-current",
        name: "Key-off current",
        needs: &["battery-current"],
        kinds: outputs::KEY_OFF_CURRENT.kinds,
        messages: outputs::KEY_OFF_CURRENT.messages,
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        if !crate::is_key_off(&input.settings) {
            return Ok(());
        }
        let Some(current) = Record::of(input, &["battery-current"]) else {
            return Ok(());
        };
        if !current.calibrated {
            return Err("the current's clamp has no known factor".into());
        }
        if !found(None, Some(&current), &input.settings).is_empty() {
            return Ok(());
        }
        if let Some(k) = key_off(&current.values, current.start_s, current.step_s) {
            observe(&k, current.accuracy, &input.settings, out);
        }
        Ok(())
    }
}

/// Standing of the remaining current: asleep, too high, or not yet known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Standing {
    /// The vehicle sleeps.
    Asleep,
    /// High, and long enough for any vehicle.
    High,
    /// High for longer than any stage before; some vehicles take longer still.
    HighEarly,
    /// The last step is too recent to call it the last.
    NotFinal,
    /// Too near the limit to tell.
    AtLimit,
    /// Current flows into the battery of a vehicle that is switched off.
    Backwards,
}

fn standing(k: &KeyOff, u: f64, settings: &Settings) -> Standing {
    let sheet = limits(settings);
    let high = sheet.high("key-off-current");
    let watched = k.remains.to_s - k.off_s;
    let value = k.remains.value;
    let stays = k.last_stage_s
        >= sheet
            .number("key-off-last-stage")
            .max(0.7 * k.longest_stage_s);
    // Only a charger, or a clamp that is turned round or was not zeroed, shows that.
    if value + 2.0 * u < -high {
        return Standing::Backwards;
    }
    if value + 2.0 * u <= high {
        let settled = k.last_stage_s >= sheet.number("key-off-asleep");
        return if settled {
            Standing::Asleep
        } else {
            Standing::NotFinal
        };
    }
    match () {
        () if !stays || watched < sheet.number("key-off-least-watch") => Standing::NotFinal,
        () if value - 2.0 * u <= high => Standing::AtLimit,
        () if watched >= sheet.number("key-off-wait") => Standing::High,
        () => Standing::HighEarly,
    }
}

fn observe(k: &KeyOff, accuracy: f64, settings: &Settings, out: &mut Output) {
    let m = k.remains;
    let u = m.uncertainty.hypot(accuracy * m.value);
    let standing = standing(k, u, settings);
    let (message, grade) = match standing {
        Standing::Asleep => ("key-off-current", Grade::Normal),
        Standing::AtLimit => ("key-off-current", Grade::Unusable),
        Standing::High => ("key-off-current-high", Grade::Abnormal),
        Standing::HighEarly => ("key-off-current-high-early", Grade::Abnormal),
        Standing::NotFinal => ("key-off-current-not-final", Grade::Unusable),
        Standing::Backwards => ("key-off-current-backwards", Grade::Unusable),
    };
    let share = limits(settings).number("starting-charge-share");
    let remains = Observation::new("key-off-current", message)
        .about("battery-current")
        .span(m.from_s, m.to_s)
        .value(m.value, u, "A")
        .limit(limits(settings).limit("key-off-current"))
        .grade(grade)
        .arg("ah_a_day", charge_a_day(k.mean.max(0.0)))
        .arg("since_off_min", (m.to_s - k.off_s) / 60.0);
    let days =
        unit_fact(settings, "battery_ah").and_then(|ah| days_until_no_start(k.mean, ah, share));
    out.add(remains.arg("days", days.unwrap_or(0.0)));
    for stage in &k.stages {
        out.add(
            Observation::new("key-off-stage", "key-off-stage")
                .about("battery-current")
                .span(stage.from_s, stage.to_s)
                .value(stage.current, accuracy * stage.current.abs() + 0.001, "A"),
        );
    }
    if matches!(standing, Standing::NotFinal | Standing::Backwards) {
        return;
    }
    // Without a step there is no time at which the vehicle fell asleep.
    if k.stages.len() > 1 || k.off_seen {
        let sleep = m.from_s - k.off_s;
        out.add(
            Observation::new("sleep-time", "sleep-time")
                .about("battery-current")
                .span(k.off_s, m.from_s)
                .value(sleep, 1.0, "s")
                .arg("stages", k.stages.len() - 1)
                .arg("off_seen", k.off_seen),
        );
    }
    let high = limits(settings).high("key-off-current");
    let draining = standing == Standing::Asleep && k.wake_ups.len() >= 2 && k.mean - 2.0 * u > high;
    let message = if draining {
        "wake-ups-draining"
    } else {
        "wake-ups"
    };
    let longest = k
        .wake_ups
        .iter()
        .map(|w| w.to_s - w.from_s)
        .fold(0.0, f64::max);
    out.add(
        Observation::new("wake-ups", message)
            .about("battery-current")
            .span(m.from_s, m.to_s)
            .value(k.wake_ups.len() as f64, 0.0, "count")
            .grade(if draining {
                Grade::Abnormal
            } else {
                Grade::Normal
            })
            .arg("mean_a", k.mean)
            .arg("longest_s", longest),
    );
}
