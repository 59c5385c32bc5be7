//! The table of imports in DEVELOPERS.md, held against `cargo metadata`.

use cargo_metadata::{DependencyKind, Metadata, MetadataCommand};
use std::collections::{BTreeMap, BTreeSet};

fn metadata() -> Metadata {
    MetadataCommand::new()
        .exec()
        .expect("cargo metadata runs in a workspace that builds")
}

/// Packages of ours that each crate may import, by package name.
fn rules() -> BTreeMap<&'static str, BTreeSet<&'static str>> {
    let rule = |name, may: &[&'static str]| (name, may.iter().copied().collect());
    BTreeMap::from([
        rule("baybrief-model", &["baybrief-plugin-abi"]),
        rule("baybrief-signal", &[]),
        rule("baybrief-plugin-abi", &[]),
        rule("baybrief-formats", &["baybrief-model"]),
        rule("baybrief-scan", &["baybrief-model", "baybrief-formats"]),
        rule("baybrief-channels", &["baybrief-model", "baybrief-formats"]),
        rule("baybrief-settings", &["baybrief-model"]),
        rule("baybrief-assess", &["baybrief-model"]),
        rule("baybrief-billing", &["baybrief-model"]),
        rule("baybrief-intake", &["baybrief-model"]),
        rule("baybrief-fleet", &["baybrief-model", "baybrief-intake"]),
        rule("baybrief-learn", &["baybrief-model"]),
        rule("baybrief-seal", &[]),
        rule("baybrief-report", &["baybrief-model", "baybrief-signal"]),
        rule(
            "baybrief-plugin-host",
            &["baybrief-plugin-abi", "baybrief-model"],
        ),
        rule(
            "baybrief-plugin-sdk",
            &["baybrief-plugin-abi", "baybrief-signal"],
        ),
        // Invents recordings for the demo and the tests; knows the job file's types, nothing of how they are judged.
        rule("baybrief-simulator", &["baybrief-model"]),
    ])
}

#[test]
fn crates_import_only_what_the_table_allows() {
    let metadata = metadata();
    let ours: BTreeSet<String> = metadata
        .workspace_packages()
        .iter()
        .map(|p| p.name.to_string())
        .collect();
    let rules = rules();
    let mut checked = 0;
    for package in metadata.workspace_packages() {
        let name = package.name.as_str();
        let plugin = package.manifest_path.as_str().contains("/plugins/");
        let may = match rules.get(name) {
            Some(may) => may.clone(),
            // The analyzers of `recording` are a crate of their own, which its library exports.
            None if plugin => {
                BTreeSet::from(["baybrief-plugin-sdk", "baybrief-recording-analyzers"])
            }
            None => continue,
        };
        checked += 1;
        for dependency in &package.dependencies {
            // Dependencies of tests alone are free.
            if dependency.kind == DependencyKind::Development || !ours.contains(&dependency.name) {
                continue;
            }
            assert!(
                may.contains(dependency.name.as_str()),
                "{name} may not import {}; it may import {may:?}",
                dependency.name
            );
        }
    }
    assert!(
        checked >= rules.len(),
        "a crate of the rules is missing from the workspace"
    );
}

#[test]
fn only_the_plugin_host_loads_libraries() {
    for package in metadata().workspace_packages() {
        let loads = package
            .dependencies
            .iter()
            .any(|d| d.name == "libloading" && d.kind != DependencyKind::Development);
        assert_eq!(
            loads,
            package.name.as_str() == "baybrief-plugin-host",
            "{}",
            package.name
        );
    }
}

/// Memory of a report is given back through comemo's cache; a second version of comemo would have a cache of its
/// own that nobody empties.
#[test]
fn there_is_one_version_of_comemo() {
    let versions: BTreeSet<String> = metadata()
        .packages
        .iter()
        .filter(|p| p.name.as_str() == "comemo")
        .map(|p| p.version.to_string())
        .collect();
    assert_eq!(versions.len(), 1, "{versions:?}");
}

/// A plugin is found by its file, never by its name in the code.
#[test]
fn the_executable_names_no_plugin() {
    let metadata = metadata();
    let app = metadata
        .workspace_packages()
        .into_iter()
        .find(|p| p.name.as_str() == "baybrief")
        .expect("the executable's package");
    let sources = app.manifest_path.parent().expect("a folder").join("src");
    let plugins: Vec<String> = app
        .dependencies
        .iter()
        .filter(|d| {
            d.name.starts_with("baybrief-plugin-")
                && d.name != "baybrief-plugin-sdk"
                && d.name != "baybrief-plugin-host"
        })
        .map(|d| d.name.replace('-', "_"))
        .collect();
    assert!(
        plugins.len() >= 3,
        "the executable must build the plugins: {plugins:?}"
    );
    let mut folders = vec![sources.into_std_path_buf()];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder)
            .expect("sources can be listed")
            .flatten()
        {
            let path = entry.path();
            if path.is_dir() {
                folders.push(path);
                continue;
            }
            let text = std::fs::read_to_string(&path).expect("sources are text");
            for plugin in &plugins {
                assert!(
                    !text.contains(plugin.as_str()),
                    "{} names {plugin}",
                    path.display()
                );
            }
        }
    }
}

/// The version that is promised is the one that the locked packages need.
#[test]
fn rust_version_is_what_the_packages_need() {
    let metadata = metadata();
    let foreign = metadata.packages.iter().filter(|p| p.source.is_some());
    let needed = foreign.filter_map(|p| Some((p.rust_version.clone()?, &p.name)));
    let (needed, by) = needed.max().expect("a package that needs a version");
    for package in metadata.workspace_packages() {
        let promised = package.rust_version.as_ref();
        assert_eq!(
            promised.map(|v| (v.major, v.minor)),
            Some((needed.major, needed.minor)),
            "{} against {by}",
            package.name
        );
    }
}
