//! The text of the next stamp, known beforehand.

/// Longest expected text; with the delimiter behind it it is compared as one 16-byte word.
const LONGEST_EXPECTED: usize = 15;

/// A one in every byte.
const ONES: u128 = u128::MAX / 0xFF;

/// The text of the next stamp if the step stays the same, and how to count it on.
///
/// All words have the text's first character in their highest byte, so that an addition carries from the last digit
/// towards the first.
#[derive(Debug, Clone, Default)]
pub(super) struct Expected {
    /// Length of the text; 0 where nothing is expected.
    len: usize,
    /// The text and the byte that must follow it.
    text: u128,
    /// The step's digits under them.
    step: u128,
    /// All bits where a digit stands.
    is_digit: u128,
    /// Distance of a digit to the end of its byte, less the ten: two digits that come to ten carry. The decimal sign
    /// hands a carry on.
    bias: u128,
    /// The text with zeros for digits.
    frame: u128,
    /// Selects the text and the byte behind it.
    mask: u128,
}

impl Expected {
    /// The text that is expected behind the whole number `m`. Nothing where counting on is not worth it: negative stamps.
    pub fn behind(m: i64, step: i64, decimals: i32, point: u8, end: u8) -> Self {
        let none = Expected::default();
        let Some(places) = usize::try_from(decimals)
            .ok()
            .filter(|p| *p < LONGEST_EXPECTED)
        else {
            return none;
        };
        let Some(next) = m.checked_add(step).filter(|_| m >= 0 && step >= 0) else {
            return none;
        };
        let least = places + 1;
        let next = format!("{next:0least$}");
        let step = format!("{step:0width$}", width = next.len());
        let len = next.len() + usize::from(places > 0);
        if len > LONGEST_EXPECTED {
            return none;
        }
        let mut expected = Expected {
            len,
            mask: u128::MAX << (8 * (LONGEST_EXPECTED - len)),
            ..none
        };
        let point_at = next.len() - places;
        let at = |i: usize| 8 * (LONGEST_EXPECTED - i);
        for (i, (digit, step)) in next.bytes().zip(step.bytes()).enumerate() {
            let at = at(i + usize::from(i >= point_at));
            expected.text |= u128::from(digit - b'0') << at;
            expected.step |= u128::from(step - b'0') << at;
            expected.is_digit |= 0xFF << at;
            expected.bias |= 0xF6 << at;
            expected.frame |= u128::from(b'0') << at;
        }
        if places > 0 {
            expected.bias |= 0xFF << at(point_at);
            expected.frame |= u128::from(point) << at(point_at);
        }
        expected.frame |= u128::from(end) << at(len);
        expected.text |= expected.frame;
        expected
    }

    /// The length of the text where it begins here and the right byte follows it.
    #[inline]
    pub fn matches(&self, bytes: &[u8]) -> Option<usize> {
        let here = u128::from_be_bytes(*bytes.first_chunk()?);
        (self.len > 0 && (here ^ self.text) & self.mask == 0).then_some(self.len)
    }

    /// Adds the step in decimal, all digits at once.
    #[inline]
    pub fn advance(&mut self) {
        let digits = self.text ^ self.frame;
        let (sum, over) = (digits + self.bias).overflowing_add(self.step);
        // A byte that did not carry still has its bias, and with it its highest bit.
        let biased = (sum >> 7) & ONES;
        let low = sum & (0x0F * ONES);
        self.text = ((low - (biased << 1) - (biased << 2)) & self.is_digit) | self.frame;
        // One digit more: the next stamp is read as it comes, and the one behind it is expected again.
        if over {
            self.len = 0;
        }
    }
}
