//! Vehicle identification numbers.

/// Result of checking a vehicle number.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum VinCheck {
    /// 17 legal characters, and the check digit is right.
    Valid,
    /// 17 legal characters of a maker outside North America, whose ninth character need not be a check
    /// digit (ISO 3779 has none).
    NotCheckable,
    /// 17 legal characters of a North American maker, but the check digit of 49 CFR 565.15(c) is wrong.
    WrongCheckDigit {
        /// The character that would be right at position 9.
        expected: char,
    },
    /// Not 17 characters, or a character that a vehicle number cannot have.
    Malformed {
        /// Reason, in words.
        reason: String,
    },
}

/// Value of a character in the weighted sum; `None` for characters that a VIN cannot have.
fn value(c: u8) -> Option<u32> {
    Some(match c {
        b'0'..=b'9' => u32::from(c - b'0'),
        b'A'..=b'H' => u32::from(c - b'A') + 1,
        b'J'..=b'N' => u32::from(c - b'J') + 1,
        b'P' => 7,
        b'R' => 9,
        b'S'..=b'Z' => u32::from(c - b'S') + 2,
        _ => return None,
    })
}

const WEIGHTS: [u32; 17] = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2];

/// Checks a vehicle number: form after ISO 3779, check digit after 49 CFR 565.15(c) where the first
/// character (1 to 5) says North America. Lower case counts as upper case.
pub fn check(vin: &str) -> VinCheck {
    let upper = vin.trim().to_ascii_uppercase();
    let count = upper.chars().count();
    if count != 17 {
        return VinCheck::Malformed {
            reason: format!("it has {count} characters, 17 were expected"),
        };
    }
    let mut sum = 0;
    for (c, weight) in upper.chars().zip(WEIGHTS) {
        match u8::try_from(c).ok().and_then(value) {
            Some(v) => sum += v * weight,
            None => {
                return VinCheck::Malformed {
                    reason: format!(
                        "it has the character {c:?}; digits and letters without I, O, Q were expected"
                    ),
                };
            }
        }
    }
    let expected = match sum % 11 {
        10 => 'X',
        n => char::from(b'0' + n as u8),
    };
    if upper.chars().nth(8) == Some(expected) {
        VinCheck::Valid
    } else if upper.starts_with(['1', '2', '3', '4', '5']) {
        VinCheck::WrongCheckDigit { expected }
    } else {
        VinCheck::NotCheckable
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The worked sample of the former 49 CFR 565 (Table V; from memory), the one that is all ones, and numbers made of the
    /// word EXAMPLE, computed with the published weights.
    #[test]
    fn worked_examples() {
        for vin in [
            "1G4AH59H45G118341",
            "1EXAMPLE900000001",
            "1EXAMPLEX00000007",
            "11111111111111111",
            "5EXAMPLE8KP000042",
        ] {
            assert_eq!(check(vin), VinCheck::Valid, "{vin}");
        }
        assert_eq!(
            check("1EXAMPLE100000007"),
            VinCheck::WrongCheckDigit { expected: 'X' }
        );
    }

    #[test]
    fn a_number_from_elsewhere_need_not_have_a_check_digit() {
        assert_eq!(check("ZZZEG000000000012"), VinCheck::NotCheckable);
    }

    #[test]
    fn malformed_numbers() {
        for vin in [
            "",
            "1EXAMPLEX0000000",
            "1EXAMPLEX000000O8",
            "ÜEXAMPLEX00000007",
        ] {
            assert!(matches!(check(vin), VinCheck::Malformed { .. }), "{vin}");
        }
    }
}
