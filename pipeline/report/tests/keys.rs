//! Every key that sheets, templates and the assessment use has its sentence in en.ftl, and every sentence is used. That
//! the other languages have the same keys is a test of the words; what analyzers declare is walked by a test of the host.
//!
//! The sources are read as text, so that the report's room need not import the others.

use baybrief_report::words::Words;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

fn english() -> String {
    std::fs::read_to_string(root().join("report-templates/customer/lang/en.ftl")).unwrap()
}

/// Text files of a kind under a folder.
fn files(folder: &Path, extension: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(files(&path, extension));
        } else if path.extension().is_some_and(|e| e == extension) {
            found.push(path);
        }
    }
    found
}

/// The string literals of a text that look like keys: lower-case words with hyphens between them.
fn keys(text: &str) -> BTreeSet<String> {
    let is_key = |s: &str| {
        let word = |w: &str| {
            !w.is_empty()
                && w.chars()
                    .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit())
        };
        s.contains('-') && s.split('-').all(word)
    };
    text.split('"')
        .filter(|s| is_key(s))
        .map(str::to_owned)
        .collect()
}

/// A source without its tests.
fn code(path: &Path) -> String {
    let text = std::fs::read_to_string(path).unwrap();
    text.split("#[cfg(test)]")
        .next()
        .unwrap_or_default()
        .to_owned()
}

#[test]
fn every_key_of_the_sheets_and_the_assessment_has_its_sentence() {
    let words = Words::load("en").unwrap();
    let mut texts: Vec<String> = files(&root().join("pipeline/assess/src"), "rs")
        .iter()
        .map(|f| code(f))
        .collect();
    for sheet in files(&root().join("examples/cause-sheets"), "toml") {
        texts.push(std::fs::read_to_string(sheet).unwrap());
    }
    let mut seen = 0;
    for text in texts {
        for key in keys(&text) {
            if ["next-", "reason-", "caution-"]
                .iter()
                .any(|family| key.starts_with(family))
            {
                assert!(words.has(&key), "`{key}` has no sentence in en.ftl");
                seen += 1;
            }
        }
    }
    assert!(seen > 20);
}

#[test]
fn every_cause_of_the_sheets_has_its_words() {
    let words = Words::load("en").unwrap();
    for sheet in files(&root().join("examples/cause-sheets"), "toml") {
        let text = std::fs::read_to_string(sheet).unwrap();
        let sheet: model::sheets::CauseSheet = toml::from_str(&text).unwrap();
        for cause in sheet.causes {
            let name = &cause.name;
            for key in [
                format!("cause-{name}"),
                format!("cause-{name}-plain"),
                format!("cause-{name}-ruled-out"),
                format!("repair-{name}-1"),
                format!("proof-{name}"),
            ] {
                assert!(words.has(&key), "{key} is missing in en.ftl");
            }
            let advice = words.advice(name, cause.teardown, &cause.cautions);
            assert_eq!(advice.opens.is_some(), cause.teardown, "{name}: opens");
            assert_eq!(
                advice.destroys.is_some(),
                cause.teardown,
                "{name}: destroys"
            );
            if cause.teardown {
                assert!(
                    !cause.cautions.is_empty(),
                    "{name}: a teardown without a caution"
                );
            }
        }
    }
}

/// The words that a text is made of, hyphens within.
fn tokens(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| !(c.is_ascii_alphanumeric() || c == '-'))
        .map(|t| t.trim_matches('-'))
        .filter(|t| !t.is_empty())
}

/// The words that a template takes from the language: `w.NAME`.
fn furniture(text: &str) -> BTreeSet<String> {
    let name = |t: &str| -> String {
        t.chars()
            .take_while(|c| c.is_ascii_alphanumeric() || *c == '-')
            .collect()
    };
    let mut found = BTreeSet::new();
    for part in text.split(|c: char| c.is_whitespace() || "({[,#:".contains(c)) {
        for (at, _) in part.match_indices("w.") {
            let before = part.get(..at).and_then(|p| p.chars().last());
            if matches!(before, None | Some('.')) {
                let rest = part.get(at + 2..).unwrap_or_default();
                match rest.strip_prefix("at") {
                    Some("") => {}
                    _ => {
                        found.insert(name(rest));
                    }
                }
            }
        }
    }
    found.remove("at");
    found
}

#[test]
fn every_word_of_the_templates_is_there() {
    let words = Words::load("en").unwrap();
    let mut seen = 0;
    for folder in ["customer", "technician"] {
        for file in files(&root().join("report-templates").join(folder), "typ") {
            for name in furniture(&std::fs::read_to_string(&file).unwrap()) {
                seen += 1;
                let key = format!("report-{name}");
                assert!(words.has(&key), "{}: w.{name}", file.display());
            }
        }
    }
    assert!(seen > 80, "{seen}");
}

/// Sentences that nothing asks for are dead weight for every translator.
#[test]
fn every_sentence_is_used() {
    let words = Words::load("en").unwrap();
    let mut used: BTreeSet<String> = BTreeSet::new();
    for folder in ["pipeline", "plugins"] {
        for file in files(&root().join(folder), "rs") {
            used.extend(tokens(&code(&file)).map(str::to_owned));
        }
    }
    for file in files(&root().join("plugins"), "toml") {
        used.extend(tokens(&std::fs::read_to_string(file).unwrap()).map(str::to_owned));
    }
    for file in files(&root().join("report-templates"), "typ") {
        let text = std::fs::read_to_string(file).unwrap();
        used.extend(tokens(&text).map(|t| format!("report-{t}")));
    }
    let mut sheets = String::new();
    for folder in ["cause-sheets", "spec-sheets"] {
        for file in files(&root().join("examples").join(folder), "toml") {
            sheets.push_str(&std::fs::read_to_string(file).unwrap());
        }
    }
    used.extend(tokens(&sheets).map(str::to_owned));
    let english = english();
    for reference in english.split("{ ").skip(1) {
        used.extend(tokens(reference).next().map(str::to_owned));
    }

    // Families whose keys are made of a name: the name must be one that the house knows.
    let family = |key: &str| -> Option<String> {
        let (family, name) = key.split_once('-')?;
        let name = match family {
            "cause" => name
                .trim_end_matches("-plain")
                .trim_end_matches("-ruled-out"),
            "repair" => name.rsplit_once('-')?.0,
            "proof" | "opens" | "destroyed" | "kind" | "mark" | "method" | "subject" => name,
            _ => return None,
        };
        Some(name.to_owned())
    };
    let sheet_text = |key: &str| {
        english
            .lines()
            .find_map(|l| l.strip_prefix(key)?.strip_prefix(" = "))
            .is_some_and(|text| sheets.contains(&format!("\"{text}\"")))
    };
    let made_up = ["report-band-", "report-word-", "report-tech-"];
    let unused: Vec<&String> = words
        .keys()
        .filter(|key| {
            let of_family = family(key).is_some_and(|name| used.contains(&name));
            let of_sheet = key.starts_with("sheet-") && sheet_text(key);
            let made = made_up
                .iter()
                .any(|m| key.strip_prefix(m).is_some_and(|name| used.contains(name)));
            !(used.contains(*key) || of_family || of_sheet || made)
        })
        .collect();
    assert!(unused.is_empty(), "nothing asks for {unused:?}");
}

/// The reasons of the built-in sheets have their translations: those of an own sheet are printed as they are.
#[test]
fn every_reason_of_the_sheets_is_translated() {
    let (english, german) = (Words::load("en").unwrap(), Words::load("de").unwrap());
    for sheet in files(&root().join("examples/cause-sheets"), "toml") {
        let text = std::fs::read_to_string(sheet).unwrap();
        let sheet: model::sheets::CauseSheet = toml::from_str(&text).unwrap();
        for row in sheet.causes.iter().flat_map(|c| &c.rows) {
            for text in [&row.reason, &row.source] {
                assert_eq!(english.sheet_reason(text), *text);
                assert_ne!(
                    german.sheet_reason(text),
                    *text,
                    "no sheet-* key says `{text}`"
                );
            }
        }
    }
}
