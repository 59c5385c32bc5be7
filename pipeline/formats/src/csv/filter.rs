//! Changes to the text on its way into the splitter.

use super::LONGEST_LINE;
use std::io::{self, Read};

/// Stops a line that never ends, so that a hostile file cannot make the splitter collect it whole.
pub(super) struct LineCap<R> {
    pub inner: R,
    pub since_break: usize,
}

impl<R: Read> Read for LineCap<R> {
    fn read(&mut self, out: &mut [u8]) -> io::Result<usize> {
        let n = self.inner.read(out)?;
        self.since_break = match out[..n].iter().rposition(|b| matches!(b, b'\n' | b'\r')) {
            Some(i) => n - i - 1,
            None => self.since_break + n,
        };
        if self.since_break > LONGEST_LINE {
            return Err(io::Error::new(
                io::ErrorKind::InvalidData,
                "a line is longer than 1 MiB",
            ));
        }
        Ok(n)
    }
}

/// Makes one space of a run of spaces and tabs, and none of one at a line's beginning.
pub(super) struct Squeeze<R> {
    pub inner: R,
    pub last: u8,
}

impl<R: Read> Read for Squeeze<R> {
    fn read(&mut self, out: &mut [u8]) -> io::Result<usize> {
        loop {
            let n = self.inner.read(out)?;
            let mut kept = 0;
            for i in 0..n {
                let byte = if out[i] == b'\t' { b' ' } else { out[i] };
                if byte == b' ' && matches!(self.last, b' ' | b'\n' | b'\r') {
                    continue;
                }
                self.last = byte;
                out[kept] = byte;
                kept += 1;
            }
            // Nothing kept of something read is not the end.
            if kept > 0 || n == 0 {
                return Ok(kept);
            }
        }
    }
}
