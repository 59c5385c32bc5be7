//! One pass over rows of plain numbers: what recorders write by the million.
//!
//! Eight bytes are looked at together: which of them are digits, where the decimal sign and the end of the cell are,
//! and what number the digits make. Whatever is not that plain is left to the careful way.

use crate::number::TEN;

const ONES: u64 = 0x0101_0101_0101_0101;
const HIGH: u64 = 0x80 * ONES;
const POWERS: [f32; 8] = [1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7];

/// The number at the beginning of `bytes`, which `end` or a line's end must follow, and where that stands.
/// `None` when it is not that simple. An empty cell is NaN.
#[inline(always)]
pub(super) fn number(bytes: &[u8], decimal: u8, end: u8) -> Option<(f32, usize)> {
    let word = |at: usize| {
        bytes
            .get(at..)
            .and_then(|b| b.first_chunk::<8>())
            .map(|b| u64::from_le_bytes(*b))
    };
    let first = *bytes.first()?;
    let sign = usize::from(first == b'-');
    let word = word(sign)?;
    // A byte that is no digit gets its high bit set: its distance from '0' is ten or more.
    let distance = word ^ (u64::from(b'0') * ONES);
    let mut others = (((distance & !HIGH) + 0x76 * ONES) | distance) & HIGH;
    if others == 0 {
        return long(bytes, sign, decimal, end);
    }
    let whole = others.trailing_zeros() / 8;
    let at = |n: u32| (word >> (8 * n)) as u8;
    let (digits, count, fraction, stop) = if at(whole) == decimal {
        others &= others - 1;
        if others == 0 {
            return long(bytes, sign, decimal, end);
        }
        let stop = others.trailing_zeros() / 8;
        // Closes the gap that the decimal sign leaves.
        let low = (1u64 << (8 * whole)) - 1;
        let closed = (distance & low) | ((distance >> 8) & !low);
        (closed, stop - 1, stop - whole - 1, stop)
    } else {
        (distance, whole, 0, whole)
    };
    let behind = at(stop);
    if behind != end && behind != b'\n' && behind != b'\r' {
        return None;
    }
    if count == 0 {
        // Nothing at all is a missing value; a lone sign or point is not for here.
        return (sign == 0 && stop == 0).then_some((f32::NAN, 0));
    }
    // Seven digits and their power of ten are whole numbers that a float holds exactly: one correctly rounded
    // division.
    let value = eight(digits << (8 * (8 - count))) as f32 / POWERS[fraction as usize];
    Some((if sign == 1 { -value } else { value }, sign + stop as usize))
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

/// A number of more than seven characters, digit by digit.
fn long(bytes: &[u8], sign: usize, decimal: u8, end: u8) -> Option<(f32, usize)> {
    let (mut mantissa, mut point, mut at) = (0u64, None, sign);
    loop {
        let b = *bytes.get(at)?;
        let digit = b.wrapping_sub(b'0');
        if digit < 10 {
            mantissa = mantissa.checked_mul(10)?.checked_add(u64::from(digit))?;
        } else if b == decimal && point.is_none() {
            point = Some(at);
        } else if b == end || b == b'\n' || b == b'\r' {
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
        number(&bytes, b'.', b';')
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
        let noughts = format!("{}1.5", "0".repeat(40));
        assert_eq!(read(&noughts, ";"), Some((1.5, 43)));
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
            if let Some((_, n)) = number(&bytes, b'.', b';') {
                prop_assert!(bytes[..n].iter().all(|b| b.is_ascii_digit() || matches!(b, b'-' | b'.')));
            }
        }
    }
}
