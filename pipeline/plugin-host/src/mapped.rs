//! The samples of a recording as a worker sees them.

use memmap2::{Mmap, MmapOptions};
use std::fs::File;
use std::io;
use std::os::fd::OwnedFd;

/// The samples as a worker sees them.
pub(crate) enum Mapped {
    /// No bytes at all, which cannot be mapped.
    Empty,
    /// Read-only pages.
    Pages(Mmap),
}

impl Mapped {
    /// Maps `len` bytes of a file that a [`SharedSamples`](crate::shared_samples::SharedSamples) wrote.
    pub(crate) fn new(fd: Option<OwnedFd>, len: u64) -> io::Result<Mapped> {
        if len == 0 {
            return Ok(Mapped::Empty);
        }
        let file = File::from(fd.ok_or_else(|| io::Error::other("no samples came along"))?);
        // Not by path, which a worker's sandbox forbids.
        let size = rustix::fs::fstat(&file)?.st_size;
        if u64::try_from(size).unwrap_or(0) < len {
            return Err(io::Error::other("the samples are shorter than announced"));
        }
        let len = usize::try_from(len).map_err(io::Error::other)?;
        // SAFETY: the file has no name and, on Linux, is sealed: nobody changes or shortens it while it is mapped.
        Ok(Mapped::Pages(unsafe {
            MmapOptions::new().len(len).map(&file)?
        }))
    }

    /// The array of `len` values that begins at byte `at`.
    pub(crate) fn array<T: bytemuck::AnyBitPattern>(&self, at: u64, len: u64) -> io::Result<&[T]> {
        // An empty array has no place, and a slice of no bytes no alignment that could be relied on.
        if len == 0 {
            return Ok(&[]);
        }
        let bytes: &[u8] = match self {
            Mapped::Empty => &[],
            Mapped::Pages(pages) => pages,
        };
        let end = len
            .checked_mul(size_of::<T>() as u64)
            .and_then(|n| at.checked_add(n));
        end.and_then(|end| bytes.get(usize::try_from(at).ok()?..usize::try_from(end).ok()?))
            .and_then(|b| bytemuck::try_cast_slice(b).ok())
            .ok_or_else(|| io::Error::other("an array lies outside of the samples"))
    }
}
