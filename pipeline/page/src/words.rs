//! Words of the page in the shop's language.

use crate::Message;
use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource};
use std::collections::BTreeMap;
use unic_langid::LanguageIdentifier;

const LANGUAGES: [(&str, &str); 3] = [
    ("en", include_str!("../lang/en.ftl")),
    ("de", include_str!("../lang/de.ftl")),
    ("es", include_str!("../lang/es.ftl")),
];

/// What a region writes otherwise, over its language.
const REGIONS: [(&str, &str); 1] = [("en-US", include_str!("../lang/en-US.ftl"))];

/// Words of the page in one language.
pub struct Words {
    /// Tag of the language: `en`, `de`, `es`.
    pub language: &'static str,
    bundle: FluentBundle<FluentResource>,
}

impl Words {
    /// Words of a language, with those of its region; English where there are none.
    pub fn new(language: &str) -> Words {
        let regional = REGIONS.iter().find(|(tag, _)| *tag == language);
        let base = language.split('-').next().unwrap_or_default();
        let known = LANGUAGES.iter().find(|(name, _)| *name == base);
        let &(language, text) = known.unwrap_or(&LANGUAGES[0]);
        let id: LanguageIdentifier = language.parse().unwrap_or_default();
        let mut bundle = FluentBundle::new_concurrent(vec![id]);
        bundle.set_use_isolating(false);
        // A line that cannot be read loses its own sentence only; a test reads all files whole.
        for text in [text].into_iter().chain(regional.map(|(_, text)| *text)) {
            let resource = FluentResource::try_new(text.into()).unwrap_or_else(|(part, _)| part);
            bundle.add_resource_overriding(resource);
        }
        Words { language, bundle }
    }

    /// Sentence of a key; the key itself where there is none.
    pub fn say(&self, key: &str) -> String {
        self.say_with(key, &[])
    }

    /// Sentence of a key with arguments.
    pub fn say_with(&self, key: &str, arguments: &[(&str, &str)]) -> String {
        let pattern = self.bundle.get_message(key).and_then(|m| m.value());
        let Some(pattern) = pattern else {
            return key.into();
        };
        let arguments: FluentArgs<'_> = arguments.iter().map(|&(k, v)| (k, v)).collect();
        let text = self
            .bundle
            .format_pattern(pattern, Some(&arguments), &mut Vec::new());
        text.into_owned()
    }

    /// Sentence of a message.
    pub fn tell(&self, message: &Message) -> String {
        match message {
            Message::Known(key, arguments) => {
                let arguments: Vec<(&str, &str)> =
                    arguments.iter().map(|(k, v)| (*k, v.as_str())).collect();
                self.say_with(key, &arguments)
            }
            Message::Words(words) => words.clone(),
        }
    }

    /// An exact number as the language writes it.
    pub fn number(&self, number: impl ToString) -> String {
        let text = number.to_string();
        match self.language {
            "en" => text,
            _ => text.replace('.', ","),
        }
    }

    /// Sentences that the scripts say, by their keys without `script-`.
    pub fn for_scripts(&self) -> BTreeMap<&'static str, String> {
        SCRIPT_KEYS
            .iter()
            .map(|key| (*key, self.say(&format!("script-{key}"))))
            .collect()
    }
}

/// Keys of the sentences that the scripts say.
const SCRIPT_KEYS: [&str; 15] = [
    "adding",
    "added",
    "failed",
    "changed",
    "offline",
    "time",
    "value-a",
    "value-b",
    "difference",
    "frequency",
    "no-value",
    "smallest",
    "largest",
    "vin-form",
    "vin-digit",
];

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    fn keys(text: &str) -> BTreeSet<&str> {
        let lines = text.lines().filter(|l| !l.starts_with(['#', ' ']));
        lines
            .filter_map(|l| Some(l.split_once('=')?.0.trim()))
            .collect()
    }

    #[test]
    fn every_language_says_the_same() {
        let english = keys(LANGUAGES[0].1);
        for (language, text) in LANGUAGES {
            assert!(FluentResource::try_new(text.into()).is_ok(), "{language}");
            assert_eq!(keys(text), english, "{language}");
        }
        for (region, text) in REGIONS {
            assert!(keys(text).is_subset(&english), "{region}");
        }
        for key in SCRIPT_KEYS {
            assert!(english.contains(&*format!("script-{key}")), "{key}");
        }
    }

    #[test]
    fn a_region_takes_the_words_of_its_language() {
        assert_eq!(Words::new("de-AT").language, "de");
        assert_eq!(Words::new("fr").language, "en");
        let authorised = |language| Words::new(language).say("state-line-authorised");
        assert_eq!(authorised("en"), "authorised");
        assert_eq!(authorised("en-US"), "authorized");
    }
}
