//! The readers: files from outside become the words of the house.
//!
//! [`read`] asks every [`FormatReader`] how sure it is that a file is its own, by content and never
//! by name, and lets the surest one read. No input makes a reader panic, hang or allocate more than
//! the file's own size warrants.

pub mod csv;
pub mod error;
mod input;
pub mod mdf;
pub mod npy;
mod number;
pub mod roles;
pub mod scan;
pub mod settings;
mod source;
mod text;
mod time_axis;
mod units;
pub mod vin;
pub mod wav;

pub use error::{ErrorKind, FormatError};
pub use source::Source;
pub use text::Charset;

use model::{Capture, ScanRecord};
use std::path::Path;

/// What a file turned out to be.
#[derive(Debug, Clone)]
pub enum Reading {
    /// A recording.
    Capture(Capture),
    /// A scan tool's text.
    Scan(ScanRecord),
}

/// How sure a reader is that a file is its own.
#[derive(Debug, Clone, PartialEq)]
pub struct Probe {
    /// From 0 (not at all) to 1 (no doubt).
    pub confidence: f64,
    /// Why, in words; also what the file looks like to this reader when the confidence is low.
    pub reason: String,
}

impl Probe {
    fn new(confidence: f64, reason: impl Into<String>) -> Self {
        Probe {
            confidence,
            reason: reason.into(),
        }
    }
}

/// One file format.
pub trait FormatReader: Sync {
    /// The format's name, for a person.
    fn name(&self) -> &'static str;
    /// How sure the reader is that the file is its own; looks at the content only.
    fn probe(&self, source: &Source) -> Probe;
    /// Reads the file.
    fn read(&self, source: &Source) -> Result<Reading, FormatError>;
}

/// Every format that is read.
pub static READERS: [&dyn FormatReader; 5] = [
    &csv::CsvReader,
    &wav::WavReader,
    &mdf::MdfReader,
    &npy::NpyReader,
    &scan::ScanReader,
];

/// Most values that a file which unfolds while it is read may give, over all channels: 1 GiB of them.
pub(crate) const MOST_VALUES: u64 = 1 << 28;

/// Below this confidence a file counts as unknown.
const LEAST_CONFIDENCE: f64 = 0.2;

/// Reads a file, whatever its format. `name` is the file's name inside its job folder, as it is to
/// appear in results and messages. A file that becomes shorter meanwhile is an error.
pub fn read(path: &Path, name: &str) -> Result<Reading, FormatError> {
    let file = std::fs::File::open(path).map_err(|e| FormatError::io(name, &e))?;
    let meta = file.metadata().map_err(|e| FormatError::io(name, &e))?;
    if !meta.is_file() {
        return Err(FormatError::new(
            ErrorKind::Unsupported,
            name,
            None,
            "this is not a regular file",
            "drop the recording itself",
        ));
    }
    read_source(&Source::open(name, &file, meta.len())?)
}

/// Reads a file's content that is already in memory. See [`read`].
pub fn read_bytes(bytes: &[u8], name: &str) -> Result<Reading, FormatError> {
    read_source(&Source::new(name, bytes))
}

fn read_source(source: &Source) -> Result<Reading, FormatError> {
    if source.is_blank() {
        return Err(FormatError::new(
            ErrorKind::Empty,
            source.name,
            None,
            "the file is empty",
            "save the recording again and drop the new file",
        ));
    }
    let mut seen = Vec::new();
    let mut best: Option<(&dyn FormatReader, f64)> = None;
    for reader in READERS {
        let probe = reader.probe(source);
        if best.is_none_or(|(_, c)| probe.confidence > c) {
            best = Some((reader, probe.confidence));
        }
        seen.push(format!("{}: {}", reader.name(), probe.reason));
    }
    match best {
        Some((reader, c)) if c >= LEAST_CONFIDENCE => reader.read(source),
        _ => Err(FormatError::new(
            ErrorKind::Unknown,
            source.name,
            None,
            &format!("the content is of no known kind ({})", seen.join("; ")),
            "save it as CSV, WAV, ASAM MDF 4 or a NumPy array, or as the scan tool's text",
        )),
    }
}
