//! The page in the browser: who uses it, and under which names it is reached.

use serde::Deserialize;
use std::path::PathBuf;

/// `[page]`
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct PageSection {
    /// Names under which a reverse proxy with TLS passes requests on: `bay.example.org`.
    pub hosts: Vec<String>,
    /// File with the digests of the persons' PINs; only its owner may read it.
    pub pins: PathBuf,
    /// Persons who use the page. Without any, whoever is at the page gives a name.
    #[serde(rename = "person")]
    pub persons: Vec<Person>,
}

impl Default for PageSection {
    fn default() -> Self {
        PageSection {
            hosts: Vec::new(),
            pins: "page-pins.toml".into(),
            persons: Vec::new(),
        }
    }
}

/// `[[page.person]]`
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Person {
    /// Name, as it stands under reports and in the ledger.
    pub name: String,
    /// Role.
    pub role: PersonRole,
}

/// Role of a person in the shop.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PersonRole {
    /// Measures and repairs: signs reports, records work as done and what was found.
    Technician,
    /// Talks to customers: records what they authorise and decline.
    Adviser,
    /// May do all of it.
    Owner,
}
