//! Assets of the libraries and files of the shop's folders: sheets, sentences, channel presets.

use super::lines;
use super::shop::{Settings, read_text};
use crate::arguments::Usage;
use anyhow::Result;
use model::job_file::PresetFile;
use model::knowledge::{ShopSheets, Source};
use plugin_host::LibraryInfo;
use report::ReportTheme;
use settings::KnownNames;
use std::path::{Path, PathBuf};

/// Folders below each of `[sheets] folders`.
pub const SHEET_FOLDERS: [&str; 4] = ["causes", "lang", "limits", "presets"];

/// Files of the shop's folders. Below each of `[sheets] folders` lie `limits`, `causes`, `lang` and `presets`; an entry
/// replaces a built-in one of the same name.
#[derive(Debug, Default)]
pub struct ShopFolders {
    /// Limits sheets and cause sheets.
    pub sheets: ShopSheets,
    /// Sentences by the name of their file, `de.ftl`.
    pub sentences: Vec<(PathBuf, String)>,
    /// Channel presets.
    pub presets: Vec<(String, String)>,
}

impl ShopFolders {
    /// Reads the shop's folders.
    ///
    /// # Errors
    /// A file that is there and cannot be read.
    pub fn read(settings: &Settings) -> Result<ShopFolders> {
        let mut all = ShopFolders::default();
        for folder in settings.sheet_folders() {
            let sheets = |name: &str| texts(&folder.join(name), "toml");
            all.sheets.limits.extend(sheets("limits")?);
            all.sheets.causes.extend(sheets("causes")?);
            all.presets.extend(sheets("presets")?);
            for (file, text) in texts(&folder.join("lang"), "ftl")? {
                all.sentences.push((PathBuf::from(file), text));
            }
        }
        Ok(all)
    }
}

/// Files of a folder with an ending, in the order of their names, with their texts; none where there is no folder.
fn texts(folder: &Path, extension: &str) -> Result<Vec<(String, String)>> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    let mut paths: Vec<PathBuf> = entries
        .map(|e| e.path())
        .filter(|p| p.extension().is_some_and(|e| e == extension))
        .collect();
    paths.sort();
    let read = |path: &PathBuf| {
        let text = read_text(path, "[sheets] folders")?;
        Ok((path.display().to_string(), text))
    };
    paths.iter().map(read).collect()
}

/// The libraries with their texts.
pub fn sources(libraries: &[LibraryInfo]) -> Vec<Source> {
    let source = |library: &LibraryInfo| Source {
        name: library.path.display().to_string(),
        built_in: !library.foreign,
        texts: assets(library)
            .map(|(name, body)| (name.into(), body.into()))
            .collect(),
    };
    libraries.iter().map(source).collect()
}

/// Name and content of each asset of a library.
fn assets(library: &LibraryInfo) -> impl Iterator<Item = (&str, &str)> {
    let assets = library.declaration.assets.iter();
    assets.map(|a| (a.name.as_str(), a.body.as_str()))
}

/// Adds the sentences of the shop and of the libraries, and returns what could not be used of the latter, a sentence
/// each. A key that is there already stays: the shop's come first, built-in libraries next.
///
/// # Errors
/// A file of the shop's that is no Fluent file.
pub fn add_sentences(
    libraries: &[LibraryInfo],
    own: &[(PathBuf, String)],
    theme: &mut ReportTheme,
) -> Result<Vec<String>> {
    for (path, text) in own {
        let language = path.file_stem().unwrap_or_default().to_string_lossy();
        let file = path.display().to_string();
        theme
            .add_sentences(&language, &file, text)
            .map_err(|e| Usage(e.to_string()))?;
    }
    let language_of = |name: &str| {
        let tag = name.strip_prefix("lang/")?.strip_suffix(".ftl")?;
        Some(tag.to_owned())
    };
    let mut texts: Vec<(&LibraryInfo, String, &str, &str)> = libraries
        .iter()
        .flat_map(|l| assets(l).map(move |(name, body)| (l, name, body)))
        .filter_map(|(l, name, body)| Some((l, language_of(name)?, name, body)))
        .collect();
    // English last: it stands in for what the report's language lacks.
    texts.sort_by_key(|(l, language, ..)| (l.foreign, *language == "en"));
    let mut refused = Vec::new();
    for (library, language, name, body) in texts {
        if let Err(e) = theme.add_sentences(&language, name, body) {
            let system = &library.declaration.system;
            refused.push(format!("library of {system}: its {name}: {e}"));
        }
    }
    Ok(refused)
}

/// Channel presets of the libraries and of the shop; of two of one name the last counts.
///
/// # Errors
/// A preset that cannot be used.
pub fn presets(
    libraries: &[LibraryInfo],
    own: &[(String, String)],
    known: &KnownNames,
) -> Result<Vec<PresetFile>> {
    let of_libraries = libraries.iter().flat_map(assets);
    let of_libraries = of_libraries.filter(|(name, _)| name.starts_with("presets/"));
    let own = own
        .iter()
        .map(|(name, text)| (name.as_str(), text.as_str()));
    of_libraries
        .chain(own)
        .map(|(name, text)| {
            let parsed = settings::read_preset(text, name, known);
            match parsed.errors.is_empty() {
                true => Ok(parsed.value),
                false => Err(Usage(lines(&parsed.errors)).into()),
            }
        })
        .collect()
}
