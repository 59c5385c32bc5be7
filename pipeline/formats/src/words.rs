//! Words that files use in five languages, read from data files, and the folding by which one spelling matches all.

use serde::Deserialize;
use std::collections::{BTreeMap, HashSet};
use std::sync::LazyLock;

/// Lower case, without accents and with plain spaces, so that one spelling matches all.
pub fn fold(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars().flat_map(char::to_lowercase) {
        match c {
            'á' | 'à' | 'â' | 'ä' | 'ã' => out.push('a'),
            'é' | 'è' | 'ê' | 'ë' => out.push('e'),
            'í' | 'ì' | 'î' | 'ï' => out.push('i'),
            'ó' | 'ò' | 'ô' | 'ö' => out.push('o'),
            'ú' | 'ù' | 'û' | 'ü' => out.push('u'),
            'ñ' => out.push('n'),
            'ç' => out.push('c'),
            'ß' => out.push_str("ss"),
            '_' | '\u{a0}' | '\u{202f}' => out.push(' '),
            '’' => out.push('\''),
            c => out.push(c),
        }
    }
    out
}

/// Folded words of all languages that mean one thing. In a data file: a table with a list for each language tag.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(from = "BTreeMap<String, Vec<String>>")]
pub struct WordList(Vec<String>);

impl From<BTreeMap<String, Vec<String>>> for WordList {
    fn from(by_language: BTreeMap<String, Vec<String>>) -> Self {
        let mut seen = HashSet::new();
        let words = by_language.into_values().flatten().map(|w| fold(&w));
        WordList(words.filter(|w| seen.insert(w.clone())).collect())
    }
}

impl WordList {
    /// All words.
    pub fn iter(&self) -> impl Iterator<Item = &str> {
        self.0.iter().map(String::as_str)
    }

    /// True where a folded word is in the list.
    pub fn contains(&self, folded: &str) -> bool {
        self.0.iter().any(|w| w == folded)
    }

    /// True where a word of the list occurs anywhere in a folded text.
    pub fn occurs_in(&self, folded: &str) -> bool {
        self.0.iter().any(|w| folded.contains(w.as_str()))
    }

    /// True where a folded text begins with a word of the list.
    pub fn begins(&self, folded: &str) -> bool {
        self.0.iter().any(|w| folded.starts_with(w.as_str()))
    }
}

/// The words of this crate.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Words {
    pub time_column: WordList,
    pub time_column_begins: WordList,
    pub index_column: WordList,
    pub interval: WordList,
    pub rate: WordList,
    pub count: WordList,
    pub started: WordList,
    pub offset: WordList,
    pub time_unit: WordList,
    pub value_unit: WordList,
    pub high: WordList,
    pub low: WordList,
    pub second: WordList,
    pub millisecond: WordList,
    pub microsecond: WordList,
    pub nanosecond: WordList,
    pub minute: WordList,
    pub hour: WordList,
    pub hertz: WordList,
    pub unit: WordList,
}

/// The words of this crate; `words.toml` is part of the executable and held by a test.
pub(crate) static WORDS: LazyLock<Words> =
    LazyLock::new(|| toml::from_str(include_str!("../words.toml")).expect("words.toml is tested"));

/// True where a column's name says that the column is the time.
pub fn is_time_name(name: &str) -> bool {
    let folded = fold(name.trim());
    WORDS.time_column.contains(&folded)
        || unit_by_name(name).is_some()
        || folded
            .split(|c: char| !c.is_alphanumeric())
            .next()
            .is_some_and(|first| WORDS.time_column_begins.contains(first))
}

/// Seconds per unit of a column whose name is nothing but its unit ("milliseconds", "ms"); the shortest units may be names
/// of anything.
pub(crate) fn unit_by_name(name: &str) -> Option<f64> {
    let folded = fold(name.trim());
    let lists = [
        (&WORDS.second, 1.0),
        (&WORDS.millisecond, 1e-3),
        (&WORDS.microsecond, 1e-6),
        (&WORDS.nanosecond, 1e-9),
    ];
    let named = lists.into_iter().find(|(list, _)| list.contains(&folded));
    named
        .filter(|(_, unit_s)| folded.len() > 3 || *unit_s == 1e-3)
        .map(|(_, unit_s)| unit_s)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every list has all five languages, and no word twice in one of them.
    #[test]
    fn lists_have_five_languages() {
        let lists: BTreeMap<String, BTreeMap<String, Vec<String>>> =
            toml::from_str(include_str!("../words.toml")).unwrap();
        for (name, list) in &lists {
            let languages: Vec<&str> = list.keys().map(String::as_str).collect();
            assert_eq!(languages, ["de", "en", "es", "fr", "it"], "{name}");
            for (language, words) in list {
                let folded: HashSet<String> = words.iter().map(|w| fold(w)).collect();
                assert_eq!(folded.len(), words.len(), "{name}.{language}");
                assert!(!words.is_empty(), "{name}.{language}");
            }
        }
        assert!(WORDS.time_column.contains("zeit"));
    }

    #[test]
    fn names_of_the_time() {
        for name in [
            "Time",
            "Zeit",
            "timestamp",
            "Time of sample",
            "Tiempo",
            "seconds",
        ] {
            assert!(is_time_name(name), "{name}");
        }
        for name in ["Timer", "s", "Current", "Sek", ""] {
            assert!(!is_time_name(name), "{name}");
        }
    }
}
