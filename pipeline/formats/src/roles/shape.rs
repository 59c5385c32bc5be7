//! What a quick look at a channel's samples tells, and what it says against a name.

use super::RoleGuess;
use super::role_names;
use model::Channel;

/// What the unit says that a channel holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Unit {
    Ampere,
    Volt,
    Other,
    Unknown,
}

/// The unit of a channel.
pub(super) fn unit(channel: &Channel) -> Unit {
    let Some(unit) = channel.unit.as_deref() else {
        return Unit::Unknown;
    };
    match crate::scan::words::fold(unit).trim_start_matches(['m', 'k', 'µ', 'μ', 'u']) {
        "a" | "amp" | "amps" | "ampere" | "adc" | "aac" | "amperes" => Unit::Ampere,
        "v" | "volt" | "volts" | "vdc" | "vac" | "voltios" => Unit::Volt,
        _ => Unit::Other,
    }
}

/// Low, median and high of a channel's values, in volts or amperes where the unit has a prefix.
#[derive(Debug, Clone, Copy)]
pub(super) struct Shape {
    pub low: f64,
    pub middle: f64,
    pub high: f64,
    /// Share of values that lie in the middle half between low and high.
    between: f64,
    /// How often the looked-at values cross the middle.
    crossings: usize,
    looked_at: usize,
}

/// Values looked at, at most; spread over the recording.
const LOOK: usize = 4000;

impl Shape {
    pub fn of(channel: &Channel) -> Option<Shape> {
        let n = channel.samples.len();
        let prefix = match channel.unit.as_deref().map(str::trim) {
            Some(u) if u.len() > 1 && u.starts_with('m') => 1e-3,
            Some(u) if u.len() > 1 && u.starts_with('k') => 1e3,
            _ => 1.0,
        };
        let values: Vec<f64> = (0..n)
            .step_by((n / LOOK).max(1))
            .map(|i| channel.value(i) * prefix)
            .filter(|v| v.is_finite())
            .collect();
        let mut sorted = values.clone();
        sorted.sort_by(f64::total_cmp);
        let at = |share: f64| {
            let last = sorted.len().checked_sub(1)?;
            sorted.get((last as f64 * share) as usize).copied()
        };
        let (low, middle, high) = (at(0.01)?, at(0.5)?, at(0.99)?);
        let (quarter, centre) = (0.25 * (high - low), 0.5 * (high + low));
        let inside = values
            .iter()
            .filter(|v| (*v - centre).abs() < quarter)
            .count();
        Some(Shape {
            low,
            middle,
            high,
            between: inside as f64 / values.len() as f64,
            crossings: values
                .windows(2)
                .filter(|w| (w[0] > centre) != (w[1] > centre))
                .count(),
            looked_at: values.len(),
        })
    }

    /// Steady near the voltage of a 12 V vehicle: 9 to 16 V, give or take dips.
    pub fn is_vehicle_supply(&self) -> bool {
        (9.0..=16.0).contains(&self.middle)
            && self.low > 0.4 * self.middle
            && self.high < 1.3 * self.middle
    }

    /// Changes often between two levels and is seldom between them: a tooth signal.
    pub fn is_two_level(&self) -> bool {
        self.looked_at >= 100 && self.high > self.low && self.between < 0.1 && self.crossings >= 10
    }
}

/// Says a doubt and holds the certainty down.
pub(super) fn doubt(guess: &mut RoleGuess, why: &str) {
    guess.certainty = guess.certainty.min(0.5);
    guess.reason.push_str("; but ");
    guess.reason.push_str(why);
}

/// Holds a guess against the unit and the signal: a supply voltage that is none, a ground drop of many volts.
pub(super) fn check(guess: &mut RoleGuess, channel: &Channel, shape: Option<Shape>) {
    match (
        guess.role.ends_with("current") || guess.role.contains("-current-"),
        unit(channel),
    ) {
        _ if guess.role == role_names::OTHER => return,
        // A clamp records volts; an ampere unit on a voltage is a contradiction.
        (false, Unit::Ampere) => doubt(guess, "the unit is that of a current"),
        (_, Unit::Other) => doubt(guess, "the unit is neither volt nor ampere"),
        _ => {}
    }
    // Without a unit (WAV, bare columns) the size of the values means nothing yet.
    let (Some(shape), Unit::Volt) = (shape, unit(channel)) else {
        return;
    };
    match guess.role {
        role_names::SUPPLY_VOLTAGE if !(5.0..=32.0).contains(&shape.middle) => {
            doubt(guess, "its usual value is no vehicle's supply voltage")
        }
        role_names::SUPPLY_VOLTAGE if shape.high - shape.low > 0.6 * shape.high => {
            doubt(guess, "it swings like a switched signal")
        }
        role_names::GROUND_VOLTAGE if shape.middle.abs() > 3.0 => {
            doubt(guess, "its usual value is too high for a drop to ground")
        }
        role_names::SUPPLY_CURRENT if shape.is_vehicle_supply() => {
            doubt(guess, "it stands steadily at a vehicle's supply voltage")
        }
        _ => {}
    }
}
