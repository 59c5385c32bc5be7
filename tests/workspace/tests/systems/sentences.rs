//! Every key that is asked for has its sentence in every language, and every sentence is asked for.

use crate::tree::{KNOWLEDGE, LIBRARIES, REPORT, SHARED, Sentences, english, find, sentences};
use plugin_host::LibraryInfo;
use report::localizer::ARGUMENTS_OF_FINDINGS;
use std::collections::{BTreeMap, BTreeSet};

/// Keys that a library's sheets and analyzers ask for.
fn wanted(library: &LibraryInfo) -> BTreeSet<String> {
    let declaration = &library.declaration;
    let mut keys = BTreeSet::new();
    for analyzer in &declaration.analyzers {
        let outputs = &analyzer.outputs;
        keys.extend(outputs.messages.iter().map(|m| m.name.clone()));
        keys.extend(outputs.kinds.iter().map(|k| format!("kind-{}", k.name)));
        // What gives no finding measures nothing that a report would explain.
        let measures = !outputs.kinds.is_empty();
        keys.extend(measures.then(|| format!("method-{}", analyzer.id)));
    }
    let system = KNOWLEDGE
        .systems
        .iter()
        .find(|s| s.sheet.name == declaration.system);
    let shared = KNOWLEDGE
        .shared
        .iter()
        .find(|s| s.name == declaration.system);
    let sheet = system
        .map(|s| &s.sheet)
        .or(shared)
        .expect("a declared system");
    keys.extend(sheet.roles.iter().map(|r| format!("subject-{}", r.name)));
    keys.extend(sheet.first_recordings.iter().map(|f| f.step.clone()));
    keys.extend(sheet.hazards.iter().flat_map(|h| h.cautions.clone()));
    keys.extend(sheet.labour_steps.iter().map(|l| l.description.clone()));
    let Some(system) = system else { return keys };
    keys.insert(format!("system-{}", sheet.name));
    for cause in &system.causes.causes {
        let name = &cause.name;
        for ending in ["", "-plain", "-ruled-out"] {
            keys.insert(format!("cause-{name}{ending}"));
        }
        keys.extend([format!("repair-{name}-1"), format!("proof-{name}")]);
        if cause.teardown {
            keys.extend([format!("opens-{name}"), format!("destroyed-{name}")]);
        }
        keys.extend(cause.untested.iter().map(|why| format!("why-{why}")));
        keys.extend(cause.next.iter().cloned());
        keys.extend(cause.cautions.iter().chain(&cause.driver).cloned());
    }
    keys.extend(system.causes.external.iter().map(|e| e.next.clone()));
    for inhibitor in &system.causes.inhibitors {
        keys.insert(inhibitor.reason.clone());
        keys.extend(inhibitor.next.iter().cloned());
    }
    keys
}

#[test]
fn every_key_has_its_sentence() {
    let mut lacking = Vec::new();
    let mut count = 0;
    for library in LIBRARIES.iter() {
        let own = english(library);
        let system = &library.declaration.system;
        for key in wanted(library) {
            count += 1;
            if find(&key, &own).or_else(|| find(&key, &SHARED)).is_none() {
                lacking.push(format!("{system}: {key}"));
            }
        }
    }
    assert!(lacking.is_empty(), "{lacking:#?}");
    assert!(count > 200, "{count}");
}

/// A sentence asks only for what its message brings: else it would be printed as a neutral one.
#[test]
fn sentences_ask_for_what_their_messages_bring() {
    for library in LIBRARIES.iter() {
        let own = english(library);
        for message in library
            .declaration
            .analyzers
            .iter()
            .flat_map(|a| &a.outputs.messages)
        {
            let Some((_, asked)) =
                find(&message.name, &own).or_else(|| find(&message.name, &SHARED))
            else {
                continue;
            };
            for argument in asked {
                // A name that stands for a role comes in words as well.
                let plain = argument.strip_suffix("-name").unwrap_or(argument);
                let is_given = argument == "n" // The number in a key.
                    || ARGUMENTS_OF_FINDINGS.contains(&argument.as_str())
                    || message.args.iter().any(|a| a == plain);
                assert!(is_given, "{}: nothing brings ${argument}", message.name);
            }
        }
    }
}

/// Reasons and sources of the sheets stand in the English file letter by letter; by them translations are found.
#[test]
fn every_reason_and_source_of_the_sheets_is_translated() {
    let shared = LIBRARIES
        .iter()
        .filter(|l| !has_system(l))
        .map(english_text);
    let report = include_str!("../../../../report-templates/customer/lang/en.ftl");
    let shared = shared.collect::<String>() + report;
    for library in LIBRARIES.iter() {
        let system = &library.declaration.system;
        let own = english_text(library);
        let known: BTreeSet<&str> = (own.lines().chain(shared.lines()))
            .filter(|l| l.starts_with("sheet-"))
            .filter_map(|l| Some(l.split_once(" = ")?.1))
            .collect();
        let limits = library.declaration.asset("limits.toml").unwrap_or_default();
        let sources = limits.split("source = \"").skip(1);
        let mut texts: Vec<&str> = sources.filter_map(|s| s.split('"').next()).collect();
        if let Some(system) = KNOWLEDGE.system(system) {
            let rows = system.causes.causes.iter().flat_map(|c| &c.rows);
            texts.extend(rows.flat_map(|row| [row.reason.as_str(), &row.source]));
            let external = system.causes.external.iter();
            texts.extend(external.flat_map(|e| [e.reason.as_str(), &e.source]));
        }
        assert!(!texts.is_empty(), "{system}");
        for text in texts {
            assert!(
                known.contains(text),
                "{system}: no sheet-* key says {text:?}"
            );
        }
    }
}

fn has_system(library: &LibraryInfo) -> bool {
    KNOWLEDGE.system(&library.declaration.system).is_some()
}

fn english_text(library: &LibraryInfo) -> String {
    let text = library.declaration.asset("lang/en.ftl");
    text.unwrap_or_default().to_owned()
}

/// Translations have the same keys and ask for the same arguments.
#[test]
fn every_language_says_the_same() {
    let compare = |name: &str, english: &Sentences, other: &Sentences| {
        for (key, arguments) in english {
            // What an ordinal or an article needs in one language is a sentence of its own in another.
            let Some((_, theirs)) = find(key, other) else {
                panic!("{name}: {key} is missing");
            };
            let extra: Vec<&String> = theirs.difference(arguments).filter(|a| *a != "n").collect();
            assert!(extra.is_empty(), "{name}: {key} asks for {extra:?}");
        }
    };
    for library in LIBRARIES.iter() {
        let own = english(library);
        for language in ["de", "es"] {
            let file = format!("lang/{language}.ftl");
            let theirs = library.declaration.asset(&file);
            let theirs = sentences(theirs.unwrap_or_else(|| panic!("{file} is missing")));
            let name = format!("{}, {file}", library.declaration.system);
            let general = |s: &Sentences| -> Sentences {
                s.iter().map(|(k, a)| (k.clone(), a.clone())).collect()
            };
            compare(&name, &general(&own), &theirs);
            for key in theirs.keys() {
                let known = find(key, &own).is_some()
                    || own
                        .keys()
                        .any(|k| find(k, &theirs).is_some_and(|f| f.0 == key));
                assert!(known, "{name}: {key} is not in English");
            }
        }
    }
}

/// Sentences of all libraries are put together: of two with one key, one would never be read.
#[test]
fn no_two_libraries_have_a_sentence_of_one_key() {
    let mut owners: BTreeMap<String, &str> = REPORT.keys().map(|k| (k.clone(), "report")).collect();
    for library in LIBRARIES.iter() {
        let system = &library.declaration.system;
        for key in english(library).into_keys() {
            let other = owners.insert(key.clone(), system);
            assert_eq!(other, None, "{system} has {key} as well");
        }
    }
}

/// A sentence that nothing asks for is dead weight for every translator.
#[test]
fn every_sentence_is_asked_for() {
    let all: BTreeSet<String> = LIBRARIES.iter().flat_map(wanted).collect();
    let kinds: BTreeSet<String> = LIBRARIES
        .iter()
        .flat_map(|l| &l.declaration.analyzers)
        .flat_map(|a| &a.outputs.kinds)
        .map(|k| k.name.clone())
        .collect();
    let mut unused = Vec::new();
    for library in LIBRARIES.iter() {
        let own = english(library);
        let asked: BTreeSet<&String> = all.iter().filter_map(|k| Some(find(k, &own)?.0)).collect();
        let text = library.declaration.asset("lang/en.ftl").unwrap_or_default();
        for key in own.keys().filter(|k| !asked.contains(k)) {
            let referred = text.contains(&format!("{{ {key} }}"));
            let of_family = key.starts_with("sheet-")
                || key.strip_prefix("mark-").is_some_and(|k| kinds.contains(k))
                // What is said more plainly to a driver.
                || key.strip_suffix("-plain").is_some_and(|k| find(k, &own).is_some())
                || further_step(key, &own);
            if !referred && !of_family {
                unused.push(format!("{}: {key}", library.declaration.system));
            }
        }
    }
    assert!(unused.is_empty(), "{unused:#?}");
}

/// `repair-NAME-3` goes with `repair-NAME-2`.
fn further_step(key: &str, own: &Sentences) -> bool {
    let Some((name, number)) = key.strip_prefix("repair-").and_then(|k| k.rsplit_once('-')) else {
        return false;
    };
    let before = number.parse::<u32>().ok().and_then(|n| n.checked_sub(1));
    before.is_some_and(|n| n == 0 || own.contains_key(&format!("repair-{name}-{n}")))
}
