//! The guide to writing a plugin (pipeline/plugin-sdk/README.md) against what the program reads today.

use crate::tree::{LIBRARIES, root, sentences, text};
use model::Knowledge;
use model::knowledge::{ShopSheets, Source};
use plugin_host::LibraryInfo;

/// The block of the guide that follows the name of its file.
#[track_caller]
fn block(guide: &str, file: &str) -> String {
    let name = format!("`{file}`");
    let named = guide.split(&name).skip(1);
    let mut blocks = named.filter_map(|rest| rest.split("```").nth(1));
    let block = blocks
        .next()
        .unwrap_or_else(|| panic!("{file} is not in the guide"));
    // The first line names the language.
    block
        .split_once('\n')
        .expect("a block of lines")
        .1
        .to_owned()
}

/// The sheets of the guide are taken as they are, beside those of the built-in systems.
#[test]
fn sheets_of_the_guide_are_read() {
    let guide = text(&root().join("pipeline/plugin-sdk/README.md"));
    let built_in = LIBRARIES.iter().map(|l: &LibraryInfo| Source {
        name: l.declaration.system.clone(),
        built_in: true,
        texts: (l.declaration.assets.iter())
            .map(|a| (a.name.clone(), a.body.clone()))
            .collect(),
    });
    let own = ["limits.toml", "causes.toml"].map(|file| (file.to_owned(), block(&guide, file)));
    let mut sources: Vec<Source> = built_in.collect();
    sources.push(Source {
        name: "guide".into(),
        built_in: false,
        texts: own.to_vec(),
    });
    let read = Knowledge::read(&sources, &ShopSheets::default());
    let (knowledge, refused) = read.expect("the sheets agree");
    assert_eq!(refused, Vec::<String>::new());
    assert!(knowledge.is_cause("battery-tired"));
    let words = sentences(&block(&guide, "lang/en.ftl"));
    for key in ["lowest-voltage", "cause-battery-tired", "next-test-battery"] {
        assert!(words.contains_key(key), "{key}");
    }
}
