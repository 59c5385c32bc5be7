//! From data to PDF: an in-memory Typst world, compiled and exported.

mod glyphs;
mod world;

use crate::photo::Photo;
use crate::theme::ReportTheme;
use crate::{Audience, ReportError};
use chrono::{Datelike, NaiveDate};
use glyphs::replace_uncovered;
use serde_json::Value;
use typst::diag::SourceDiagnostic;
use typst::foundations::Smart;
use typst::{World, WorldExt};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};
use world::ReportWorld;

/// Source of a document: data that the template reads, and the file's own description.
pub(crate) struct DocumentSource<'a> {
    /// Templates, fonts, logo.
    pub theme: &'a ReportTheme,
    /// Which of the templates.
    pub audience: Audience,
    /// The data; `replaced` is filled here.
    pub data: Value,
    /// Photos that the data names, in their order.
    pub photos: &'a [Photo],
    /// A stable name of the document; its hash becomes the file's identifier.
    pub ident: String,
    /// The document's date.
    pub date: NaiveDate,
}

/// Compilations for which Typst remembers what none of them needed. Two jobs at a time, each with two reports, find
/// what the reports of their kind needed last: the templates, and what they say every time. It takes half the time.
const REMEMBERED: usize = 4;

/// Typst remembers every compilation; without forgetting, memory grows with each report.
struct Forget;

impl Drop for Forget {
    fn drop(&mut self) {
        typst::comemo::evict(REMEMBERED);
    }
}

/// Sets the document_source as one file that is PDF/UA-1 and PDF/A-2a at once. The standards' rules are enforced by the
/// exporter.
pub(crate) fn set(document_source: DocumentSource<'_>) -> Result<Vec<u8>, ReportError> {
    let _forget = Forget;
    let ident = document_source.ident.clone();
    let world = world(document_source)?;
    let document = compile(&world)?;
    let standards = PdfStandards::new(&[PdfStandard::Ua_1, PdfStandard::A_2a])
        .map_err(|e| ReportError::Data(e.message().to_string()))?;
    let options = PdfOptions {
        ident: Smart::Custom(ident),
        creator: Smart::Custom(Some(concat!("baybrief ", env!("CARGO_PKG_VERSION")).into())),
        standards,
        ..PdfOptions::default()
    };
    typst_pdf::pdf(&document, &options).map_err(|errors| template_error(&world, &errors))
}

/// The pages alone, for looking at them.
pub(crate) fn pages(document_source: DocumentSource<'_>) -> Result<PagedDocument, ReportError> {
    let _forget = Forget;
    compile(&world(document_source)?)
}

fn world(mut document_source: DocumentSource<'_>) -> Result<ReportWorld<'_>, ReportError> {
    let fonts = world::fonts(&document_source.theme.template)?;
    replace_uncovered(&mut document_source.data, &fonts);
    let data =
        serde_json::to_vec(&document_source.data).map_err(|e| ReportError::Data(e.to_string()))?;
    let d = document_source.date;
    let today = typst::foundations::Datetime::from_ymd(d.year(), d.month() as u8, d.day() as u8);
    ReportWorld::new(
        document_source.theme,
        document_source.photos,
        document_source.audience,
        fonts,
        data,
        today,
    )
}

fn compile(world: &ReportWorld<'_>) -> Result<PagedDocument, ReportError> {
    let compiled = typst::compile::<PagedDocument>(world);
    // A font that is not there would silently be replaced: it counts as an error.
    let missing: Vec<_> = compiled
        .warnings
        .iter()
        .filter(|w| w.message.starts_with("unknown font"))
        .collect();
    if !missing.is_empty() {
        return Err(template_error(world, missing));
    }
    compiled
        .output
        .map_err(|errors| template_error(world, &errors))
}

/// The first few errors, each with file, line and what to do.
fn template_error<'e>(
    world: &ReportWorld<'_>,
    errors: impl IntoIterator<Item = &'e SourceDiagnostic>,
) -> ReportError {
    let lines: Vec<String> = errors
        .into_iter()
        .take(5)
        .map(|e| describe(world, e))
        .collect();
    ReportError::Template(lines.join("\n"))
}

fn describe(world: &ReportWorld<'_>, error: &SourceDiagnostic) -> String {
    let place = error.span.id().map(|id| {
        let file = world.shown(id);
        let line = world.range(error.span).and_then(|range| {
            let source = world.source(id).ok()?;
            source.lines().byte_to_line(range.start)
        });
        match line {
            Some(line) => format!("{file}, line {}: ", line + 1),
            None => format!("{file}: "),
        }
    });
    let mut hints: String = error.hints.iter().map(|h| format!(" ({})", h.v)).collect();
    // A picture's error has the place of the template that sets it, not the name of the picture.
    if let Some(logo) = world
        .logo_name()
        .filter(|_| error.message.contains("image"))
    {
        hints.push_str(&format!(" (the logo is {logo})"));
    }
    format!("{}{}{hints}", place.unwrap_or_default(), error.message)
}
