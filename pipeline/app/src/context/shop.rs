//! shop.toml, and what follows from where it lies.

use super::{line, lines};
use crate::arguments::Usage;
use anyhow::Result;
use billing::BillingError;
use model::ShopFile;
use plugin_host::HostOptions;
use std::path::{Path, PathBuf};

/// Settings of the shop.
#[derive(Debug, Clone, Default)]
pub struct Settings {
    /// Content of shop.toml.
    pub shop: ShopFile,
    /// Absolute path of shop.toml; `None` where there is none.
    pub file: Option<PathBuf>,
    /// Folder that its paths count from.
    pub base: PathBuf,
    name: String,
    text: String,
}

impl Settings {
    /// Reads shop.toml; without one, everything takes its default.
    ///
    /// # Errors
    /// A shop.toml that cannot be used.
    pub fn read(path: Option<&Path>) -> Result<Settings> {
        let Some(path) = path else {
            return Ok(Settings::default());
        };
        let text = read_text(path, "--shop")?;
        let name = path.display().to_string();
        let parsed = settings::read_shop_file(&text, &name);
        if !parsed.errors.is_empty() {
            return Err(Usage(lines(&parsed.errors)).into());
        }
        Ok(Settings {
            shop: parsed.value,
            file: Some(path.canonicalize().unwrap_or_else(|_| path.into())),
            base: path.parent().unwrap_or(Path::new("")).to_path_buf(),
            name,
            text,
        })
    }

    /// Folders that are searched for plugins, without searching them.
    pub fn host_options(&self) -> HostOptions {
        let folders = self.shop.plugins.folders.iter();
        HostOptions {
            folders: folders.map(|p| self.base.join(p)).collect(),
            crash_log: crash_log(),
            ..HostOptions::default()
        }
    }

    /// Folders with sheets, sentences and presets of the shop's own.
    pub fn sheet_folders(&self) -> impl Iterator<Item = PathBuf> {
        let folders = self.shop.sheets.folders.iter();
        folders.map(|p| self.base.join(p))
    }

    /// The same settings with sheets and learned limits from other places, those of a sealed archive. It holds nothing of
    /// what only the looks of a report need.
    #[must_use]
    pub fn in_folders(mut self, sheets: Vec<PathBuf>, learned: PathBuf) -> Settings {
        let report = &mut self.shop.report;
        (report.logo, report.legal_text) = (None, None);
        (report.template, report.technician_template) = (None, None);
        self.shop.sheets.folders = sheets;
        self.shop.learning.folder = learned;
        self
    }

    /// The same settings with nothing learned in force.
    #[must_use]
    pub fn without_learned(mut self) -> Settings {
        self.file = None;
        self
    }

    /// Checks the prices.
    ///
    /// # Errors
    /// A price book that cannot be used, with the line that it is about.
    pub fn check_billing(&self) -> Result<(), Usage> {
        billing::check(&self.shop).map_err(|e| self.wrong(&e))
    }

    /// Checks that the causes and steps of the price book are such.
    ///
    /// # Errors
    /// A name that nothing has, with its line.
    pub fn check_names(
        &self,
        is_cause: &dyn Fn(&str) -> bool,
        is_next: &dyn Fn(&str) -> bool,
    ) -> Result<(), Usage> {
        billing::check_names(&self.shop, is_cause, is_next).map_err(|e| self.wrong(&e))
    }

    fn wrong(&self, e: &BillingError) -> Usage {
        Usage(line(&e.in_file(&self.name, &self.text)))
    }
}

/// Language that a shop.toml names, whatever else is wrong in it.
pub fn language(path: &Path) -> Option<String> {
    let text = std::fs::read_to_string(path).ok()?;
    let parsed = settings::read_shop_file(&text, "");
    Some(report::language(&parsed.value.report).to_owned())
}

/// Text of a file of the shop's.
pub(super) fn read_text(path: &Path, why: &str) -> Result<String> {
    std::fs::read_to_string(path)
        .map_err(|e| Usage(format!("{}: cannot be read for {why}: {e}", path.display())).into())
}

/// The file that keeps which plugin libraries crashed, in the folder for state of the XDG Base Directory
/// Specification; `None` where the system names no home.
pub fn crash_log() -> Option<PathBuf> {
    let absolute = |name: &str| {
        std::env::var_os(name)
            .map(PathBuf::from)
            .filter(|p| p.is_absolute())
    };
    let state =
        absolute("XDG_STATE_HOME").or_else(|| Some(absolute("HOME")?.join(".local/state")))?;
    Some(state.join("baybrief").join("plugin-crashes.json"))
}
