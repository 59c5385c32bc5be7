//! A file's bytes, read piece by piece.
//!
//! A file is never mapped: under a map, one that another program cuts short kills the process (SIGBUS). Checked
//! reads into a small buffer say so instead, and cost less memory.

use std::fs::File;
use std::io::{Error, ErrorKind, Result};
use std::os::unix::fs::FileExt;
use std::sync::atomic::{AtomicU64, Ordering};

/// Source of the bytes.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Input<'a> {
    /// In memory already.
    Memory(&'a [u8]),
    /// In a file of this length when it was opened; the end of what was read of it so far is kept for whoever waits.
    File(&'a File, u64, Option<&'a AtomicU64>),
}

impl Input<'_> {
    pub fn len(self) -> u64 {
        match self {
            Input::Memory(bytes) => bytes.len() as u64,
            Input::File(_, len, _) => len,
        }
    }

    /// Fills `out` with what stands from byte `at` on and gives how much that is: less than asked for only where
    /// the input ends. A file that has become shorter since it was opened is an error.
    pub fn fill_at(self, at: u64, out: &mut [u8]) -> Result<usize> {
        let left = usize::try_from(self.len().saturating_sub(at)).unwrap_or(usize::MAX);
        let wanted = out.len().min(left);
        let out = &mut out[..wanted];
        match self {
            Input::Memory(bytes) => {
                let at = usize::try_from(at).unwrap_or(usize::MAX);
                out.copy_from_slice(bytes.get(at..at.saturating_add(wanted)).unwrap_or_default());
            }
            Input::File(file, _, reached) => {
                file.read_exact_at(out, at).map_err(|e| match e.kind() {
                    ErrorKind::UnexpectedEof => Error::new(
                        ErrorKind::UnexpectedEof,
                        "it became shorter while it was read; another program is writing it",
                    ),
                    _ => e,
                })?;
                if let Some(reached) = reached {
                    reached.fetch_max(at + wanted as u64, Ordering::Relaxed);
                }
            }
        }
        Ok(wanted)
    }

    /// At most `most` bytes from byte `at` on.
    pub fn range(self, at: u64, most: usize) -> Result<Vec<u8>> {
        let left = usize::try_from(self.len().saturating_sub(at)).unwrap_or(usize::MAX);
        let mut out = vec![0; most.min(left)];
        self.fill_at(at, &mut out)?;
        Ok(out)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::Write;

    #[test]
    fn a_file_that_shrinks_is_an_error_and_no_signal() {
        let mut file = tempfile::tempfile().unwrap();
        file.write_all(&[7; 10_000]).unwrap();
        let reached = AtomicU64::new(0);
        let input = Input::File(&file, 10_000, Some(&reached));
        assert_eq!(input.range(9_000, 500).unwrap(), vec![7; 500]);
        assert_eq!(input.range(0, 5_000).unwrap(), vec![7; 5_000]);
        assert_eq!(reached.load(Ordering::Relaxed), 9_500);
        assert_eq!(input.range(9_000, 5_000).unwrap(), vec![7; 1_000]);
        file.set_len(5_000).unwrap();
        let e = input.range(4_000, 2_000).unwrap_err();
        assert!(e.to_string().contains("became shorter"), "{e}");
        assert_eq!(input.range(4_000, 1_000).unwrap().len(), 1_000);
        assert!(input.range(u64::MAX, 10).unwrap().is_empty());
    }
}
