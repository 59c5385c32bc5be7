//! The text in blocks of whole lines, handed out in order to whoever works next.

use crate::text::LONGEST_LINE;
use crate::text::{Pieces, Text};
use std::io;

/// Bytes that are read at once: small enough to stay in a processor's cache.
const PIECE: usize = 1 << 18;
/// Bytes behind a block's end that may be looked at, so that eight can be loaded at once anywhere in it.
const SLACK: usize = 16;

/// A buffer for one block, to be used again and again.
pub(super) struct Block {
    buffer: Vec<u8>,
    len: usize,
    /// Its place in the order of blocks, from 0.
    pub index: usize,
}

impl Block {
    pub fn new() -> Self {
        Block {
            buffer: Vec::new(),
            len: 0,
            index: 0,
        }
    }

    /// The lines, the last one ended as well, and behind them bytes without a meaning.
    pub fn bytes(&self) -> (&[u8], usize) {
        (&self.buffer, self.len)
    }
}

/// Source of the blocks.
pub(super) struct Blocks<'a> {
    pieces: Pieces<'a>,
    line_break: u8,
    /// Bytes of decoded text still to be passed over.
    skip: usize,
    /// The beginning of a line whose end has not been read.
    carry: Vec<u8>,
    next_index: usize,
    ended: bool,
    /// True where a line was too long; what follows it was not read.
    pub long_line: bool,
}

impl<'a> Blocks<'a> {
    /// Blocks of the text from behind `skip` bytes of decoded text.
    pub fn new(text: &Text<'a>, skip: usize, line_break: u8) -> Self {
        Blocks {
            pieces: text.pieces(),
            line_break,
            skip,
            carry: Vec::new(),
            next_index: 0,
            ended: false,
            long_line: false,
        }
    }

    /// Puts the next lines into the block; false when there are no more.
    pub fn next(&mut self, block: &mut Block) -> io::Result<bool> {
        if self.ended {
            return Ok(false);
        }
        let room = LONGEST_LINE + PIECE + SLACK;
        block.buffer.resize(room, 0);
        let buffer = &mut block.buffer;
        let mut len = self.carry.len();
        buffer[..len].copy_from_slice(&self.carry);
        self.carry.clear();
        loop {
            let read = self.pieces.next(&mut buffer[len..len + PIECE])?;
            let passed = self.skip.min(read);
            if passed > 0 {
                buffer.copy_within(len + passed..len + read, len);
                self.skip -= passed;
            }
            let new = read - passed;
            if read == 0 {
                self.ended = true;
                if len == 0 {
                    return Ok(false);
                }
                buffer[len] = self.line_break;
                len += 1;
                break;
            }
            let line_end = buffer[len..len + new]
                .iter()
                .rposition(|b| *b == self.line_break);
            let from = len;
            len += new;
            if let Some(i) = line_end {
                let kept = from + i + 1;
                self.carry.extend_from_slice(&buffer[kept..len]);
                len = kept;
                break;
            }
            if len > LONGEST_LINE {
                (self.ended, self.long_line) = (true, true);
                return Ok(false);
            }
        }
        if self.carry.len() > LONGEST_LINE {
            (self.ended, self.long_line) = (true, true);
        }
        block.len = len;
        block.index = self.next_index;
        self.next_index += 1;
        Ok(true)
    }
}
