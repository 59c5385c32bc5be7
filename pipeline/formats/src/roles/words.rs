//! A channel's name taken apart: the topics that it speaks of, and the number near a word.

use super::topics::{STEMS, Topic, WORDS};
use crate::scan::words::fold;

/// A name taken apart.
#[derive(Debug)]
pub(super) struct Name {
    /// Its words, folded, each with one space before and behind.
    padded: String,
}

impl Name {
    pub fn new(name: &str) -> Self {
        let mut padded = String::from(" ");
        for word in fold(&parted(name)).split(|c: char| !c.is_alphanumeric()) {
            if !word.is_empty() {
                padded.push_str(word);
                padded.push(' ');
            }
        }
        Name { padded }
    }

    pub fn words(&self) -> impl DoubleEndedIterator<Item = &str> {
        self.padded.split_whitespace()
    }

    /// The word that speaks of a topic; the first one.
    pub fn about(&self, topic: Topic) -> Option<&str> {
        let listed = |lists: &'static [(Topic, &'static [&'static str])]| {
            lists
                .iter()
                .filter(move |(t, _)| *t == topic)
                .flat_map(|(_, words)| words.iter().copied())
        };
        listed(WORDS)
            .filter_map(|w| Some((self.find(w)?, w)))
            .min_by_key(|(at, _)| *at)
            .map(|(_, w)| w)
            .or_else(|| listed(STEMS).find_map(|stem| self.words().find(|w| w.contains(stem))))
    }

    /// Where a whole word or phrase stands.
    fn find(&self, phrase: &str) -> Option<usize> {
        self.padded.match_indices(phrase).map(|(i, _)| i).find(|i| {
            self.padded[..*i].ends_with(' ') && self.padded[i + phrase.len()..].starts_with(' ')
        })
    }

    /// Which of several the name means, from 1. What stands behind the word counts first.
    pub fn number_near(&self, word: &str) -> Option<u8> {
        let at = self.padded.find(word)? + word.len();
        let (before, behind) = self.padded.split_at(at);
        let behind = behind.trim_start_matches(char::is_alphanumeric);
        let article = |w: &&str| !matches!(*w, "a" | "e" | "i");
        behind.split_whitespace().find_map(number).or_else(|| {
            before
                .split_whitespace()
                .rev()
                .filter(article)
                .find_map(number)
        })
    }
}

/// What a word counts as: gearboxes with two clutches call them 1 and 2, A and B, odd and even.
fn number(word: &str) -> Option<u8> {
    match word {
        "1" | "01" | "a" | "i" | "odd" | "ungerade" | "impar" | "impares" | "impair"
        | "impairs" | "dispari" | "one" | "eins" | "erste" | "first" | "uno" | "un" | "primero"
        | "primo" | "outer" | "k1" | "c1" => Some(1),
        "2" | "02" | "b" | "ii" | "even" | "gerade" | "par" | "pares" | "pair" | "pairs"
        | "pari" | "two" | "zwei" | "zweite" | "second" | "dos" | "deux" | "due" | "segundo"
        | "secondo" | "inner" | "k2" | "c2" => Some(2),
        _ => word.parse().ok().filter(|n: &u8| (3..=9).contains(n)),
    }
}

/// Parts words that are written together: `InputShaft1`, `TCMFuse`, `ISS1`; keeps the sign of `B+` and `B-`.
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
