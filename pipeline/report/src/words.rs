//! The words of the report: every sentence comes from a Fluent file.

mod number;
mod phrase;

pub use phrase::{Caution, SignalWord};

use crate::template::Template;
use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use std::path::Path;
use unic_langid::LanguageIdentifier;

/// The sentences of one language. Cheap to keep, the same for every job.
pub struct Words {
    language: String,
    bundle: FluentBundle<FluentResource>,
}

impl std::fmt::Debug for Words {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Words")
            .field("language", &self.language)
            .finish_non_exhaustive()
    }
}

/// Why a language could not be loaded.
#[derive(Debug, thiserror::Error)]
pub enum WordsError {
    /// The language's name is not one.
    #[error("report language `{0}` is not a language tag; write one such as `en` in shop.toml")]
    Tag(String),
    /// There is no file of that language.
    #[error(
        "there is no report language `{0}`; built in: en. A template folder may bring lang/{0}.ftl"
    )]
    Unknown(String),
    /// The file cannot be read.
    #[error("{file}: {message}")]
    File {
        /// The file, inside the template.
        file: String,
        /// What is wrong and where.
        message: String,
    },
}

impl Words {
    /// The built-in sentences of a language (`en`).
    pub fn load(language: &str) -> Result<Words, WordsError> {
        Words::of(&Template::built_in(), language)
    }

    /// The sentences of a language from a shop's template folder (`lang/en.ftl` in it), else the built-in ones.
    pub fn load_from(folder: &Path, language: &str) -> Result<Words, WordsError> {
        Words::of(&Template::in_folder(folder), language)
    }

    fn of(template: &Template, language: &str) -> Result<Words, WordsError> {
        let tag: LanguageIdentifier = language
            .parse()
            .map_err(|_| WordsError::Tag(language.into()))?;
        let path = format!("lang/{tag}.ftl");
        let bytes = template
            .read(&path)
            .map_err(|_| WordsError::Unknown(language.into()))?;
        let file_error = |message: String| WordsError::File {
            file: path.clone(),
            message,
        };
        let text = String::from_utf8(bytes.to_vec()).map_err(|e| {
            file_error(format!(
                "is not UTF-8 at byte {}",
                e.utf8_error().valid_up_to()
            ))
        })?;

        let lines = text.clone();
        let resource = FluentResource::try_new(text).map_err(|(_, errors)| {
            let at = errors.first().map_or(0, |e| e.pos.start);
            let line = lines.get(..at).map_or(1, |s| s.matches('\n').count() + 1);
            let what = errors
                .first()
                .map(|e| e.kind.to_string())
                .unwrap_or_default();
            file_error(format!("line {line}: {what}"))
        })?;
        let mut bundle = FluentBundle::new_concurrent(vec![tag.clone()]);
        // The report's font has no glyphs for the isolation marks, and its texts run one way.
        bundle.set_use_isolating(false);
        bundle.set_formatter(Some(number::formatter(tag.language.as_str())));
        let twice =
            |e: Vec<_>| file_error(format!("{} keys are given twice or not allowed", e.len()));
        bundle
            .add_builtins()
            .map_err(|e| file_error(e.to_string()))?;
        bundle.add_resource(resource).map_err(twice)?;
        Ok(Words {
            language: tag.to_string(),
            bundle,
        })
    }

    /// The language's tag: `en`.
    pub fn language(&self) -> &str {
        &self.language
    }

    /// Whether there is a sentence of this key.
    pub fn has(&self, key: &str) -> bool {
        self.bundle
            .get_message(key)
            .is_some_and(|m| m.value().is_some())
    }

    /// The sentence of a key without arguments; the key in plain words where there is none.
    pub fn say(&self, key: &str) -> String {
        self.say_with(key, &FluentArgs::new())
    }

    /// The sentence of a key with arguments; the key in plain words where there is none.
    pub fn say_with(&self, key: &str, args: &FluentArgs<'_>) -> String {
        self.try_say(key, args).unwrap_or_else(|| plain(key))
    }

    /// The sentence of a key; `None` where there is none, or an argument of it is missing.
    pub(crate) fn try_say(&self, key: &str, args: &FluentArgs<'_>) -> Option<String> {
        let message = self.bundle.get_message(key)?;
        self.format(message.value()?, args)
    }

    fn attribute(&self, key: &str, name: &str) -> Option<String> {
        let message = self.bundle.get_message(key)?;
        self.format(message.get_attribute(name)?.value(), &FluentArgs::new())
    }

    fn format(
        &self,
        pattern: &fluent_syntax::ast::Pattern<&str>,
        args: &FluentArgs<'_>,
    ) -> Option<String> {
        let mut errors = Vec::new();
        let text = self.bundle.format_pattern(pattern, Some(args), &mut errors);
        errors.is_empty().then(|| text.into_owned())
    }
}

/// A key as a person would read it: `next-check-plug` becomes "Next check plug".
fn plain(key: &str) -> String {
    let text = key.replace('-', " ");
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => text,
    }
}

/// Arguments of a sentence from pairs.
pub(crate) fn args<'a, const N: usize>(pairs: [(&'a str, FluentValue<'a>); N]) -> FluentArgs<'a> {
    pairs.into_iter().collect()
}

/// A number as an argument. What plural rules cannot take (not finite, or beyond exact integers) goes as text.
pub(crate) fn number_arg<'a>(value: f64) -> FluentValue<'a> {
    if value.is_finite() && value.abs() < 1e15 {
        FluentValue::from(value)
    } else {
        FluentValue::from(value.to_string())
    }
}

#[cfg(test)]
mod tests;
