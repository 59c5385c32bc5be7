//! Recordings as WAV (RIFF WAVE, also RF64): channels are named "1", "2", ...

mod samples;

use crate::source::bytes_at;
use crate::{ErrorKind, FormatError, FormatReader, Incomplete, Probe, Reading, Source, source};
use model::{Capture, Channel, Problem, TimeAxis, TimeSource};
use samples::{Format, Kind};

/// Reads PCM of 8, 16, 24 and 32 bits and floats of 32 and 64 bits, full scale at ±1.0. The chunk
/// layout is that of Microsoft's and IBM's "Multimedia Programming Interface and Data Specifications
/// 1.0" with the WAVE_FORMAT_EXTENSIBLE addition; RF64 as EBU Tech 3306 (all from memory).
pub struct WavReader;

impl FormatReader for WavReader {
    fn name(&self) -> &'static str {
        "WAV"
    }

    fn probe(&self, source: &Source) -> Probe {
        match (source.head().get(..4), source.head().get(8..12)) {
            (Some(b"RIFF" | b"RF64" | b"BW64"), Some(b"WAVE")) => {
                Probe::new(1.0, "a RIFF WAVE header")
            }
            (Some(b"RIFF" | b"RF64" | b"BW64"), _) => Probe::new(0.3, "RIFF without WAVE"),
            _ => Probe::new(0.0, "no RIFF header"),
        }
    }

    fn read(&self, source: &Source) -> Result<Reading, FormatError> {
        read(source).map(Reading::Capture)
    }

    /// The length behind the identifier counts what follows it. 0 and 0xFFFFFFFF stand for a length that was not known
    /// when the header was written.
    fn incomplete(&self, source: &Source) -> Option<Incomplete> {
        let head = source.head();
        let promised = u64::from(u32_at(head, 4).filter(|_| head.starts_with(b"RIFF"))?);
        let known = promised != 0 && promised != 0xFFFF_FFFF;
        let there = source.input.len();
        (known && promised + 8 > there)
            .then(|| Incomplete::Rest(source::short(promised + 8, there)))
    }
}

/// Unit of samples between -1 and 1.
const FULL_SCALE: &str = "full scale";
/// Most chunks before the data; a file of nothing but tiny ones would take for ever.
const MOST_CHUNKS: usize = 4096;
/// Most bytes of a chunk that is looked into.
const LARGEST_CHUNK: usize = 4096;

fn u16_at(b: &[u8], at: usize) -> Option<u16> {
    bytes_at(b, at).map(u16::from_le_bytes)
}

fn u32_at(b: &[u8], at: usize) -> Option<u32> {
    bytes_at(b, at).map(u32::from_le_bytes)
}

fn u64_at(b: &[u8], at: usize) -> Option<u64> {
    bytes_at(b, at).map(u64::from_le_bytes)
}

/// Place of the samples in the file.
#[derive(Debug)]
struct Data {
    format: Format,
    at: u64,
    /// Their length as the header gives it, bytes; where it gives none the rest of the file is data.
    declared: Option<u64>,
    /// Rest of the file from there on, bytes.
    left: u64,
}

impl Data {
    fn frame(&self) -> u64 {
        (self.format.width * self.format.channels) as u64
    }

    fn len(&self) -> u64 {
        self.declared.unwrap_or(self.left).min(self.left)
    }
}

fn find(source: &Source) -> Result<Data, FormatError> {
    let file = source.name;
    if source.head().get(8..12) != Some(b"WAVE") {
        return Err(FormatError::damaged(
            file,
            8,
            "expected WAVE behind the RIFF header",
        ));
    }
    let io = |e: std::io::Error| FormatError::io(file, &e);
    let (mut format, mut large) = (None, None);
    let mut at = 12u64;
    for _ in 0..MOST_CHUNKS {
        let head = source.input.range(at, 8).map_err(io)?;
        let (Some(id), Some(size)) = (head.get(..4), u32_at(&head, 4)) else {
            break;
        };
        let body_at = at + 8;
        let left = source.input.len().saturating_sub(body_at);
        let body = || {
            let most = (size as usize).min(LARGEST_CHUNK);
            source.input.range(body_at, most).map_err(io)
        };
        match id {
            // RF64 keeps the lengths that four bytes cannot hold at the beginning.
            b"ds64" => large = u64_at(&body()?, 8),
            b"fmt " => format = Some(read_format(file, at, &body()?)?),
            b"data" => {
                let format = format.ok_or_else(|| {
                    FormatError::damaged(file, at, "the data come before their format")
                })?;
                let declared = match size {
                    u32::MAX => large,
                    // Not known when the header was written.
                    0 => None,
                    size => Some(u64::from(size)),
                };
                let declared = declared.filter(|d| *d > 0);
                return Ok(Data {
                    format,
                    at: body_at,
                    declared,
                    left,
                });
            }
            _ => {}
        }
        // Chunks are padded to even lengths.
        at = body_at
            .saturating_add(u64::from(size))
            .saturating_add(u64::from(size & 1));
    }
    Err(FormatError::new(
        ErrorKind::Truncated,
        file,
        Some(format!("byte {}", at.min(source.input.len()))),
        "the file ends before its data chunk",
        "export the recording again",
    ))
}

fn read_format(file: &str, at: u64, body: &[u8]) -> Result<Format, FormatError> {
    let short = || FormatError::damaged(file, at, "the format chunk is too short");
    let mut tag = u16_at(body, 0).ok_or_else(short)?;
    let channels = usize::from(u16_at(body, 2).ok_or_else(short)?);
    let rate = u32_at(body, 4).ok_or_else(short)?;
    let align = usize::from(u16_at(body, 12).ok_or_else(short)?);
    let bits = u16_at(body, 14).ok_or_else(short)?;
    if tag == 0xFFFE {
        tag = u16_at(body, 24).ok_or_else(short)?;
    }
    if channels == 0 || rate == 0 {
        return Err(FormatError::damaged(
            file,
            at,
            "no channels, or a sample rate of zero",
        ));
    }
    // The container decides: 20 valid bits in 24 are read as 24.
    let width = if align > 0 && align % channels == 0 {
        align / channels
    } else {
        usize::from(bits).div_ceil(8)
    };
    let kind = match (tag, width) {
        (1, 1) => Kind::U8,
        (1, 2) => Kind::I16,
        (1, 3) => Kind::I24,
        (1, 4) => Kind::I32,
        (3, 4) => Kind::F32,
        (3, 8) => Kind::F64,
        _ => {
            return Err(FormatError::new(
                ErrorKind::Unsupported,
                file,
                Some(format!("byte {at}")),
                &format!(
                    "WAV format {tag} with {bits} bits; integers of 8 to 32 bits and floats are read"
                ),
                "export it as uncompressed PCM",
            ));
        }
    };
    Ok(Format {
        kind,
        channels,
        rate,
        width,
    })
}

fn read(source: &Source) -> Result<Capture, FormatError> {
    let file = source.name;
    let data = find(source)?;
    let (format, frame, left) = (data.format, data.frame(), data.left);
    let frames = data.len() / frame;
    let mut problems = Vec::new();
    let mut say = |message: String| {
        problems.push(Problem {
            file: file.into(),
            place: None,
            message,
        })
    };
    if let Some(declared) = data.declared.filter(|d| *d > left) {
        say(format!(
            "the recording is cut short: the header promises {} samples, the file holds {frames}; the whole \
             samples were read",
            declared / frame
        ));
    } else if data.len() % frame != 0 {
        say(format!(
            "the last {} bytes are no whole sample and were left out",
            data.len() % frame
        ));
    }
    source.few_channels(format.channels)?;
    let kept = if format.kind == Kind::I16 { 2 } else { 4 };
    source.bounded(frames.saturating_mul(kept * format.channels as u64))?;
    if frames == 0 {
        return Err(FormatError::new(
            ErrorKind::Truncated,
            file,
            None,
            "the data chunk holds not one whole sample",
            "export the recording again",
        ));
    }
    let (samples, scale) = samples::read(source.input, data.at, frames, format)
        .map_err(|e| FormatError::io(file, &e))?;
    let len = samples.first().map_or(0, model::Samples::len);
    let channels = samples.into_iter().enumerate().map(|(c, samples)| Channel {
        scale,
        // A sample is a part of the recorder's full scale, and no volt.
        ..Channel::recorded((c + 1).to_string(), Some(FULL_SCALE.into()), samples)
    });
    let name = match format.kind {
        Kind::F32 | Kind::F64 => "float",
        _ => "integer",
    };
    Ok(Capture {
        file: file.into(),
        started: None,
        time: TimeAxis::Even {
            start_s: 0.0,
            step_s: 1.0 / f64::from(format.rate),
            len,
        },
        time_source: TimeSource::File,
        channels: channels.collect(),
        problems,
        read_as: format!(
            "WAV, {} bit {name}, {} channel(s), {} S/s",
            format.width * 8,
            format.channels,
            format.rate
        ),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::os::unix::fs::FileExt;

    /// RF64 of 16-bit stereo beyond 4 GiB, as EBU Tech 3306 lays it out (from memory): a file that is mostly a hole.
    #[test]
    fn samples_behind_four_gibibytes() {
        let frames = (1u64 << 30) + 1000;
        let data = frames * 4;
        let mut header = b"RF64\xFF\xFF\xFF\xFFWAVEds64\x1C\0\0\0".to_vec();
        for length in [data + 72, data, frames] {
            header.extend(length.to_le_bytes());
        }
        header.extend(b"\0\0\0\0fmt \x10\0\0\0\x01\0\x02\0\x80\xBB\0\0\0\xEE\x02\0\x04\0\x10\0data\xFF\xFF\xFF\xFF");
        let at = header.len() as u64;
        let file = tempfile::tempfile().unwrap();
        file.set_len(at + data + 100).unwrap();
        file.write_all_at(&header, 0).unwrap();
        file.write_all_at(&[0, 0x40, 0, 0xC0], at + data - 4)
            .unwrap();
        let source = Source::open(
            "a.wav",
            &file,
            at + data + 100,
            crate::Limits::default(),
            None,
        )
        .unwrap();
        let found = find(&source).unwrap();
        assert_eq!(
            (found.at, found.declared, found.len() / found.frame()),
            (at, Some(data), frames)
        );
        let tail = found.at + (frames - 2) * found.frame();
        let (samples, scale) = samples::read(source.input, tail, 2, found.format).unwrap();
        let value = |c: usize| samples[c].raw(1) * scale;
        assert_eq!((value(0), value(1), samples[0].raw(0)), (0.5, -0.5, 0.0));
    }
}
