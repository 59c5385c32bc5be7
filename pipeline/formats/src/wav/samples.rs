//! Frames taken apart into channels, a block at a time.

use crate::input::Input;
use model::Samples;
use std::io;

#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Kind {
    U8,
    I16,
    I24,
    I32,
    F32,
    F64,
}

#[derive(Debug, Clone, Copy)]
pub(super) struct Format {
    pub kind: Kind,
    pub channels: usize,
    pub rate: u32,
    /// Bytes of one sample.
    pub width: usize,
}

/// Bytes that are read at once.
const BLOCK: usize = 1 << 20;

/// The samples of each channel, and the factor that makes full scale ±1.0.
pub(super) fn read(
    input: Input,
    at: u64,
    frames: u64,
    format: Format,
) -> io::Result<(Vec<Samples>, f64)> {
    let mut blocks = Blocks {
        input,
        at,
        left: frames,
        format,
        buffer: Vec::new(),
    };
    if format.kind == Kind::I16 {
        let columns = blocks.columns(|b| i16::from_le_bytes([b[0], b[1]]))?;
        let samples = columns.into_iter().map(|c| Samples::I16(c.into()));
        return Ok((samples.collect(), 1.0 / 32768.0));
    }
    let width = format.width;
    let i32_of = move |b: &[u8]| {
        let mut full = [0u8; 4];
        full[4 - width..].copy_from_slice(b);
        i32::from_le_bytes(full)
    };
    let columns = match format.kind {
        Kind::U8 | Kind::I16 => blocks.columns(|b| (f32::from(b[0]) - 128.0) / 128.0),
        Kind::I24 | Kind::I32 => {
            blocks.columns(|b| (f64::from(i32_of(b)) / 2_147_483_648.0) as f32)
        }
        Kind::F32 => blocks.columns(|b| b.try_into().map_or(f32::NAN, f32::from_le_bytes)),
        Kind::F64 => blocks.columns(|b| b.try_into().map_or(f64::NAN, f64::from_le_bytes) as f32),
    }?;
    Ok((
        columns
            .into_iter()
            .map(|c| Samples::F32(c.into()))
            .collect(),
        1.0,
    ))
}

struct Blocks<'a> {
    input: Input<'a>,
    at: u64,
    left: u64,
    format: Format,
    buffer: Vec<u8>,
}

impl Blocks<'_> {
    fn columns<T>(&mut self, convert: impl Fn(&[u8]) -> T) -> io::Result<Vec<Vec<T>>> {
        let Format {
            channels, width, ..
        } = self.format;
        let frame = width * channels;
        // The file holds that many: its length was compared before.
        let mut columns: Vec<Vec<T>> = (0..channels)
            .map(|_| Vec::with_capacity(self.left as usize))
            .collect();
        while self.left > 0 {
            let frames = ((BLOCK / frame).max(1) as u64).min(self.left);
            self.buffer.resize(frames as usize * frame, 0);
            self.input.fill_at(self.at, &mut self.buffer)?;
            for (c, column) in columns.iter_mut().enumerate() {
                let cells = self
                    .buffer
                    .chunks_exact(frame)
                    .map(|f| &f[c * width..][..width]);
                column.extend(cells.map(&convert));
            }
            self.at += self.buffer.len() as u64;
            self.left -= frames;
        }
        Ok(columns)
    }
}
