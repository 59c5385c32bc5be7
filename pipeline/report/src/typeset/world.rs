//! The only door that Typst has to files, fonts and the date: all of it in memory.

use crate::photo::Photo;
use crate::template::Template;
use crate::theme::ReportTheme;
use crate::{Audience, ReportError};
use std::sync::LazyLock;
use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};

/// Paths of the template's data, of the logo where there is one, and of the photos: `photo-0`, `photo-1`, ...
const DATA: &str = "report.json";
const LOGO: &str = "logo";
const PHOTO: &str = "photo-";

static LIBRARY: LazyLock<LazyHash<Library>> = LazyLock::new(|| LazyHash::new(Library::default()));

/// Fonts and their register.
#[derive(Clone)]
pub(super) struct Fonts {
    book: LazyHash<FontBook>,
    fonts: Vec<Font>,
}

impl Fonts {
    fn load(files: Vec<Bytes>) -> Fonts {
        let fonts: Vec<Font> = files.into_iter().flat_map(Font::iter).collect();
        Fonts {
            book: LazyHash::new(FontBook::from_fonts(&fonts)),
            fonts,
        }
    }

    /// Returns true if some font has a glyph for the character.
    pub(super) fn cover(&self, c: char) -> bool {
        self.fonts
            .iter()
            .any(|f| f.info().coverage.contains(c as u32))
    }
}

/// The fonts of a template. The built-in ones are loaded once.
pub(super) fn fonts(template: &Template) -> Result<Fonts, ReportError> {
    static BUILT_IN: LazyLock<Fonts> =
        LazyLock::new(|| Fonts::load(Template::built_in_fonts().collect()));
    let own = template
        .own_fonts()
        .map_err(|e| ReportError::Template(format!("fonts of the template folder: {e}")))?;
    if own.is_empty() {
        return Ok(BUILT_IN.clone());
    }
    Ok(Fonts::load(Template::built_in_fonts().chain(own).collect()))
}

/// One report's world.
pub(super) struct ReportWorld<'a> {
    theme: &'a ReportTheme,
    photos: &'a [Photo],
    fonts: Fonts,
    data: Bytes,
    main: FileId,
    today: Option<Datetime>,
}

impl<'a> ReportWorld<'a> {
    pub(super) fn new(
        theme: &'a ReportTheme,
        photos: &'a [Photo],
        audience: Audience,
        fonts: Fonts,
        data: Vec<u8>,
        today: Option<Datetime>,
    ) -> Result<Self, ReportError> {
        let main = match audience {
            Audience::Customer => "customer/template.typ",
            Audience::Technician => "technician/template.typ",
        };
        let path = VirtualPath::new(main).map_err(|e| ReportError::Data(e.to_string()))?;
        let main = RootedPath::new(VirtualRoot::Project, path).intern();
        Ok(ReportWorld {
            theme,
            photos,
            fonts,
            data: Bytes::new(data),
            main,
            today,
        })
    }

    fn read(&self, id: FileId) -> FileResult<Bytes> {
        if *id.root() != VirtualRoot::Project {
            return Err(FileError::Other(Some(
                "a report's template cannot use packages; copy what it needs into its folder"
                    .into(),
            )));
        }
        match id.vpath().get_without_slash() {
            DATA => Ok(self.data.clone()),
            LOGO => match &self.theme.logo {
                Some(logo) => Ok(logo.bytes.clone()),
                None => Err(FileError::NotFound(LOGO.into())),
            },
            path => match self.photo(path) {
                Some(photo) => Ok(photo.jpeg.clone()),
                None => self.theme.template.read(path),
            },
        }
    }

    fn photo(&self, path: &str) -> Option<&Photo> {
        let number = path.strip_prefix(PHOTO)?;
        self.photos.get(number.parse::<usize>().ok()?)
    }

    /// A file's name as a person would look for it.
    pub(super) fn shown(&self, id: FileId) -> String {
        self.theme.template.shown(id.vpath().get_without_slash())
    }

    /// The logo's file.
    pub(super) fn logo_name(&self) -> Option<&str> {
        self.theme.logo.as_ref().map(|l| l.name.as_str())
    }
}

impl World for ReportWorld<'_> {
    fn library(&self) -> &LazyHash<Library> {
        &LIBRARY
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &self.fonts.book
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        self.theme.template.parsed(id, &self.read(id)?)
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        self.read(id)
    }

    fn font(&self, index: usize) -> Option<Font> {
        self.fonts.fonts.get(index).cloned()
    }

    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        self.today
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Names of people and places in the three scripts of Europe can be printed: the letters of the Unicode blocks
    /// Latin-1 Supplement, Latin Extended-A, Greek and Coptic (the modern letters) and Cyrillic (the letters of today's
    /// languages of Europe), block ranges as Unicode has them.
    #[test]
    fn latin_greek_and_cyrillic_are_covered() {
        let fonts = fonts(&Template::default()).unwrap();
        let blocks = [
            'A'..='z',
            '\u{c0}'..='\u{17f}',
            '\u{386}'..='\u{3ce}',
            '\u{400}'..='\u{45f}',
        ];
        let lost: String = blocks
            .into_iter()
            .flatten()
            .filter(|c| c.is_alphabetic() && !fonts.cover(*c))
            // U+0149 is deprecated (Unicode, Latin Extended-A).
            .filter(|c| *c != '\u{149}')
            .collect();
        assert_eq!(lost, "");
        assert!(!fonts.cover('漢') && !fonts.cover('م'));
    }
}
