//! A format: how sure it is of a file, why a file is incomplete, and the reading itself.

use crate::{FormatError, Source};
use model::{Capture, ScanRecord};

/// Content of a file.
#[derive(Debug, Clone)]
pub enum Reading {
    /// A recording.
    Capture(Capture),
    /// A scan tool's text, or a log of bus frames with what it says as diagnostics.
    Scan(ScanRecord),
    /// A photo, kept as it is.
    Photo {
        /// For a person: "JPEG photo".
        read_as: String,
    },
}

impl Reading {
    /// Kind of the file as case.json names it: `capture`, `scan`, `bus-log` or `photo`.
    pub fn kind(&self) -> &'static str {
        match self {
            Reading::Capture(_) => "capture",
            Reading::Scan(scan) if scan.bus_log.is_some() => "bus-log",
            Reading::Scan(_) => "scan",
            Reading::Photo { .. } => "photo",
        }
    }

    /// Words on the reading for a person.
    pub fn read_as(&self) -> &str {
        match self {
            Reading::Capture(capture) => &capture.read_as,
            Reading::Scan(scan) => &scan.read_as,
            Reading::Photo { read_as } => read_as,
        }
    }
}

/// Confidence of a reader that a file is its own.
#[derive(Debug, Clone, PartialEq)]
pub struct Probe {
    /// From 0 (not at all) to 1 (no doubt).
    pub confidence: f64,
    /// Reason in words; also what the file looks like to this reader when the confidence is low.
    pub reason: String,
}

impl Probe {
    /// A confidence from 0 to 1 and its reason.
    pub fn new(confidence: f64, reason: impl Into<String>) -> Self {
        Probe {
            confidence,
            reason: reason.into(),
        }
    }
}

/// Reason why a file is incomplete.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Incomplete {
    /// Complete but for the end of its last line.
    LastLine(String),
    /// More than that is missing.
    Rest(String),
}

/// One file format. No input makes a reader panic, hang, or allocate more than the file's own size warrants.
pub trait FormatReader: Sync {
    /// The format's name, for a person.
    fn name(&self) -> &'static str;

    /// Confidence that the file is of this format, by its content only.
    fn probe(&self, source: &Source) -> Probe;

    /// Reads the file.
    ///
    /// # Errors
    /// Place in the file, what was expected, what to do.
    fn read(&self, source: &Source) -> Result<Reading, FormatError>;

    /// Reason why the file is incomplete; `None` if complete, unknown or of another format. Looks at the beginning, the
    /// end and the lengths that a header promises.
    fn incomplete(&self, _source: &Source) -> Option<Incomplete> {
        None
    }
}
