//! Blocks: an identifier, a length, links to other blocks, and data.

use crate::FormatError;
use crate::source::bytes_at;

/// Most blocks in one chain; a longer one is taken for a loop.
const LONGEST_CHAIN: usize = 65_536;

/// The whole file.
pub(super) struct File<'a> {
    pub name: &'a str,
    pub bytes: &'a [u8],
    /// True where the writer did not come to finish it: counts and lengths may be missing.
    pub unfinished: bool,
}

/// One block.
#[derive(Debug, Clone, Copy)]
pub(super) struct Block<'a> {
    pub id: [u8; 4],
    links: &'a [u8],
    /// The data behind the links.
    pub data: &'a [u8],
    /// Offset of the data in the file, bytes.
    pub data_at: u64,
}

impl<'a> File<'a> {
    pub fn new(name: &'a str, bytes: &'a [u8]) -> Self {
        File {
            name,
            bytes,
            unfinished: bytes.starts_with(b"UnFinMF "),
        }
    }

    pub fn u16(&self, at: usize) -> Option<u16> {
        bytes_at(self.bytes, at).map(u16::from_le_bytes)
    }

    /// The block at an address, whatever it is. A block that is longer than the file is cut to it.
    pub fn any_block(&self, at: u64) -> Result<Block<'a>, FormatError> {
        let damaged = |what: &str| FormatError::damaged(self.name, at, what);
        let start = usize::try_from(at).map_err(|_| damaged("a block address beyond the file"))?;
        let header = start
            .checked_add(24)
            .and_then(|end| self.bytes.get(start..end))
            .ok_or_else(|| damaged("expected a block, found the end of the file"))?;
        let word = |i: usize| {
            header[i..i + 8]
                .iter()
                .rev()
                .fold(0u64, |v, b| v << 8 | u64::from(*b))
        };
        let (length, count) = (word(8), word(16));
        let id = [header[0], header[1], header[2], header[3]];
        if id[..2] != *b"##" {
            return Err(damaged("expected a block, found something else"));
        }
        let body = &self.bytes[start + 24..];
        let length = usize::try_from(length.saturating_sub(24)).unwrap_or(usize::MAX);
        let body = &body[..length.min(body.len())];
        let link_bytes = usize::try_from(count).ok().and_then(|n| n.checked_mul(8));
        let link_bytes = link_bytes
            .filter(|n| *n <= body.len())
            .ok_or_else(|| damaged("the block has more links than room"))?;
        let (links, data) = body.split_at(link_bytes);
        Ok(Block {
            id,
            links,
            data,
            data_at: (start + 24 + link_bytes) as u64,
        })
    }

    /// The block at an address, which must be of a kind.
    pub fn block(&self, at: u64, id: &[u8; 4]) -> Result<Block<'a>, FormatError> {
        let block = self.any_block(at)?;
        if block.id == *id {
            return Ok(block);
        }
        let (want, found) = (
            String::from_utf8_lossy(id),
            String::from_utf8_lossy(&block.id).into_owned(),
        );
        Err(FormatError::damaged(
            self.name,
            at,
            &format!("expected a block {want}, found {found}"),
        ))
    }

    /// The blocks that their first links string together.
    pub fn chain(&self, first: u64, id: &[u8; 4]) -> Result<Vec<Block<'a>>, FormatError> {
        let mut out = Vec::new();
        let mut at = first;
        while at != 0 {
            if out.len() == LONGEST_CHAIN {
                return Err(FormatError::damaged(
                    self.name,
                    at,
                    "a chain of blocks that never ends",
                ));
            }
            let block = self.block(at, id)?;
            at = block.link(0);
            out.push(block);
        }
        Ok(out)
    }

    /// The text of a TX or MD block; of XML what stands in its first `TX` element.
    pub fn text(&self, at: u64) -> Option<String> {
        if at == 0 {
            return None;
        }
        let block = self.any_block(at).ok()?;
        let end = block
            .data
            .iter()
            .position(|b| *b == 0)
            .unwrap_or(block.data.len());
        let text = String::from_utf8_lossy(block.data.get(..end.min(1 << 16))?).into_owned();
        let text = match &block.id {
            b"##TX" => text,
            b"##MD" => text
                .split_once("<TX>")?
                .1
                .split_once("</TX>")?
                .0
                .to_string(),
            _ => return None,
        };
        let text = text.trim();
        (!text.is_empty()).then(|| text.to_string())
    }
}

impl Block<'_> {
    /// Link `i`; 0 when there is none.
    pub fn link(&self, i: usize) -> u64 {
        bytes_at(self.links, i * 8)
            .map(u64::from_le_bytes)
            .unwrap_or(0)
    }

    pub fn link_count(&self) -> usize {
        self.links.len() / 8
    }

    pub fn u8(&self, at: usize) -> Option<u8> {
        self.data.get(at).copied()
    }

    pub fn u16(&self, at: usize) -> Option<u16> {
        bytes_at(self.data, at).map(u16::from_le_bytes)
    }

    pub fn i16(&self, at: usize) -> Option<i16> {
        bytes_at(self.data, at).map(i16::from_le_bytes)
    }

    pub fn u32(&self, at: usize) -> Option<u32> {
        bytes_at(self.data, at).map(u32::from_le_bytes)
    }

    pub fn u64(&self, at: usize) -> Option<u64> {
        bytes_at(self.data, at).map(u64::from_le_bytes)
    }

    pub fn f64(&self, at: usize) -> Option<f64> {
        bytes_at(self.data, at).map(f64::from_le_bytes)
    }
}
