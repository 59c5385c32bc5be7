//! Every key that the built-in plugins, sheets and the assessment use has its sentence in en.ftl.
//!
//! The sources are read as text, so that the report's room need not import the others.

use baybrief_report::words::Words;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// Hyphenated words of the plugins' sources that are no message keys: kinds with messages of another name,
/// endings of a rotation.
const OTHER: [&str; 10] = [
    "condition-contradicted",
    "condition-engine",
    "condition-selector",
    "tooth-wheel",
    "record-end",
    "rotation-refused",
    "sensor-fault",
    "signal-quality",
    "shaft-turning",
    "shaft-turning-at-rest",
];

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
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
fn every_message_of_the_plugins_has_its_sentence() {
    let words = Words::load("en").unwrap();
    let mut other: BTreeSet<String> = OTHER.map(String::from).into();
    other.extend(model::Role::ALL.map(|r| r.name().to_owned()));
    for sheet in files(&root().join("examples/spec-sheets"), "toml") {
        let text = std::fs::read_to_string(sheet).unwrap();
        let sheet: model::sheets::SpecSheet = toml::from_str(&text).unwrap();
        other.extend(sheet.value.into_keys());
    }
    let mut plugins = 0;
    for plugin in std::fs::read_dir(root().join("plugins")).unwrap() {
        let plugin = plugin.unwrap();
        let name = plugin.file_name().into_string().unwrap();
        plugins += 1;
        for file in files(&plugin.path().join("src"), "rs") {
            for key in keys(&code(&file)) {
                let known = key == name || other.contains(&key) || words.has(&key);
                assert!(
                    known,
                    "{}: `{key}` has no sentence in en.ftl",
                    file.display()
                );
            }
        }
    }
    assert!(plugins >= 7);
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
