//! The two notations that the header prescribes for text.

/// True where the text is a machine name: a letter `a-z`, then `a-z`, `0-9` and single hyphens between them.
pub const fn is_machine_name(text: &str) -> bool {
    let bytes = text.as_bytes();
    if bytes.is_empty() || !bytes[0].is_ascii_lowercase() || bytes[bytes.len() - 1] == b'-' {
        return false;
    }
    let mut i = 1;
    while i < bytes.len() {
        let good = bytes[i].is_ascii_lowercase()
            || bytes[i].is_ascii_digit()
            || (bytes[i] == b'-' && bytes[i - 1] != b'-');
        if !good {
            return false;
        }
        i += 1;
    }
    true
}

/// True where the text is a version: three decimal numbers with dots between them, optionally followed by `-`
/// or `+` and more, as Semantic Versioning 2.0.0 writes it.
pub const fn is_version(text: &str) -> bool {
    let bytes = text.as_bytes();
    let (mut dots, mut digits, mut i) = (0, 0, 0);
    while i < bytes.len() {
        match bytes[i] {
            b'0'..=b'9' => digits += 1,
            b'.' if digits > 0 && dots < 2 => {
                dots += 1;
                digits = 0;
            }
            b'-' | b'+' => break,
            _ => return false,
        }
        i += 1;
    }
    dots == 2 && digits > 0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn machine_names() {
        for good in ["a", "shaft-motion", "input-shaft-1", "x2"] {
            assert!(is_machine_name(good), "{good}");
        }
        for bad in ["", "-a", "a-", "a--b", "A", "a b", "a_b", "1a", "ä"] {
            assert!(!is_machine_name(bad), "{bad}");
        }
    }

    #[test]
    fn versions() {
        // The forms are those of semver.org, Semantic Versioning 2.0.0, items 2, 9 and 10 (from memory).
        for good in ["0.1.0", "1.9.0", "1.0.0-alpha.1", "1.0.0+20130313144700"] {
            assert!(is_version(good), "{good}");
        }
        for bad in [
            "", "1", "1.2", "1.2.", "1..2", "v1.2.3", "1.2.3.4", "1.2.3 ",
        ] {
            assert!(!is_version(bad), "{bad}");
        }
    }
}
