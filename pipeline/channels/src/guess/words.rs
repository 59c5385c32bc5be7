//! A channel's name taken apart: the phrases that it has, the quantity that it speaks of, and its number.

use formats::words::{WordList, fold};
use model::system::{PhrasesByLanguage, Quantity};
use serde::Deserialize;
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// The words of this crate.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Words {
    current: PhrasesByLanguage,
    voltage: PhrasesByLanguage,
    tooth_signal: PhrasesByLanguage,
    numbers: BTreeMap<String, WordList>,
}

static WORDS: LazyLock<Words> = LazyLock::new(|| {
    toml::from_str(include_str!("../../words.toml")).expect("words.toml is tested")
});
static CURRENT: LazyLock<Phrases> = LazyLock::new(|| Phrases::new(&WORDS.current));
static VOLTAGE: LazyLock<Phrases> = LazyLock::new(|| Phrases::new(&WORDS.voltage));
static TOOTH_SIGNAL: LazyLock<Phrases> = LazyLock::new(|| Phrases::new(&WORDS.tooth_signal));

/// Phrases of all languages, folded and taken apart.
#[derive(Debug, Default)]
pub(super) struct Phrases(Vec<Phrase>);

#[derive(Debug)]
struct Phrase {
    text: String,
    words: Vec<String>,
    /// True where its words are looked for inside longer ones.
    compounds: bool,
}

impl Phrases {
    pub fn new(by_language: &PhrasesByLanguage) -> Self {
        let phrases = by_language.iter().flat_map(|(language, phrases)| {
            phrases.iter().map(move |phrase| {
                let text = fold(phrase);
                let words = text.split(|c: char| !c.is_alphanumeric());
                Phrase {
                    words: words.filter(|w| !w.is_empty()).map(String::from).collect(),
                    compounds: language == "de",
                    text,
                }
            })
        });
        Phrases(phrases.collect())
    }
}

/// Shortest German word that is looked for inside longer words, bytes.
const SHORTEST_PART: usize = 5;

/// A name taken apart.
#[derive(Debug)]
pub(super) struct Name(Vec<String>);

/// A phrase as it was found in a name.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Found {
    /// The phrase, folded.
    pub phrase: String,
    /// Index of the last of its words in the name.
    last: usize,
}

impl Name {
    pub fn new(name: &str) -> Self {
        let folded = fold(&parted(name));
        let words = folded.split(|c: char| !c.is_alphanumeric());
        Name(words.filter(|w| !w.is_empty()).map(String::from).collect())
    }

    /// The longest of the phrases that the name has.
    pub fn find(&self, phrases: &Phrases) -> Option<Found> {
        self.find_all(phrases).max_by_key(|f| f.phrase.len())
    }

    /// All of the phrases that the name has.
    pub fn find_all(&self, phrases: &Phrases) -> impl Iterator<Item = Found> {
        phrases.0.iter().filter_map(|p| self.phrase(p))
    }

    fn phrase(&self, phrase: &Phrase) -> Option<Found> {
        let at = |word: &String| {
            self.0.iter().position(|w| {
                w == word
                    || phrase.compounds && word.len() >= SHORTEST_PART && w.contains(word.as_str())
            })
        };
        let places: Option<Vec<usize>> = phrase.words.iter().map(at).collect();
        Some(Found {
            phrase: phrase.text.clone(),
            last: places?.into_iter().max()?,
        })
    }

    /// The word that speaks of a quantity.
    pub fn quantity_word(&self, quantity: Quantity) -> Option<Found> {
        let (phrases, symbol): (&Phrases, _) = match quantity {
            Quantity::Current => (&CURRENT, "i"),
            Quantity::Voltage => (&VOLTAGE, "u"),
            Quantity::ToothSignal => (&TOOTH_SIGNAL, ""),
            Quantity::State => return None,
        };
        // A quantity's symbol (ISO 80000-6) as the first of several words: `I_TCM`, `U fuse`.
        let by_symbol = || match self.0.as_slice() {
            [first, next, ..] if first == symbol && next.len() > 1 => Some(Found {
                phrase: symbol.into(),
                last: 0,
            }),
            _ => None,
        };
        self.find(phrases).or_else(by_symbol)
    }

    /// Number of the thing that a phrase names, from 1. What stands behind the phrase counts first.
    pub fn number_near(&self, found: &Found) -> Option<u8> {
        let (before, behind) = self.0.split_at((found.last + 1).min(self.0.len()));
        let article = |w: &&String| !matches!(w.as_str(), "a" | "e" | "i");
        let own = |w: &&String| !found.phrase.split_whitespace().any(|p| p == w.as_str());
        behind.iter().find_map(|w| number(w)).or_else(|| {
            let before = before.iter().rev().filter(own).filter(article);
            before.into_iter().find_map(|w| number(w))
        })
    }
}

/// Number that a word stands for.
fn number(word: &str) -> Option<u8> {
    let named = WORDS.numbers.iter().find(|(_, words)| words.contains(word));
    match named {
        Some((number, _)) => number.parse().ok(),
        None => word.parse().ok().filter(|n: &u8| (3..=9).contains(n)),
    }
}

/// Parts words that are written together: `PumpMotor1`, `ECUFuse`, `CH1`; keeps the sign of `B+` and `B-`.
fn parted(name: &str) -> String {
    let chars: Vec<char> = name.chars().collect();
    let at = |i: usize| chars.get(i).copied().unwrap_or(' ');
    let mut out = String::with_capacity(name.len() + 8);
    for (i, &c) in chars.iter().enumerate() {
        let before = if i > 0 { at(i - 1) } else { ' ' };
        if matches!(c, '+' | '-')
            && matches!(before, 'B' | 'b')
            && !(i > 1 && at(i - 2).is_alphanumeric())
            && !at(i + 1).is_alphanumeric()
        {
            out.push_str(if c == '+' { "plus " } else { "minus " });
            continue;
        }
        let hump = before.is_lowercase() && c.is_uppercase();
        let after_capitals = before.is_uppercase()
            && c.is_uppercase()
            && at(i + 1).is_lowercase()
            && at(i + 2).is_lowercase();
        let number = before.is_alphabetic() && c.is_ascii_digit();
        if hump || after_capitals || number {
            out.push(' ');
        }
        out.push(c);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_have_five_languages() {
        let quantities = [&WORDS.current, &WORDS.voltage, &WORDS.tooth_signal];
        for list in quantities {
            let languages: Vec<&str> = list.keys().map(String::as_str).collect();
            assert_eq!(languages, ["de", "en", "es", "fr", "it"]);
            assert!(list.values().all(|words| !words.is_empty()));
        }
        assert_eq!(WORDS.numbers.len(), 2);
    }

    #[test]
    fn numbers_behind_and_before() {
        let near = |name: &str, phrase: &str| {
            let name = Name::new(name);
            let phrases = BTreeMap::from([("de".to_string(), vec![phrase.to_string()])]);
            let found = name.find(&Phrases::new(&phrases))?;
            name.number_near(&found)
        };
        assert_eq!(near("Pump motor B", "pump motor"), Some(2));
        assert_eq!(near("Odd pump", "pump"), Some(1));
        assert_eq!(near("Pumpenmotordrehzahl 2", "motor"), Some(2));
        assert_eq!(near("Pump", "pump"), None);
        assert_eq!(near("a pump", "pump"), None);
    }
}
