//! The pictures that carry the verdict.

mod axis;
mod choose;
mod marks;
mod path;
mod plot;
mod row;
mod words;

pub(crate) use axis::{Ticks, ticks};
pub use choose::choose;
pub(crate) use path::svg_path;

use model::Grade;
use signal::envelope::Runs;

/// Columns of a wide panel and of a narrow one: about 150 a printed inch.
pub(crate) const WIDE_COLUMNS: usize = 640;
pub(crate) const NARROW_COLUMNS: usize = 400;

/// Speed over time of one channel, as it was derived from its pulses.
#[derive(Debug, Clone, PartialEq)]
pub struct SpeedCurve {
    /// The recording's file name.
    pub file: String,
    /// Role of the channel.
    pub role: String,
    /// Unit of the values: `rpm`, or `Hz` for teeth per second.
    pub unit: &'static str,
    /// Time of the first value, s of the file's own time.
    pub start_s: f64,
    /// Time from one value to the next, s.
    pub step_s: f64,
    /// Speeds; zero where rest is proven, NaN where nothing proves a speed.
    pub values: Vec<f64>,
}

/// One picture: rows one above the other, over one time axis or two side by side.
#[derive(Debug, Clone, PartialEq)]
pub struct EvidencePlot {
    /// Subject of the picture: recordings and conditions.
    pub title: String,
    /// Time axes, one or two.
    pub panels: Vec<Panel>,
    /// The rows, from top to bottom.
    pub rows: Vec<PlotRow>,
    /// One sentence that says what the picture shows.
    pub caption: String,
    /// Description of the picture for those who cannot see it.
    pub alt: String,
}

/// One time axis.
#[derive(Debug, Clone, PartialEq)]
pub struct Panel {
    /// Part that it shows.
    pub part: Part,
    /// The recording's file name.
    pub file: String,
    /// First and last instant shown, s of the file's own time.
    pub span: (f64, f64),
}

/// Part of the recordings that a panel shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// A whole recording.
    Whole,
    /// The moment that decides, enlarged.
    Detail,
    /// The recording before the repair.
    Before,
    /// The recording after it.
    After,
}

/// One row: traces on a common scale.
#[derive(Debug, Clone, PartialEq)]
pub struct PlotRow {
    /// Quantity in words; that of its trace where it has only one.
    pub label: String,
    /// Unit of the values.
    pub unit: String,
    /// Values at the bottom and the top of the picture.
    pub range: (f64, f64),
    /// The traces.
    pub traces: Vec<Trace>,
    /// Known-good ranges, for each panel.
    pub bands: Vec<Vec<Band>>,
    /// The range in words; `None` without bands.
    pub band_label: Option<String>,
}

/// One trace.
#[derive(Debug, Clone, PartialEq)]
pub struct Trace {
    /// Subject, with its value where that is known: "Input shaft 2: 413 rpm".
    pub label: String,
    /// The trace as an envelope, for each panel.
    pub runs: Vec<Runs>,
    /// Marked spans, for each panel.
    pub marks: Vec<Vec<Mark>>,
}

/// A known-good range over the time in which it judges; an open end reaches the edge of the picture.
#[derive(Debug, Clone, PartialEq)]
pub struct Band {
    /// Lowest good value.
    pub low: Option<f64>,
    /// Highest good value.
    pub high: Option<f64>,
    /// Start, s.
    pub start_s: f64,
    /// End, s.
    pub end_s: f64,
    /// Number of healthy vehicles whose curve it is a piece of; `None` for a limit.
    pub vehicles: Option<usize>,
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
