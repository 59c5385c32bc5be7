//! Recordings as delimited text.

mod alike;
pub(crate) mod axis;
mod blocks;
mod cut;
mod edges;
mod fast;
mod judge;
mod layout;
mod level;
mod metadata;
mod oddity;
mod parallel;
mod rows;
pub(crate) mod stamp;
mod stamps;
mod table;
#[cfg(test)]
mod tests;

use crate::text::Text;
use crate::{ErrorKind, FormatError, FormatReader, Probe, Reading, Source};
pub(crate) use cut::is_cut;
pub(crate) use layout::Layout;

/// Most columns a table may have.
pub(crate) const MOST_COLUMNS: usize = 4096;
/// Longest line, bytes.
pub(crate) const LONGEST_LINE: usize = 1 << 20;
/// How much of the text is looked at to find out how it is laid out, bytes.
const HEAD: usize = 1 << 18;

/// Reads delimited text: comma, semicolon, tab or bar; decimal point or comma; with or without
/// metadata lines, a header, a unit row and a time column.
pub struct CsvReader;

impl FormatReader for CsvReader {
    fn name(&self) -> &'static str {
        "CSV"
    }

    fn probe(&self, source: &Source) -> Probe {
        match source.layout() {
            Err(reason) => Probe::new(0.0, reason.as_str()),
            Ok(layout) => {
                let rows = layout.rows_seen;
                let timed = axis::source(layout).is_some();
                let confidence = match rows {
                    10.. if timed => 0.95,
                    10.. => 0.5,
                    few => 0.3 + 0.02 * few as f64,
                };
                Probe::new(
                    confidence,
                    format!("a table of numbers, {} columns", layout.columns.len()),
                )
            }
        }
    }

    fn read(&self, source: &Source) -> Result<Reading, FormatError> {
        match (source.text(), source.layout()) {
            (Some(text), Ok(layout)) => {
                table::read(source.name, text, layout).map(Reading::Capture)
            }
            (_, layout) => {
                let seen = layout.as_ref().err().map_or("not text", |e| e.as_str());
                Err(FormatError::new(
                    ErrorKind::Unknown,
                    source.name,
                    None,
                    &format!("no table of numbers was found: {seen}"),
                    "export the recording as CSV with one row per sample",
                ))
            }
        }
    }
}

/// The layout of a text, or why it has none.
pub(crate) fn find_layout(text: Option<&Text>) -> Result<Layout, String> {
    let text = text.ok_or("not text")?;
    let (head, whole) = text.head(HEAD);
    Layout::find(&head, whole)
}
