//! Rows of one shape: digits in the same places, and elsewhere the same bytes.
//!
//! The places of the cells and the number of their digits are those of the other then.

/// Bytes that are compared at once: a register that every processor of the kind has.
const PIECE: usize = 16;

/// True for two rows of one length and one shape; false for rows shorter than [`PIECE`].
#[inline(always)]
pub(super) fn same_shape(a: &[u8], b: &[u8]) -> bool {
    // The last piece overlaps the one before, so that none is shorter.
    let (Some(a_end), Some(b_end)) = (a.last_chunk(), b.last_chunk()) else {
        return false;
    };
    let mut pieces = a.as_chunks().0.iter().zip(b.as_chunks().0);
    a.len() == b.len() && pieces.all(|(a, b)| same_piece(a, b)) && same_piece(a_end, b_end)
}

/// Every byte is looked at, whatever was found before: that becomes a few operations on all of them.
#[inline(always)]
fn same_piece(a: &[u8; PIECE], b: &[u8; PIECE]) -> bool {
    let digits = |a: u8, b: u8| a.wrapping_sub(b'0').max(b.wrapping_sub(b'0')) < 10;
    a.iter()
        .zip(b)
        .fold(true, |so_far, (a, b)| so_far & ((a == b) | digits(*a, *b)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #![proptest_config(ProptestConfig { cases: 2000, ..ProptestConfig::default() })]
        /// Against the standard library's idea of a digit, byte by byte.
        #[test]
        fn digits_for_digits_and_nothing_else(
            row in prop::collection::vec(any::<u8>(), 16..70),
            digits in prop::collection::vec(b'0'..=b'9', 70),
            at in any::<prop::sample::Index>(),
            other in any::<u8>(),
        ) {
            let digit_for_digit = |(b, d): (&u8, u8)| if b.is_ascii_digit() { d } else { *b };
            let mut next: Vec<u8> = row.iter().zip(digits).map(digit_for_digit).collect();
            prop_assert!(same_shape(&row, &next));
            let at = at.index(row.len());
            next[at] = other;
            let want = row[at] == other || row[at].is_ascii_digit() && other.is_ascii_digit();
            prop_assert_eq!(same_shape(&row, &next), want);
            prop_assert!(!same_shape(&row, &next[1..]));
        }
    }
}
