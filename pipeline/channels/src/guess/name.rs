//! The roles that a channel's name may say, with the unit's help.

use super::role_guess::{RoleGuess, SAFE};
use super::shape::Unit;
use super::words::{Found, Name, Phrases};
use model::Role;
use model::system::{Quantity, RoleDeclaration, RoleHints, Roles};

/// A name that says the role outright.
const PLAIN: f64 = 0.9;
/// A name and a unit that say the role together.
const BY_UNIT: f64 = 0.85;
/// A name that leaves something to guess; a person has to agree.
const UNSURE: f64 = 0.6;
/// A name without anything that says its quantity.
const NO_QUANTITY: f64 = 0.5;
/// A name that says which kind but not which one of a family.
const NO_NUMBER: f64 = 0.4;
/// A name that counts beside the others of its family only.
pub(super) const IN_A_SET: f64 = 0.7;
/// A quantity with a number and nothing more.
pub(super) const BY_NUMBER: f64 = 0.55;

/// A role that a name may say.
pub(super) struct Candidate {
    pub guess: RoleGuess,
    /// Length of the phrase that says it, bytes: the longer one knows more.
    pub length: usize,
}

/// Roles that differ by the number at their end, without it, and the number.
pub(super) fn family(role: &str) -> Option<(&str, u8)> {
    let (stem, number) = role.rsplit_once('-')?;
    Some((stem, number.parse().ok()?))
}

/// The role that declares the names and hints of another: itself, or the first of its family.
pub(super) fn named_by<'r>(role: &'r Role, roles: &'r Roles) -> &'r Role {
    let own = role.declaration();
    if !own.names.is_empty() || !own.hints.is_empty() {
        return role;
    }
    let first = family(role.name()).and_then(|(stem, _)| roles.get(&format!("{stem}-1")));
    first.unwrap_or(role)
}

/// Evidence of a name and a unit for a quantity.
enum Evidence {
    Word(Found),
    Unit,
    /// A word or a unit of another quantity.
    Against,
    Nothing,
}

fn evidence(name: &Name, quantity: Quantity, unit: Unit) -> Evidence {
    if let Some(word) = name.quantity_word(quantity) {
        return Evidence::Word(word);
    }
    let others = [Quantity::Current, Quantity::Voltage, Quantity::ToothSignal];
    let mut others = others.into_iter().filter(|q| *q != quantity);
    if quantity != Quantity::State && others.any(|q| name.quantity_word(q).is_some()) {
        return Evidence::Against;
    }
    match (quantity, unit) {
        (Quantity::Current, Unit::Ampere) | (Quantity::Voltage, Unit::Volt) => Evidence::Unit,
        _ => Evidence::Nothing,
    }
}

fn says(phrase: &str) -> String {
    format!("the name says \"{phrase}\"")
}

/// The roles with their phrases taken apart, once for all channels of a recording.
pub(super) struct Lexicon<'r>(Vec<Entry<'r>>);

struct Entry<'r> {
    role: &'r Role,
    hints: &'r RoleHints,
    alone: Phrases,
    with_quantity: Phrases,
    with_word: Phrases,
    unsure: Phrases,
    in_a_set: Phrases,
}

impl<'r> Lexicon<'r> {
    pub fn new(roles: &'r Roles) -> Self {
        let entry = |role: &'r Role| {
            let RoleDeclaration { names, hints, .. } = named_by(role, roles).declaration();
            Entry {
                role,
                hints,
                alone: Phrases::new(&names.alone),
                with_quantity: Phrases::new(&names.with_quantity),
                with_word: Phrases::new(&names.with_word),
                unsure: Phrases::new(&names.unsure),
                in_a_set: Phrases::new(&names.in_a_set),
            }
        };
        Lexicon(roles.iter().map(entry).collect())
    }

    /// The roles that a name may say.
    pub fn candidates(&self, name: &str, unit: Unit) -> Vec<Candidate> {
        let name = Name::new(name);
        let owners = self.0.iter().filter(|e| !e.hints.many);
        let claimed: Vec<String> = owners.flat_map(|e| e.claims(&name, unit)).collect();
        let candidates = self
            .0
            .iter()
            .filter_map(|e| candidate(&name, unit, e, &claimed));
        candidates.collect()
    }
}

impl Entry<'_> {
    /// Phrases of a name that say this role for sure: a part outside all systems that has one of them is no stranger.
    fn claims(&self, name: &Name, unit: Unit) -> Vec<String> {
        let lists: &[&Phrases] = match evidence(name, self.role.declaration().quantity, unit) {
            Evidence::Word(_) => &[&self.alone, &self.with_quantity, &self.with_word],
            Evidence::Unit => &[&self.alone, &self.with_quantity],
            Evidence::Against | Evidence::Nothing => &[&self.alone],
        };
        let found = lists.iter().flat_map(|phrases| name.find_all(phrases));
        found.map(|f| f.phrase).collect()
    }
}

fn candidate(name: &Name, unit: Unit, entry: &Entry<'_>, claimed: &[String]) -> Option<Candidate> {
    let Entry {
        role,
        hints,
        alone,
        with_quantity,
        with_word,
        unsure,
        in_a_set,
    } = entry;
    let quantity = role.declaration().quantity;
    let evidence = evidence(name, quantity, unit);
    let is_known = hints.many && name.find_all(alone).any(|f| claimed.contains(&f.phrase));
    let alone = name.find(alone).filter(|_| !is_known);
    let with = |found: Found, certainty: f64, reason: String| Some((found, certainty, reason));
    let mut found = None;
    if let Some(f) = alone {
        let certainty = match (&evidence, quantity) {
            (Evidence::Against, _) => NO_QUANTITY,
            (Evidence::Word(_), _) | (_, Quantity::ToothSignal) => PLAIN,
            (Evidence::Unit, _) => BY_UNIT,
            (Evidence::Nothing, _) => SAFE,
        };
        let reason = says(&f.phrase);
        found = with(f, certainty, reason);
    }
    let more = |found: &Option<(Found, f64, String)>, certainty: f64| {
        found.as_ref().is_none_or(|(_, c, _)| certainty > *c)
    };
    if let Some(f) = name.find(with_quantity) {
        let (certainty, reason) = match &evidence {
            Evidence::Word(w) => (PLAIN, says(&format!("{} ... {}", f.phrase, w.phrase))),
            Evidence::Unit => (BY_UNIT, format!("{}, and the unit fits", says(&f.phrase))),
            Evidence::Against | Evidence::Nothing => (
                NO_QUANTITY,
                format!("{} and nothing of the quantity", says(&f.phrase)),
            ),
        };
        if more(&found, certainty) {
            found = with(f, certainty, reason);
        }
    }
    if let (Some(f), Evidence::Word(w)) = (name.find(with_word), &evidence)
        && more(&found, PLAIN)
    {
        let reason = says(&format!("{} ... {}", f.phrase, w.phrase));
        found = with(f, PLAIN, reason);
    }
    if let Some(f) = name.find(in_a_set)
        && !matches!(evidence, Evidence::Against)
        && more(&found, IN_A_SET)
    {
        let reason = says(&f.phrase);
        found = with(f, IN_A_SET, reason);
    }
    if let Some(f) = name.find(unsure)
        && !matches!(evidence, Evidence::Against)
        && more(&found, UNSURE)
    {
        let reason = says(&f.phrase);
        found = with(f, UNSURE, reason);
    }
    if let (None, Evidence::Word(w)) = (&found, &evidence) {
        if hints.by_number && name.number_near(w).is_some() {
            found = with(w.clone(), BY_NUMBER, says(&w.phrase));
        } else if hints.only_channel {
            let reason = format!("the name says only \"{}\"", w.phrase);
            found = with(w.clone(), UNSURE, reason);
        }
    }
    let (found, mut certainty, mut reason) = found?;
    let length = found.phrase.len();
    if let Some((_, own)) = family(role.name()) {
        match name.number_near(&found) {
            Some(n) if n == own => reason.push_str(&format!(" and the number {n}")),
            Some(_) => return None,
            // Which of them, nothing tells: the first is shown.
            None if own == 1 => {
                certainty = certainty.min(NO_NUMBER);
                reason.push_str(" without a number");
            }
            None => return None,
        }
    }
    Some(Candidate {
        guess: RoleGuess {
            role: (*role).clone(),
            certainty,
            reason,
        },
        length,
    })
}
