//! The reports: from a case to a PDF.
//!
//! [`ReportTheme`] is what all reports of a shop have in common, [`evidence::choose`] picks the pictures, [`render`]
//! sets a report for the customer or the technician. Nothing is decided here: every conclusion comes from the case.
//! Sentences come from `lang/*.ftl` ([`localizer::Localizer`]), the look from `template.typ`; all text from outside reaches
//! Typst as data, never as markup.

pub mod evidence;
pub mod localizer;
mod page;
mod photo;
mod template;
mod theme;
mod typeset;
mod validate;

use chrono::NaiveDateTime;
pub use evidence::{EvidencePlot, SpeedCurve};
use model::labour::LabourTotals;
use model::party::Parties;
use model::{Case, ShopFile};
pub use photo::{MAX_PHOTO_BYTES, Photo, PhotoError};
pub use theme::{ReportTheme, ThemeError, language};
use typeset::DocumentSource;
use typst_layout::PagedDocument;

/// Everything that a report is made of.
#[derive(Debug, Clone, Copy)]
pub struct ReportInput<'a> {
    /// The case.
    pub case: &'a Case,
    /// The shop: its name, paper, place.
    pub shop: &'a ShopFile,
    /// Localizer, templates, logo and terms of the shop.
    pub theme: &'a ReportTheme,
    /// Advice of the verdict's cause sheet; `None` where there is no cause.
    pub advice: Option<&'a Advice>,
    /// Keys of the safety messages for the work that is left to be done.
    pub cautions: &'a [String],
    /// Keys of the safety messages for the driver.
    pub driver: &'a [String],
    /// Who called, who owns the vehicle, who examined it.
    pub parties: &'a Parties,
    /// The pictures, in the order in which they are shown.
    pub evidence: &'a [EvidencePlot],
    /// Photos, shown to the customer below the pictures.
    pub photos: &'a [Photo],
    /// The sums of `case.labour`; `None` when nothing is priced.
    pub totals: Option<&'a LabourTotals>,
    /// Who reviewed the report and when; `None` makes it a draft.
    pub reviewed: Option<&'a Reviewed>,
    /// Review of an earlier revision, which what has changed since has undone.
    pub earlier_review: Option<&'a Reviewed>,
}

/// Whom a report is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Audience {
    /// The customer: the answer first, in words that a driver understands.
    Customer,
    /// The technician: every number with its uncertainty, limit and method, every weight for and against each cause.
    Technician,
}

/// Advice of a cause sheet: keys of `lang/*.ftl`.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Advice {
    /// The cause.
    pub cause: String,
    /// Steps of the repair, in order.
    pub repair: Vec<String>,
    /// Parts that a teardown opens, and the reason; `None` where the repair opens nothing.
    pub opens: Option<String>,
    /// Parts that opening uses up.
    pub destroys: Option<String>,
    /// The recording that proves the repair.
    pub proof: Option<String>,
}

/// A person's review of the report.
#[derive(Debug, Clone, PartialEq)]
pub struct Reviewed {
    /// Who.
    pub by: String,
    /// When, in the shop's time.
    pub at: NaiveDateTime,
    /// Remark of that person.
    pub note: Option<String>,
}

/// Why a report could not be set.
#[derive(Debug, thiserror::Error)]
pub enum ReportError {
    /// The template does not compile, or breaks a rule of PDF/UA-1 or PDF/A-2a. One line per error, with
    /// file and line.
    #[error("the report's template has an error:\n{0}")]
    Template(String),
    /// The data could not be handed to the template.
    #[error("the report's data could not be handed to the template: {0}")]
    Data(String),
}

/// Sets the report as a PDF that is PDF/UA-1 and PDF/A-2a at once. The same input gives the same bytes:
/// the document's date is the day the job was opened, else that of the review, else 1970-01-01; no clock is read.
///
/// # Errors
/// When the template cannot be set; the error names file and line.
pub fn render(input: &ReportInput<'_>, audience: Audience) -> Result<Vec<u8>, ReportError> {
    typeset::set(document_source(input, audience)?)
}

/// The safety messages of a report, worst first.
pub fn cautions(input: &ReportInput<'_>) -> Vec<localizer::Caution> {
    page::cautions(input)
}

/// Running text of the customer's report, a paragraph each, for checks of how well it reads.
pub fn prose(input: &ReportInput<'_>) -> Vec<String> {
    page::prose(input)
}

/// The pages of the same report, for those who draw them otherwise than as a PDF.
///
/// # Errors
/// As [`render`].
pub fn pages(input: &ReportInput<'_>, audience: Audience) -> Result<PagedDocument, ReportError> {
    typeset::pages(document_source(input, audience)?)
}

fn document_source<'a>(
    input: &ReportInput<'a>,
    audience: Audience,
) -> Result<DocumentSource<'a>, ReportError> {
    // An archivable document must have a date. Where nobody has stated one, the epoch stands for "not known".
    let date = input
        .case
        .job
        .opened
        .or(input.reviewed.map(|r| r.at.date()))
        .unwrap_or_default();
    let kind = match audience {
        Audience::Customer => "report",
        Audience::Technician => "technician's report",
    };
    Ok(DocumentSource {
        theme: input.theme,
        audience,
        data: page::data(input, audience, date)?,
        photos: input.photos,
        ident: format!("baybrief {kind} {}", input.case.job.number),
        date,
    })
}
