//! A quick look at a channel's samples, and what it says against a name.

use super::role_guess::RoleGuess;
use formats::units;
use model::system::{Quantity, RoleDeclaration};
use model::{Channel, Role};

/// Quantity that a channel's unit says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Unit {
    Ampere,
    Volt,
    Other,
    Unknown,
}

/// Quantity that the unit of a channel says; part of a recorder's full scale is no unit.
pub(super) fn unit(channel: &Channel) -> Unit {
    match channel.unit.as_deref() {
        None | Some("full scale") => Unit::Unknown,
        Some(unit) => match units::base(unit) {
            Some((_, "A")) => Unit::Ampere,
            Some(_) => Unit::Volt,
            None => Unit::Other,
        },
    }
}

/// Low, median and high of a channel's values, in volts or amperes where the unit has a prefix.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Shape {
    pub low: f64,
    pub middle: f64,
    pub high: f64,
    /// Share of values that lie in the middle half between low and high.
    between: f64,
    /// Crossings of the middle among the values looked at.
    crossings: usize,
    looked_at: usize,
}

/// Values looked at, at most; spread over the recording.
const LOOK: usize = 4000;

impl Shape {
    /// Shape of a channel as recorded; `None` without a finite value.
    pub fn measure(channel: &Channel) -> Option<Shape> {
        let n = channel.samples.len();
        let prefix = channel.unit.as_deref().and_then(units::base);
        let prefix = prefix.map_or(1.0, |(factor, _)| factor);
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

    /// True for a level inside a range, give or take dips.
    pub fn is_steady(&self, (low, high): (f64, f64)) -> bool {
        (low..=high).contains(&self.middle)
            && self.low > 0.4 * self.middle
            && self.high < 1.3 * self.middle
    }

    /// True for values that change often between two levels and are seldom between them: a tooth signal.
    pub fn is_two_level(&self) -> bool {
        self.looked_at >= 100 && self.high > self.low && self.between < 0.1 && self.crossings >= 10
    }
}

/// Says a doubt and holds the certainty down.
fn doubt(guess: &mut RoleGuess, why: &str) {
    guess.certainty = guess.certainty.min(0.5);
    guess.reason.push_str("; but ");
    guess.reason.push_str(why);
}

/// Holds a guess against the unit and the signal. `steady` is the level of a channel that another role is known by.
pub(super) fn check(
    guess: &mut RoleGuess,
    channel: &Channel,
    shape: Option<Shape>,
    steady: Option<&Role>,
) {
    let RoleDeclaration {
        quantity, hints, ..
    } = guess.role.declaration();
    let (quantity, usual, many) = (*quantity, hints.usual, hints.many);
    let unit = unit(channel);
    match (quantity, unit) {
        _ if many => return,
        // A clamp records volts; an ampere unit on a voltage is a contradiction. A sensor may signal by its current.
        (Quantity::Voltage | Quantity::ToothSignal | Quantity::State, Unit::Ampere) => {
            doubt(guess, "the unit is that of a current")
        }
        (_, Unit::Other) => doubt(guess, "the unit is neither volt nor ampere"),
        _ => {}
    }
    // Without a unit (WAV, bare columns) the size of the values means nothing yet.
    let (Some(shape), Unit::Volt) = (shape, unit) else {
        return;
    };
    match (quantity, usual) {
        (Quantity::Voltage, Some((low, high))) if !(low..=high).contains(&shape.middle) => doubt(
            guess,
            "its usual value lies outside what such a channel shows",
        ),
        (Quantity::Voltage, Some((low, _)))
            if low > 0.0 && shape.high - shape.low > 0.6 * shape.high =>
        {
            doubt(guess, "it changes like a switched signal")
        }
        (Quantity::Current, _) => {
            if let Some(other) = steady {
                doubt(
                    guess,
                    &format!("it stands steadily where {} does", other.name()),
                );
            }
        }
        _ => {}
    }
}
