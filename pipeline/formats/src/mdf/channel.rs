//! Channels: where a value lies in a record and how its bits are read.

use super::block::{Block, File};
use super::convert::Conversion;
use crate::time_axis;

/// Purpose of a channel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// The group's time.
    Time,
    /// Samples.
    Values,
    /// A master of another quantity (angle, distance, index).
    Other,
}

/// Type of the bits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Bits {
    Unsigned,
    Signed,
    F32,
    F64,
    /// No bits at all: the record's number.
    Counter,
}

/// One channel.
#[derive(Debug)]
pub(super) struct ChannelBlock {
    pub name: String,
    pub unit: Option<String>,
    pub kind: Kind,
    bits: Bits,
    big_endian: bool,
    byte_offset: usize,
    bit_offset: u32,
    bit_count: u32,
    conversion: Conversion,
    all_invalid: bool,
    invalid_bit: Option<usize>,
}

impl ChannelBlock {
    /// Reads a channel; the error is its name and why it cannot be read.
    pub fn read(file: &File, block: &Block) -> Result<Self, (String, String)> {
        let name = file
            .text(block.link(2))
            .unwrap_or_else(|| "without a name".into());
        let fail = |why: &str| Err((name.clone(), why.to_string()));
        let (Some(channel_type), Some(sync), Some(data_type)) =
            (block.u8(0), block.u8(1), block.u8(2))
        else {
            return fail("its block is too short");
        };
        let (Some(bit_offset), Some(byte_offset), Some(bit_count), Some(flags)) =
            (block.u8(3), block.u32(4), block.u32(8), block.u32(12))
        else {
            return fail("its block is too short");
        };
        // Beyond a whole byte is the byte offset's business.
        if bit_offset > 7 {
            return fail("its bits begin beyond the byte that it names");
        }
        let kind = match (channel_type, sync) {
            (2 | 3, 1) => Kind::Time,
            (2 | 3, _) => Kind::Other,
            (0 | 6, _) => Kind::Values,
            (4, _) => return fail("it synchronises with an attached file"),
            _ => return fail("it holds values of varying length"),
        };
        if block.link(1) != 0 {
            return fail("it is an array or a structure");
        }
        let bits = match (channel_type, data_type, bit_count) {
            (3 | 6, _, _) => Bits::Counter,
            (_, 0 | 1, 1..=64) => Bits::Unsigned,
            (_, 2 | 3, 1..=64) => Bits::Signed,
            (_, 4 | 5, 32) => Bits::F32,
            (_, 4 | 5, 64) => Bits::F64,
            (_, 6..=9, _) => return fail("it holds text"),
            _ => {
                return fail(
                    "its data type is not read (integers up to 64 bits, floats of 32 and 64 bits are)",
                );
            }
        };
        let conversion =
            Conversion::read(file, block.link(4)).map_err(|why| (name.clone(), why))?;
        let unit = file.text(block.link(6)).or_else(|| conversion.unit.clone());
        Ok(ChannelBlock {
            unit,
            kind,
            bits,
            big_endian: data_type < 6 && data_type % 2 == 1,
            byte_offset: byte_offset as usize,
            bit_offset: u32::from(bit_offset),
            bit_count,
            conversion,
            all_invalid: flags & 1 == 1,
            invalid_bit: (flags & 2 == 2).then(|| block.u32(16).unwrap_or(0) as usize),
            name,
        })
    }

    /// The value in a record, NaN where it is marked invalid or lies outside the record.
    pub fn value(&self, record: &[u8], data_bytes: usize, index: u64) -> f64 {
        let invalid = self.invalid_bit.is_some_and(|bit| {
            record
                .get(data_bytes + bit / 8)
                .is_some_and(|b| b >> (bit % 8) & 1 == 1)
        });
        if self.all_invalid || invalid {
            return f64::NAN;
        }
        if self.bits == Bits::Counter {
            return self.conversion.apply(index as f64);
        }
        let raw = self.raw(record.get(..data_bytes).unwrap_or(record));
        raw.map_or(f64::NAN, |raw| self.conversion.apply(raw))
    }

    fn raw(&self, record: &[u8]) -> Option<f64> {
        let width = (self.bit_offset + self.bit_count).div_ceil(8) as usize;
        let bytes = record.get(self.byte_offset..self.byte_offset.checked_add(width)?)?;
        // At most 9 bytes: 64 bits that begin inside a byte.
        let fold = |v: u128, b: &u8| v << 8 | u128::from(*b);
        let all = if self.big_endian {
            bytes.iter().fold(0u128, fold)
        } else {
            bytes.iter().rev().fold(0u128, fold)
        };
        let mask = u64::MAX >> (64 - self.bit_count);
        let bits = (all >> self.bit_offset) as u64 & mask;
        Some(match self.bits {
            Bits::Unsigned | Bits::Counter => bits as f64,
            Bits::Signed => {
                let shift = 64 - self.bit_count;
                ((bits << shift) as i64 >> shift) as f64
            }
            Bits::F32 => f64::from(f32::from_bits(bits as u32)),
            Bits::F64 => f64::from_bits(bits),
        })
    }

    /// Resolution of the time channel, s: the step of an integer, the rounding of a float.
    pub fn resolution(&self, time: &[f64]) -> f64 {
        let largest = [time.first(), time.last()]
            .into_iter()
            .flatten()
            .fold(0.0f64, |m, t| m.max(t.abs()));
        let own = match self.bits {
            Bits::F32 => f64::from(f32::EPSILON) * largest,
            Bits::Unsigned | Bits::Signed => {
                (self.conversion.apply(1.0) - self.conversion.apply(0.0)).abs()
            }
            Bits::F64 | Bits::Counter => 0.0,
        };
        time_axis::binary_resolution(time, own)
    }
}
