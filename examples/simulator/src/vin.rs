//! Vehicle numbers that are plainly examples.

/// Weights of the seventeen places (49 CFR 565.15).
const WEIGHTS: [u32; 17] = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2];

/// Value of a character (49 CFR 565.15); `None` for I, O, Q and what is neither letter nor digit.
fn value(c: char) -> Option<u32> {
    Some(match c {
        '0'..='9' => c as u32 - '0' as u32,
        'A'..='H' => c as u32 - 'A' as u32 + 1,
        'J'..='N' => c as u32 - 'J' as u32 + 1,
        'P' => 7,
        'R' => 9,
        'S'..='Z' => c as u32 - 'S' as u32 + 2,
        _ => return None,
    })
}

/// The number with its check digit (place 9) put right; `None` unless it has seventeen allowed characters.
pub fn with_check_digit(vin: &str) -> Option<String> {
    if vin.chars().count() != 17 {
        return None;
    }
    let mut sum = 0;
    for (c, weight) in vin.chars().zip(WEIGHTS) {
        sum += value(c)? * weight;
    }
    let digit = match sum % 11 {
        10 => 'X',
        d => char::from_digit(d, 10)?,
    };
    Some(
        vin.chars()
            .enumerate()
            .map(|(i, c)| if i == 8 { digit } else { c })
            .collect(),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The worked sample of the former 49 CFR 565 (Table V; from memory), the number that is all ones, and one made of the
    /// word EXAMPLE, computed with the published weights.
    #[test]
    fn check_digits_of_published_numbers() {
        for vin in [
            "1G4AH59H45G118341",
            "11111111111111111",
            "5EXAMPLE8KP000042",
        ] {
            let wrong: String = vin
                .chars()
                .enumerate()
                .map(|(i, c)| if i == 8 { '0' } else { c })
                .collect();
            assert_eq!(with_check_digit(&wrong).as_deref(), Some(vin));
        }
        assert_eq!(with_check_digit("1G4AH59H45G11834I"), None);
        assert_eq!(with_check_digit("SHORT"), None);
    }
}
