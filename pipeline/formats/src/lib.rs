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
mod unfinished;
mod units;
pub mod vin;
pub mod wav;

pub use error::{ErrorKind, FormatError};
pub use source::Source;
pub use text::Charset;
pub use unfinished::unfinished;

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

/// What a format makes of a file.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Opinion {
    /// The format's name.
    pub format: &'static str,
    /// From 0 (not at all) to 1 (no doubt).
    pub confidence: f64,
    /// Why, in words.
    pub reason: String,
}

/// A file as it was read, and why so.
#[derive(Debug)]
pub struct Looked {
    /// What every format makes of it, the surest first.
    pub opinions: Vec<Opinion>,
    /// What the surest made of it.
    pub reading: Result<Reading, FormatError>,
}

/// Reads a file, whatever its format. `name` is the file's name inside its job folder, as it is to
/// appear in results and messages. A file that becomes shorter meanwhile is an error.
pub fn read(path: &Path, name: &str) -> Result<Reading, FormatError> {
    look(path, name)?.reading
}

/// Reads a file like [`read`] and says why it was read so.
///
/// # Errors
/// When the file cannot be opened or is no regular file; what its content is wrong with is in the reading.
pub fn look(path: &Path, name: &str) -> Result<Looked, FormatError> {
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
    Ok(look_at(&Source::open(name, &file, meta.len())?))
}

/// A channel's name as readers give it: without the unit that a header or a person writes behind it.
pub fn channel_name(header: &str) -> String {
    units::split(header).0
}

/// Reads a file's content that is already in memory. See [`read`].
pub fn read_bytes(bytes: &[u8], name: &str) -> Result<Reading, FormatError> {
    look_at(&Source::new(name, bytes)).reading
}

fn look_at(source: &Source) -> Looked {
    if source.is_blank() {
        let empty = FormatError::new(
            ErrorKind::Empty,
            source.name,
            None,
            "the file is empty",
            "save the recording again and drop the new file",
        );
        return Looked {
            opinions: Vec::new(),
            reading: Err(empty),
        };
    }
    let mut asked: Vec<(&dyn FormatReader, Probe)> =
        READERS.into_iter().map(|r| (r, r.probe(source))).collect();
    // The sort keeps the order of the readers among equals.
    asked.sort_by(|a, b| b.1.confidence.total_cmp(&a.1.confidence));
    let reading = match asked.first() {
        Some((reader, probe)) if probe.confidence >= LEAST_CONFIDENCE => reader.read(source),
        _ => {
            let seen: Vec<String> = asked
                .iter()
                .map(|(r, p)| format!("{}: {}", r.name(), p.reason))
                .collect();
            Err(FormatError::new(
                ErrorKind::Unknown,
                source.name,
                None,
                &format!("the content is of no known kind ({})", seen.join("; ")),
                "save it as CSV, WAV, ASAM MDF 4 or a NumPy array, or as the scan tool's text",
            ))
        }
    };
    let opinion = |(reader, probe): (&dyn FormatReader, Probe)| Opinion {
        format: reader.name(),
        confidence: probe.confidence,
        reason: probe.reason,
    };
    Looked {
        opinions: asked.into_iter().map(opinion).collect(),
        reading,
    }
}
