//! Sentences that arrive in English: what is said of a file where it is read, errors, reasons and sources of sheets. The
//! crates that make them know no language, and case.json keeps them as they are. The English file has each of them under a
//! key, letter by letter, with arguments in the places of what varies; by it the translation is found.

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Message, PatternElement};
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// Beginnings of the keys of such sentences.
const FAMILIES: [&str; 2] = ["sheet-", "said-"];

/// Marks between parts of a text that are sentences of their own, the strongest first.
const SEPARATORS: [&str; 4] = ["; ", ". ", ": ", ", "];

/// English sentences by which their keys are found.
#[derive(Debug, Default)]
pub(super) struct Recognised {
    /// Keys of sentences without arguments.
    plain: BTreeMap<String, String>,
    /// Sentences with arguments, those with the longest fixed text first.
    patterns: Vec<Pattern>,
}

#[derive(Debug)]
struct Pattern {
    key: String,
    /// Fixed text around the arguments, one more than there are arguments.
    fixed: Vec<String>,
    arguments: Vec<String>,
}

/// A recognised sentence: its key, and its arguments by name.
pub(super) struct Found<'a> {
    pub key: &'a str,
    pub arguments: Vec<(&'a str, &'a str)>,
}

impl Recognised {
    /// Takes in the sentences of an English file that was read without an error.
    pub fn extend(&mut self, english: &str) {
        let (Ok(resource) | Err((resource, _))) = fluent_syntax::parser::parse(english);
        for entry in &resource.body {
            let Entry::Message(message) = entry else {
                continue;
            };
            if !FAMILIES.iter().any(|f| message.id.name.starts_with(f)) {
                continue;
            }
            let pattern = Pattern::of(message);
            match pattern.arguments.is_empty() {
                true => _ = self.plain.insert(pattern.fixed.concat(), pattern.key),
                false => self.patterns.push(pattern),
            }
        }
        self.patterns.sort_by_key(|p| Reverse(p.fixed_length()));
    }

    /// Finds the sentence that a text is as a whole.
    pub fn find<'a>(&'a self, text: &'a str) -> Option<Found<'a>> {
        if let Some(key) = self.plain.get(text) {
            let arguments = Vec::new();
            return Some(Found { key, arguments });
        }
        self.patterns.iter().find_map(|p| p.matches(text))
    }
}

impl Pattern {
    fn of(message: &Message<&str>) -> Pattern {
        let mut pattern = Pattern {
            key: message.id.name.to_owned(),
            fixed: vec![String::new()],
            arguments: Vec::new(),
        };
        let elements = message.value.iter().flat_map(|v| &v.elements);
        for element in elements {
            let text = match element {
                PatternElement::TextElement { value } => *value,
                PatternElement::Placeable { expression } => match expression {
                    Expression::Inline(InlineExpression::VariableReference { id }) => {
                        pattern.arguments.push(id.name.to_owned());
                        pattern.fixed.push(String::new());
                        continue;
                    }
                    Expression::Inline(InlineExpression::StringLiteral { value }) => *value,
                    _ => continue,
                },
            };
            if let Some(last) = pattern.fixed.last_mut() {
                last.push_str(text);
            }
        }
        pattern
    }

    fn fixed_length(&self) -> usize {
        self.fixed.iter().map(String::len).sum()
    }

    /// The arguments that make this sentence of a text; none of them is empty.
    fn matches<'a>(&'a self, text: &'a str) -> Option<Found<'a>> {
        let (first, behind) = self.fixed.split_first()?;
        let (last, between) = behind.split_last()?;
        let mut rest = text.strip_prefix(first.as_str())?;
        let mut values = Vec::new();
        for fixed in between {
            let (value, behind) = rest.split_once(fixed.as_str())?;
            values.push(value);
            rest = behind;
        }
        values.push(rest.strip_suffix(last.as_str())?);
        if values.iter().any(|v| v.is_empty()) {
            return None;
        }
        let names = self.arguments.iter().map(String::as_str);
        Some(Found {
            key: &self.key,
            arguments: names.zip(values).collect(),
        })
    }
}

/// Translates a text of one sentence or of several by `whole`, which translates one; what it does not know stays.
pub(super) fn translate(text: &str, whole: &dyn Fn(&str) -> Option<String>) -> String {
    if text.contains('\n') {
        let lines = text.split('\n').map(|line| translate(line, whole));
        return lines.collect::<Vec<_>>().join("\n");
    }
    if let Some(translated) = whole(text) {
        return translated;
    }
    for separator in SEPARATORS {
        let places: Vec<usize> = text.match_indices(separator).map(|(at, _)| at).collect();
        let divide = |at: usize| (&text[..at], &text[at + separator.len()..]);
        // The longest beginning or ending that is a sentence; a separator may stand inside of one.
        for (left, right) in places.iter().rev().map(|at| divide(*at)) {
            if let Some(left) = whole(left) {
                return format!("{left}{separator}{}", translate(right, whole));
            }
        }
        for (left, right) in places.iter().map(|at| divide(*at)) {
            if let Some(right) = whole(right) {
                return format!("{}{separator}{right}", translate(left, whole));
            }
        }
    }
    // No part is a sentence up to the beginning or the end: each for itself.
    for separator in SEPARATORS {
        if let Some((left, right)) = text.split_once(separator) {
            let (left, right) = (translate(left, whole), translate(right, whole));
            return format!("{left}{separator}{right}");
        }
    }
    text.to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    const ENGLISH: &str = "said-comma = found { $text }; write { $number } with a point\n\
                           said-left-out = this line was left out: { $why }\n\
                           said-empty = the file is empty\n\
                           said-brace = write {\"{\"} behind { $key }\n\
                           other = the file is full\n";

    fn recognised() -> Recognised {
        let mut recognised = Recognised::default();
        recognised.extend(ENGLISH);
        recognised
    }

    #[test]
    fn a_sentence_is_found_with_its_arguments() {
        let recognised = recognised();
        let found = recognised
            .find("found 1,5; write 1.5 with a point")
            .unwrap();
        assert_eq!(found.key, "said-comma");
        assert_eq!(found.arguments, [("text", "1,5"), ("number", "1.5")]);
        assert_eq!(
            recognised.find("the file is empty").unwrap().key,
            "said-empty"
        );
        let brace = recognised.find("write { behind teeth").unwrap();
        assert_eq!(
            (brace.key, brace.arguments),
            ("said-brace", vec![("key", "teeth")])
        );
        for unknown in ["the file is full", "found 1,5", "this line was left out: "] {
            assert!(recognised.find(unknown).is_none(), "{unknown}");
        }
    }

    #[test]
    fn parts_are_translated_each() {
        let whole = |text: &str| match text {
            "a; b" => Some("AB".to_owned()),
            "c" => Some("C".to_owned()),
            _ => None,
        };
        assert_eq!(translate("a; b; c", &whole), "AB; C");
        assert_eq!(translate("x: y: a; b", &whole), "x: y: AB");
        assert_eq!(
            translate("x.csv, line 3: c. c, d", &whole),
            "x.csv, line 3: C. C, d"
        );
        assert_eq!(translate("x: a; b\na; b: y\n", &whole), "x: AB\nAB: y\n");
        assert_eq!(translate("", &whole), "");
    }
}
