//! From data to PDF: an in-memory Typst world, compiled and exported.

mod glyphs;
mod world;

use crate::ReportError;
use crate::template::Template;
use chrono::{Datelike, NaiveDate};
use glyphs::replace_uncovered;
use serde_json::Value;
use typst::diag::SourceDiagnostic;
use typst::foundations::Smart;
use typst::{World, WorldExt};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};
use world::ReportWorld;

/// What is set: the data the template reads, and what goes into the file's own description.
pub(crate) struct Manuscript<'a> {
    /// The template.
    pub template: &'a Template,
    /// The data; `record.replaced` is filled here.
    pub data: Value,
    /// A stable name of the document; its hash becomes the file's identifier.
    pub ident: String,
    /// The document's date.
    pub date: NaiveDate,
}

/// Typst remembers every compilation; without forgetting, memory grows with each report.
struct Forget;

impl Drop for Forget {
    fn drop(&mut self) {
        typst::comemo::evict(0);
    }
}

/// Sets the manuscript as one file that is PDF/UA-1 and PDF/A-2a at once. The standards' rules are enforced by the exporter.
pub(crate) fn set(mut manuscript: Manuscript<'_>) -> Result<Vec<u8>, ReportError> {
    let _forget = Forget;
    let fonts = world::fonts(manuscript.template)?;
    replace_uncovered(&mut manuscript.data, &fonts);
    let data =
        serde_json::to_vec(&manuscript.data).map_err(|e| ReportError::Data(e.to_string()))?;
    let d = manuscript.date;
    let today = typst::foundations::Datetime::from_ymd(d.year(), d.month() as u8, d.day() as u8);
    let world = ReportWorld::new(manuscript.template, fonts, data, today)?;

    let compiled = typst::compile::<PagedDocument>(&world);
    // A font that is not there would silently be replaced: it counts as an error.
    let missing: Vec<_> = compiled
        .warnings
        .iter()
        .filter(|w| w.message.starts_with("unknown font"))
        .collect();
    if !missing.is_empty() {
        return Err(template_error(&world, missing));
    }
    let document = compiled
        .output
        .map_err(|errors| template_error(&world, &errors))?;

    let standards = PdfStandards::new(&[PdfStandard::Ua_1, PdfStandard::A_2a])
        .map_err(|e| ReportError::Data(e.message().to_string()))?;
    let options = PdfOptions {
        ident: Smart::Custom(manuscript.ident),
        creator: Smart::Custom(Some(concat!("baybrief ", env!("CARGO_PKG_VERSION")).into())),
        standards,
        ..PdfOptions::default()
    };
    typst_pdf::pdf(&document, &options).map_err(|errors| template_error(&world, &errors))
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
        let file = id.vpath().get_without_slash();
        let line = world.range(error.span).and_then(|range| {
            let source = world.source(id).ok()?;
            source.lines().byte_to_line(range.start)
        });
        match line {
            Some(line) => format!("{file}, line {}: ", line + 1),
            None => format!("{file}: "),
        }
    });
    let hints: String = error.hints.iter().map(|h| format!(" ({})", h.v)).collect();
    format!("{}{}{hints}", place.unwrap_or_default(), error.message)
}
