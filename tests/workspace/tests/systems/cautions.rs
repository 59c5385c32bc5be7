//! Every step of the work prints its own cautions, and the documents list them.

use crate::tree::{KNOWLEDGE, LIBRARIES, REPORT, root, text};
use fluent_syntax::ast::Entry;
use model::knowledge::System;
use plugin_host::LibraryInfo;
use std::collections::{BTreeMap, BTreeSet};

/// Words of a step's English sentence, and the caution that they call for. Common practice, no source.
const WORDS: [(&[&str], &str); 5] = [
    (
        &[
            "engine running",
            "the engine idles",
            "at idle",
            "crank the engine",
            "start the engine",
        ],
        "caution-running-engine",
    ),
    (
        &[
            "on the road",
            "drive recorded",
            "road test",
            "while driving",
        ],
        "caution-road-test",
    ),
    (&["the battery"], "caution-battery"),
    (&["wiring"], "caution-jumper-lead"),
    (&["from the engine and open"], "caution-lifting"),
];

/// English sentences of a system and of what all share, in one line each.
fn english(library: &LibraryInfo) -> BTreeMap<String, String> {
    let shared = LIBRARIES.iter().filter(|l| {
        let sheets = &KNOWLEDGE.shared;
        sheets.iter().any(|s| s.name == l.declaration.system)
    });
    let assets = shared
        .chain([library])
        .filter_map(|l| l.declaration.asset("lang/en.ftl"));
    let lines = assets
        .flat_map(str::lines)
        .filter_map(|l| l.split_once(" = "));
    lines
        .map(|(k, t)| (k.to_owned(), t.to_lowercase()))
        .collect()
}

/// Steps of a system, as the program asks for their cautions: repairs, proofs, teardowns, next recordings.
fn steps(system: &System, sentences: &BTreeMap<String, String>) -> BTreeSet<String> {
    let mut steps = BTreeSet::new();
    for cause in &system.causes.causes {
        let general = |key: String| {
            let digits: String = cause.name.chars().filter(char::is_ascii_digit).collect();
            let with_n = match digits.is_empty() {
                true => key.clone(),
                false => key.replacen(&format!("-{digits}-"), "-n-", 1),
            };
            (sentences.contains_key(&key) || sentences.contains_key(&with_n)).then_some(key)
        };
        steps.extend((1..9).filter_map(|n| general(format!("repair-{}-{n}", cause.name))));
        steps.extend(general(format!("proof-{}", cause.name)));
        steps.extend(general(format!("opens-{}", cause.name)));
        steps.extend(cause.next.iter().cloned());
    }
    steps.extend(system.causes.inhibitors.iter().flat_map(|i| i.next.clone()));
    steps.extend(system.sheet.first_recordings.iter().map(|f| f.step.clone()));
    steps
}

fn sentence<'s>(step: &str, sentences: &'s BTreeMap<String, String>) -> Option<&'s String> {
    let general: String = step
        .split('-')
        .map(|part| match part.parse::<u32>() {
            // The number of a step at the end stays.
            Ok(_) if !step.ends_with(&format!("-{part}")) => "n",
            _ => part,
        })
        .collect::<Vec<_>>()
        .join("-");
    sentences.get(step).or_else(|| sentences.get(&general))
}

#[test]
fn each_step_of_each_system_prints_its_own() {
    let mut lacking = Vec::new();
    let mut seen = 0;
    for library in LIBRARIES.iter() {
        let Some(system) = KNOWLEDGE.system(&library.declaration.system) else {
            continue;
        };
        let sentences = english(library);
        for step in steps(system, &sentences) {
            seen += 1;
            let all = KNOWLEDGE.cautions(Some(system), std::slice::from_ref(&step), Some(true));
            let words = sentence(&step, &sentences).cloned().unwrap_or_default();
            // Paper bites nobody.
            let words = words.replace("wiring diagram", "");
            for (signs, caution) in WORDS {
                if signs.iter().any(|sign| words.contains(sign)) && !all.contains(&caution) {
                    lacking.push(format!("{}: {step} lacks {caution}", system.sheet.name));
                }
            }
            // What touches the vehicle warns of its high voltage.
            if !all.is_empty() && !all.contains(&"caution-high-voltage") {
                lacking.push(format!(
                    "{}: {step} lacks caution-high-voltage",
                    system.sheet.name
                ));
            }
            let opens = step.starts_with("opens-") || step.starts_with("proof-");
            if opens && all.is_empty() {
                lacking.push(format!("{}: {step} has no caution", system.sheet.name));
            }
        }
    }
    assert!(lacking.is_empty(), "{lacking:#?}");
    assert!(seen > 50, "{seen}");
}

/// A hazard that nobody declares would warn of nothing.
#[test]
fn hazards_that_steps_meet_are_declared() {
    let shared = || KNOWLEDGE.shared.iter();
    for sheet in KNOWLEDGE.systems.iter().map(|s| &s.sheet).chain(shared()) {
        let known: BTreeSet<&String> = shared()
            .chain([sheet])
            .flat_map(|s| &s.hazards)
            .map(|h| &h.name)
            .collect();
        for meets in &sheet.meets {
            for hazard in &meets.hazards {
                assert!(
                    known.contains(hazard),
                    "{}: {} meets {hazard}",
                    sheet.name,
                    meets.step
                );
            }
        }
    }
}

#[test]
fn the_table_of_hazards_is_whole() {
    let table = text(&root().join("plugins/README.md"));
    let sheets = KNOWLEDGE
        .systems
        .iter()
        .map(|s| &s.sheet)
        .chain(&KNOWLEDGE.shared);
    let of_hazards = sheets.flat_map(|s| &s.hazards).flat_map(|h| &h.cautions);
    let causes = KNOWLEDGE.systems.iter().flat_map(|s| &s.causes.causes);
    let of_causes = causes.flat_map(|c| c.cautions.iter().chain(&c.driver));
    for key in of_hazards.chain(of_causes) {
        assert!(
            table.contains(&format!("`{key}`")),
            "plugins/README.md does not list {key}"
        );
    }
    assert!(REPORT.contains_key("driver-ask") && table.contains("`driver-ask`"));
}

/// "May I drive?" is the first question of whoever owns the vehicle.
#[test]
fn every_cause_answers_the_driver() {
    for system in &KNOWLEDGE.systems {
        for cause in &system.causes.causes {
            let name = &system.sheet.name;
            assert!(!cause.driver.is_empty(), "{name}: {}", cause.name);
        }
    }
}

/// No figure of a safety message rests on memory.
#[test]
fn no_source_of_a_caution_is_a_memory() {
    for library in LIBRARIES.iter() {
        for language in ["en", "de", "es"] {
            let name = format!("lang/{language}.ftl");
            let text = library.declaration.asset(&name).unwrap_or_default();
            let sources = text
                .lines()
                .filter(|l| l.trim_start().starts_with(".source"));
            for line in sources {
                assert!(
                    !line.contains("memory"),
                    "{}: {line}",
                    library.declaration.system
                );
            }
        }
    }
}

/// A safety message without a signal word, a title or a source would be printed with borrowed ones.
#[test]
fn every_caution_is_whole_in_every_language() {
    for library in LIBRARIES.iter() {
        for language in ["en", "de", "es"] {
            let name = format!("lang/{language}.ftl");
            let text = library.declaration.asset(&name).unwrap_or_default();
            let parsed = fluent_syntax::parser::parse(text);
            let resource = parsed.unwrap_or_else(|(_, errors)| panic!("{name}: {errors:?}"));
            for entry in resource.body {
                let Entry::Message(message) = entry else {
                    continue;
                };
                let key = message.id.name;
                let is_caution = key.starts_with("caution-") || key.starts_with("driver-");
                let outputs = library.declaration.analyzers.iter().map(|a| &a.outputs);
                let mut messages = outputs.flat_map(|o| &o.messages);
                if !is_caution || messages.any(|m| m.name == key) {
                    continue;
                }
                for attribute in ["word", "title", "source"] {
                    let has = message.attributes.iter().any(|a| a.id.name == attribute);
                    let system = &library.declaration.system;
                    assert!(has, "{system}, {name}: {key} has no .{attribute}");
                }
            }
        }
    }
}
