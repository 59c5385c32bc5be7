//! What is known of plugins and libraries.

use serde::{Deserialize, Serialize};
use std::path::PathBuf;

/// One plugin that was found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PluginInfo {
    /// Machine name: `shaft-motion`.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Version, `major.minor.patch`.
    pub version: String,
    /// Who made it.
    pub vendor: String,
    /// The library that holds it; absolute.
    pub path: PathBuf,
    /// BLAKE3 of the library file, hexadecimal.
    pub blake3: String,
    /// How much it looks at.
    pub scope: Scope,
    /// Requirements, all of which must be met; each is a role, or several with `|` between them.
    pub needs: Vec<String>,
    /// Further roles that it can use.
    pub uses: Vec<String>,
    /// Names of the tracks that it hands on to later plugins.
    pub gives: Vec<String>,
    /// Names of the tracks of earlier plugins that it can use.
    pub takes: Vec<String>,
    /// Texts that it brings along: sheets and sentences, unread.
    pub texts: Vec<PluginText>,
}

impl PluginInfo {
    /// Whether channels of this role are among those that it needs or can use.
    pub(crate) fn looks_at(&self, role: &str) -> bool {
        let mut needs = self.needs.iter().flat_map(|need| alternatives(need));
        needs.any(|r| r == role) || self.uses.iter().any(|r| r == role)
    }
}

#[cfg(test)]
impl PluginInfo {
    /// A plugin for recordings that gives and takes tracks.
    pub(crate) fn with_tracks(id: &str, gives: &[&str], takes: &[&str]) -> PluginInfo {
        let all = |names: &[&str]| names.iter().map(|n| n.to_string()).collect();
        PluginInfo {
            id: id.into(),
            name: String::new(),
            version: String::new(),
            vendor: String::new(),
            path: "".into(),
            blake3: String::new(),
            scope: Scope::Capture,
            needs: Vec::new(),
            uses: Vec::new(),
            gives: all(gives),
            takes: all(takes),
            texts: Vec::new(),
        }
    }
}

/// A text that a plugin brings along.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PluginText {
    /// `spec.toml`, `causes.toml`, `lang/en.ftl`.
    pub name: String,
    /// Its content.
    pub body: String,
}

/// How much a plugin looks at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Scope {
    /// One recording at a time.
    Capture,
    /// The whole job, after all recordings.
    Job,
}

/// A library or folder that gives no plugin, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RefusedLibrary {
    /// The file or folder.
    pub path: PathBuf,
    /// Why, in a sentence.
    pub reason: String,
}

/// What a library says of one of its plugins, checked.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Description {
    pub id: String,
    pub name: String,
    pub version: String,
    pub vendor: String,
    pub scope: Scope,
    pub needs: Vec<String>,
    pub uses: Vec<String>,
    pub gives: Vec<String>,
    pub takes: Vec<String>,
    pub texts: Vec<PluginText>,
}

/// The roles of a requirement: one of them will do.
pub(crate) fn alternatives(need: &str) -> impl Iterator<Item = &str> {
    need.split('|').map(str::trim)
}
