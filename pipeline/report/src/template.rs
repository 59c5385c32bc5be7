//! The templates' files: built in, or folders of the shop's own.
//!
//! A template sees two folders, `/customer` and `/technician`. Each is either wholly built in or wholly the shop's:
//! a file that the shop's folder does not hold is an error, never silently another one.

use crate::localizer::LocalizerError;
use std::collections::HashMap;
use std::path::{Component, Path, PathBuf};
use std::sync::{Mutex, PoisonError};
use typst::diag::{FileError, FileResult};
use typst::foundations::Bytes;
use typst::syntax::{FileId, Source};

macro_rules! built_in {
    ($($path:literal),* $(,)?) => {
        &[$(($path, include_bytes!(concat!(
            env!("CARGO_MANIFEST_DIR"), "/../../report-templates/", $path
        )) as &[u8])),*]
    };
}

/// The built-in templates, by path.
const FILES: &[(&str, &[u8])] = built_in!(
    "customer/template.typ",
    "customer/components/answer.typ",
    "customer/components/authorisation.typ",
    "customer/components/cautions.typ",
    "customer/components/evidence.typ",
    "customer/components/elements.typ",
    "customer/components/page.typ",
    "customer/components/theme.typ",
    "customer/components/work.typ",
    "technician/template.typ",
    "technician/components/codes.typ",
    "technician/components/explanations.typ",
    "technician/components/measurements.typ",
    "technician/components/record.typ",
    "technician/components/scale.typ",
);

/// The built-in sentences, by language.
const LANGUAGES: &[(&str, &str)] = &[
    (
        "en",
        include_str!("../../../report-templates/customer/lang/en.ftl"),
    ),
    // What differs in a region, over its language.
    (
        "en-US",
        include_str!("../../../report-templates/customer/lang/en-US.ftl"),
    ),
    (
        "es",
        include_str!("../../../report-templates/customer/lang/es.ftl"),
    ),
    (
        "de",
        include_str!("../../../report-templates/customer/lang/de.ftl"),
    ),
];

/// The fonts; their licence lies beside them.
const FONTS: &[(&str, &[u8])] = built_in!(
    "fonts/Inter-Bold.otf",
    "fonts/Inter-Italic.otf",
    "fonts/Inter-Regular.otf",
    "fonts/Inter-SemiBold.otf",
);

/// Source of the templates' files: built in where there is no folder.
#[derive(Debug, Default)]
pub(crate) struct Template {
    /// A copy of `report-templates/customer`.
    pub customer: Option<PathBuf>,
    /// A copy of `report-templates/technician`.
    pub technician: Option<PathBuf>,
    /// Files as they were when they were last parsed.
    parsed: Mutex<HashMap<FileId, Source>>,
}

impl Template {
    /// The templates with the shop's own folders in the place of built-in ones.
    pub(crate) fn of(customer: Option<PathBuf>, technician: Option<PathBuf>) -> Template {
        Template {
            customer,
            technician,
            ..Template::default()
        }
    }

    /// The shop's own folder that a path such as `customer/template.typ` lies in, and the rest of the path.
    fn own<'p>(&self, path: &'p str) -> Option<(&PathBuf, &'p str)> {
        let (first, rest) = path.split_once('/')?;
        let folder = match first {
            "customer" => self.customer.as_ref(),
            "technician" => self.technician.as_ref(),
            _ => None,
        };
        Some((folder?, rest))
    }

    /// A file by its path, `customer/...` or `technician/...`, with forward slashes.
    pub(crate) fn read(&self, path: &str) -> FileResult<Bytes> {
        let inside = Path::new(path);
        let plain = inside
            .components()
            .all(|c| matches!(c, Component::Normal(_)));
        if !plain || path.contains("//") {
            return Err(FileError::AccessDenied);
        }
        if let Some((folder, rest)) = self.own(path) {
            let file = folder.join(rest);
            return std::fs::read(&file)
                .map(Bytes::new)
                .map_err(|e| FileError::from_io(e, &file));
        }
        FILES
            .iter()
            .find(|(name, _)| *name == path)
            .map(|(_, bytes)| Bytes::new(*bytes))
            .ok_or_else(|| FileError::NotFound(inside.to_owned()))
    }

    /// The file `id` with this content, parsed. It is parsed again only when it has changed.
    pub(crate) fn parsed(&self, id: FileId, content: &Bytes) -> FileResult<Source> {
        let mut parsed = self.parsed.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(known) = parsed
            .get(&id)
            .filter(|s| s.text().as_bytes() == &**content)
        {
            return Ok(known.clone());
        }
        let text = std::str::from_utf8(content).map_err(|_| FileError::InvalidUtf8)?;
        let source = Source::new(id, text.into());
        parsed.insert(id, source.clone());
        Ok(source)
    }

    /// A file's path as a person would look for it.
    pub(crate) fn shown(&self, path: &str) -> String {
        match self.own(path) {
            Some((folder, rest)) => folder.join(rest).display().to_string(),
            None => path.to_owned(),
        }
    }

    /// The built-in sentences of a language.
    pub(crate) fn built_in_language(language: &str) -> Option<&'static str> {
        LANGUAGES
            .iter()
            .find(|(name, _)| *name == language)
            .map(|(_, text)| *text)
    }

    /// The shop's own sentences of a language, with the name of their file; `None` where the folder has none.
    pub(crate) fn own_language(
        &self,
        language: &str,
    ) -> Result<Option<(String, String)>, LocalizerError> {
        let Some(folder) = &self.customer else {
            return Ok(None);
        };
        let file = folder.join("lang").join(format!("{language}.ftl"));
        let name = file.display().to_string();
        match std::fs::read_to_string(&file) {
            Ok(text) => Ok(Some((name, text))),
            Err(e) if e.kind() == std::io::ErrorKind::NotFound => Ok(None),
            Err(e) => Err(LocalizerError::File {
                file: name,
                message: e.to_string(),
            }),
        }
    }

    /// The fonts that come with the program.
    pub(crate) fn built_in_fonts() -> impl Iterator<Item = Bytes> {
        FONTS.iter().map(|(_, bytes)| Bytes::new(*bytes))
    }

    /// The fonts in the folders' `fonts`, in the order of their names.
    pub(crate) fn own_fonts(&self) -> std::io::Result<Vec<Bytes>> {
        let mut fonts = Vec::new();
        let folders = [&self.customer, &self.technician].into_iter().flatten();
        for folder in folders.map(|f| f.join("fonts")).filter(|f| f.is_dir()) {
            let mut files = Vec::new();
            for entry in std::fs::read_dir(folder)? {
                let path = entry?.path();
                let kind = path
                    .extension()
                    .and_then(|e| e.to_str())
                    .map(str::to_ascii_lowercase);
                if matches!(kind.as_deref(), Some("otf" | "ttf" | "ttc")) {
                    files.push(path);
                }
            }
            files.sort();
            for file in files {
                fonts.push(Bytes::new(std::fs::read(file)?));
            }
        }
        Ok(fonts)
    }

    /// Returns true if only built-in files are used.
    pub(crate) fn is_built_in(&self) -> bool {
        self.customer.is_none() && self.technician.is_none()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_file_of_the_templates_is_built_in() {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../report-templates");
        let mut on_disk = BTreeSet::new();
        for folder in [
            "customer",
            "customer/components",
            "customer/lang",
            "technician",
            "technician/components",
        ] {
            for entry in std::fs::read_dir(root.join(folder)).unwrap() {
                let entry = entry.unwrap();
                let name = entry.file_name().into_string().unwrap();
                // What is for those who write the files.
                if entry.file_type().unwrap().is_file() && !name.ends_with(".md") {
                    on_disk.insert(format!("{folder}/{name}"));
                }
            }
        }
        let languages = LANGUAGES
            .iter()
            .map(|(name, _)| format!("customer/lang/{name}.ftl"));
        let built_in: BTreeSet<String> = FILES
            .iter()
            .map(|(name, _)| name.to_string())
            .chain(languages)
            .collect();
        assert_eq!(on_disk, built_in);
    }

    #[test]
    fn nothing_outside_the_template_is_read() {
        let template = Template::of(Some(env!("CARGO_MANIFEST_DIR").into()), None);
        assert!(template.read("customer/Cargo.toml").is_ok());
        assert!(template.read("technician/template.typ").is_ok());
        assert!(template.read("customer/template.typ").is_err());
        assert!(template.read("customer/../signal/Cargo.toml").is_err());
        assert!(template.read("/etc/hostname").is_err());
        assert!(template.read("customer//etc/hostname").is_err());
    }
}
