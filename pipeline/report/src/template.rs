//! The template's files: built in, or a shop's own folder laid over them.

use std::path::{Component, Path, PathBuf};
use typst::diag::{FileError, FileResult};
use typst::foundations::Bytes;

macro_rules! built_in {
    ($root:literal: $($path:literal),* $(,)?) => {
        &[$(($path, include_bytes!(concat!(
            env!("CARGO_MANIFEST_DIR"), "/../../report-templates/", $root, "/", $path
        )) as &[u8])),*]
    };
}

/// The customer's template, by path.
const FILES: &[(&str, &[u8])] = built_in!("customer":
    "template.typ",
    "components/answer.typ",
    "components/authorisation.typ",
    "components/cautions.typ",
    "components/cost.typ",
    "components/evidence.typ",
    "components/furniture.typ",
    "components/record.typ",
    "components/scale.typ",
    "components/theme.typ",
    "lang/en.ftl",
);

/// The fonts, each with its licence in `report-templates/fonts`.
const FONTS: &[(&str, &[u8])] = built_in!("fonts":
    "Inter-Bold.otf",
    "Inter-Italic.otf",
    "Inter-Regular.otf",
    "Inter-SemiBold.otf",
);

/// Where the template's files come from.
#[derive(Debug, Clone)]
pub(crate) struct Template {
    folder: Option<PathBuf>,
}

impl Template {
    /// The built-in files.
    pub(crate) fn built_in() -> Template {
        Template { folder: None }
    }

    /// A shop's folder; what it does not hold is taken from the built-in files.
    pub(crate) fn in_folder(folder: &Path) -> Template {
        Template {
            folder: Some(folder.to_owned()),
        }
    }

    /// A file by its path inside the template, with forward slashes.
    pub(crate) fn read(&self, path: &str) -> FileResult<Bytes> {
        let inside = Path::new(path);
        if !inside
            .components()
            .all(|c| matches!(c, Component::Normal(_)))
        {
            return Err(FileError::AccessDenied);
        }
        if let Some(folder) = &self.folder {
            let file = folder.join(inside);
            match std::fs::read(&file) {
                Ok(bytes) => return Ok(Bytes::new(bytes)),
                Err(e) if e.kind() == std::io::ErrorKind::NotFound => {}
                Err(e) => return Err(FileError::from_io(e, &file)),
            }
        }
        FILES
            .iter()
            .find(|(name, _)| *name == path)
            .map(|(_, bytes)| Bytes::new(*bytes))
            .ok_or_else(|| FileError::NotFound(inside.to_owned()))
    }

    /// The built-in fonts, and those in the folder's `fonts` in the order of their names.
    pub(crate) fn fonts(&self) -> std::io::Result<Vec<Bytes>> {
        let mut fonts: Vec<Bytes> = FONTS.iter().map(|(_, bytes)| Bytes::new(*bytes)).collect();
        let Some(folder) = self
            .folder
            .as_ref()
            .map(|f| f.join("fonts"))
            .filter(|f| f.is_dir())
        else {
            return Ok(fonts);
        };
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
        Ok(fonts)
    }

    /// Whether only built-in files are used.
    pub(crate) fn is_built_in(&self) -> bool {
        self.folder.is_none()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_file_of_the_folder_is_built_in() {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../report-templates/customer");
        let mut on_disk = BTreeSet::new();
        for folder in ["", "components", "lang"] {
            for entry in std::fs::read_dir(root.join(folder)).unwrap() {
                let entry = entry.unwrap();
                if entry.file_type().unwrap().is_file() {
                    let name = entry.file_name().into_string().unwrap();
                    on_disk.insert(if folder.is_empty() {
                        name
                    } else {
                        format!("{folder}/{name}")
                    });
                }
            }
        }
        on_disk.retain(|name| !name.ends_with(".md"));
        let built_in: BTreeSet<String> = FILES.iter().map(|(name, _)| name.to_string()).collect();
        assert_eq!(on_disk, built_in);
    }

    #[test]
    fn nothing_outside_the_template_is_read() {
        let template = Template::in_folder(Path::new(env!("CARGO_MANIFEST_DIR")));
        assert!(template.read("Cargo.toml").is_ok());
        assert!(template.read("../signal/Cargo.toml").is_err());
        assert!(template.read("/etc/hostname").is_err());
    }
}
