//! A language file taken apart: its keys and what each sentence takes.

use super::LocalizerError;
use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use std::collections::{BTreeMap, BTreeSet};

/// Properties of a sentence.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Sentence {
    /// Names of the arguments in it.
    pub arguments: BTreeSet<String>,
    /// Its attributes: `.title`, `.word`, ...
    pub attributes: BTreeSet<String>,
}

/// The sentences of a language file, by key.
pub(super) type Catalogue = BTreeMap<String, Sentence>;

/// Takes a language file apart. Anything that is no sentence, a key given twice and a reference to another sentence
/// are errors with their line. `file` is its name for messages.
pub(super) fn read(text: &str, file: &str) -> Result<Catalogue, LocalizerError> {
    let error = |line: usize, what: &str| LocalizerError::File {
        file: file.to_owned(),
        message: format!("line {line}: {what}"),
    };
    let resource = fluent_syntax::parser::parse(text).map_err(|(_, errors)| {
        let first = errors.first();
        let at = first.map_or(0, |e| e.pos.start);
        let what = first.map(|e| e.kind.to_string()).unwrap_or_default();
        error(line_at(text, at), &what)
    })?;
    let mut catalogue = Catalogue::new();
    for entry in &resource.body {
        let Entry::Message(message) = entry else {
            continue;
        };
        let key = message.id.name;
        let mut sentence = Sentence::default();
        if let Some(value) = &message.value {
            walk(value, &mut sentence.arguments);
        }
        for attribute in &message.attributes {
            sentence.attributes.insert(attribute.id.name.to_owned());
            walk(&attribute.value, &mut sentence.arguments);
        }
        if catalogue.insert(key.to_owned(), sentence).is_some() {
            return Err(error(
                last_line_of(text, key),
                &format!("`{key}` is given twice"),
            ));
        }
    }
    Ok(catalogue)
}

/// The line on which a key stands for the last time, from 1.
pub(super) fn last_line_of(text: &str, key: &str) -> usize {
    let is_it = |line: &str| {
        line.strip_prefix(key)
            .is_some_and(|rest| rest.trim_start().starts_with('='))
    };
    text.lines()
        .enumerate()
        .filter(|(_, line)| is_it(line))
        .last()
        .map_or(1, |(i, _)| i + 1)
}

fn line_at(text: &str, at: usize) -> usize {
    text.get(..at).map_or(1, |s| s.matches('\n').count() + 1)
}

fn walk(pattern: &Pattern<&str>, arguments: &mut BTreeSet<String>) {
    for element in &pattern.elements {
        if let PatternElement::Placeable { expression } = element {
            walk_expression(expression, arguments);
        }
    }
}

fn walk_expression(expression: &Expression<&str>, arguments: &mut BTreeSet<String>) {
    match expression {
        Expression::Inline(inline) => walk_inline(inline, arguments),
        Expression::Select { selector, variants } => {
            walk_inline(selector, arguments);
            for variant in variants {
                walk(&variant.value, arguments);
            }
        }
    }
}

fn walk_inline(inline: &InlineExpression<&str>, arguments: &mut BTreeSet<String>) {
    match inline {
        InlineExpression::VariableReference { id } => {
            arguments.insert(id.name.to_owned());
        }
        InlineExpression::FunctionReference { arguments: of, .. } => {
            for inner in &of.positional {
                walk_inline(inner, arguments);
            }
        }
        InlineExpression::Placeable { expression } => walk_expression(expression, arguments),
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::localizer::LANGUAGES;
    use crate::template::Template;

    fn of(language: &str) -> (Catalogue, &'static str) {
        let text = Template::built_in_language(language).unwrap();
        (read(text, language).unwrap(), text)
    }

    /// Every language has every sentence, with the same arguments and attributes, and no other.
    #[test]
    fn the_languages_have_the_same_sentences() {
        let (english, _) = of("en");
        assert!(english.len() > 300, "{}", english.len());
        for language in LANGUAGES {
            let (other, _) = of(language);
            let missing: Vec<&String> =
                english.keys().filter(|k| !other.contains_key(*k)).collect();
            assert!(missing.is_empty(), "{language}.ftl lacks {missing:?}");
            for (key, sentence) in &other {
                let wanted = english.get(key);
                let wanted =
                    wanted.unwrap_or_else(|| panic!("{language}.ftl: en.ftl has no `{key}`"));
                assert_eq!(sentence, wanted, "{language}.ftl: {key}");
            }
        }
    }

    /// The signal word is the same in every language; only its print is translated. Cautions are worded by the systems.
    #[test]
    fn the_signal_words_agree() {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../plugins");
        let words = |system: &std::path::Path, language: &str| -> Vec<(String, String)> {
            let path = system.join("lang").join(format!("{language}.ftl"));
            let text = std::fs::read_to_string(path).unwrap_or_default();
            let mut key = String::new();
            let mut found = Vec::new();
            for line in text.lines() {
                if line.starts_with("caution-") || line.starts_with("driver-") {
                    key = line.split(' ').next().unwrap_or_default().to_owned();
                } else if let Some(word) = line.strip_prefix("    .word = ") {
                    found.push((key.clone(), word.to_owned()));
                }
            }
            found.sort();
            found
        };
        let mut count = 0;
        for entry in std::fs::read_dir(folder).unwrap() {
            let system = entry.unwrap().path();
            let english = words(&system, "en");
            count += english.len();
            for language in LANGUAGES {
                assert_eq!(words(&system, language), english, "{language}: {system:?}");
            }
        }
        assert!(count >= 15, "{count}");
    }

    /// A translation is not a copy: what is long enough to be a sentence differs from the English one.
    #[test]
    fn the_sentences_are_translated() {
        let sentences = |text: &'static str| -> BTreeMap<&str, &str> {
            text.lines()
                .filter(|l| !l.starts_with(['#', ' ']))
                .filter_map(|l| l.split_once(" = "))
                .collect()
        };
        let (_, english) = of("en");
        let english = sentences(english);
        for language in ["es", "de"] {
            for (key, text) in sentences(of(language).1) {
                // What stands between the arguments.
                let own: String = text
                    .split('{')
                    .filter_map(|p| p.split('}').next_back())
                    .collect();
                let same = english.get(key) == Some(&text);
                let short = own.split_whitespace().count() < 4;
                assert!(!same || short, "{language}.ftl: {key}");
            }
        }
    }
}
