//! The systems as they lie in the tree and as their libraries declare them.

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use model::Knowledge;
use model::knowledge::{ShopSheets, Source};
use plugin_host::{Host, HostOptions, LibraryInfo};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

/// The built-in libraries, loaded in this process.
pub static LIBRARIES: LazyLock<Vec<LibraryInfo>> = LazyLock::new(|| {
    let host = Host::discover(&HostOptions {
        in_process: true,
        ..HostOptions::default()
    });
    assert!(host.refused().is_empty(), "{:?}", host.refused());
    let built_in = host.libraries().iter().filter(|l| !l.foreign);
    built_in.cloned().collect()
});

/// Assets of the libraries, put together as the program does it.
pub static KNOWLEDGE: LazyLock<Knowledge> = LazyLock::new(|| {
    let source = |l: &LibraryInfo| Source {
        name: l.declaration.system.clone(),
        built_in: true,
        texts: (l.declaration.assets.iter())
            .map(|a| (a.name.clone(), a.body.clone()))
            .collect(),
    };
    let sources: Vec<Source> = LIBRARIES.iter().map(source).collect();
    let read = Knowledge::read(&sources, &ShopSheets::default());
    let (knowledge, refused) = read.expect("the built-in sheets agree");
    assert!(refused.is_empty(), "{refused:?}");
    knowledge
});

pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// Files below a folder whose names end so.
pub fn files(folder: &Path, extension: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).expect("a folder of the tree") {
        let path = entry.expect("an entry").path();
        if path.is_dir() && path.file_name().is_some_and(|n| n != "target") {
            found.extend(files(&path, extension));
        } else if path.extension().is_some_and(|e| e == extension) {
            found.push(path);
        }
    }
    found.sort();
    found
}

pub fn text(path: &Path) -> String {
    std::fs::read_to_string(path).unwrap_or_else(|e| panic!("{}: {e}", path.display()))
}

/// Sentences of a language file by their keys, each with the arguments that it asks for.
pub type Sentences = BTreeMap<String, BTreeSet<String>>;

/// Sentences of a text in Fluent syntax.
#[track_caller]
pub fn sentences(fluent: &str) -> Sentences {
    let parsed = fluent_syntax::parser::parse(fluent);
    let resource = parsed.unwrap_or_else(|(_, errors)| panic!("{errors:?}"));
    let mut all = Sentences::new();
    for entry in resource.body {
        if let Entry::Message(message) = entry {
            let mut arguments = BTreeSet::new();
            if let Some(pattern) = &message.value {
                collect(pattern, &mut arguments);
            }
            all.insert(message.id.name.to_owned(), arguments);
        }
    }
    all
}

fn collect(pattern: &Pattern<&str>, arguments: &mut BTreeSet<String>) {
    for element in &pattern.elements {
        if let PatternElement::Placeable { expression } = element {
            expression_of(expression, arguments);
        }
    }
}

fn expression_of(expression: &Expression<&str>, arguments: &mut BTreeSet<String>) {
    match expression {
        Expression::Inline(inline) => inline_of(inline, arguments),
        Expression::Select { selector, variants } => {
            inline_of(selector, arguments);
            variants.iter().for_each(|v| collect(&v.value, arguments));
        }
    }
}

fn inline_of(inline: &InlineExpression<&str>, found: &mut BTreeSet<String>) {
    match inline {
        InlineExpression::VariableReference { id } => {
            found.insert(id.name.to_owned());
        }
        InlineExpression::FunctionReference { arguments, .. } => {
            arguments
                .positional
                .iter()
                .for_each(|a| inline_of(a, found));
        }
        InlineExpression::Placeable { expression } => expression_of(expression, found),
        _ => {}
    }
}

/// Key under which a sentence is found: its own, else with `n` in the place of its first number.
pub fn find<'s>(key: &str, sentences: &'s Sentences) -> Option<(&'s String, &'s BTreeSet<String>)> {
    let is_number = |part: &&str| !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit());
    let general = key.split('-').find(is_number).map(|n| {
        let parts: Vec<&str> = key.splitn(2, &format!("-{n}")).collect();
        parts.join("-n")
    });
    let found = sentences.get_key_value(key);
    found.or_else(|| sentences.get_key_value(&general?))
}

/// English sentences of the report.
pub static REPORT: LazyLock<Sentences> = LazyLock::new(|| {
    let path = root().join("report-templates/customer/lang/en.ftl");
    sentences(&text(&path))
});

/// English sentences of a library.
pub fn english(library: &LibraryInfo) -> Sentences {
    sentences(library.declaration.asset("lang/en.ftl").unwrap_or_default())
}

/// English sentences that all libraries share: those of the report and of shared declarations.
pub static SHARED: LazyLock<Sentences> = LazyLock::new(|| {
    let mut all = REPORT.clone();
    let shared = |l: &&LibraryInfo| {
        let sheets = &KNOWLEDGE.shared;
        sheets.iter().any(|s| s.name == l.declaration.system)
    };
    for library in LIBRARIES.iter().filter(shared) {
        all.extend(english(library));
    }
    all
});
