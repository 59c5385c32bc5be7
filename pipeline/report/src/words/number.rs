//! Numbers as a language writes them.

use fluent_bundle::FluentValue;
use fluent_bundle::types::FluentNumber;

type Formatter<M> = fn(&FluentValue<'_>, &M) -> Option<String>;

/// The formatter of numbers inside sentences, for a language.
pub(super) fn formatter<M>(language: &str) -> Formatter<M> {
    if decimal_sign(language) == ',' {
        with_comma
    } else {
        with_point
    }
}

/// The sign between units and tenths: a point in English and the East Asian languages, a comma in most of Europe
/// (Unicode CLDR, from memory).
pub(super) fn decimal_sign(language: &str) -> char {
    match language {
        "en" | "ja" | "zh" | "ko" | "th" | "he" => '.',
        _ => ',',
    }
}

fn with_point<M>(value: &FluentValue<'_>, _: &M) -> Option<String> {
    match value {
        FluentValue::Number(n) => Some(text(n)),
        _ => None,
    }
}

fn with_comma<M>(value: &FluentValue<'_>, memo: &M) -> Option<String> {
    with_point(value, memo).map(|s| s.replace('.', ","))
}

fn text(n: &FluentNumber) -> String {
    let o = &n.options;
    let most = o
        .maximum_fraction_digits
        .map(|d| d.max(o.minimum_fraction_digits.unwrap_or(0)));
    let digits = most.unwrap_or_else(|| fraction_digits(n.value)).min(12);
    signed(trimmed(
        format!("{:.digits$}", n.value),
        o.minimum_fraction_digits.unwrap_or(0),
    ))
}

/// Without the zeros at its end, but with at least `keep` digits behind the point.
pub(super) fn trimmed(mut s: String, keep: usize) -> String {
    let Some(point) = s.find('.') else { return s };
    while s.ends_with('0') && s.len() - point - 1 > keep {
        s.pop();
    }
    if s.ends_with('.') {
        s.pop();
    }
    s
}

/// Digits behind the decimal sign that leave three significant ones.
pub(super) fn fraction_digits(value: f64) -> usize {
    if value == 0.0 || !value.is_finite() {
        return 0;
    }
    (2 - value.abs().log10().floor() as i64).clamp(0, 9) as usize
}

/// The typographic minus, and no minus before zero.
pub(super) fn signed(s: String) -> String {
    match s.strip_prefix('-') {
        Some(rest) if rest.chars().any(|c| c.is_ascii_digit() && c != '0') => {
            format!("\u{2212}{rest}")
        }
        Some(rest) => rest.to_owned(),
        None => s,
    }
}

/// A number with a fixed count of digits behind the decimal sign.
pub(super) fn fixed(value: f64, digits: usize, sign: char) -> String {
    localised(signed(format!("{value:.digits$}")), sign)
}

/// With the decimal sign of a language.
pub(super) fn localised(s: String, sign: char) -> String {
    if sign == '.' {
        s
    } else {
        s.replace('.', &sign.to_string())
    }
}
