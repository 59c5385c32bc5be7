//! Min/max pyramid of one channel in a file that is mapped into memory and may be deleted at any time.

use memmap2::Mmap;
use std::fs::File;
use std::io::{BufWriter, Write};
use std::path::Path;

/// Buckets of a level that one bucket of the next level covers.
pub const FACTOR: usize = 16;

/// Values of one bucket. NaN in both: it holds a sample without a value, so that a line is broken there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bucket {
    /// Smallest value.
    pub min: f32,
    /// Largest value.
    pub max: f32,
}

impl Bucket {
    const BROKEN: Bucket = Bucket {
        min: f32::NAN,
        max: f32::NAN,
    };

    /// Bucket of two neighbours. One that is broken breaks the whole.
    pub fn and(self, other: Bucket) -> Bucket {
        if self.min.is_nan() || other.min.is_nan() {
            return Bucket::BROKEN;
        }
        Bucket {
            min: self.min.min(other.min),
            max: self.max.max(other.max),
        }
    }

    fn of_samples(samples: &[f32]) -> Bucket {
        let first = Bucket {
            min: f32::INFINITY,
            max: f32::NEG_INFINITY,
        };
        samples
            .iter()
            .fold(first, |b, &s| b.and(Bucket { min: s, max: s }))
    }
}

/// Pyramid of a channel: its samples, then one level for each power of 16.
#[derive(Debug)]
pub struct Pyramid {
    map: Option<Mmap>,
    /// Number of samples.
    len: usize,
}

/// Writes the pyramid of a channel's values to a file. A value that is not finite counts as none.
///
/// # Errors
/// When the file cannot be written.
pub fn build(values: &mut dyn Iterator<Item = f32>, path: &Path) -> std::io::Result<()> {
    let samples: Vec<f32> = values
        .map(|v| if v.is_finite() { v } else { f32::NAN })
        .collect();
    let folder = path.parent().unwrap_or(Path::new("."));
    let file = tempfile::NamedTempFile::new_in(folder)?;
    let mut out = BufWriter::new(file.as_file());
    out.write_all(bytemuck::cast_slice(&samples))?;
    let mut level: Vec<Bucket> = samples.chunks(FACTOR).map(Bucket::of_samples).collect();
    loop {
        let pairs: Vec<[f32; 2]> = level.iter().map(|b| [b.min, b.max]).collect();
        out.write_all(bytemuck::cast_slice(&pairs))?;
        if level.len() <= 1 {
            break;
        }
        let merge = |chunk: &[Bucket]| chunk[1..].iter().fold(chunk[0], |a, &b| a.and(b));
        level = level.chunks(FACTOR).map(merge).collect();
    }
    out.flush()?;
    drop(out);
    file.persist(path).map_err(|e| e.error)?;
    Ok(())
}

impl Pyramid {
    /// Maps a file that [`build`] wrote, of a channel with `len` samples.
    ///
    /// # Errors
    /// When it cannot be opened, or has another size than such a pyramid.
    pub fn open(path: &Path, len: usize) -> std::io::Result<Pyramid> {
        let file = File::open(path)?;
        let expected = len * 4 + level_lengths(len).iter().sum::<usize>() * 8;
        if file.metadata()?.len() != expected as u64 {
            return Err(std::io::Error::other("not the pyramid of this channel"));
        }
        if len == 0 {
            return Ok(Pyramid { map: None, len });
        }
        // SAFETY: the file is the program's own, below a folder that only it writes, and is only ever replaced whole.
        #[allow(unsafe_code)]
        let map = unsafe { Mmap::map(&file)? };
        Ok(Pyramid {
            map: Some(map),
            len,
        })
    }

    /// Number of samples.
    pub fn len(&self) -> usize {
        self.len
    }

    /// True where there is no sample.
    pub fn is_empty(&self) -> bool {
        self.len == 0
    }

    /// The samples.
    pub fn samples(&self) -> &[f32] {
        let bytes = self.map.as_deref().unwrap_or_default();
        bytemuck::cast_slice(&bytes[..self.len * 4])
    }

    /// Level `k`, from 1: smallest and largest value of each bucket of `FACTOR^k` samples; empty beyond the highest.
    pub fn level(&self, k: usize) -> &[[f32; 2]] {
        let lengths = level_lengths(self.len);
        let Some(&length) = lengths.get(k.wrapping_sub(1)) else {
            return &[];
        };
        let before: usize = lengths[..k - 1].iter().sum();
        let start = self.len * 4 + before * 8;
        let bytes = self.map.as_deref().unwrap_or_default();
        bytemuck::cast_slice(&bytes[start..start + length * 8])
    }
}

/// Number of buckets of each level above the samples.
fn level_lengths(len: usize) -> Vec<usize> {
    let mut lengths = vec![len.div_ceil(FACTOR)];
    while let Some(&last) = lengths.last().filter(|&&n| n > 1) {
        lengths.push(last.div_ceil(FACTOR));
    }
    lengths
}
