//! Sentences of the program itself, for the terminal, the log, the status page and problems.txt, in the shop's language.

use model::ShopFile;
use report::ReportTheme;
use report::localizer::LocalizerError;
use std::path::Path;

/// The program's own sentences.
const LANGUAGES: [(&str, &str); 3] = [
    ("en", include_str!("../lang/en.ftl")),
    ("de", include_str!("../lang/de.ftl")),
    ("es", include_str!("../lang/es.ftl")),
];

/// Sentences that are found by what the program's crates say in English.
const MESSAGES: [(&str, &str); 3] = [
    ("en", include_str!("../lang/messages/en.ftl")),
    ("de", include_str!("../lang/messages/de.ftl")),
    ("es", include_str!("../lang/messages/es.ftl")),
];

/// Arguments of a sentence: `fluent_args!["count" => 3]`.
macro_rules! fluent_args {
    ($($name:expr => $value:expr),+ $(,)?) => {{
        let mut arguments = fluent_bundle::FluentArgs::new();
        $(arguments.set($name, $value);)+
        arguments
    }};
}

/// A sentence with its arguments: `phrase!(localizer, "console-jobs", "count" => 3)`.
macro_rules! phrase {
    ($localizer:expr, $key:expr) => {
        $localizer.message($key)
    };
    ($localizer:expr, $key:expr, $($name:expr => $value:expr),+ $(,)?) => {
        $localizer.message_with($key, &$crate::words::fluent_args![$($name => $value),+])
    };
}

/// Prints a sentence with its arguments.
macro_rules! tell {
    ($localizer:expr, $($phrase:tt)+) => {
        $crate::output::say!("{}", $crate::words::phrase!($localizer, $($phrase)+))
    };
}

pub(crate) use {fluent_args, phrase, tell};

/// Adds the program's sentences to those of the reports.
///
/// # Errors
/// A file of sentences that cannot be read.
pub fn add_to(theme: &mut ReportTheme) -> Result<(), LocalizerError> {
    for (language, text) in LANGUAGES {
        theme.add_sentences(language, &format!("lang/{language}.ftl"), text)?;
    }
    for (language, text) in MESSAGES {
        theme.add_sentences(language, &format!("lang/messages/{language}.ftl"), text)?;
    }
    Ok(())
}

/// Sentences in a shop's language, without those of plugins; in English where the language is not built in.
///
/// # Errors
/// A file of sentences that cannot be read.
pub fn of_shop(shop: &ShopFile) -> Result<ReportTheme, LocalizerError> {
    let built_in = ReportTheme::built_in(report::language(&shop.report));
    let mut theme = built_in.or_else(|_| ReportTheme::built_in("en"))?;
    add_to(&mut theme)?;
    Ok(theme)
}

/// Sentences in the language of the shop whose settings lie in a file; in English where none are named.
///
/// # Errors
/// A file of sentences that cannot be read.
pub fn of_shop_file(path: Option<&Path>) -> Result<ReportTheme, LocalizerError> {
    let mut shop = ShopFile::default();
    if let Some(language) = path.and_then(crate::context::language) {
        shop.report.language = language;
    }
    of_shop(&shop)
}

/// Translates an error into the language of the shop whose settings are named; English where none are, or where they
/// cannot be read.
pub fn of_error(error: &str, shop: Option<&Path>) -> String {
    of_shop_file(shop).map_or_else(|_| error.to_owned(), |t| t.localizer().translate(error))
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::verdict::Verdict;
    use std::collections::{BTreeMap, BTreeSet};
    use std::path::Path;

    /// Names of the arguments of each sentence, by its key.
    fn sentences(text: &str) -> BTreeMap<String, BTreeSet<String>> {
        let mut all = BTreeMap::new();
        let mut key = String::new();
        for line in text.lines().filter(|l| !l.starts_with('#')) {
            if let Some((name, _)) = line.split_once(" = ").filter(|(n, _)| !n.contains(' ')) {
                key = name.to_owned();
            }
            let arguments: &mut BTreeSet<String> = all.entry(key.clone()).or_default();
            for part in line.split("{ $").skip(1) {
                arguments.extend(part.split(' ').next().map(str::to_owned));
            }
        }
        all.remove("");
        all
    }

    #[test]
    fn every_language_says_the_same() {
        let english = sentences(LANGUAGES[0].1);
        assert!(english.len() > 80, "{}", english.len());
        let messages = sentences(MESSAGES[0].1);
        assert!(messages.len() > 400, "{}", messages.len());
        for ((language, text), (_, said)) in LANGUAGES.into_iter().zip(MESSAGES) {
            assert_eq!(sentences(text), english, "{language}");
            assert_eq!(sentences(said), messages, "{language}");
            let mut shop = ShopFile::default();
            shop.report.language = language.into();
            let theme = of_shop(&shop).expect("a language that is built in");
            assert_eq!(theme.localizer().language(), language);
            assert!(english.keys().all(|key| theme.localizer().has(key)));
        }
    }

    #[test]
    fn every_sentence_is_asked_for_and_every_key_has_one() {
        fn read(folder: &Path, all: &mut String) {
            for entry in std::fs::read_dir(folder).expect("the sources").flatten() {
                match entry.file_type().is_ok_and(|t| t.is_dir()) {
                    true => read(&entry.path(), all),
                    false => *all += &std::fs::read_to_string(entry.path()).unwrap_or_default(),
                }
            }
        }
        let mut sources = String::new();
        read(
            &Path::new(env!("CARGO_MANIFEST_DIR")).join("src"),
            &mut sources,
        );
        // Put together, so that this text is none of the keys.
        let prefix = ["console", ""].join("-");
        let opening = format!("\"{prefix}");
        let keys = sources.split(&opening).skip(1);
        let keys = keys.filter_map(|rest| Some(format!("{prefix}{}", rest.split('"').next()?)));
        let known: BTreeSet<String> = sentences(LANGUAGES[0].1).into_keys().collect();
        // A verdict's sentence goes by its summary, a question by the key of job.toml that it asks for.
        let each = |key: String| match (key.strip_suffix("{}"), key.strip_suffix("{key}")) {
            (Some(stem), _) => Verdict::SUMMARIES.map(|s| format!("{stem}{s}")).to_vec(),
            (_, Some(stem)) => known
                .iter()
                .filter(|k| k.starts_with(stem))
                .cloned()
                .collect(),
            _ => vec![key],
        };
        let asked: BTreeSet<String> = keys.flat_map(each).collect();
        assert_eq!(asked, known);
    }
}
