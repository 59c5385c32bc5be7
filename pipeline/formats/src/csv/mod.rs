//! Recordings as delimited text.

mod axis;
mod blocks;
mod cells;
mod cut;
mod edges;
mod fast;
mod layout;
mod level;
mod metadata;
mod parallel;
mod rows;
mod same_shape;
mod score;
mod stamps;
mod table;
#[cfg(test)]
mod tests;
mod warnings;

use crate::text::Text;
use crate::{ErrorKind, FormatError, FormatReader, Incomplete, Probe, Reading, Source};
use layout::Layout;

/// Length of the text that is looked at to find out how it is laid out, bytes.
const HEAD: usize = 1 << 18;

/// Reads delimited text: comma, semicolon, tab or bar; decimal point or comma; with or without
/// metadata lines, a header, a unit row and a time column.
pub struct CsvReader;

/// The layout of a text, or the reason why it has none; found once for probing and reading.
fn layout<'s>(source: &'s Source) -> &'s Result<Layout, String> {
    source.keep(|| {
        let text: &Text = source.text().ok_or("not text")?;
        let (head, whole) = text.head(HEAD);
        Layout::find(&head, whole)
    })
}

impl FormatReader for CsvReader {
    fn name(&self) -> &'static str {
        "CSV"
    }

    fn probe(&self, source: &Source) -> Probe {
        match layout(source) {
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
        match (source.text(), layout(source)) {
            (Some(text), Ok(layout)) => table::read(source, text, layout).map(Reading::Capture),
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

    fn incomplete(&self, source: &Source) -> Option<Incomplete> {
        let (text, layout) = (source.text()?, layout(source).as_ref().ok()?);
        cut::is_cut(text, layout).then(|| Incomplete::LastLine("its last line breaks off".into()))
    }
}
