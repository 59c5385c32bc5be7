//! Sentences, templates, logo and terms that all reports of a shop share. Read once.

use crate::localizer::{Localizer, LocalizerError};
use crate::template::Template;
use crate::{ReportError, validate};
use model::shop_file::{AuthorisationSection, LegalText, Paper, ReportSection};
use model::{Exact, ShopFile};
use std::path::{Path, PathBuf};
use typst::foundations::Bytes;

/// The most that a logo may weigh: it is in every report.
const MOST_LOGO_BYTES: usize = 400_000;

/// Sentences, templates, logo and terms that all reports of a shop share.
#[derive(Debug)]
pub struct ReportTheme {
    pub(crate) localizer: Localizer,
    pub(crate) template: Template,
    pub(crate) logo: Option<Logo>,
    pub(crate) legal: Option<LegalText>,
}

/// A picture for the letterhead.
#[derive(Debug, Clone)]
pub(crate) struct Logo {
    /// The file's name, for messages.
    pub name: String,
    /// Its format as the typesetter names it.
    pub format: &'static str,
    pub bytes: Bytes,
}

/// Why a shop's reports could not be prepared.
#[derive(Debug, thiserror::Error)]
pub enum ThemeError {
    /// The language.
    #[error(transparent)]
    Localizer(#[from] LocalizerError),
    /// The template or the logo: tried on an invented case.
    #[error(transparent)]
    Template(#[from] ReportError),
    /// A file that shop.toml names.
    #[error("{file}: {message}")]
    File {
        /// The file.
        file: String,
        /// The fault, and the key of shop.toml that names it.
        message: String,
    },
}

impl ReportTheme {
    /// The built-in templates and sentences.
    ///
    /// # Errors
    /// When there is no such language.
    pub fn built_in(language: &str) -> Result<ReportTheme, LocalizerError> {
        Ok(ReportTheme {
            localizer: Localizer::load(language)?,
            template: Template::default(),
            logo: None,
            legal: None,
        })
    }

    /// Prepares the theme that shop.toml asks for; its paths count from `base`. A template or a logo of the shop's own is
    /// tried on an invented case, so that its errors are known before there is a job.
    ///
    /// # Errors
    /// When the language, a template, a logo or a promise of the shop cannot be used.
    pub fn open(shop: &ShopFile, base: &Path) -> Result<ReportTheme, ThemeError> {
        let section = &shop.report;
        promises(&section.authorisation)?;
        let folder = |own: &Option<PathBuf>| own.as_ref().map(|f| base.join(f));
        let template = Template::of(
            folder(&section.template),
            folder(&section.technician_template),
        );
        for (folder, key) in [
            (&template.customer, "template"),
            (&template.technician, "technician_template"),
        ] {
            if let Some(folder) = folder
                .as_ref()
                .filter(|f| !f.join("template.typ").is_file())
            {
                return Err(ThemeError::File {
                    file: folder.display().to_string(),
                    message: format!(
                        "holds no template.typ; [report] {key} names a folder copied from report-templates"
                    ),
                });
            }
        }
        let theme = ReportTheme {
            localizer: Localizer::of(&template, language(section), section.units)?,
            logo: match &section.logo {
                Some(path) => Some(logo(&base.join(path))?),
                None => None,
            },
            legal: match &section.legal_text {
                Some(path) => Some(legal(&base.join(path))?),
                None => None,
            },
            template,
        };
        if !theme.template.is_built_in() || theme.logo.is_some() {
            validate::validate(&theme, shop)?;
        }
        Ok(theme)
    }

    /// Adds sentences that a plugin brings along, where they are of the report's language (or English, for what that
    /// language lacks). They replace none, and none may be of the report's own.
    ///
    /// # Errors
    /// A text that is no Fluent file, with its line.
    pub fn add_sentences(
        &mut self,
        language: &str,
        file: &str,
        text: &str,
    ) -> Result<(), LocalizerError> {
        self.localizer.add(language, file, text)
    }

    /// The sentences.
    pub fn localizer(&self) -> &Localizer {
        &self.localizer
    }
}

/// Language of the reports and of all else that a shop reads; English on American paper is American.
pub fn language(section: &ReportSection) -> &str {
    match (section.language.as_str(), section.paper) {
        ("en", Paper::UsLetter) => "en-US",
        (language, _) => language,
    }
}

/// Checks that the shop's promises are possible.
fn promises(section: &AuthorisationSection) -> Result<(), ThemeError> {
    let wrong = |message: &str| {
        Err(ThemeError::File {
            file: "shop.toml".into(),
            message: format!("[report.authorisation] {message}"),
        })
    };
    let negative = |v: &Option<Exact>| v.is_some_and(|v| v.0.is_sign_negative());
    if section.limit.is_some() && section.limit_percent.is_some() {
        return wrong("limit and limit_percent say the same thing twice; keep one of them");
    }
    if negative(&section.limit) {
        return wrong("limit: expected a sum of zero or more");
    }
    if negative(&section.limit_percent) {
        return wrong("limit_percent: expected percent above the estimate, zero or more");
    }
    Ok(())
}

fn logo(path: &Path) -> Result<Logo, ThemeError> {
    let name = path.display().to_string();
    let wrong = |message: String| ThemeError::File {
        file: name.clone(),
        message: format!("{message} ([report] logo)"),
    };
    let bytes = std::fs::read(path).map_err(|e| wrong(e.to_string()))?;
    if bytes.len() > MOST_LOGO_BYTES {
        return Err(wrong(format!(
            "the logo has {} bytes and would be in every report; make it smaller than {MOST_LOGO_BYTES}",
            bytes.len()
        )));
    }
    let is_svg = || {
        std::str::from_utf8(&bytes).is_ok_and(|text| {
            text.trim_start_matches('\u{feff}')
                .trim_start()
                .starts_with('<')
        })
    };
    let format = match &bytes {
        b if b.starts_with(b"\x89PNG\r\n\x1a\n") => "png",
        b if b.starts_with(b"\xff\xd8\xff") => "jpg",
        _ if is_svg() => "svg",
        _ => return Err(wrong("is neither SVG, PNG nor JPEG".into())),
    };
    Ok(Logo {
        name,
        format,
        bytes: Bytes::new(bytes),
    })
}

fn legal(path: &Path) -> Result<LegalText, ThemeError> {
    let file = path.display().to_string();
    let wrong = |message: String| ThemeError::File {
        file: file.clone(),
        message,
    };
    let text =
        std::fs::read_to_string(path).map_err(|e| wrong(format!("{e} ([report] legal_text)")))?;
    let text: LegalText = toml::from_str(&text).map_err(|e| wrong(e.to_string()))?;
    // The text is marked with its language, which must be one.
    text.language
        .parse::<unic_langid::LanguageIdentifier>()
        .map_err(|_| {
            wrong(format!(
                "`{}` is no language tag; write one such as `en`",
                text.language
            ))
        })?;
    Ok(text)
}
