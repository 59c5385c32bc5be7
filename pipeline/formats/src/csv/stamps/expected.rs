//! The text of the next stamp, known beforehand.

/// Longest expected text; with the delimiter behind it it is compared as one 16-byte word.
const LONGEST_EXPECTED: usize = 15;

/// The text of the next stamp if the step stays the same, and how to count it on.
#[derive(Debug, Clone, Default)]
pub(super) struct Expected {
    /// The text, and the byte that must follow it.
    text: [u8; LONGEST_EXPECTED + 1],
    /// Length of the text; 0 where nothing is expected.
    len: usize,
    /// Selects the text and the byte behind it.
    mask: u128,
    /// The step's digits under the text's digits, 0 under the decimal sign.
    step: [u8; LONGEST_EXPECTED + 1],
    /// Where the step's first digit stands.
    step_from: usize,
    point: u8,
}

impl Expected {
    /// What is expected behind the whole number `m`. Nothing where counting on is not worth it: negative stamps.
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
        // The decimal sign stands in the step too, so that digits stand under digits.
        let written = |n: i64| {
            let digits = format!("{n:0width$}", width = places + 1);
            let (whole, fraction) = digits.split_at(digits.len() - places);
            let sign = if places > 0 {
                char::from(point).to_string()
            } else {
                String::new()
            };
            format!("{whole}{sign}{fraction}").into_bytes()
        };
        let (next, step) = (written(next), written(step));
        let len = next.len();
        if len > LONGEST_EXPECTED || step.len() > len {
            return none;
        }
        let mut expected = Expected {
            len,
            point,
            step_from: len,
            ..none
        };
        expected.text[..len].copy_from_slice(&next);
        expected.text[len] = end;
        for (i, d) in (len - step.len()..len).zip(step) {
            expected.step[i] = d.wrapping_sub(b'0');
            if expected.step[i] != 0 && d != point {
                expected.step_from = expected.step_from.min(i);
            }
        }
        expected.mask = u128::MAX >> (8 * (LONGEST_EXPECTED - len));
        expected
    }

    /// The length of the text where it begins here and the right byte follows it.
    #[inline]
    pub fn matches(&self, bytes: &[u8]) -> Option<usize> {
        let here = u128::from_le_bytes(*bytes.first_chunk()?);
        let wanted = u128::from_le_bytes(self.text);
        (self.len > 0 && (here ^ wanted) & self.mask == 0).then_some(self.len)
    }

    /// Adds the step in decimal.
    #[inline]
    pub fn advance(&mut self) {
        let mut carry = 0;
        for i in (0..self.len).rev() {
            let b = self.text[i];
            if b == self.point {
                continue;
            }
            if i < self.step_from && carry == 0 {
                return;
            }
            let sum = b + self.step[i] + carry;
            carry = u8::from(sum > b'9');
            self.text[i] = sum - 10 * carry;
        }
        // One digit more: the next stamp is read as it comes, and the one behind it is expected again.
        if carry > 0 {
            self.len = 0;
        }
    }
}
