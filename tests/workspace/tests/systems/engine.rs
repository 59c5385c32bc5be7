//! The engine knows no vehicle: no crate under pipeline/ and no template names a system, a role, a kind of finding, a
//! cause or a sentence of one.

use crate::tree::{KNOWLEDGE, LIBRARIES, english, files, root, text};
use std::collections::BTreeSet;

/// All names that systems declare.
fn names() -> BTreeSet<String> {
    let mut names = BTreeSet::new();
    for library in LIBRARIES.iter() {
        names.insert(library.declaration.system.clone());
        for analyzer in &library.declaration.analyzers {
            names.insert(analyzer.id.clone());
            names.extend(analyzer.outputs.kinds.iter().map(|k| k.name.clone()));
        }
        names.extend(english(library).into_keys());
    }
    names.extend(KNOWLEDGE.roles.iter().map(|r| r.name().to_owned()));
    for system in &KNOWLEDGE.systems {
        names.extend(system.causes.causes.iter().map(|c| c.name.clone()));
        names.extend(system.causes.inhibitors.iter().map(|i| i.name.clone()));
    }
    names
}

/// Words of a text that are names with hyphens.
fn words(text: &str) -> impl Iterator<Item = &str> {
    let is_part = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
    text.split(move |c| !is_part(c))
        .filter(|word| word.contains('-'))
}

/// A source without its tests, which speak of invented jobs on built-in systems.
fn code(source: &str) -> &str {
    source.split("#[cfg(test)]").next().unwrap_or_default()
}

#[test]
fn the_engine_names_nothing_of_a_system() {
    let names = names();
    assert!(names.len() > 200, "{names:?}");
    let mut sources = files(&root().join("report-templates"), "typ");
    for krate in std::fs::read_dir(root().join("pipeline")).expect("the engine's crates") {
        sources.extend(files(&krate.expect("a crate").path().join("src"), "rs"));
    }
    let mut found = Vec::new();
    for source in sources.iter().filter(|s| !s.ends_with("tests.rs")) {
        let text = text(source);
        let code = code(&text);
        let named = words(code).filter(|word| names.contains(*word));
        // A kind of one word is an English word as well: only a text of its own is taken for the kind.
        let quoted = code.split('"').skip(1).step_by(2);
        let kinds = quoted.filter(|q| !q.contains('-') && is_kind(q));
        let path = source.strip_prefix(root()).unwrap_or(source);
        found.extend(
            named
                .chain(kinds)
                .map(|n| format!("{}: {n}", path.display())),
        );
    }
    assert!(found.is_empty(), "{found:#?}");
}

fn is_kind(word: &str) -> bool {
    let analyzers = LIBRARIES.iter().flat_map(|l| &l.declaration.analyzers);
    let mut kinds = analyzers.flat_map(|a| &a.outputs.kinds);
    kinds.any(|k| k.name == word)
}
