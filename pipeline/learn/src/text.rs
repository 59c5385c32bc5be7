//! Small pieces of text.

/// Lower-case letters, digits and single hyphens of a text.
pub fn slug(text: &str) -> String {
    let mut slug = String::new();
    for c in text.chars().flat_map(char::to_lowercase) {
        match c {
            'a'..='z' | '0'..='9' => slug.push(c),
            _ if !slug.is_empty() && !slug.ends_with('-') => slug.push('-'),
            _ => {}
        }
    }
    slug.trim_end_matches('-').chars().take(80).collect()
}

/// A number with four significant digits, for a person.
pub fn number(value: f64) -> String {
    if value == 0.0 || !value.is_finite() {
        return format!("{value}");
    }
    let digits = 3 - value.abs().log10().floor() as i32;
    let text = format!("{value:.*}", digits.clamp(0, 9) as usize);
    match text.contains('.') {
        true => text.trim_end_matches('0').trim_end_matches('.').into(),
        false => text,
    }
}

/// A share as per cent with at most one decimal.
pub fn percent(share: f64) -> String {
    let text = format!("{:.1}", 100.0 * share);
    format!("{} %", text.strip_suffix(".0").unwrap_or(&text))
}

/// A count with its noun.
pub fn count(n: usize, one: &str, many: &str) -> String {
    format!("{n} {}", if n == 1 { one } else { many })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts() {
        assert_eq!(slug(" Örsa  Lumen/5 "), "rsa-lumen-5");
        assert_eq!(number(0.019_928_9), "0.01993");
        assert_eq!(number(19.0), "19");
        assert_eq!(number(1234.56), "1235");
        assert_eq!(number(0.8), "0.8");
        assert_eq!(percent(0.951_49), "95.1 %");
        assert_eq!(percent(0.95), "95 %");
    }
}
