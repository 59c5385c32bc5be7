//! What a channel measures, guessed from its name, its unit and the shape of its signal.

mod name;
mod role_names;
mod shape;
#[cfg(test)]
mod tests;
mod topics;
mod words;

use model::{Capture, Channel};
use shape::{Shape, Unit};

/// A guess and how sure it is.
#[derive(Debug, Clone, PartialEq)]
pub struct RoleGuess {
    /// What the channel seems to measure.
    pub role: &'static str,
    /// From 0 (no idea) to 1 (no doubt); [`SAFE`] and more only when the name is plain.
    pub certainty: f64,
    /// Why, in words.
    pub reason: String,
}

/// A guess that is at least this certain may be measured by; a less certain one is only shown.
pub const SAFE: f64 = 0.8;

/// A numbered shaft without "input": the other of the pair beside it makes it safe.
const LONE_SHAFT: f64 = 0.7;
/// A numbered speed without a shaft (`N1`): it may be input and output of some other gearbox.
const LONE_SPEED: f64 = 0.55;

/// A guess for every channel, in the capture's order; `None` where nothing tells.
pub fn guess(capture: &Capture) -> Vec<Option<RoleGuess>> {
    let shapes: Vec<Option<Shape>> = capture.channels.iter().map(Shape::of).collect();
    let mut guesses: Vec<Option<RoleGuess>> = capture
        .channels
        .iter()
        .zip(&shapes)
        .map(|(channel, shape)| of_channel(channel, *shape))
        .collect();
    pairs(&mut guesses);
    if guesses
        .iter()
        .flatten()
        .all(|g| g.role != role_names::SUPPLY_CURRENT)
    {
        only_current(capture, &mut guesses);
    }
    by_shape(capture, &shapes, &mut guesses);
    rivals(&mut guesses);
    guesses
}

fn of_channel(channel: &Channel, shape: Option<Shape>) -> Option<RoleGuess> {
    let mut guess = name::role(&channel.name, shape::unit(channel), shape)?;
    shape::check(&mut guess, channel, shape);
    (guess.certainty > 0.0).then_some(guess)
}

/// Two numbered shafts side by side are the two input shafts; two numbered speeds only where the output has a
/// channel of its own.
fn pairs(guesses: &mut [Option<RoleGuess>]) {
    let has = |role: &str, least: f64| {
        guesses
            .iter()
            .flatten()
            .any(|g| g.role == role && g.certainty >= least)
    };
    let output = has(role_names::OUTPUT_SHAFT, SAFE);
    let both =
        |least: f64| has(role_names::INPUT_SHAFT_1, least) && has(role_names::INPUT_SHAFT_2, least);
    let (shafts, speeds) = (both(LONE_SHAFT), output && both(LONE_SPEED));
    for g in guesses.iter_mut().flatten() {
        let input = matches!(
            g.role,
            role_names::INPUT_SHAFT_1 | role_names::INPUT_SHAFT_2
        );
        if !input || g.certainty >= SAFE {
            continue;
        }
        if shafts && g.certainty == LONE_SHAFT || speeds && g.certainty == LONE_SPEED {
            g.certainty = SAFE;
            g.reason.push_str("; its twin is there too");
        } else if output && g.certainty == LONE_SHAFT {
            g.certainty = SAFE;
            g.reason.push_str("; the output shaft has its own channel");
        }
    }
}

/// The only channel in amperes is most likely the feed, when no name says otherwise.
fn only_current(capture: &Capture, guesses: &mut [Option<RoleGuess>]) {
    let mut amperes =
        (0..guesses.len()).filter(|i| shape::unit(&capture.channels[*i]) == Unit::Ampere);
    if let (Some(i), None) = (amperes.next(), amperes.next())
        && guesses[i].is_none()
    {
        guesses[i] = Some(RoleGuess {
            role: role_names::SUPPLY_CURRENT,
            certainty: 0.5,
            reason: "it is the only channel in amperes".into(),
        });
    }
}

/// What the signal alone tells where a name says nothing; never safe.
fn by_shape(capture: &Capture, shapes: &[Option<Shape>], guesses: &mut [Option<RoleGuess>]) {
    let mut inputs = [role_names::INPUT_SHAFT_1, role_names::INPUT_SHAFT_2]
        .into_iter()
        .filter(|r| guesses.iter().flatten().all(|g| g.role != *r))
        .collect::<Vec<_>>()
        .into_iter();
    let supply = guesses
        .iter()
        .flatten()
        .any(|g| g.role == role_names::SUPPLY_VOLTAGE);
    for ((channel, shape), guess) in capture.channels.iter().zip(shapes).zip(guesses) {
        let (Some(shape), None) = (shape, &guess) else {
            continue;
        };
        if shape.is_two_level() {
            *guess = inputs.next().map(|role| RoleGuess {
                role,
                certainty: 0.3,
                reason: "it changes between two levels like a speed sensor; which shaft's, nothing tells".into(),
            });
        } else if !supply && shape::unit(channel) == Unit::Volt && shape.is_vehicle_supply() {
            *guess = Some(RoleGuess {
                role: role_names::SUPPLY_VOLTAGE,
                certainty: 0.5,
                reason: "it stands steadily at a vehicle's supply voltage".into(),
            });
        }
    }
}

/// Of two channels for one role the plainly named one keeps its certainty; equals lose it.
fn rivals(guesses: &mut [Option<RoleGuess>]) {
    let all: Vec<(&str, f64)> = guesses
        .iter()
        .flatten()
        .map(|g| (g.role, g.certainty))
        .collect();
    for g in guesses
        .iter_mut()
        .flatten()
        .filter(|g| g.role != role_names::OTHER)
    {
        let equal = |c: &f64| *c >= g.certainty || g.certainty - c < 0.15;
        if all.iter().filter(|(r, c)| *r == g.role && equal(c)).count() > 1 {
            g.certainty = g.certainty.min(0.4);
            g.reason
                .push_str("; another channel looks like the same thing");
        }
    }
}
