//! Assets of the libraries and files of the shop's folders: sheets, sentences, channel presets.

use super::settings::{Settings, read_text};
use super::lines;
use crate::arguments::Usage;
use anyhow::Result;
use model::job_file::HookupFile;
use model::knowledge::{ShopSheets, Source};
use plugin_host::PluginInfo;
use report::Stationery;
use std::path::{Path, PathBuf};

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

/// The libraries with their texts, each once.
pub fn sources(plugins: &[PluginInfo]) -> Vec<Source> {
    let mut sources: Vec<Source> = Vec::new();
    for plugin in plugins {
        let name = plugin.path.display().to_string();
        let texts = plugin.texts.iter().map(|t| (t.name.clone(), t.body.clone()));
        match sources.iter_mut().find(|s| s.name == name) {
            Some(known) => known.texts.extend(texts),
            None => sources.push(Source {
                name,
                built_in: is_built_in(plugin),
                texts: texts.collect(),
            }),
        }
    }
    sources
}

fn is_built_in(plugin: &PluginInfo) -> bool {
    plugin.vendor == "baybrief"
}

/// Adds the sentences of the shop and of the libraries, and returns what could not be used of the latter, a sentence
/// each. A key that is there already stays: the shop's come first, built-in libraries next.
///
/// # Errors
/// A file of the shop's that is no Fluent file.
pub fn add_sentences(
    plugins: &[PluginInfo],
    own: &[(PathBuf, String)],
    theme: &mut Stationery,
) -> Result<Vec<String>> {
    for (path, text) in own {
        let language = path.file_stem().unwrap_or_default().to_string_lossy();
        let file = path.display().to_string();
        theme
            .add_words(&language, &file, text)
            .map_err(|e| Usage(e.to_string()))?;
    }
    let mut texts: Vec<(&PluginInfo, &str, &str, &str)> = plugins
        .iter()
        .flat_map(|p| p.texts.iter().map(move |t| (p, t)))
        .filter_map(|(p, t)| {
            let language = t.name.strip_prefix("lang/")?.strip_suffix(".ftl")?;
            Some((p, language, t.name.as_str(), t.body.as_str()))
        })
        .collect();
    // English last: it stands in for what the report's language lacks.
    texts.sort_by_key(|(p, language, ..)| (!is_built_in(p), *language == "en"));
    let mut refused = Vec::new();
    for (plugin, language, name, body) in texts {
        if let Err(e) = theme.add_words(language, name, body) {
            refused.push(format!("library of {}: its {name}: {e}", plugin.id));
        }
    }
    Ok(refused)
}

/// Channel presets of the libraries and of the shop; of two of one name the last counts.
///
/// # Errors
/// A preset that cannot be used.
pub fn presets(plugins: &[PluginInfo], own: &[(String, String)]) -> Result<Vec<HookupFile>> {
    let of_libraries = plugins.iter().flat_map(|p| &p.texts);
    let of_libraries = of_libraries
        .filter(|t| t.name.starts_with("presets/"))
        .map(|t| (&t.name, &t.body));
    let own = own.iter().map(|(name, text)| (name, text));
    of_libraries
        .chain(own)
        .map(|(name, text)| {
            formats::settings::read_hookup(text, name)
                .map_err(|p| Usage(lines(&p)).into())
        })
        .collect()
}
