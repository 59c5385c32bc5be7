//! One pass over rows of plain numbers: what recorders write by the million.
//!
//! Eight bytes are looked at together: which of them are digits, where the decimal sign and the end of the cell are,
//! and what number the digits make. Whatever is not that plain is left to the careful way.

use crate::number::TEN;

const ONES: u64 = 0x0101_0101_0101_0101;
const HIGH: u64 = 0x80 * ONES;
const POWERS: [f32; 7] = [1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6];
/// Digits that are read at once.
const MOST_DIGITS: u32 = 6;
/// A float whose last place counts ones.
const ZERO: f32 = (1 << 23) as f32;

/// Notation of a column's cells: so many digits before the decimal sign and behind it, and the byte that follows.
/// Cells that follow each other mostly have one form. Whether the next one has it too is told at once, and where it
/// ends is known without looking for it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Form {
    /// The decimal sign and the byte behind the cell, and the code for zero where digits stand.
    frame: u64,
    /// Distance of a byte's difference from the frame to its highest bit, when it is no digit (ten) or not the sign that
    /// it should be (one).
    bias: u64,
    /// The highest bits of the bytes that belong to the cell, and of the one behind it.
    own: u64,
    whole: u64,
    fraction: u64,
    /// Moves the last digit to the highest byte.
    shift: u32,
    len: u32,
    power: f32,
}

impl Form {
    /// Form expected of a column's first cell: one digit.
    pub fn first(end: u8) -> Form {
        Form::new(1, None, b'.', end)
    }

    /// So many characters, one to six of them digits; `point` is where the decimal sign stands.
    fn new(len: u32, point: Option<u32>, decimal: u8, end: u8) -> Form {
        let below = |n: u32| u64::MAX.checked_shr(64 - 8 * n).unwrap_or(0);
        let at = |b: u8, n: u32| u64::from(b) << (8 * n);
        let whole = below(point.unwrap_or(len));
        let fraction = point.map_or(0, |p| below(len) & !below(p + 1));
        let (digits, cell) = (whole | fraction, below(len + 1));
        let sign = point.map_or(0, |p| at(decimal, p));
        Form {
            frame: (digits & (u64::from(b'0') * ONES)) | sign | at(end, len),
            bias: (digits & (0x76 * ONES)) | (cell & !digits & (0x7F * ONES)),
            own: cell & HIGH,
            whole,
            fraction,
            shift: 64 - 8 * (len - u32::from(point.is_some())),
            len,
            power: POWERS[point.map_or(0, |p| len - p - 1) as usize],
        }
    }

    /// The value of a cell that has this form.
    #[inline(always)]
    fn value(&self, word: u64) -> Option<f32> {
        let distance = word ^ self.frame;
        if (((distance & !HIGH) + self.bias) | distance) & self.own != 0 {
            return None;
        }
        Some(self.number(distance) / self.power)
    }

    /// The digits without their decimal sign as a number; `distance` is the cell's from the frame.
    #[inline(always)]
    fn number(&self, distance: u64) -> f32 {
        // Closes the gap that the decimal sign leaves.
        let digits = (distance & self.whole) | ((distance & self.fraction) >> 8);
        // A number below 2^23 put where a float's fraction stands, behind a leading 2^23: no conversion, which would wait
        // for the one before. Six digits and their power of ten are floats exactly: one correctly rounded division.
        f32::from_bits(ZERO.to_bits() | eight(digits << self.shift)) - ZERO
    }
}

/// The number at the beginning of `bytes`, which `end` or, in a `last` column, a line's end must follow, and where that
/// stands. `None` when it is not that simple. An empty cell is NaN. `form` is that of the cell before, and then of this
/// one.
#[inline(always)]
pub(super) fn number(
    bytes: &[u8],
    decimal: u8,
    end: u8,
    last: bool,
    form: &mut Form,
) -> Option<(f32, usize)> {
    let (negative, word) = sign_and_word(bytes)?;
    let sign = usize::from(negative);
    let value = match form.value(word) {
        Some(value) => value,
        None => match seen(word, decimal, end, last)? {
            Seen::Form(new) => {
                *form = new;
                new.value(word)?
            }
            Seen::Long => return long(bytes, sign, decimal, end, last),
            Seen::Nothing => return (!negative).then_some((f32::NAN, 0)),
        },
    };
    Some((
        if negative { -value } else { value },
        sign + form.len as usize,
    ))
}

/// A minus sign, true where one stands here, and the eight bytes that the number begins with.
#[inline(always)]
fn sign_and_word(bytes: &[u8]) -> Option<(bool, u64)> {
    let [first, rest @ ..] = bytes.first_chunk::<9>()?;
    let negative = *first == b'-';
    let word = match negative {
        true => u64::from_le_bytes(*rest),
        false => u64::from_le_bytes(*rest) << 8 | u64::from(*first),
    };
    Some((negative, word))
}

/// A form and a sign that cells are known to have: nothing is left to be found out but their digits.
#[derive(Debug, Clone, Copy)]
pub(super) struct FixedForm {
    form: Form,
    /// Bytes before the first digit: those of the sign.
    pub sign: usize,
    /// The power of ten with the cells' sign: it makes the quotient's.
    power: f32,
}

impl FixedForm {
    /// That of the cell at the beginning of `bytes`, if it has this form.
    pub fn new(bytes: &[u8], form: Form) -> Option<FixedForm> {
        let (negative, word) = sign_and_word(bytes)?;
        form.value(word)?;
        Some(FixedForm {
            form,
            sign: usize::from(negative),
            power: if negative { -form.power } else { form.power },
        })
    }

    /// The value of a cell whose first eight bytes behind the sign, and behind the cell, are these.
    #[inline(always)]
    pub fn value(&self, bytes: [u8; 8]) -> f32 {
        self.form
            .number(u64::from_le_bytes(bytes) ^ self.form.frame)
            / self.power
    }
}

/// Beginning of a cell.
enum Seen {
    Form(Form),
    /// More than fits.
    Long,
    Nothing,
}

/// The form of a cell; `None` when it is no plain number.
fn seen(word: u64, decimal: u8, end: u8, last: bool) -> Option<Seen> {
    // A byte that is no digit gets its high bit set: its distance from '0' is ten or more.
    let distance = word ^ (u64::from(b'0') * ONES);
    let others = (((distance & !HIGH) + 0x76 * ONES) | distance) & HIGH;
    if others == 0 {
        return Some(Seen::Long);
    }
    let at = |n: u32| (word >> (8 * n)) as u8;
    let first = others.trailing_zeros() / 8;
    let (len, point) = if at(first) == decimal {
        let behind = others & (others - 1);
        if behind == 0 {
            return Some(Seen::Long);
        }
        (behind.trailing_zeros() / 8, Some(first))
    } else {
        (first, None)
    };
    let behind = at(len);
    if !ends(behind, end, last) {
        return None;
    }
    match (len, point) {
        // Nothing at all is a missing value; a lone sign or point is not for here.
        (0, _) => Some(Seen::Nothing),
        (1, Some(_)) => None,
        _ if len - u32::from(point.is_some()) > MOST_DIGITS => Some(Seen::Long),
        _ => Some(Seen::Form(Form::new(len, point, decimal, behind))),
    }
}

/// True where a cell ends where this byte stands.
#[inline]
fn ends(byte: u8, end: u8, last: bool) -> bool {
    byte == end || last && (byte == b'\n' || byte == b'\r')
}

/// Eight digits, the first in the lowest byte, as a number (D. Lemire's and others' well-known multiply and shift).
#[inline(always)]
fn eight(digits: u64) -> u32 {
    let pairs = digits.wrapping_mul(10).wrapping_add(digits >> 8);
    const PAIR: u64 = 0x0000_00FF_0000_00FF;
    let high = (pairs & PAIR).wrapping_mul(0x000F_4240_0000_0064);
    let low = ((pairs >> 16) & PAIR).wrapping_mul(0x0000_2710_0000_0001);
    (high.wrapping_add(low) >> 32) as u32
}

/// A number of more digits, digit by digit.
fn long(bytes: &[u8], sign: usize, decimal: u8, end: u8, last: bool) -> Option<(f32, usize)> {
    let (mut mantissa, mut point, mut at) = (0u64, None, sign);
    loop {
        let b = *bytes.get(at)?;
        let digit = b.wrapping_sub(b'0');
        if digit < 10 {
            mantissa = mantissa.checked_mul(10)?.checked_add(u64::from(digit))?;
        } else if b == decimal && point.is_none() {
            point = Some(at);
        } else if ends(b, end, last) {
            break;
        } else {
            return None;
        }
        at += 1;
    }
    // A double holds that many exactly, so one division gives the correctly rounded value.
    if mantissa > 1 << 53 {
        return None;
    }
    let fraction = point.map_or(0, |p| at - p - 1);
    let value = mantissa as f64 / TEN.get(fraction)?;
    Some((if sign == 1 { -value } else { value } as f32, at))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn read(cell: &str, end: &str) -> Option<(f32, usize)> {
        let mut bytes = format!("{cell}{end}").into_bytes();
        bytes.extend_from_slice(b"987,54;32109876");
        let alone = number(&bytes, b'.', b';', true, &mut Form::first(b';'));
        // Behind another cell of the same form it is read alike, and behind one of another form.
        for before in ["7", "1234567", ".5", "12.345"] {
            let mut form = Form::first(b';');
            let before = [before.as_bytes(), b";45678901"].concat();
            number(&before, b'.', b';', true, &mut form);
            for _ in 0..2 {
                let bits = |n: Option<(f32, usize)>| n.map(|(v, n)| (v.to_bits(), n));
                let again = number(&bytes, b'.', b';', true, &mut form);
                assert_eq!(bits(again), bits(alone), "{cell}");
            }
        }
        alone
    }

    #[test]
    fn what_is_not_plain_is_left_alone() {
        for cell in [
            "-", ".", "-.", "+1", "1e5", "1,5", "OL", "\"1\"", " 1", "1 ", "1.2.3", "12.34.5",
            "é1", "1é", "--1",
        ] {
            assert_eq!(read(cell, ";"), None, "{cell}");
        }
        for end in [";", "\n", "\r\n"] {
            assert!(read("", end).is_some_and(|(v, n)| v.is_nan() && n == 0));
            assert_eq!(read("-0.5", end), Some((-0.5, 4)));
            assert_eq!(read("7", end), Some((7.0, 1)));
            assert_eq!(read("1234567", end), Some((1_234_567.0, 7)));
            assert_eq!(read("12345678", end), Some((12_345_678.0, 8)));
            assert_eq!(read("5.", end), Some((5.0, 2)));
            assert_eq!(read(".5", end), Some((0.5, 2)));
        }
    }

    /// Found by fuzzing: more digits than a word holds.
    #[test]
    fn a_number_of_very_many_digits_is_left_alone() {
        for n in 17..60 {
            for first in ["6", "1", "9", "0."] {
                let cell = format!("{first}{}", "6".repeat(n));
                assert_eq!(read(&cell, ";"), None, "{cell}");
            }
        }
        let zeros = format!("{}1.5", "0".repeat(40));
        assert_eq!(read(&zeros, ";"), Some((1.5, 43)));
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 2000, ..ProptestConfig::default() })]
        #[test]
        fn equal_to_the_standard_library(s in r"-?[0-9]{0,9}\.?[0-9]{0,9}") {
            let want = s.parse::<f64>().ok().map(|v| (v as f32, s.len()));
            match (read(&s, ";"), want) {
                (None, _) => prop_assert!(want.is_none() || s.len() > 15),
                (Some((v, 0)), None) => prop_assert!(v.is_nan() && s.is_empty()),
                (Some(got), want) => prop_assert_eq!(Some((got.0.to_bits(), got.1)), want.map(|w| (w.0.to_bits(), w.1))),
            }
        }

        #[test]
        fn never_more_than_the_cell(bytes in prop::collection::vec(any::<u8>(), 0..40)) {
            if let Some((_, n)) = number(&bytes, b'.', b';', true, &mut Form::first(b';')) {
                prop_assert!(bytes[..n].iter().all(|b| b.is_ascii_digit() || matches!(b, b'-' | b'.')));
            }
        }
    }
}
