//! Recordings as WAV (RIFF WAVE, also RF64): channels are named "1", "2", ...

use crate::{ErrorKind, FormatError, FormatReader, Probe, Reading, Source};
use model::{Capture, Channel, Problem, RoleSource, Samples, TimeAxis};

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
        read(source.name, source.bytes()?).map(Reading::Capture)
    }
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Kind {
    U8,
    I16,
    I24,
    I32,
    F32,
    F64,
}

#[derive(Debug, Clone, Copy)]
struct Format {
    kind: Kind,
    channels: usize,
    rate: u32,
    /// Bytes of one sample.
    width: usize,
}

fn u16_at(b: &[u8], at: usize) -> Option<u16> {
    Some(u16::from_le_bytes(b.get(at..at + 2)?.try_into().ok()?))
}

fn u32_at(b: &[u8], at: usize) -> Option<u32> {
    Some(u32::from_le_bytes(b.get(at..at + 4)?.try_into().ok()?))
}

fn read(file: &str, bytes: &[u8]) -> Result<Capture, FormatError> {
    if bytes.get(8..12) != Some(b"WAVE") {
        return Err(FormatError::damaged(
            file,
            8,
            "expected WAVE behind the RIFF header",
        ));
    }
    let mut format = None;
    let mut at = 12;
    while let (Some(id), Some(size)) = (bytes.get(at..at + 4), u32_at(bytes, at + 4)) {
        let body = &bytes[at + 8..];
        let declared = size as usize;
        match id {
            b"fmt " => format = Some(read_format(file, at, &body[..declared.min(body.len())])?),
            b"data" => {
                let format = format.ok_or_else(|| {
                    FormatError::damaged(file, at as u64, "the data come before their format")
                })?;
                return capture(file, body, declared, format);
            }
            _ => {}
        }
        // Chunks are padded to even lengths.
        at = at
            .saturating_add(8)
            .saturating_add(declared)
            .saturating_add(declared & 1);
    }
    Err(FormatError::new(
        ErrorKind::Truncated,
        file,
        Some(format!("byte {}", bytes.len())),
        "the file ends before its data chunk",
        "export the recording again",
    ))
}

fn read_format(file: &str, at: usize, body: &[u8]) -> Result<Format, FormatError> {
    let short = || FormatError::damaged(file, at as u64, "the format chunk is too short");
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
            at as u64,
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

fn capture(
    file: &str,
    body: &[u8],
    declared: usize,
    format: Format,
) -> Result<Capture, FormatError> {
    let mut problems = Vec::new();
    // 0 and 0xFFFFFFFF stand for a length that was not known when the header was written, or that
    // RF64 keeps elsewhere: the rest of the file is data then.
    let open_end = declared == 0 || declared == 0xFFFF_FFFF;
    let data = if open_end {
        body
    } else {
        &body[..declared.min(body.len())]
    };
    let frame = format.width * format.channels;
    let frames = data.len() / frame;
    let mut say = |message: String| {
        problems.push(Problem {
            file: file.into(),
            place: None,
            message,
        })
    };
    if !open_end && declared > body.len() {
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
    if frames == 0 {
        return Err(FormatError::new(
            ErrorKind::Truncated,
            file,
            None,
            "the data chunk holds not one whole sample",
            "export the recording again",
        ));
    }
    let data = &data[..frames * frame];
    let channels = (0..format.channels).map(|c| {
        let (samples, scale) = samples(data, format, c);
        Channel {
            name: (c + 1).to_string(),
            unit: None,
            role: None,
            role_source: RoleSource::Unknown,
            scale,
            offset: 0.0,
            calibrated: false,
            samples,
        }
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
            len: frames,
        },
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

/// The samples of one channel and the factor that makes full scale ±1.0.
fn samples(data: &[u8], format: Format, channel: usize) -> (Samples, f64) {
    let width = format.width;
    let cells = data
        .chunks_exact(width * format.channels)
        .map(|f| &f[channel * width..][..width]);
    let float =
        |convert: &dyn Fn(&[u8]) -> f32| (Samples::F32(cells.clone().map(convert).collect()), 1.0);
    let i32_of = |b: &[u8]| {
        let mut full = [0u8; 4];
        full[4 - width..].copy_from_slice(b);
        i32::from_le_bytes(full)
    };
    match format.kind {
        Kind::U8 => float(&|b| (f32::from(b[0]) - 128.0) / 128.0),
        Kind::I16 => {
            let samples = cells
                .clone()
                .map(|b| i16::from_le_bytes([b[0], b[1]]))
                .collect();
            (Samples::I16(samples), 1.0 / 32768.0)
        }
        Kind::I24 | Kind::I32 => float(&|b| (f64::from(i32_of(b)) / 2_147_483_648.0) as f32),
        Kind::F32 => float(&|b| b.try_into().map_or(f32::NAN, f32::from_le_bytes)),
        Kind::F64 => float(&|b| b.try_into().map_or(f64::NAN, f64::from_le_bytes) as f32),
    }
}
