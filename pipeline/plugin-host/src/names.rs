//! Names that built-in libraries have: no other library may declare them.

use model::system::SystemSheet;
use plugin_abi::{LibraryDeclaration, SeriesDeclaration};
use std::collections::{BTreeMap, BTreeSet};

/// Names of the built-in libraries.
#[derive(Default)]
pub(crate) struct BuiltInNames {
    systems: BTreeSet<String>,
    analyzers: BTreeSet<String>,
    /// With their units.
    kinds: BTreeMap<String, Vec<String>>,
    series: BTreeMap<String, SeriesDeclaration>,
    roles: BTreeSet<String>,
}

impl BuiltInNames {
    /// Adds the names of a built-in library. Kinds may be shared between them where they are declared alike.
    ///
    /// # Errors
    /// A name that another built-in library has, or declares differently.
    pub(crate) fn add(&mut self, library: &LibraryDeclaration) -> Result<(), String> {
        let system = &library.system;
        if self.systems.contains(system) {
            return Err(format!("there are two libraries of the system {system}"));
        }
        for analyzer in &library.analyzers {
            if self.analyzers.contains(&analyzer.id) {
                return Err(format!("another library has the analyzer {}", analyzer.id));
            }
            for kind in &analyzer.outputs.kinds {
                let known = self.kinds.get(&kind.name);
                if known.is_some_and(|units| *units != kind.units) {
                    return Err(format!(
                        "another library declares the kind {} with other units",
                        kind.name
                    ));
                }
            }
            if let Some(s) = analyzer.outputs.series.iter().find(|s| self.has_series(s)) {
                return Err(format!("another library derives the series {}", s.name));
            }
        }
        self.systems.insert(system.clone());
        for analyzer in &library.analyzers {
            self.analyzers.insert(analyzer.id.clone());
            for kind in &analyzer.outputs.kinds {
                self.kinds.insert(kind.name.clone(), kind.units.clone());
            }
            for series in &analyzer.outputs.series {
                self.series.insert(series.name.clone(), series.clone());
            }
        }
        self.roles.extend(roles(library)?);
        Ok(())
    }

    fn has_series(&self, series: &SeriesDeclaration) -> bool {
        self.series.contains_key(&series.name)
    }

    /// A name of another library that only a built-in one may have, as a sentence.
    pub(crate) fn clash(&self, library: &LibraryDeclaration) -> Option<String> {
        let reserved = |what: &str, name: &str| {
            Some(format!(
                "its {what} {name} has the name of a built-in one; a plugin from elsewhere adds and replaces nothing"
            ))
        };
        if self.systems.contains(&library.system) {
            return reserved("system", &library.system);
        }
        for analyzer in &library.analyzers {
            if self.analyzers.contains(&analyzer.id) {
                return reserved("analyzer", &analyzer.id);
            }
            let outputs = &analyzer.outputs;
            let mut kinds = outputs.kinds.iter();
            if let Some(kind) = kinds.find(|k| self.kinds.contains_key(&k.name)) {
                return reserved("kind", &kind.name);
            }
            if let Some(series) = outputs.series.iter().find(|s| self.has_series(s)) {
                return reserved("series", &series.name);
            }
        }
        match roles(library) {
            Ok(own) => own
                .iter()
                .find(|role| self.roles.contains(*role))
                .and_then(|role| reserved("role", role)),
            Err(e) => Some(e),
        }
    }
}

/// Roles that a library's system.toml declares.
fn roles(library: &LibraryDeclaration) -> Result<Vec<String>, String> {
    let Some(text) = library.asset("system.toml") else {
        return Ok(Vec::new());
    };
    let sheet: SystemSheet = toml::from_str(text).map_err(|e| format!("its system.toml: {e}"))?;
    Ok(sheet.roles.into_iter().map(|r| r.name).collect())
}
