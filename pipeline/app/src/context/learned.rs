//! Folder of what was learned: versions of limits and weights, and the known-good values of other shops.
//!
//! `limits/UNIT/0001.toml`, `0002.toml`, ...: versions of the limits of a kind of unit; `weights/0001.toml`, ...: of the
//! counted weights; `imported/NAME.jws`: what another shop sent, signed. Versions are only ever added; the last is in
//! force.

use super::shop::Settings;
use crate::arguments::Usage;
use anyhow::{Context, Result};
use learn::exchange::{self, KnownGood};
use learn::sheet::Origin;
use learn::text::slug;
use learn::weights::WeightSheet;
use learn::{LearnedSheet, UnitKey};
use serde::Serialize;
use serde::de::DeserializeOwned;
use std::fs::OpenOptions;
use std::io::Write;
use std::path::{Path, PathBuf};

/// Folder of what was learned.
#[derive(Debug, Clone)]
pub struct LearnedFolder(PathBuf);

/// Known-good values of another shop.
#[derive(Debug, Clone)]
pub struct Imported {
    /// Shop.
    pub origin: Origin,
    /// Values.
    pub known: KnownGood,
}

impl LearnedFolder {
    /// Folder that the settings name; `None` where there is no shop.toml.
    pub fn of(settings: &Settings) -> Option<LearnedFolder> {
        settings.file.as_ref()?;
        let folder = settings.base.join(&settings.shop.learning.folder);
        Some(LearnedFolder(folder))
    }

    /// Sheets in force, one for each kind of unit and origin.
    ///
    /// # Errors
    /// A sheet that cannot be read: a limit must not go unnoticed.
    pub fn sheets(&self) -> Result<Vec<LearnedSheet>> {
        let mut newest = Vec::new();
        for folder in folders(&self.0.join("limits"))? {
            newest.extend(versions::<LearnedSheet>(&folder)?.pop());
        }
        Ok(newest)
    }

    /// All versions of a sheet, by the name of its folder, oldest first.
    ///
    /// # Errors
    /// A sheet that cannot be read.
    pub fn history(&self, name: &str) -> Result<Vec<LearnedSheet>> {
        versions(&self.0.join("limits").join(slug(name)))
    }

    /// Adds a version of a sheet, and returns its file.
    ///
    /// # Errors
    /// When it cannot be written, or somebody else has just added that version.
    pub fn add(&self, sheet: &LearnedSheet) -> Result<PathBuf> {
        let folder = self
            .0
            .join("limits")
            .join(folder_name(&sheet.key, sheet.origin.as_ref()));
        add_version(&folder, sheet.version, sheet)
    }

    /// All versions of the counted weights, oldest first.
    ///
    /// # Errors
    /// A sheet that cannot be read.
    pub fn weights(&self) -> Result<Vec<WeightSheet>> {
        versions(&self.0.join("weights"))
    }

    /// Adds a version of the counted weights, and returns its file.
    ///
    /// # Errors
    /// As [`LearnedFolder::add`].
    pub fn add_weights(&self, sheet: &WeightSheet) -> Result<PathBuf> {
        add_version(&self.0.join("weights"), sheet.version, sheet)
    }

    /// Known-good values of other shops, in the order of their names.
    ///
    /// # Errors
    /// A file that cannot be read or whose signature does not hold.
    pub fn imported(&self) -> Result<Vec<Imported>> {
        let mut all = Vec::new();
        for path in files(&self.0.join("imported"), "jws")? {
            let text =
                std::fs::read_to_string(&path).with_context(|| path.display().to_string())?;
            let name = path.file_stem().unwrap_or_default().to_string_lossy();
            let imported = read_signed(&text, &name).with_context(|| path.display().to_string())?;
            all.push(imported);
        }
        Ok(all)
    }

    /// Keeps the known-good values of another shop; newer ones of the same shop take the place of older ones.
    ///
    /// # Errors
    /// When the file cannot be written.
    pub fn keep_import(&self, origin: &Origin, text: &str) -> Result<()> {
        let folder = self.0.join("imported");
        std::fs::create_dir_all(&folder).with_context(|| folder.display().to_string())?;
        intake::write_atomic(
            &folder.join(format!("{}.jws", origin.name)),
            text.as_bytes(),
        )?;
        Ok(())
    }
}

/// Name of a sheet's folder.
pub fn folder_name(key: &UnitKey, origin: Option<&Origin>) -> String {
    match origin {
        None => key.name(),
        Some(origin) => format!("{}-from-{}", key.name(), slug(&origin.name)),
    }
}

/// Reads signed known-good values, under the name that a person gave their shop.
///
/// # Errors
/// A signature that does not hold; values that are none.
pub fn read_signed(text: &str, name: &str) -> Result<Imported> {
    let signed = seal::verify(text, None)?;
    let known = exchange::parse(&signed.payload).map_err(Usage)?;
    Ok(Imported {
        origin: Origin {
            name: name.into(),
            key: signed.key.thumbprint(),
        },
        known,
    })
}

/// Versions in a folder, oldest first; none where there is no folder.
fn versions<T: DeserializeOwned>(folder: &Path) -> Result<Vec<T>> {
    let read = |path: &PathBuf| {
        let text = std::fs::read_to_string(path).with_context(|| path.display().to_string())?;
        toml::from_str(&text).map_err(|e| Usage(format!("{}: {e}", path.display())).into())
    };
    files(folder, "toml")?.iter().map(read).collect()
}

fn add_version(folder: &Path, version: u32, sheet: &impl Serialize) -> Result<PathBuf> {
    let text = toml::to_string(sheet).context("a learned sheet")?;
    std::fs::create_dir_all(folder).with_context(|| folder.display().to_string())?;
    let path = folder.join(format!("{version:04}.toml"));
    // Never over a version that somebody else has added meanwhile.
    let file = OpenOptions::new().write(true).create_new(true).open(&path);
    file.and_then(|mut file| {
        file.write_all(text.as_bytes())?;
        file.sync_all()
    })
    .with_context(|| path.display().to_string())?;
    Ok(path)
}

/// Files of a folder with an ending, in the order of their names; none where there is no folder.
fn files(folder: &Path, extension: &str) -> Result<Vec<PathBuf>> {
    let has_extension = |p: &PathBuf| p.extension().is_some_and(|e| e == extension);
    Ok(entries(folder)?.into_iter().filter(has_extension).collect())
}

fn folders(folder: &Path) -> Result<Vec<PathBuf>> {
    Ok(entries(folder)?
        .into_iter()
        .filter(|p| p.is_dir())
        .collect())
}

fn entries(folder: &Path) -> Result<Vec<PathBuf>> {
    if !folder.exists() {
        return Ok(Vec::new());
    }
    let listed = std::fs::read_dir(folder).and_then(|entries| {
        entries
            .map(|e| e.map(|e| e.path()))
            .collect::<std::io::Result<Vec<_>>>()
    });
    let mut paths = listed.with_context(|| folder.display().to_string())?;
    paths.sort();
    Ok(paths)
}
