//! The words of the report: every sentence comes from a Fluent file.

mod catalogue;
mod number;
mod phrase;
mod recognised;
mod spelling;
mod units;

pub use phrase::{ARGUMENTS_OF_FINDINGS, Caution, SignalWord};

use crate::template::Template;
use catalogue::Catalogue;
use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentMessage, FluentResource, FluentValue};
use model::Problem;
use model::shop_file::Units;
use recognised::Recognised;
use spelling::Spelling;
use std::collections::BTreeMap;
use unic_langid::LanguageIdentifier;

/// The languages that are built in.
pub const LANGUAGES: [&str; 3] = ["en", "es", "de"];

/// The sentences of one language. Cheap to keep, the same for every job.
pub struct Localizer {
    tag: LanguageIdentifier,
    units: Units,
    bundle: FluentBundle<FluentResource>,
    /// English sentences of the systems, for what the language lacks.
    english: FluentBundle<FluentResource>,
    /// All sentences that the report asks for.
    catalogue: Catalogue,
    /// Sentences that arrive in English.
    recognised: Recognised,
    /// The region's spelling of the sentences that are added.
    spelling: Spelling,
}

impl std::fmt::Debug for Localizer {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Localizer")
            .field("language", &self.tag.to_string())
            .field("units", &self.units)
            .finish_non_exhaustive()
    }
}

/// Why a language could not be loaded.
#[derive(Debug, thiserror::Error)]
pub enum LocalizerError {
    /// The language's name is not one.
    #[error(
        "shop.toml, [report] language: `{0}` is not a language tag; write one such as `en` or `es-MX`"
    )]
    Tag(String),
    /// There is no file of that language.
    #[error(
        "shop.toml, [report] language: there is no report language `{language}`; built in: en, es, de. A template \
         folder may bring lang/{file}.ftl with all sentences of lang/en.ftl"
    )]
    Unknown {
        /// The language asked for.
        language: String,
        /// The name of the file that would hold it.
        file: String,
    },
    /// The file cannot be used.
    #[error("{file}: {message}")]
    File {
        /// The file.
        file: String,
        /// The fault and its place.
        message: String,
    },
}

impl Localizer {
    /// The built-in sentences of a language: `en`, `es`, `de`, with or without a region (`es-MX`).
    ///
    /// # Errors
    /// When there is no such language.
    pub fn load(language: &str) -> Result<Localizer, LocalizerError> {
        Localizer::of(&Template::default(), language, Units::default())
    }

    /// The sentences of a language: the built-in ones, and over them those of the shop's template folder. A language
    /// that is not built in must be there as a whole.
    pub(crate) fn of(
        template: &Template,
        language: &str,
        units: Units,
    ) -> Result<Localizer, LocalizerError> {
        let tag: LanguageIdentifier = language
            .parse()
            .map_err(|_| LocalizerError::Tag(language.into()))?;
        let name = tag.language.as_str();
        let english = Template::built_in_language("en").unwrap_or_default();
        let wanted = catalogue::read(english, "lang/en.ftl")?;
        let built_in = Template::built_in_language(name);
        let own = template.own_language(name)?;
        if built_in.is_none() && own.is_none() {
            return Err(LocalizerError::Unknown {
                language: language.into(),
                file: name.into(),
            });
        }
        if let Some((file, text)) = &own {
            let given = catalogue::read(text, file)?;
            fits(&given, &wanted, text, file)?;
            if built_in.is_none() {
                complete(&given, &wanted, file)?;
            }
        }

        let mut bundle = empty_bundle(&tag, name)?;
        let regional = tag
            .region
            .and(Template::built_in_language(&tag.to_string()));
        let texts = built_in.into_iter().chain(regional).map(str::to_owned);
        for text in texts.chain(own.map(|(_, text)| text)) {
            // Parsed once already: what was wrong in it has been said.
            let (Ok(resource) | Err((resource, _))) = FluentResource::try_new(text);
            bundle.add_resource_overriding(resource);
        }
        let spelling = (bundle.get_message("spelling").and_then(|m| m.value()))
            .map(|pairs| bundle.format_pattern(pairs, None, &mut Vec::new()))
            .map_or_else(Spelling::default, |pairs| Spelling::read(&pairs));
        let mut english_bundle = empty_bundle(&tag, name)?;
        let (Ok(resource) | Err((resource, _))) = FluentResource::try_new(english.to_owned());
        english_bundle.add_resource_overriding(resource);
        let mut recognised = Recognised::default();
        recognised.extend(english);
        Ok(Localizer {
            english: english_bundle,
            tag,
            units,
            bundle,
            catalogue: wanted,
            recognised,
            spelling,
        })
    }

    /// See [`ReportTheme::add_sentences`](crate::ReportTheme::add_sentences).
    pub(crate) fn add(
        &mut self,
        language: &str,
        file: &str,
        text: &str,
    ) -> Result<(), LocalizerError> {
        catalogue::read(text, file)?;
        let written = self.spelling.of_file(text);
        let bundle = match language {
            own if own == self.language_alone() => Some(&mut self.bundle),
            "en" => Some(&mut self.english),
            _ => None,
        };
        if let Some(bundle) = bundle {
            let (Ok(resource) | Err((resource, _))) = FluentResource::try_new(written);
            // What is there already stays: the errors name just that.
            let _ = bundle.add_resource(resource);
        }
        if language == "en" {
            self.recognised.extend(text);
        }
        Ok(())
    }

    /// The language's tag: `en`.
    pub fn language(&self) -> String {
        self.tag.to_string()
    }

    /// The language without its region, as documents are marked with it.
    pub(crate) fn language_alone(&self) -> &str {
        self.tag.language.as_str()
    }

    /// The region, where the tag names one.
    pub(crate) fn region(&self) -> Option<String> {
        self.tag.region.map(|r| r.to_string())
    }

    /// The report's own words that take no arguments, by key without `report-`.
    pub(crate) fn labels(&self) -> BTreeMap<String, String> {
        self.catalogue
            .iter()
            .filter(|(_, sentence)| sentence.arguments.is_empty())
            .filter_map(|(key, _)| {
                Some((key.strip_prefix("report-")?.to_owned(), self.message(key)))
            })
            .collect()
    }

    /// The keys of all sentences that the report asks for.
    pub fn keys(&self) -> impl Iterator<Item = &String> {
        self.catalogue.keys()
    }

    /// Returns true if there is a sentence of this key.
    pub fn has(&self, key: &str) -> bool {
        self.find(key)
            .is_some_and(|found| found.message.value().is_some())
    }

    /// The sentence of a key without arguments; the key in plain words where there is none.
    pub fn message(&self, key: &str) -> String {
        self.message_with(key, &FluentArgs::new())
    }

    /// The sentence of a key with arguments; the key in plain words where there is none.
    pub fn message_with(&self, key: &str, args: &FluentArgs<'_>) -> String {
        self.try_message(key, args).unwrap_or_else(|| plain(key))
    }

    /// The sentence of a key; `None` where there is none, or an argument of it is missing.
    pub(crate) fn try_message(&self, key: &str, args: &FluentArgs<'_>) -> Option<String> {
        let found = self.find(key)?;
        let pattern = found.message.value()?;
        match found.number {
            Some(n) => {
                let given = args.iter().map(|(name, value)| (name, value.clone()));
                let numbered = given.chain([("n", FluentValue::from(n))]).collect();
                format(found.bundle, pattern, &numbered)
            }
            None => format(found.bundle, pattern, args),
        }
    }

    /// A text that arrives in English, in this language: an error, what is said of a file, a reason or a source of a sheet.
    /// Parts of it that no built-in sentence knows stay as they are.
    pub fn translate(&self, english: &str) -> String {
        match self.language_alone() {
            // A region may spell otherwise.
            "en" if self.tag.region.is_none() => english.to_owned(),
            _ => recognised::translate(english, &|text| self.translate_sentence(text)),
        }
    }

    /// A problem as one line: file, place, message.
    pub fn problem(&self, problem: &Problem) -> String {
        let message = self.translate(&problem.message);
        match &problem.place {
            Some(place) => format!("{}, {}: {message}", problem.file, self.translate(place)),
            None => format!("{}: {message}", problem.file),
        }
    }

    fn translate_sentence(&self, english: &str) -> Option<String> {
        let found = self.recognised.find(english)?;
        let translated = |(name, value)| (name, FluentValue::from(self.translate(value)));
        let arguments = found.arguments.into_iter().map(translated).collect();
        self.try_message(found.key, &arguments)
    }

    fn attribute(&self, key: &str, name: &str) -> Option<String> {
        let bundles = [&self.bundle, &self.english];
        bundles.into_iter().find_map(|bundle| {
            let attribute = bundle.get_message(key)?.get_attribute(name)?;
            format(bundle, attribute.value(), &FluentArgs::new())
        })
    }

    /// Message of a key. What is the same for several of a kind is worded once: a key with a number in it falls back on
    /// the key with `n` in the number's place, and the number is its argument `$n`.
    fn find<'k>(&self, key: &'k str) -> Option<Found<'_, 'k>> {
        let is_number = |part: &&str| part.bytes().all(|b| b.is_ascii_digit()) && !part.is_empty();
        let number = key.split('-').find(is_number);
        let general = number.map(|number| {
            let parts: Vec<&str> = key.splitn(2, &format!("-{number}")).collect();
            parts.join("-n")
        });
        [&self.bundle, &self.english]
            .into_iter()
            .find_map(|bundle| {
                if let Some(message) = bundle.get_message(key) {
                    return Some(Found {
                        bundle,
                        message,
                        number: None,
                    });
                }
                Some(Found {
                    bundle,
                    message: bundle.get_message(general.as_ref()?)?,
                    number,
                })
            })
    }
}

/// A message with the bundle that has it, and the number in its key where the key is general.
struct Found<'w, 'k> {
    bundle: &'w FluentBundle<FluentResource>,
    message: FluentMessage<'w>,
    number: Option<&'k str>,
}

fn empty_bundle(
    tag: &LanguageIdentifier,
    name: &str,
) -> Result<FluentBundle<FluentResource>, LocalizerError> {
    let mut bundle = FluentBundle::new_concurrent(vec![tag.clone()]);
    // The report's font has no glyphs for the isolation marks, and its texts run one way.
    bundle.set_use_isolating(false);
    bundle.set_formatter(Some(number::formatter(tag)));
    bundle.add_builtins().map_err(|e| LocalizerError::File {
        file: format!("lang/{name}.ftl"),
        message: e.to_string(),
    })?;
    Ok(bundle)
}

fn format(
    bundle: &FluentBundle<FluentResource>,
    pattern: &fluent_syntax::ast::Pattern<&str>,
    args: &FluentArgs<'_>,
) -> Option<String> {
    let mut errors = Vec::new();
    let text = bundle.format_pattern(pattern, Some(args), &mut errors);
    errors.is_empty().then(|| text.into_owned())
}

/// A sentence of the shop's may not ask for more than the built-in one is given, and a heading that the report does
/// not have would never be printed.
fn fits(
    given: &Catalogue,
    wanted: &Catalogue,
    text: &str,
    file: &str,
) -> Result<(), LocalizerError> {
    let error = |key: &str, what: String| LocalizerError::File {
        file: file.to_owned(),
        message: format!("line {}: {what}", catalogue::last_line_of(text, key)),
    };
    for (key, sentence) in given {
        match wanted.get(key) {
            Some(known) => {
                if let Some(name) = sentence.arguments.difference(&known.arguments).next()
                    && !ARGUMENTS_OF_FINDINGS.contains(&name.as_str())
                {
                    let what =
                        format!("`{key}` asks for ${name}, which the built-in sentence does not");
                    return Err(error(key, what));
                }
            }
            None if key.starts_with("report-") => {
                let what =
                    format!("the report has no sentence `{key}`; compare it with lang/en.ftl");
                return Err(error(key, what));
            }
            None => {}
        }
    }
    Ok(())
}

/// A language that is not built in must bring every sentence.
fn complete(given: &Catalogue, wanted: &Catalogue, file: &str) -> Result<(), LocalizerError> {
    let missing: Vec<&str> = wanted
        .keys()
        .filter(|key| !given.contains_key(*key))
        .map(String::as_str)
        .collect();
    let Some(first) = missing
        .get(..missing.len().min(5))
        .filter(|m| !m.is_empty())
    else {
        return Ok(());
    };
    Err(LocalizerError::File {
        file: file.to_owned(),
        message: format!(
            "{} sentences of lang/en.ftl are missing, among them {}",
            missing.len(),
            first.join(", ")
        ),
    })
}

/// A key as a person would read it: `next-check-plug` becomes "Next check plug".
fn plain(key: &str) -> String {
    capital(&key.replace('-', " "))
}

/// The first letter as a capital.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters
        .next()
        .map_or_else(String::new, |c| c.to_uppercase().chain(letters).collect())
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
