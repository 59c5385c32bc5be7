//! The pictures that carry the verdict.

mod axis;
mod choose;
mod path;
mod row;
mod window;

pub(crate) use axis::{Ticks, ticks};
pub use choose::choose;
pub(crate) use path::svg_path;

use model::Grade;
use signal::envelope::Runs;

/// Columns of a whole trace and of a detail: about 150 a printed inch.
pub(crate) const WHOLE_COLUMNS: usize = 640;
pub(crate) const DETAIL_COLUMNS: usize = 320;

/// One picture: traces of one recording, one above the other on one time axis.
#[derive(Debug, Clone, PartialEq)]
pub struct EvidencePlot {
    /// Subject of the picture: recording and conditions.
    pub title: String,
    /// The recording's file name.
    pub file: String,
    /// First and last instant shown, s of the file's own time.
    pub span: (f64, f64),
    /// The part that is shown again, enlarged, s.
    pub window: Option<(f64, f64)>,
    /// The traces, from top to bottom.
    pub rows: Vec<PlotRow>,
    /// One sentence that says what the picture shows.
    pub caption: String,
    /// Description of the picture for those who cannot see it.
    pub alt: String,
}

/// One trace.
#[derive(Debug, Clone, PartialEq)]
pub struct PlotRow {
    /// Quantity that was measured, with its value where that is known: "Input shaft 2".
    pub label: String,
    /// Unit of the values.
    pub unit: String,
    /// Values at the bottom and the top of the picture.
    pub range: (f64, f64),
    /// The whole trace as an envelope.
    pub whole: Runs,
    /// The trace inside the plot's window, as an envelope.
    pub detail: Runs,
    /// Range of a good value.
    pub band: Option<Band>,
    /// Marks.
    pub marks: Vec<Mark>,
}

/// A known-good range; an open end reaches the edge of the picture.
#[derive(Debug, Clone, PartialEq)]
pub struct Band {
    /// Lowest good value.
    pub low: Option<f64>,
    /// Highest good value.
    pub high: Option<f64>,
    /// Text.
    pub label: String,
}

/// A marked span of time.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Start, s.
    pub start_s: f64,
    /// End, s.
    pub end_s: f64,
    /// Event; empty where a neighbour's label says it.
    pub label: String,
    /// Grade.
    pub grade: Grade,
}
