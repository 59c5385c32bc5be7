//! The folder's sheets and sentences against what the analyzers declare.

use baybrief_plugin_can_bus::declare::KINDS;

const LANGUAGES: [&str; 3] = [
    include_str!("../lang/en.ftl"),
    include_str!("../lang/de.ftl"),
    include_str!("../lang/es.ftl"),
];
const CAUSES: &str = include_str!("../causes.toml");
const SYSTEM: &str = include_str!("../system.toml");
const LIMITS: &str = include_str!("../limits.toml");

/// Causes of the CAN bus.
const CAUSE_NAMES: [&str; 10] = [
    "line-open",
    "line-short-to-ground",
    "line-short-to-supply",
    "lines-shorted-together",
    "lines-swapped",
    "termination-missing",
    "termination-extra",
    "ground-offset",
    "node-silent",
    "node-disturbing",
];

fn has(language: &str, key: &str) -> bool {
    language.lines().any(|l| {
        l.strip_prefix(key)
            .is_some_and(|rest| rest.starts_with(" ="))
    })
}

/// The values of a key in a sheet: single texts and lists.
fn quoted<'a>(sheet: &'a str, key: &str) -> Vec<&'a str> {
    let start = format!("{key} = ");
    sheet
        .lines()
        .filter(|l| l.starts_with(&start))
        .flat_map(|l| l.split('"').skip(1).step_by(2))
        .collect()
}

#[test]
fn every_kind_and_message_has_its_sentence() {
    for (number, language) in LANGUAGES.iter().enumerate() {
        for kind in KINDS {
            assert!(
                has(language, &format!("kind-{}", kind.name)),
                "{number} {}",
                kind.name
            );
            for (message, arguments) in kind.messages {
                assert!(has(language, message), "{number} {message}");
                for placeable in placeables(language, message) {
                    let known = placeable == "value" || arguments.contains(&placeable.as_str());
                    assert!(known, "{number} {message}: {placeable}");
                }
            }
        }
    }
}

/// Names of the variables in a sentence.
fn placeables(language: &str, key: &str) -> Vec<String> {
    let start = language.find(&format!("\n{key} =")).unwrap() + 1;
    let rest = &language[start..];
    let lines = rest.lines().enumerate();
    let of_sentence = lines.take_while(|(n, l)| *n == 0 || l.starts_with([' ', '}']));
    of_sentence
        .flat_map(|(_, l)| l.split('$').skip(1))
        .map(|s| {
            s.chars()
                .take_while(|c| c.is_ascii_alphanumeric() || *c == '_')
                .collect()
        })
        .collect()
}

#[test]
fn every_cause_has_its_sentences() {
    let named: Vec<&str> = quoted(CAUSES, "name");
    for cause in CAUSE_NAMES {
        assert!(named.contains(&cause), "{cause}");
        for language in LANGUAGES {
            for key in ["", "-plain", "-ruled-out"] {
                assert!(
                    has(language, &format!("cause-{cause}{key}")),
                    "{cause}{key}"
                );
            }
            assert!(has(language, &format!("repair-{cause}-1")), "{cause}");
            assert!(has(language, &format!("proof-{cause}")), "{cause}");
        }
    }
}

#[test]
fn every_step_and_reason_has_its_sentence() {
    let steps = quoted(CAUSES, "next")
        .into_iter()
        .chain(quoted(SYSTEM, "step"));
    let steps = steps.filter(|s| !s.contains('*'));
    let untested = quoted(CAUSES, "untested")
        .into_iter()
        .map(|u| format!("why-{u}"));
    let labour = quoted(SYSTEM, "description").into_iter().map(String::from);
    for key in steps.map(String::from).chain(untested).chain(labour) {
        for language in LANGUAGES {
            assert!(has(language, &key), "{key}");
        }
    }
}

#[test]
fn causes_speak_of_declared_kinds_and_messages() {
    let of = |key: &str| {
        let mark = format!("{key} = \"");
        CAUSES
            .match_indices(&mark)
            .flat_map(|(at, _)| {
                CAUSES[at + mark.len()..]
                    .split('"')
                    .next()
                    .unwrap()
                    .split('|')
            })
            .collect::<Vec<_>>()
    };
    for kind in of("kind") {
        assert!(KINDS.iter().any(|k| k.name == kind), "{kind}");
    }
    for message in of("message") {
        let declared = KINDS
            .iter()
            .any(|k| k.messages.iter().any(|m| m.0 == message));
        assert!(declared, "{message}");
    }
}

#[test]
fn limits_have_sources() {
    let values = LIMITS.matches("[value.").count();
    assert_eq!(
        values,
        LIMITS
            .lines()
            .filter(|l| l.starts_with("source = \""))
            .count()
    );
}
