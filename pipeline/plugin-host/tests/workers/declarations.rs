//! Declarations of the built-in libraries against what is said of them: every message and kind has its sentence, every
//! pattern of a cause names what somebody declares.

use baybrief_plugin_host::{Host, HostOptions, LibraryInfo};
use std::collections::BTreeSet;
use std::path::Path;

crate::tests![
    every_declared_message_and_kind_has_its_sentence,
    every_finding_that_a_cause_rests_on_is_declared,
];

/// Keys of the sentences that stand at the beginning of a line of a Fluent file.
fn keys(text: &str) -> BTreeSet<String> {
    let lines = text
        .lines()
        .filter(|l| l.starts_with(|c: char| c.is_ascii_lowercase()));
    lines
        .filter_map(|l| Some(l.split_once('=')?.0.trim().to_string()))
        .collect()
}

fn repository(file: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../..")
        .join(file);
    std::fs::read_to_string(path).unwrap_or_default()
}

fn built_in(host: &Host) -> impl Iterator<Item = &LibraryInfo> {
    host.libraries().iter().filter(|l| !l.foreign)
}

fn every_declared_message_and_kind_has_its_sentence() {
    let host = Host::discover(&HostOptions::default());
    assert!(built_in(&host).count() >= 3, "{:?}", host.refused());
    let mut missing = Vec::new();
    for tag in ["en", "de", "es"] {
        let mut common = keys(&repository(&format!(
            "report-templates/customer/lang/{tag}.ftl"
        )));
        // What several systems say is worded once, by `recording`.
        let shared = built_in(&host).filter(|l| l.declaration.system == "recording");
        let shared = shared.filter_map(|l| l.declaration.asset(&format!("lang/{tag}.ftl")));
        common.extend(shared.flat_map(keys));
        for library in built_in(&host) {
            let declared = &library.declaration;
            let own = keys(
                declared
                    .asset(&format!("lang/{tag}.ftl"))
                    .unwrap_or_default(),
            );
            for analyzer in &declared.analyzers {
                let messages = analyzer.outputs.messages.iter().map(|m| m.name.clone());
                let kinds = analyzer
                    .outputs
                    .kinds
                    .iter()
                    .map(|k| format!("kind-{}", k.name));
                let lacks = |key: &String| !own.contains(key) && !common.contains(key);
                let lacking = messages.chain(kinds).filter(lacks);
                missing.extend(lacking.map(|key| format!("{tag}: {}: {key}", analyzer.id)));
            }
        }
    }
    assert_eq!(missing, Vec::<String>::new());
}

fn every_finding_that_a_cause_rests_on_is_declared() {
    let host = Host::discover(&HostOptions::default());
    let analyzers = || built_in(&host).flat_map(|l| &l.declaration.analyzers);
    let kinds: BTreeSet<&str> = analyzers()
        .flat_map(|a| a.outputs.kinds.iter().map(|k| k.name.as_str()))
        .collect();
    let messages: BTreeSet<&str> = analyzers()
        .flat_map(|a| a.outputs.messages.iter().map(|m| m.name.as_str()))
        .collect();
    let sheets =
        built_in(&host).filter_map(|l| Some(l.declaration.asset("causes.toml")?.to_string()));
    let general = repository("examples/cause-sheets/dual-dry-clutch.toml");
    let mut patterns = 0;
    for sheet in sheets.chain([general]) {
        let table: toml::Table = sheet.parse().expect("a cause sheet");
        let mut rest = vec![toml::Value::Table(table)];
        while let Some(value) = rest.pop() {
            match value {
                toml::Value::Table(table) => {
                    for (field, known) in [("kind", &kinds), ("message", &messages)] {
                        let Some(names) = table.get(field).and_then(|v| v.as_str()) else {
                            continue;
                        };
                        for name in names.split('|').map(str::trim) {
                            patterns += 1;
                            assert!(known.contains(name), "nobody declares the {field} {name}");
                        }
                    }
                    rest.extend(table.into_iter().map(|(_, v)| v));
                }
                toml::Value::Array(values) => rest.extend(values),
                _ => {}
            }
        }
    }
    assert!(patterns > 20, "{patterns}");
}
