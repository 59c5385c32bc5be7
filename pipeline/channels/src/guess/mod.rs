//! The role of a channel, guessed from its name, its unit and the shape of its signal by what the systems declare.

mod name;
mod role_guess;
mod shape;
mod words;

use model::system::{Quantity, Roles};
use model::{Capture, Channel, Role};
use name::{BY_NUMBER, Candidate, IN_A_SET, Lexicon, family, named_by};
pub use role_guess::{RoleGuess, SAFE};
pub(crate) use shape::Shape;
use shape::Unit;

/// A name that its surroundings confirm.
const CONFIRMED: f64 = 0.95;
/// Below this difference two names say the same thing equally well.
const EQUAL: f64 = 0.01;

/// A guess for every channel, in the capture's order; `None` where nothing tells.
pub fn guess(capture: &Capture, roles: &Roles) -> Vec<Option<RoleGuess>> {
    let shapes: Vec<Option<Shape>> = capture.channels.iter().map(Shape::measure).collect();
    let lexicon = Lexicon::new(roles);
    let mut candidates: Vec<Vec<Candidate>> = capture
        .channels
        .iter()
        .zip(&shapes)
        .map(|(channel, shape)| by_name(channel, *shape, &lexicon, roles))
        .collect();
    confirm(&mut candidates, roles);
    let mut guesses: Vec<Option<RoleGuess>> = candidates.iter().map(|c| best(c)).collect();
    only_channel(capture, &mut guesses, roles);
    by_shape(capture, &shapes, &mut guesses, roles);
    rivals(&mut guesses);
    guesses
}

/// The roles that a channel's name may say, held against its unit and its signal.
fn by_name(
    channel: &Channel,
    shape: Option<Shape>,
    lexicon: &Lexicon<'_>,
    roles: &Roles,
) -> Vec<Candidate> {
    let mut candidates = lexicon.candidates(&channel.name, shape::unit(channel));
    let steady = shape.and_then(|s| steady(&s, roles));
    for c in &mut candidates {
        shape::check(&mut c.guess, channel, shape, steady);
    }
    let excludes = |c: &Candidate| c.guess.role.declaration().hints.excludes;
    if candidates.iter().any(excludes) {
        candidates.retain(excludes);
    }
    candidates
}

/// The likeliest of several roles; none is safe where two are as likely.
fn best(candidates: &[Candidate]) -> Option<RoleGuess> {
    let order = |a: &&Candidate, b: &&Candidate| {
        let certainty = a.guess.certainty.total_cmp(&b.guess.certainty);
        certainty.then(a.length.cmp(&b.length))
    };
    let best = candidates.iter().max_by(order)?;
    let mut guess = best.guess.clone();
    let equal = candidates.iter().find(|c| {
        c.guess.role != guess.role
            && c.length == best.length
            && (guess.certainty - c.guess.certainty).abs() < EQUAL
    });
    if let Some(other) = equal {
        guess.certainty = guess.certainty.min(0.5);
        let other = other.guess.role.name();
        guess
            .reason
            .push_str(&format!("; but {other} is called so as well"));
    }
    Some(guess)
}

/// The role that is known by a steady level such as this.
fn steady<'r>(shape: &Shape, roles: &'r Roles) -> Option<&'r Role> {
    roles.iter().find(|r| {
        let range = r.declaration().hints.steady;
        range.is_some_and(|range| shape.is_steady(range))
    })
}

/// Names that count beside others only become safe where those are: the rest of a number family, or a role that the
/// declaration names.
fn confirm(candidates: &mut [Vec<Candidate>], roles: &Roles) {
    let seen: Vec<Option<RoleGuess>> = candidates.iter().map(|c| best(c)).collect();
    for (i, own) in candidates.iter_mut().enumerate() {
        let others = || {
            let others = seen.iter().enumerate().filter(|(n, _)| *n != i);
            others.filter_map(|(_, g)| g.as_ref())
        };
        for g in own.iter_mut().map(|c| &mut c.guess) {
            let set = g.certainty == IN_A_SET;
            if !set && g.certainty != BY_NUMBER {
                continue;
            }
            let hints = &named_by(&g.role, roles).declaration().hints;
            let beside = others()
                .any(|o| o.certainty >= SAFE && hints.beside.iter().any(|b| o.role == b.as_str()));
            let twin = family(g.role.name()).is_some_and(|(stem, _)| {
                others().any(|o| {
                    o.role != g.role
                        && o.certainty >= g.certainty
                        && family(o.role.name()).is_some_and(|(s, _)| s == stem)
                })
            });
            if set && (twin || beside) || beside && twin {
                g.certainty = CONFIRMED;
                g.reason.push_str(match twin {
                    true => "; the others of its kind are there too",
                    false => "; what belongs to it has its own channel",
                });
            }
        }
    }
}

/// The only channel of a quantity is most likely the role that is declared so, where no name says otherwise.
fn only_channel(capture: &Capture, guesses: &mut [Option<RoleGuess>], roles: &Roles) {
    let mut likely = roles.iter().filter(|r| r.declaration().hints.only_channel);
    // Where several systems have one, nothing tells which.
    let (Some(role), None) = (likely.next(), likely.next()) else {
        return;
    };
    if guesses.iter().flatten().any(|g| g.role == *role) {
        return;
    }
    let wanted = match role.declaration().quantity {
        Quantity::Current => Unit::Ampere,
        _ => Unit::Volt,
    };
    let mut of_unit = (0..guesses.len()).filter(|i| shape::unit(&capture.channels[*i]) == wanted);
    if let (Some(i), None) = (of_unit.next(), of_unit.next())
        && guesses[i].is_none()
    {
        guesses[i] = Some(RoleGuess {
            role: role.clone(),
            certainty: 0.5,
            reason: format!("it is the only channel in {}", role.unit()),
        });
    }
}

/// Role by the signal alone, where a name says nothing; never safe.
fn by_shape(
    capture: &Capture,
    shapes: &[Option<Shape>],
    guesses: &mut [Option<RoleGuess>],
    roles: &Roles,
) {
    let free = |r: &&Role| guesses.iter().flatten().all(|g| g.role != **r);
    let two_levels = |r: &&Role| named_by(r, roles).declaration().hints.two_levels;
    let pulses: Vec<&Role> = roles.iter().filter(two_levels).filter(free).collect();
    let mut pulses = pulses.into_iter();
    for i in 0..guesses.len() {
        let (channel, Some(shape), None) = (&capture.channels[i], &shapes[i], &guesses[i]) else {
            continue;
        };
        let level = steady(shape, roles).filter(|_| shape::unit(channel) == Unit::Volt);
        let level = level.filter(|r| guesses.iter().flatten().all(|g| g.role != **r));
        guesses[i] = if shape.is_two_level() {
            pulses.next().map(|role| RoleGuess {
                role: role.clone(),
                certainty: 0.3,
                reason:
                    "it changes between two levels like a speed sensor; which one, nothing tells"
                        .into(),
            })
        } else {
            level.map(|role| RoleGuess {
                role: role.clone(),
                certainty: 0.5,
                reason: format!("it stands steadily where {} does", role.name()),
            })
        };
    }
}

/// Of two channels for one role the plainly named one keeps its certainty; equals lose it.
fn rivals(guesses: &mut [Option<RoleGuess>]) {
    let all: Vec<(String, f64)> = guesses
        .iter()
        .flatten()
        .map(|g| (g.role.name().to_string(), g.certainty))
        .collect();
    let shared = |g: &RoleGuess| !g.role.declaration().hints.many;
    for g in guesses.iter_mut().flatten().filter(|g| shared(g)) {
        let equal = |c: &f64| *c >= g.certainty || g.certainty - c < 0.15;
        if all
            .iter()
            .filter(|(r, c)| g.role == r.as_str() && equal(c))
            .count()
            > 1
        {
            g.certainty = g.certainty.min(0.4);
            g.reason
                .push_str("; another channel looks like the same thing");
        }
    }
}
