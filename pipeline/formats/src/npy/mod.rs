//! Recordings as NumPy arrays: `.npy` with one array, `.npz` with several.
//!
//! An array of two dimensions has a row per sample (or a column, when it is wider than high); a structured array has
//! a field per channel; an archive has an array per channel. The time is what is named so, else a first column that
//! always rises, else an interval or a rate that stands as a single number in the archive.

mod array;
mod columns;

use crate::time_axis::{self, BareTime};
use crate::words::is_time_name;
use crate::{ErrorKind, FormatError, FormatReader, Probe, Reading, Source, units};
use array::Array;
use columns::Column;
use model::{Capture, Channel, Problem, TimeAxis, TimeSource};
use std::io::{Cursor, Read};

/// Reads NumPy's `.npy` and `.npz` files; header and archive by the crates npyz and zip.
pub struct NpyReader;

/// Beginning of a zip archive with something in it.
const ZIP: &[u8] = b"PK\x03\x04";
/// Most arrays of an archive that are looked at.
const MOST_ARRAYS: usize = 4096;

impl FormatReader for NpyReader {
    fn name(&self) -> &'static str {
        "NumPy array"
    }

    fn probe(&self, source: &Source) -> Probe {
        let head = source.head();
        if head.starts_with(b"\x93NUMPY") {
            return Probe::new(1.0, "the header of a NumPy array");
        }
        if !head.starts_with(ZIP) {
            return Probe::new(0.0, "no NumPy header");
        }
        // The first file's name stands behind 30 bytes; its length at byte 26.
        let length = head
            .get(26..28)
            .map_or(0, |b| usize::from(u16::from_le_bytes([b[0], b[1]])));
        match head
            .get(30..30 + length)
            .is_some_and(|n| n.ends_with(b".npy"))
        {
            true => Probe::new(1.0, "an archive of NumPy arrays"),
            false => Probe::new(
                0.1,
                "a zip archive of something else; unpack it and drop what is inside",
            ),
        }
    }

    fn read(&self, source: &Source) -> Result<Reading, FormatError> {
        let bytes = source.bytes()?;
        let arrays = if bytes.starts_with(ZIP) {
            archive(source, bytes)?
        } else {
            vec![Array::read("", bytes).map_err(|why| damaged(source.name, None, &why))?]
        };
        capture(source, &arrays, bytes.starts_with(ZIP)).map(Reading::Capture)
    }
}

fn damaged(file: &str, array: Option<&str>, why: &str) -> FormatError {
    let place = array.map(|a| format!("array \"{a}\""));
    FormatError::new(ErrorKind::Damaged, file, place, why, "save the array again")
}

/// The arrays of an archive, in its order.
fn archive<'a>(source: &Source, bytes: &[u8]) -> Result<Vec<Array<'a>>, FormatError> {
    let file = source.name;
    let broken =
        |e: zip::result::ZipError| damaged(file, None, &format!("the archive cannot be read: {e}"));
    let mut zip = zip::ZipArchive::new(Cursor::new(bytes)).map_err(broken)?;
    let (mut arrays, mut left) = (Vec::new(), source.most_unfolded());
    for i in 0..zip.len().min(MOST_ARRAYS) {
        let entry = zip.by_index(i).map_err(broken)?;
        let name = entry
            .name()
            .map_err(broken)?
            .trim_end_matches(".npy")
            .to_string();
        let too_much = || {
            damaged(
                file,
                Some(&name),
                "the archive unfolds to more than is read of a file of its size",
            )
        };
        if entry.size() > left {
            return Err(too_much());
        }
        // The size that an entry declares need not be true.
        let mut plain = Vec::with_capacity(entry.size() as usize);
        let read = entry.take(left + 1).read_to_end(&mut plain);
        read.map_err(|e| damaged(file, Some(&name), &format!("it cannot be unpacked: {e}")))?;
        left = left.checked_sub(plain.len() as u64).ok_or_else(too_much)?;
        arrays.push(Array::read(&name, plain).map_err(|why| damaged(file, Some(&name), &why))?);
    }
    Ok(arrays)
}

fn capture(source: &Source, arrays: &[Array], archived: bool) -> Result<Capture, FormatError> {
    let file = source.name;
    let interval = arrays.iter().find_map(interval);
    let mut columns = Vec::new();
    for array in arrays.iter().filter(|a| a.len() > 1) {
        columns.extend(
            columns::read_columns(array).map_err(|why| damaged(file, Some(&array.name), &why))?,
        );
    }
    let len = columns.iter().map(Column::len).max().unwrap_or(0);
    let mut problems = Vec::new();
    columns.retain(|c| {
        let fits = c.len() == len;
        if !fits {
            problems.push(Problem {
                file: file.into(),
                place: Some(format!("array \"{}\"", c.name)),
                message: format!(
                    "it has {} values where the others have {len}; it was left out",
                    c.len()
                ),
            });
        }
        fits
    });
    if len < 2 {
        return Err(damaged(file, None, "no array holds as many as two samples"));
    }
    let (time, time_source, how) = match (time_column(&columns), interval) {
        (Some(i), _) => {
            let column = columns.remove(i);
            stamps(file, &column, &mut problems)?
        }
        (None, Some(step_s)) => (
            TimeAxis::Even {
                start_s: 0.0,
                step_s,
                len,
            },
            TimeSource::File,
            "time from the stated interval".to_string(),
        ),
        (None, None) => {
            return Err(FormatError::new(
                ErrorKind::Unsupported,
                file,
                None,
                "no array is the time and no single number named dt or fs gives an interval or a rate",
                "save the time with it: numpy.savez(file, time=t, channel=x), or a first column that is the time",
            ));
        }
    };
    let gaps = time_axis::gaps(&time).filter(|_| time_source != TimeSource::Unknown);
    problems.extend(gaps.map(|message| Problem {
        file: file.into(),
        place: None,
        message,
    }));
    let count = columns.len();
    source.few_channels(count)?;
    source.bounded(columns.iter().map(Column::bytes).sum())?;
    let channels = columns.into_iter().map(|c| {
        let samples = c.samples();
        Channel::recorded(c.name, c.unit, samples)
    });
    Ok(Capture {
        file: file.into(),
        started: None,
        time,
        time_source,
        channels: channels.collect(),
        problems,
        read_as: format!(
            "NumPy {}, {count} channel(s), {how}",
            if archived { "archive" } else { "array" }
        ),
    })
}

/// The column that is the time: by name, else an unnamed first one that always rises.
fn time_column(columns: &[Column]) -> Option<usize> {
    let named = columns.iter().position(|c| is_time_name(&c.name));
    named.or_else(|| {
        let first = columns.first().filter(|c| !c.named && columns.len() > 1)?;
        let values = first.values();
        values.windows(2).all(|w| w[1] > w[0]).then_some(0)
    })
}

/// The axis of a time column, the source of its unit, and words on it for a person.
fn stamps(
    file: &str,
    column: &Column,
    problems: &mut Vec<Problem>,
) -> Result<(TimeAxis, TimeSource, String), FormatError> {
    let values = column.values();
    let steps = || values.windows(2).map(|w| w[1] - w[0]);
    if let Some(i) = steps().position(|d| !(d >= 0.0 && d.is_finite())) {
        return Err(damaged(
            file,
            Some(&column.name),
            &format!("the time goes back or is no number at sample {}", i + 1),
        ));
    }
    let mut how = format!("time from \"{}\"", column.name);
    let stated = column.unit.as_deref().and_then(units::seconds);
    let smallest = steps().filter(|d| *d > 0.0).min_by(f64::total_cmp);
    let whole = values.iter().all(|t| t.fract() == 0.0);
    let first = values.first().copied().unwrap_or(0.0);
    let (unit_s, source) = match (stated, time_axis::bare(first, smallest, whole)) {
        (Some(unit_s), _) => (unit_s, TimeSource::File),
        (None, BareTime::Unix(unit_s, unit)) => {
            how.push_str(&format!(" (no unit given, taken as Unix time in {unit})"));
            (unit_s, TimeSource::File)
        }
        (None, BareTime::Seconds) => {
            how.push_str(" (no unit given, taken as seconds)");
            (1.0, TimeSource::Assumed)
        }
        (None, BareTime::Unknown) => {
            how.push_str(&format!(" ({})", time_axis::UNKNOWN_UNIT));
            problems.push(Problem {
                file: file.into(),
                place: Some(format!("array \"{}\"", column.name)),
                message: time_axis::ask_for_unit(&column.name),
            });
            (1.0, TimeSource::Unknown)
        }
    };
    let stamps: Vec<f64> = values.iter().map(|t| t * unit_s).collect();
    let largest = stamps.iter().fold(0.0f64, |m, t| m.max(t.abs()));
    let resolution = time_axis::binary_resolution(&stamps, column.rounding(largest) * unit_s);
    let even = time_axis::is_even(&stamps, resolution);
    Ok((time_axis::axis(stamps, even), source, how))
}

/// The sample interval in s, where an array is a single number named for it: `dt`, `fs`, `sample_rate_hz`.
fn interval(array: &Array) -> Option<f64> {
    let value = array.single()?;
    let (name, unit) = units::split(&array.name.replace('.', " "));
    let name = name.to_lowercase().replace('_', " ");
    let unit = unit.as_deref();
    let positive = |v: f64| (v > 0.0 && v.is_finite()).then_some(v);
    match name.trim() {
        "dt" | "interval" | "sample interval" | "period" | "step" | "sample time" | "tsample" => {
            positive(value * unit.map_or(Some(1.0), units::seconds)?)
        }
        "fs" | "rate" | "sample rate" | "samplerate" | "sampling rate" | "sr" | "frequency"
        | "fsample" => positive(1.0 / (value * unit.map_or(Some(1.0), units::hertz)?)),
        _ => None,
    }
}
