//! One array: its header, and its values one by one.

use npyz::{DType, NpyHeader, Order, TypeChar};
use std::borrow::Cow;
use std::ops::Range;

/// Brackets that a header may have; a structured type of some hundred fields has two each, and nothing nests deep.
const MOST_BRACKETS: usize = 8192;
/// Deepest nesting of brackets.
const DEEPEST: usize = 8;
/// Longest header, bytes.
const LONGEST_HEADER: usize = 1 << 20;

/// Storage of one value.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Kind {
    pub class: Class,
    /// Bytes of one value.
    pub width: usize,
    big_endian: bool,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Class {
    Float,
    Signed,
    Unsigned,
}

/// A field of the elements: its name, where it begins in an element, and how it is stored.
#[derive(Debug, Clone)]
pub(super) struct Field {
    pub name: String,
    offset: usize,
    pub kind: Kind,
}

/// An array of numbers or of records of numbers.
#[derive(Debug)]
pub(super) struct Array<'a> {
    pub name: String,
    pub shape: Vec<usize>,
    /// True where the first index runs fastest.
    pub fortran: bool,
    /// One without a name for an array of plain numbers.
    pub fields: Vec<Field>,
    element: usize,
    /// The file, and where the values are in it.
    content: Cow<'a, [u8]>,
    data: Range<usize>,
}

impl<'a> Array<'a> {
    /// Reads an array; the error says why it cannot be.
    pub fn read(name: &str, content: impl Into<Cow<'a, [u8]>>) -> Result<Array<'a>, String> {
        let content = content.into();
        look_over(&content)?;
        let mut rest = &content[..];
        let header = NpyHeader::from_reader(&mut rest)
            .map_err(|e| format!("its header cannot be read: {e}"))?;
        let mut fields = Vec::new();
        let element = lay_out("", &header.dtype(), 0, &mut fields)?;
        let shape: Option<Vec<usize>> = header
            .shape()
            .iter()
            .map(|n| usize::try_from(*n).ok())
            .collect();
        let shape = shape.ok_or("its shape is larger than any memory")?;
        let wanted = shape.iter().try_fold(element, |n, d| n.checked_mul(*d));
        match wanted {
            Some(n) if n <= rest.len() => Ok(Array {
                name: name.into(),
                shape,
                fortran: header.order() == Order::Fortran,
                fields,
                element,
                data: content.len() - rest.len()..content.len() - rest.len() + n,
                content,
            }),
            _ => Err(format!(
                "its header promises {} values of {element} bytes, {} bytes are there",
                header
                    .shape()
                    .iter()
                    .map(u64::to_string)
                    .collect::<Vec<_>>()
                    .join(" x "),
                rest.len()
            )),
        }
    }

    /// Number of elements.
    pub fn len(&self) -> usize {
        self.data.len() / self.element.max(1)
    }

    /// The value of an array of a single plain number.
    pub fn single(&self) -> Option<f64> {
        let field = self
            .fields
            .first()
            .filter(|f| self.len() == 1 && f.name.is_empty())?;
        self.value(field, 0)
    }

    /// A field of the element at a place in the file's order.
    pub fn value(&self, field: &Field, at: usize) -> Option<f64> {
        let start = at.checked_mul(self.element)?.checked_add(field.offset)?;
        let data = self.content.get(self.data.clone())?;
        let bytes = data.get(start..start.checked_add(field.kind.width)?)?;
        Some(field.kind.value(bytes))
    }
}

/// Refuses headers that would keep a parser busy: no header of numbers is long or nests deep.
fn look_over(bytes: &[u8]) -> Result<(), String> {
    let long = bytes.get(6).is_some_and(|major| *major >= 2);
    let length = match (long, bytes.get(8..12)) {
        (false, Some(b)) => usize::from(u16::from_le_bytes([b[0], b[1]])),
        (true, Some(b)) => u32::from_le_bytes([b[0], b[1], b[2], b[3]]) as usize,
        _ => return Err("it ends inside its header".into()),
    };
    if length > LONGEST_HEADER {
        return Err("its header is longer than 1 MiB".into());
    }
    let header = bytes
        .get(8..(12 + length).min(bytes.len()))
        .unwrap_or_default();
    let (mut depth, mut deepest, mut brackets) = (0usize, 0, 0);
    for b in header {
        match b {
            b'(' | b'[' | b'{' => (depth, brackets) = (depth + 1, brackets + 1),
            b')' | b']' | b'}' => depth = depth.saturating_sub(1),
            _ => continue,
        }
        deepest = deepest.max(depth);
    }
    if deepest > DEEPEST || brackets > MOST_BRACKETS {
        return Err("its header nests deeper than that of any array of numbers".into());
    }
    Ok(())
}

/// Adds the fields of a type and gives where the next one begins.
fn lay_out(
    name: &str,
    dtype: &DType,
    offset: usize,
    fields: &mut Vec<Field>,
) -> Result<usize, String> {
    match dtype {
        DType::Plain(t) => {
            let width = t.num_bytes().ok_or("a value of unknown size")?;
            let class = match (t.type_char(), width) {
                (TypeChar::Float, 2 | 4 | 8) => Class::Float,
                (TypeChar::Int, 1 | 2 | 4 | 8) => Class::Signed,
                (TypeChar::Uint, 1 | 2 | 4 | 8) | (TypeChar::Bool, 1) => Class::Unsigned,
                _ => {
                    return Err(format!(
                        "its values are of type {t}; integers and floats of up to 64 bits are read"
                    ));
                }
            };
            let big_endian = t.endianness() == npyz::Endianness::Big;
            fields.push(Field {
                name: name.into(),
                offset,
                kind: Kind {
                    class,
                    width,
                    big_endian,
                },
            });
            offset
                .checked_add(width)
                .ok_or_else(|| "an element of unbelievable size".into())
        }
        DType::Record(parts) => parts.iter().try_fold(offset, |at, part| {
            lay_out(&part.name, &part.dtype, at, fields)
        }),
        DType::Array(..) => Err("a field that is itself an array".into()),
    }
}

impl Kind {
    fn value(self, bytes: &[u8]) -> f64 {
        let place = |(i, b): (usize, &u8)| u64::from(*b) << (8 * i);
        let bits: u64 = if self.big_endian {
            bytes.iter().rev().enumerate().map(place).sum()
        } else {
            bytes.iter().enumerate().map(place).sum()
        };
        match (self.class, self.width) {
            (Class::Float, 8) => f64::from_bits(bits),
            (Class::Float, 4) => f64::from(f32::from_bits(bits as u32)),
            (Class::Float, _) => half(bits as u16),
            (Class::Unsigned, _) => bits as f64,
            (Class::Signed, width) => {
                let shift = 64 - 8 * width as u32;
                ((bits << shift) as i64 >> shift) as f64
            }
        }
    }
}

/// A number of 16 bits (IEEE 754 binary16).
fn half(bits: u16) -> f64 {
    let (exponent, fraction) = (
        i32::from(bits >> 10 & 0x1F),
        f64::from(bits & 0x3FF) / 1024.0,
    );
    let size = match exponent {
        0 => fraction * 2f64.powi(-14),
        31 if fraction == 0.0 => f64::INFINITY,
        31 => f64::NAN,
        e => (1.0 + fraction) * 2f64.powi(e - 15),
    };
    if bits >> 15 == 1 { -size } else { size }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Values of numpy.float16 (NumPy 2.4.6).
    #[test]
    fn halves() {
        for (bits, want) in [
            (0x3C00, 1.0),
            (0xC000, -2.0),
            (0x3555, 0.333251953125),
            (0x0001, 5.960464477539063e-8),
            (0x7C00, f64::INFINITY),
        ] {
            assert_eq!(half(bits), want);
        }
        assert!(half(0x7E00).is_nan());
    }

    #[test]
    fn headers_that_nest_are_refused_before_they_are_parsed() {
        let header = "(".repeat(60_000);
        let mut bytes = b"\x93NUMPY\x01\x00".to_vec();
        bytes.extend((header.len() as u16).to_le_bytes());
        bytes.extend(header.bytes());
        assert!(Array::read("", &bytes[..]).unwrap_err().contains("nests"));
        assert!(
            Array::read("", &b"\x93NUMPY\x02\x00\xFF\xFF\xFF\xFF"[..])
                .unwrap_err()
                .contains("longer")
        );
        assert!(Array::read("", &b"\x93NUMPY"[..]).is_err());
    }
}
