//! Data blocks and the records in them.

use super::block::{Block, File};
use super::group::Group;
use crate::{ErrorKind, FormatError};
use flate2::bufread::ZlibDecoder;
use std::io::Read;

/// Most bytes that one deflated block may unfold to.
const LARGEST_BLOCK: u64 = 1 << 28;
/// The most that deflate can shrink (RFC 1951: 258 bytes from about two bits).
const DEFLATE_LIMIT: u64 = 1032;

/// Bytes of data behind an address, as far as plain blocks tell; for files that were not finalised.
pub(super) fn stored_length(file: &File, at: u64) -> u64 {
    let mut sum = 0;
    let _ = fragments(file, at, &mut |bytes| {
        sum += bytes.len() as u64;
        true
    });
    sum
}

/// Gives the data behind an address, block by block, until `take` returns false.
fn fragments(file: &File, at: u64, take: &mut dyn FnMut(&[u8]) -> bool) -> Result<(), FormatError> {
    if at == 0 {
        return Ok(());
    }
    let block = file.any_block(at)?;
    match &block.id {
        b"##HL" => list(file, block.link(0), take),
        b"##DL" => list(file, at, take),
        _ => leaf(file, at, &block, take).map(|_| ()),
    }
}

fn list(file: &File, first: u64, take: &mut dyn FnMut(&[u8]) -> bool) -> Result<(), FormatError> {
    for dl in file.chain(first, b"##DL")? {
        for i in 1..dl.link_count() {
            let at = dl.link(i);
            if at == 0 {
                continue;
            }
            let block = file.any_block(at)?;
            if !leaf(file, at, &block, take)? {
                return Ok(());
            }
        }
    }
    Ok(())
}

fn leaf(
    file: &File,
    at: u64,
    block: &Block,
    take: &mut dyn FnMut(&[u8]) -> bool,
) -> Result<bool, FormatError> {
    match &block.id {
        // A writer that was interrupted leaves the length of the last block at nothing.
        b"##DT" if file.unfinished && block.data.is_empty() => {
            let start = usize::try_from(block.data_at).unwrap_or(usize::MAX);
            Ok(take(file.bytes.get(start..).unwrap_or(&[])))
        }
        b"##DT" | b"##SD" => Ok(take(block.data)),
        b"##DZ" => Ok(take(&inflate(file, at, block)?)),
        id => Err(FormatError::new(
            ErrorKind::Unsupported,
            file.name,
            Some(format!("byte {at}")),
            &format!(
                "data in a block {}; DT, DZ, DL and HL are read",
                String::from_utf8_lossy(id)
            ),
            "export it as MDF 4.1, or as CSV",
        )),
    }
}

fn inflate(file: &File, at: u64, block: &Block) -> Result<Vec<u8>, FormatError> {
    let damaged = |what: &str| FormatError::damaged(file.name, at, what);
    let short = || damaged("a deflated block that is too short");
    let transposed = block.u8(2).ok_or_else(short)? == 1;
    let columns = block.u32(4).ok_or_else(short)? as usize;
    let size = block.u64(8).ok_or_else(short)?;
    let packed = block.data.get(24..).ok_or_else(short)?;
    if size > LARGEST_BLOCK || size > (packed.len() as u64 + 64) * DEFLATE_LIMIT {
        return Err(damaged(
            "a deflated block claims to be larger than it can be",
        ));
    }
    let mut plain = Vec::with_capacity(size as usize);
    ZlibDecoder::new(packed)
        .take(size)
        .read_to_end(&mut plain)
        .map_err(|e| damaged(&format!("a deflated block that does not unfold ({e})")))?;
    if plain.len() as u64 != size {
        return Err(damaged(
            "a deflated block that unfolds to less than it claims",
        ));
    }
    if !transposed || columns == 0 {
        return Ok(plain);
    }
    // Stored column by column for better packing; bytes that fill no whole row follow unchanged.
    let rows = plain.len() / columns;
    let mut out = Vec::with_capacity(plain.len());
    for r in 0..rows {
        out.extend((0..columns).map(|c| plain[c * rows + r]));
    }
    out.extend_from_slice(&plain[rows * columns..]);
    Ok(out)
}

/// Gives the records of one group, without their identifiers, until `take` returns false.
pub(super) fn records(
    group: &Group,
    take: &mut dyn FnMut(&[u8]) -> bool,
) -> Result<(), FormatError> {
    let own = group.data_bytes + group.invalidation_bytes;
    let mut carry: Vec<u8> = Vec::new();
    let mut error = None;
    // Lists may name one block again and again; no honest file unfolds to more than this.
    let mut left = (group.file.bytes.len() as u64).saturating_mul(DEFLATE_LIMIT);
    fragments(group.file, group.data, &mut |bytes| {
        let mut rest = bytes;
        match left.checked_sub(bytes.len() as u64) {
            Some(l) => left = l,
            None => return false,
        }
        // A record that the block before began: take over just enough to end it.
        while !carry.is_empty() && !rest.is_empty() {
            match record_length(group, own, &carry) {
                Err(e) => {
                    error = Some(e);
                    return false;
                }
                Ok(Some(length)) if carry.len() >= length => {
                    if !give(group, &carry[..length], take) {
                        return false;
                    }
                    carry.drain(..length);
                }
                Ok(length) => {
                    let missing = length.map_or(1, |l| l - carry.len()).min(rest.len());
                    carry.extend_from_slice(&rest[..missing]);
                    rest = &rest[missing..];
                }
            }
        }
        loop {
            let source = if carry.is_empty() {
                rest
            } else {
                carry.as_slice()
            };
            match record_length(group, own, source) {
                Err(e) => {
                    error = Some(e);
                    return false;
                }
                Ok(Some(length)) if length <= source.len() && !source.is_empty() => {
                    if !give(group, &source[..length], take) {
                        return false;
                    }
                    if carry.is_empty() {
                        rest = &rest[length..];
                    } else {
                        carry.drain(..length);
                    }
                }
                _ => break,
            }
        }
        carry.extend_from_slice(rest);
        true
    })?;
    error.map_or(Ok(()), Err)
}

fn record_id(group: &Group, bytes: &[u8]) -> Option<u64> {
    let id = bytes.get(..group.record_id_size)?;
    Some(id.iter().rev().fold(0, |v, b| v << 8 | u64::from(*b)))
}

/// Length of the record that begins here, with its identifier; `None` when too little is there to tell.
fn record_length(group: &Group, own: usize, bytes: &[u8]) -> Result<Option<usize>, FormatError> {
    if group.record_id_size == 0 {
        return Ok(Some(own));
    }
    let Some(id) = record_id(group, bytes) else {
        return Ok(None);
    };
    match group.siblings.iter().find(|(i, _)| *i == id) {
        Some((_, Some(length))) => Ok(Some(group.record_id_size + length)),
        Some((_, None)) => {
            let prefix = bytes.get(group.record_id_size..group.record_id_size + 4);
            let length = prefix
                .and_then(|p| p.try_into().ok())
                .map(u32::from_le_bytes);
            Ok(length.map(|l| group.record_id_size + 4 + l as usize))
        }
        None => Err(FormatError::damaged(
            group.file.name,
            group.data,
            &format!("a record of group {id}, which does not exist"),
        )),
    }
}

fn give(group: &Group, record: &[u8], take: &mut dyn FnMut(&[u8]) -> bool) -> bool {
    let own = group.record_id_size == 0 || record_id(group, record) == Some(group.id);
    !own || take(&record[group.record_id_size..])
}
