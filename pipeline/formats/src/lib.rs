//! Readers of recordings.
//!
//! [`read`] asks every [`FormatReader`] for its confidence that a file is its own, by content and never by name, and lets
//! the surest one read.

pub mod clock;
pub mod csv;
pub mod error;
mod foreign;
mod input;
pub mod mdf;
pub mod npy;
pub mod number;
mod reader;
mod source;
pub mod text;
mod time_axis;
pub mod units;
pub mod wav;
pub mod words;

pub use error::{ErrorKind, FormatError};
pub use foreign::PhotoReader;
pub use reader::{FormatReader, Incomplete, Probe, Reading};
pub use source::{Limits, Source};
pub use text::Charset;

use std::fs::File;
use std::os::unix::fs::OpenOptionsExt;
use std::path::Path;
use std::sync::atomic::AtomicU64;

/// Every format of recordings, and photos.
pub static READERS: [&dyn FormatReader; 5] = [
    &csv::CsvReader,
    &wav::WavReader,
    &mdf::MdfReader,
    &npy::NpyReader,
    &PhotoReader,
];

/// Below this confidence a file counts as unknown.
const LEAST_CONFIDENCE: f64 = 0.2;

/// Opinion of one format on a file.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Opinion {
    /// The format's name.
    pub format: &'static str,
    /// From 0 (not at all) to 1 (no doubt).
    pub confidence: f64,
    /// Reason in words.
    pub reason: String,
}

/// A file as it was read, and why so.
#[derive(Debug)]
pub struct Inspection {
    /// Opinions of all formats, the surest first.
    pub opinions: Vec<Opinion>,
    /// Reading by the surest format.
    pub reading: Result<Reading, FormatError>,
}

/// Reads a file by the surest of the readers. `name` is the file's name inside its job folder, as it is to appear in
/// results and messages.
///
/// # Errors
/// A file that cannot be opened, is of no known format, becomes shorter meanwhile, or contradicts itself.
pub fn read(
    path: &Path,
    name: &str,
    readers: &[&dyn FormatReader],
    limits: Limits,
) -> Result<Reading, FormatError> {
    inspect(path, name, readers, limits)?.reading
}

/// Reads an open file like [`read`]. `reached` is kept at the end of what was read so far, bytes.
///
/// # Errors
/// As [`read`].
pub fn read_file(
    file: &File,
    name: &str,
    readers: &[&dyn FormatReader],
    limits: Limits,
    reached: Option<&AtomicU64>,
) -> Result<Reading, FormatError> {
    let len = regular(file, name)?;
    let source = Source::open(name, file, len, limits, reached)?;
    inspect_source(&source, readers).reading
}

/// Reads a file like [`read`] and says why it was read so.
///
/// # Errors
/// A file that cannot be opened or is no regular file; errors of its content are in the reading.
pub fn inspect(
    path: &Path,
    name: &str,
    readers: &[&dyn FormatReader],
    limits: Limits,
) -> Result<Inspection, FormatError> {
    let (file, len) = open(path, name)?;
    let source = Source::open(name, &file, len, limits, None)?;
    Ok(inspect_source(&source, readers))
}

/// Reads a file's content that is already in memory. See [`read`].
///
/// # Errors
/// As [`read`].
pub fn read_bytes(
    bytes: &[u8],
    name: &str,
    readers: &[&dyn FormatReader],
) -> Result<Reading, FormatError> {
    inspect_source(&Source::new(name, bytes), readers).reading
}

/// Reason why a file is incomplete, by its content: nothing in it, a header that promises more than there is, a writer
/// that has not set its closing mark, a last line that breaks off. `None` if complete, unknown, or not to be opened.
pub fn incomplete(path: &Path) -> Option<Incomplete> {
    let (file, len) = open(path, "").ok()?;
    incomplete_source(&Source::open("", &file, len, Limits::default(), None).ok()?)
}

fn incomplete_source(source: &Source) -> Option<Incomplete> {
    if source.is_blank() {
        return Some(Incomplete::Rest("there is nothing in it".into()));
    }
    READERS.iter().find_map(|r| r.incomplete(source))
}

/// A regular file and its length in bytes.
fn open(path: &Path, name: &str) -> Result<(File, u64), FormatError> {
    // Opening a named pipe would wait for a writer.
    let opened = File::options()
        .read(true)
        .custom_flags(rustix::fs::OFlags::NONBLOCK.bits().cast_signed())
        .open(path);
    let file = opened.map_err(|e| FormatError::io(name, &e))?;
    let len = regular(&file, name)?;
    Ok((file, len))
}

/// Length of an open file in bytes; an error where it is a pipe, a folder or a device.
fn regular(file: &File, name: &str) -> Result<u64, FormatError> {
    let meta = file.metadata().map_err(|e| FormatError::io(name, &e))?;
    match meta.is_file() {
        true => Ok(meta.len()),
        false => Err(FormatError::new(
            ErrorKind::Unsupported,
            name,
            None,
            "this is not a regular file",
            "add the recording itself",
        )),
    }
}

fn inspect_source(source: &Source, readers: &[&dyn FormatReader]) -> Inspection {
    let alone = |error: FormatError| Inspection {
        opinions: Vec::new(),
        reading: Err(error),
    };
    if source.is_blank() {
        return alone(FormatError::new(
            ErrorKind::Empty,
            source.name,
            None,
            "the file is empty",
            "save the recording again and add the new file",
        ));
    }
    if let Some(refused) = foreign::refused(source) {
        return alone(refused);
    }
    let mut asked: Vec<(&dyn FormatReader, Probe)> =
        readers.iter().map(|r| (*r, r.probe(source))).collect();
    // The sort keeps the order of the readers among equals.
    asked.sort_by(|a, b| b.1.confidence.total_cmp(&a.1.confidence));
    let reading = match asked.first() {
        Some((reader, probe)) if probe.confidence >= LEAST_CONFIDENCE => reader
            .read(source)
            .and_then(|r| with_a_time(source.name, r)),
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
    Inspection {
        opinions: asked.into_iter().map(opinion).collect(),
        reading,
    }
}

/// A reading whose time can be that of a recording.
fn with_a_time(file: &str, reading: Reading) -> Result<Reading, FormatError> {
    let refusal = match &reading {
        Reading::Capture(capture) => time_axis::refusal(&capture.time),
        _ => None,
    };
    refusal.map_or(Ok(reading), |why| {
        Err(FormatError::new(
            ErrorKind::Damaged,
            file,
            None,
            &format!("{why}, which is no recording's time"),
            "check the time column and its unit, and export the recording again",
        ))
    })
}

#[cfg(test)]
mod tests;
